"""Sides of a car: words in four languages, what some of them depend on, countries, and a side held against another."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.graph.words import read_sides
from fitlore.graph.words import words as folded
from fitlore.report.sentences import SENTENCES
from fitlore.trade.family import FAMILIES, FamilyResult, FamilyState, Reading, Unreadable, compare_texts
from fitlore.trade.hand.reading import fold, other
from fitlore.trade.hand.tables import ROAD, SEATS, SECTIONS
from tests.trade.loading import TABLE, load_every, table

STANDARDS, _ = load_every()
HAND = FAMILIES["hand"]
FILE = TABLE.parent / "hand.yaml"
WORDS = STANDARDS.table("side-word").rows
BESIDE = STANDARDS.table("side-beside").rows
COUNTRIES = STANDARDS.table("side-country").rows
DEPENDING = [row.word("word") for row in WORDS if row.word("side") in (*ROAD, *SEATS)]
TEXTS = st.sampled_from(
    [
        *HAND.about.spellings,
        *DEPENDING,
        "LHD",
        "left front",
        "O/S FR",
        "left or right",
        "nearside left DE",
        "GB",
    ]
)
PIECES = st.sampled_from(
    [row.word("word") for row in WORDS] + [row.word("phrase") for row in BESIDE] + ["GB", "DE", "FR", "side", "and", "or", "/"]
)  # fmt: skip


def side(text: str) -> str:
    """The side that a text says, which has to be readable."""
    found = HAND.read(text, STANDARDS)
    assert isinstance(found, Reading), found
    return found.normal


def refused(text: str) -> Unreadable:
    """The refusal of a text that has to be refused; its sentence is there."""
    found = HAND.read(text, STANDARDS)
    assert isinstance(found, Unreadable), found
    assert found.reason in SENTENCES
    return found


def ask(needed: str, offered: str) -> FamilyResult:
    """One side held against another; every step of the proof has its sentence."""
    result = compare_texts("hand", needed, offered, "male", STANDARDS)
    assert not {step.code for _, step in result.because.walk()} - SENTENCES.keys()
    return result


def test_every_row_is_taken() -> None:
    """As many rows arrive as the file has lines that hold one, and each word and phrase is written as it is looked up."""
    written = len(re.findall(r"^  - \{", FILE.read_text("utf-8"), re.MULTILINE))
    assert sum(len(STANDARDS.table(name).rows) for name in SECTIONS) == written > 350
    for word in [row.word("word") for row in WORDS] + [row.word("phrase") for row in BESIDE]:
        assert fold(word) == word


def test_no_two_countries_share_a_name_and_none_is_a_word_for_a_side() -> None:
    """A name written beside a side means one country, and reads as the code does."""
    names = [name.strip() for row in COUNTRIES for name in row.word("names").split(";")]
    assert len({fold(name) for name in names}) == len(names)
    for row in COUNTRIES:
        near = side(f"nearside in {row.word('code')}")
        assert near == row.word("road")
        assert {side(f"nearside, {name.strip()}") for name in row.word("names").split(";")} == {near}


@pytest.mark.parametrize("row", table("road_sides.csv"), ids=lambda row: row["code"])
def test_sides_of_the_road_are_those_of_two_open_tables(row: dict[str, str]) -> None:
    """Wikidata's side of the road (CC0) and `country-coder` 5.6.1: 243 countries and territories, 204 of them in both."""
    listed = {row["wikidata"], row["country-coder"]} - {""}
    (found,) = STANDARDS.table("side-country").find(code=row["code"])
    assert {found.word("road")} == listed
    assert side(f"offside, country {row['code']}") == other(found.word("road"))


def test_countries_are_counted() -> None:
    """All that the two open tables list, and no others."""
    listed = table("road_sides.csv")
    assert {row.word("code") for row in COUNTRIES} == {row["code"] for row in listed}
    assert sum(bool(row["wikidata"] and row["country-coder"]) for row in listed) >= 204


@pytest.mark.parametrize(
    ("country", "since"),
    [("Sweden", "1967"), ("Iceland", "1968"), ("Burma", "1970"), ("Nigeria", "1972"), ("Ghana", "1974"), ("Samoa", "2009"),
     ("Belize", "1961"), ("Sudan", "1973")],
)  # fmt: skip
def test_a_change_of_the_side_of_the_road_is_told(country: str, since: str) -> None:
    """Years as public pages on the changes have them: on an older car the word may mean the other side."""
    result = ask("left", f"offside, {country}")
    assert since in {step.values.get("since") for _, step in result.because.walk()}


@pytest.mark.parametrize("row", WORDS, ids=lambda row: row.word("word").replace(" ", "-"))
def test_every_word_of_the_table_is_read(row: object) -> None:
    """A plain one by itself; one that depends on something is asked about, and read with it beside."""
    assert isinstance(row, type(WORDS[0]))
    word, means = row.word("word"), row.word("side")
    if means not in (*ROAD, *SEATS):
        assert side(word) == side(word.upper()) == means
        return
    beside = ("drives on the left", "drives on the right") if means in ROAD else ("LHD", "RHD")
    straight = means in ("near", "driver")
    assert [side(f"{word}, {text}") for text in beside] == (
        ["left", "right"] if straight else ["right", "left"]
    )
    assert refused(word).reason == ("hand-road" if means in ROAD else "hand-steering")


@pytest.mark.parametrize("row", BESIDE, ids=lambda row: row.word("phrase").replace(" ", "-"))
def test_every_phrase_of_the_table_is_understood_beside_a_word(row: object) -> None:
    """It says what the word depends on, or from where it was looked; by itself it names no side."""
    assert isinstance(row, type(BESIDE[0]))
    phrase, tells = row.word("phrase"), row.word("tells")
    if tells == "view":
        from_seat = row.word("is") == "seat"
        assert (
            side(f"right {phrase}") == "right"
            if from_seat
            else refused(f"right {phrase}").reason == "hand-viewed"
        )
    else:
        word = "nearside" if tells == "road" else "driver's side"
        assert side(f"{word}, {phrase}") == row.word("is")
    assert refused(phrase).reason == "hand-no-side"


@pytest.mark.parametrize("word", DEPENDING)
def test_an_advert_that_does_not_say_the_market_is_a_question_with_both_readings(word: str) -> None:
    """The case of the driver's side and the nearside in adverts (common practice): naive is to take one of them."""
    found = refused(word)
    assert {side(text) for text in found.readings} == {"left", "right"}
    assert {side(text) for text in found.expected} == {"left", "right"}
    assert {ask(needed, word).state for needed in ("left", "right")} == {FamilyState.UNREADABLE}
    assert ask(word, word).state is FamilyState.UNREADABLE


@pytest.mark.parametrize(
    ("text", "means"),
    [
        ("offside GB", "right"), ("nearside GB", "left"), ("N/S UK", "left"), ("n/s (GB)", "left"), ("O.S. U.K.", "right"),
        ("OFFSIDE IN GB", "right"), ("offside DE", "left"), ("kerb side in Germany", "right"), ("O/S, AU", "right"),
        ("nearside UK and Ireland", "left"), ("nearside in FR", "right"), ("near-side, JP", "left"),
        ("driver's side RHD", "right"), ("D/S LHD", "left"), ("passengers side, L.H.D.", "right"),
        ("Fahrerseite Rechtslenker", "right"), ("Beifahrerseite, LHD", "right"), ("côté conducteur, volant à gauche", "left"),
        ("lado del acompañante, volante a la derecha", "left"), ("left-hand drive car, driver side", "left"),
        ("L.H.", "left"), ("r/h/s", "right"), ("Left Hand Side", "left"), ("linke Seite", "left"), ("côté droit", "right"),
        ("lado izquierdo", "left"), ("left, LHD", "left"), ("right for left-hand drive", "right"), ("left (nearside)", "left"),
        ("LH passenger side", "left"), ("L/R", "both"), ("left and right", "both"), ("nearside & offside", "both"),
        ("driver and passenger side", "both"), ("beide Seiten", None), ("both left and right", "both"),
    ],
)  # fmt: skip
def test_spellings_of_adverts(text: str, means: str | None) -> None:
    """As adverts write them (common practice); a plural that no table has is not guessed."""
    if means is None:
        assert refused(text).reason == "hand-more"
    else:
        assert side(text) == means


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("driver's side GB", "hand-steering"), ("offside RHD", "hand-road"), ("O/S FR", "hand-code"),
        ("nearside LI", "hand-code"), ("NEARSIDE AS IS", "hand-code"), ("LHD", "hand-no-side"), ("NSF", "hand-more"),
        ("left hand drive", "hand-no-side"),
        ("O/S/R GB", "hand-more"), ("left front", "hand-more"), ("left hand thread", "hand-more"), ("left headlamp", "hand-more"),
        ("left or right", "hand-several"), ("left, right", "hand-clash"), ("nearside left DE", "hand-clash"),
        ("offside GB, DE", "hand-clash"), ("driver's side LHD RHD", "hand-clash"), ("nearside and right", "hand-clash"),
        ("left seen from the front", "hand-viewed"), ("nearside Europe", "hand-more"), ("GB", "hand-unknown"),
        ("10", "hand-unknown"), ("M10x1 LH", "hand-unknown"), ("KT 53 0650", "hand-unknown"), ("side", "hand-unknown"),
        ("", "hand-unknown"), ("12 V 21 W", "hand-unknown"), ("6203-2RS", "hand-unknown"), ("offside in", "hand-road"),
    ],
)  # fmt: skip
def test_what_is_no_side_or_not_one_is_refused_with_its_reason(text: str, reason: str) -> None:
    """A country does not say where the steering is, nor the steering on which side one drives; FR may be front right."""
    assert refused(text).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("left", "LH", "ok", "hand-same"),
        ("left", "nearside GB", "ok", "hand-same"),
        ("left", "nearside DE", "off", "hand-other"),
        ("right", "driver's side LHD", "off", "hand-other"),
        ("right", "Fahrerseite", "unreadable", "hand-steering"),
        ("left", "O/S", "unreadable", "hand-road"),
        ("left", "both sides", "ok", "hand-both"),
        ("left", "L/R", "ok", "hand-both"),
        ("both", "left", "off", "hand-one"),
        ("both", "nearside", "off", "hand-no-reading-goes"),
        ("left", "left front", "unreadable", "hand-more"),
        ("left", "mirror", "unreadable", "hand-unknown"),
    ],
)
def test_a_part_of_the_other_side_never_goes(needed: str, offered: str, state: str, code: str) -> None:
    """A mirror part is another part (common practice); what may be either is asked about."""
    result = ask(needed, offered)
    assert (result.state, result.because.code) == (state, code)


def test_a_side_by_a_country_rests_on_the_rows_it_is_made_of() -> None:
    """The word's line and the country's, both published; two plain words rest on none."""
    result = ask("right", "offside GB")
    assert len(result.because.origins) == 2
    assert {origin.book for origin in result.because.origins} == {"kb/standards/hand.yaml"}
    (step,) = result.because.under
    assert (step.code, step.values["by"], step.values["country"]) == ("hand-off", "left", "United Kingdom")
    assert result.certainty.value == "published"
    assert ask("right", "rechts").because.origins == ()


def test_a_word_from_memory_is_told_as_such() -> None:
    """So that it is no proof for what protects someone."""
    assert ask("left", "Bordsteinseite GB").certainty.value == "memory"


@pytest.mark.parametrize("country", ["GB", "DE"])
@pytest.mark.parametrize("steering", ["left", "right"])
def test_questions_and_features_mean_the_same_by_every_word_they_share(country: str, steering: str) -> None:
    """`fitlore.graph.words` reads the sides of questions by a list of its own; where it knows a word, it agrees."""
    shared = 0
    for row in WORDS:
        beside = {True: f"in {country}", False: f"{steering} hand drive"}[row.word("side") in ROAD]
        found = read_sides(folded(row.word("word")), country, steering)
        if found:
            assert [one.side for one in found] == [side(f"{row.word('word')}, {beside}")], row.word("word")
            shared += 1
    assert shared >= 40


def test_questions_and_features_keep_to_the_same_side_of_the_road() -> None:
    """In every country that the questions know."""
    known = 0
    for row in COUNTRIES:
        (found,) = read_sides(("nearside",), row.word("code"), "")
        assert found.side in ("", row.word("road")), row.word("code")
        known += bool(found.side)
    assert known >= 55


@given(st.lists(PIECES, max_size=5).map(" ".join) | TEXTS)
def test_a_side_reads_as_itself_and_what_may_be_either_has_readings_that_do(text: str) -> None:
    """parse(format) is the identity, and a comparison with itself is a yes or a question."""
    found = HAND.read(text, STANDARDS)
    state = ask(text, text).state
    if isinstance(found, Reading):
        assert side(found.normal) == found.normal
        assert state is FamilyState.OK
    else:
        assert {side(reading) for reading in found.readings} in (set(), {"left", "right"})
        assert state is FamilyState.UNREADABLE


@given(TEXTS, TEXTS)
def test_a_yes_comes_only_from_two_sides_that_are_read(needed: str, offered: str) -> None:
    """Unknown is never yes, and left is never right."""
    result = ask(needed, offered)
    assert result.state is not FamilyState.OK_WITH_WORK
    if result.state is FamilyState.OK:
        assert side(offered) in (side(needed), "both")


@given(st.text(max_size=40) | st.text(alphabet="LRHNSOlrhnso/. '&GBFRDE", max_size=16))
def test_any_text_is_read_or_refused_without_a_fault(text: str) -> None:
    """Nothing that people write makes the family fall over."""
    assert isinstance(HAND.read(text, STANDARDS), (Reading, Unreadable))
