"""What evidence comes to: whose word it is, what is taken back, and how likely the words for a candidate hold.

The rules are those of the project's design ("Evidence", "Chance", "Shelves"); the figures are worked out by hand beside them.
"""

from __future__ import annotations

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlore.fitting import Question, Verdict, Word, answer
from fitlore.fitting.evidence import attributed, class_policy, weigh
from fitlore.fitting.shape import Likely
from fitlore.graph.open import Graph
from fitlore.graph.policy import in_force
from fitlore.model.amounts import read_share
from fitlore.model.category import Category
from fitlore.model.choices import Goes, How, Reason, SafetyClass
from fitlore.model.dates import read_period
from fitlore.model.job import ClassPolicy, Policy, Shop
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Evidence, Part, Replacement
from fitlore.model.platform import (
    Assembly,
    Car,
    Cond,
    Condition,
    Established,
    FactRange,
    Original,
    Place,
    Platform,
)
from fitlore.model.record import Name, Number, Rec
from fitlore.report.verdicts import summary
from tests.fitting.random_books import ELSEWHERE, HERE, Book, books, evidences, graph_of, level, with_claim
from tests.trade.loading import STANDARDS

CHANCES = {"fitted": "97 %", "offered-up": "85 %", "measured": "90 %", "printed": "75 %", "told": "40 %"}
POLICY = Policy(
    policy=Name("test"),
    classes=(ClassPolicy(safety=SafetyClass.NONE, least=(How.FITTED, How.OFFERED_UP, How.MEASURED)),),
    chance={how: share for how, text in CHANCES.items() if (share := read_share(text))},
)
RULES = class_policy(in_force([POLICY]), SafetyClass.NONE)
LAW = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


def word(
    how: How = How.FITTED, by: str = "hale", date: str = "", source: str = "", note: str = ""
) -> Evidence:
    """One piece of evidence."""
    return Evidence(how=how, by=by, date=read_period(date) if date else None, source=source, note=note)


def claim(
    *pieces: Evidence,
    old: str = "KT 1",
    new: str = "TC 1",
    against: tuple[Evidence, ...] = (),
    shelf: str = "shop",
    goes: Goes = Goes.ONE_WAY,
    only_if: Condition | None = None,
) -> CrossFit:
    """A claim that the new part does the old one's job, here."""
    return CrossFit(
        crossfit=Name(f"{old} {new}".replace(" ", "-").casefold()),
        instead_of=Number(old),
        use=Number(new),
        goes=goes,
        reaches=(HERE,),
        only_if=only_if or {},
        evidence=pieces,
        against=against,
        origin=Origin(f"{shelf}/crossfits.yaml", 1, 1),
    )


def graph_with(
    *claims: CrossFit, originals: tuple[str, ...] = ("KT 1",), more: tuple[Rec, ...] = ()
) -> Graph:
    """A lever with its originals, the parts of the claims, a shop's person called `shop`, and a club's shelf that is told."""
    lever = Place(is_=Name("lever"), original=tuple(Original(number=Number(n)) for n in originals))
    platform = Platform(
        platform=HERE,
        maker="Kestin",
        facts={"engine": FactRange(any_=("1.8", "2.0"))},
        assemblies={Name("arm"): Assembly(places={Name("lever"): lever})},
    )
    numbers = sorted({n for c in claims for n in (c.instead_of, c.use) if n} | set(originals))
    known = {record.part for record in more if isinstance(record, Part)}
    parts = [Part(part=Number(n), maker="Kestin", is_=Name("lever")) for n in numbers if n not in known]
    category = Category(category=Name("lever"), safety=SafetyClass.NONE)
    records: list[Rec] = [POLICY, category, platform, *parts, *claims, *more]
    graph = Graph.from_records(records, STANDARDS, Shop(shop=Name("lowbarn"), person="shop"))
    graph.held = graph.held._replace(trust={"club": How.TOLD})
    return graph


def verdict(graph: Graph, number: str = "TC 1", facts: dict[str, str] | None = None) -> Verdict:
    """What comes out for one part on a car of which these facts are known."""
    place = graph.place(HERE, "arm/lever")
    assert place is not None
    known = {name: Established(value=(value,)) for name, value in (facts or {}).items()}
    car = Car(car=Name("green"), is_=HERE, facts=known)
    return next(v for v in answer(graph, Question(place, car)).verdicts if v.part.part == number)


def low(graph: Graph, number: str = "TC 1") -> float:
    """Its chance, an exact one."""
    found = verdict(graph, number).chance
    assert found is not None
    assert found.exact
    assert found.low == found.high
    return found.low


def codes(found: Verdict) -> set[str]:
    """The steps of its proof."""
    return {step.code for _, step in found.because.walk()}


# -- taking back


@pytest.mark.parametrize("how", [How.TOLD, How.PRINTED])
def test_taking_back_is_not_speaking_against(how: How) -> None:
    """Whoever spoke for it and only says later that he does no more: his word is gone, another's stands as it did."""
    back = word(how, date="2026-02", note="it was another car")
    both = claim(word(date="2025-01"), word(by="quill", date="2025-03"), against=(back,))
    found = verdict(graph_with(both))
    assert found.word is Word.FITS
    assert "evidence-withdrawn" in codes(found)
    assert "evidence-against" not in codes(found)
    assert found.chance == Likely(0.97, 0.97, True, 1, 1, False)


def test_when_all_is_taken_back_nothing_is_left_of_it() -> None:
    """Unproven; and not by measure, for somebody did try it."""
    found = verdict(graph_with(claim(word(date="2025-01"), against=(word(How.TOLD, date="2026-02"),))))
    assert (found.word, found.chance) == (Word.UNPROVEN, None)
    assert "row-taken-back" in codes(found)


def test_a_trial_of_ones_own_that_fails_takes_back_and_speaks_against() -> None:
    """He tried again and says it does not fit: with another's word for it that is a dispute."""
    failed = word(How.OFFERED_UP, date="2026-02")
    both = claim(word(date="2025-01"), word(by="quill", date="2025-03"), against=(failed,))
    found = verdict(graph_with(both))
    assert (found.word, found.chance) == (Word.DISPUTED, None)
    assert {"evidence-withdrawn", "evidence-against"} <= codes(found)


def test_an_earlier_doubt_takes_nothing_back() -> None:
    """By date: a doubt from before his own trial stays a doubt, and the trial stands."""
    weighed = weigh(claim(word(date="2026-02"), against=(word(How.TOLD, date="2025-01"),)), RULES, "shop")
    assert weighed.spoken_for
    assert weighed.enough
    assert [step.code for step in weighed.steps] == ["evidence-for", "evidence-against"]


def test_a_source_that_is_taken_back_takes_its_echoes_along() -> None:
    """The letter's writer no longer stands by it: whoever repeated the letter has nothing left to stand on."""
    letter = word(How.PRINTED, by="club", date="2025", source="letter 41")
    echo = word(How.TOLD, by="quill", date="2025-06", source="Letter 41")
    weighed = weigh(claim(letter, echo, against=(word(How.TOLD, by="club", date="2026"),)), RULES, "shop")
    assert weighed.standing == ()
    assert weighed.against == "taken-back"
    assert {step.code for step in weighed.steps} == {"evidence-withdrawn", "evidence-gone-with-source"}


# -- shelves


def test_the_shop_of_a_foreign_shelf_is_that_shelf() -> None:
    """`by: shop` on the club's shelf is the club's word: no trial of our own, so that it makes a dispute and no refusal."""
    no = (word(How.OFFERED_UP, by="shop", date="2026-02"),)
    ours = claim(word(date="2025-01"), against=no)
    theirs = claim(word(date="2025-01"), against=no, shelf="club")
    assert verdict(graph_with(ours)).word is Word.DOES_NOT_FIT
    assert verdict(graph_with(theirs)).word is Word.DISPUTED
    assert attributed(theirs, graph_with(theirs)).against[0].by == "club"
    assert attributed(ours, graph_with(ours)) == ours


def test_a_shelf_called_like_the_shops_person_is_told_apart() -> None:
    """And the built-in shelf is never the shop's own."""
    foreign = claim(word(by="Shop"), shelf="kb")
    assert attributed(foreign, graph_with(foreign)).evidence[0].by == "kb"
    graph = graph_with(claim(word(by="shop")))
    graph.held = graph.held._replace(trust={"shop": How.TOLD})
    assert attributed(claim(word(by="shop")), graph).evidence[0].by == "the shelf shop"


def test_only_the_first_shelf_without_a_cap_is_the_shops_own() -> None:
    """A friend's shelf of which nobody wrote how far it is trusted: his `by: shop` is his word, for a claim and against it."""
    no = (word(How.OFFERED_UP, by="shop", date="2026-02"),)
    theirs = claim(word(date="2025-01"), against=no, shelf="friend")
    graph = graph_with(theirs)
    graph.held = graph.held._replace(shelves=("club", "shop", "friend"))
    assert attributed(theirs, graph).against[0].by == "friend"
    assert verdict(graph).word is Word.DISPUTED
    graph.held = graph.held._replace(shelves=("friend", "shop"))
    assert attributed(theirs, graph) == theirs
    mine = claim(word(by="shop"), shelf="friend")
    graph.held = graph.held._replace(shelves=("shop", "friend"))
    assert attributed(mine, graph).evidence[0].by == "friend"


def test_the_shop_cannot_take_back_what_a_foreign_shelf_says() -> None:
    """Nor the other way round: only who said it takes it back, whatever he is called there."""
    theirs = attributed(claim(word(by="shop", date="2025"), shelf="club"), graph_with())
    mixed = msgspec.structs.replace(theirs, against=(word(How.TOLD, by="shop", date="2026"),))
    weighed = weigh(mixed, RULES, "shop")
    assert weighed.spoken_for
    assert weighed.against == "others"


# -- the chance of a candidate


def test_the_figure_of_each_kind_of_evidence_is_the_policys() -> None:
    """One piece, one claim: what the policy says of its kind."""
    for how, text in CHANCES.items():
        share = read_share(text)
        assert share is not None
        assert low(graph_with(claim(word(How(how))))) == pytest.approx(float(share.percent) / 100)


def test_one_letter_told_three_times_is_one_letter() -> None:
    """0.4 as once; three people who each know for themselves are 1 - 0.6^3 = 0.784."""
    letter = [word(How.TOLD, by=by, source="letter 41") for by in ("hale", "quill", "pell")]
    assert low(graph_with(claim(*letter))) == pytest.approx(0.4)
    own = [word(How.TOLD, by=by) for by in ("hale", "quill", "pell")]
    assert low(graph_with(claim(*own))) == pytest.approx(0.784)
    assert low(graph_with(claim(*letter, letter[0]))) == pytest.approx(0.4)


def test_the_best_that_a_source_is_known_by_counts() -> None:
    """The same letter told and printed is one event, as good as printed."""
    pieces = (
        word(How.TOLD, by="quill", source="letter 41"),
        word(How.PRINTED, by="club", source="letter 41"),
    )
    assert low(graph_with(claim(*pieces))) == pytest.approx(0.75)


def test_chains_are_counted_together_and_not_one_by_one() -> None:
    """Straight (told, 0.4) or over another part (0.97 x 0.85): 1 - 0.6 (1 - 0.8245) = 0.8947."""
    graph = graph_with(
        claim(word(How.TOLD)),
        claim(word(), new="TC 2"),
        claim(word(How.OFFERED_UP), old="TC 2"),
    )
    assert low(graph) == pytest.approx(1 - 0.6 * (1 - 0.97 * 0.85))
    found = verdict(graph)
    assert found.chance is not None
    assert (found.chance.claims, found.chance.pieces) == (3, 3)
    assert "chance-counts" in codes(found)


def test_one_letter_behind_both_links_of_a_chain_counts_once() -> None:
    """Told of both steps by one letter: 0.4; by two letters 0.16. The proof says that it stands behind both."""

    def chain(*sources: str) -> Graph:
        pieces = [word(How.TOLD, source=source) for source in sources]
        return graph_with(claim(pieces[0], new="TC 2"), claim(pieces[1], old="TC 2"))

    assert low(chain("letter 41", "letter 41")) == pytest.approx(0.4)
    assert low(chain("letter 41", "letter 42")) == pytest.approx(0.16)
    assert "chance-shared" in codes(verdict(chain("letter 41", "letter 41")))
    assert "chance-shared" not in codes(verdict(chain("letter 41", "letter 42")))


def test_one_source_known_better_of_one_claim_than_of_another_is_one_event_all_the_same() -> None:
    """Printed of one link (0.75), told of the next (0.4): what is told holds only where what is printed does, so 0.4."""
    graph = graph_with(
        claim(word(How.PRINTED, source="letter 41"), new="TC 2"),
        claim(word(source="letter 41", how=How.TOLD), old="TC 2"),
    )
    assert low(graph, "TC 2") == pytest.approx(0.75)
    assert low(graph) == pytest.approx(0.4)


def test_the_same_man_on_two_claims_is_two_findings() -> None:
    """What he found out about one pair of parts says nothing about another pair: 0.97 squared."""
    graph = graph_with(claim(word(by="shop"), new="TC 2"), claim(word(by="shop"), old="TC 2"))
    assert low(graph) == pytest.approx(0.97**2)


def test_a_replacement_is_what_its_issuer_prints() -> None:
    """Twice by the same issuer is one event (0.75); two numbers of one part need no evidence."""

    def part(number: str, newer: str = "", same: str = "") -> Part:
        replaced = (Replacement(number=Number(newer), reason=Reason.IMPROVED),) if newer else ()
        return Part(
            part=Number(number),
            maker="Kestin",
            is_=Name("lever"),
            replaced_by=replaced,
            same_as=(Number(same),) if same else (),
        )

    graph = graph_with(
        more=(part("KT 1", "KT 2"), part("KT 2", "KT 3"), part("KT 3", same="KT 4"), part("KT 4"))
    )
    assert [low(graph, number) for number in ("KT 2", "KT 3", "KT 4")] == pytest.approx([0.75] * 3)


def test_what_is_spoken_against_is_named_and_not_counted() -> None:
    """The straight claim is in dispute; over another part it still has a figure only where that way leads."""
    graph = graph_with(
        claim(word(), new="TC 2"),
        claim(word(How.OFFERED_UP), old="TC 2"),
        claim(word(), new="TC 3"),
        claim(word(), old="TC 3", against=(word(by="quill"),)),
    )
    found = verdict(graph)
    assert found.word is Word.FITS
    assert found.chance is not None
    assert found.chance.low == pytest.approx(0.97 * 0.85)
    assert "chance-leaves-out" in codes(found)


@pytest.mark.parametrize("by", ["quill", "shop"])
def test_a_dispute_and_a_no_have_no_figure(by: str) -> None:
    """It would average away what speaks against."""
    found = verdict(graph_with(claim(word(), against=(word(by=by),))))
    assert found.word in (Word.DISPUTED, Word.DOES_NOT_FIT)
    assert found.chance is None


def test_an_original_has_no_figure() -> None:
    """It rests on nobody's word."""
    assert verdict(graph_with(claim(word())), "KT 1").chance is None


def test_what_hangs_on_a_question_is_so_marked_and_claims_with_other_answers_do_not_add_up() -> None:
    """One claim for either engine, and the engine not known: the figure is that of one of them, if it is so answered."""
    engines: list[Condition] = [{"engine": Cond(any_=(one,))} for one in ("1.8", "2.0")]
    first = claim(word(How.MEASURED), only_if=engines[0])
    second = msgspec.structs.replace(
        claim(word(How.MEASURED), only_if=engines[1]),
        crossfit=Name("second"),
        origin=Origin("shop/b.yaml", 1),
    )
    found = verdict(graph_with(first, second))
    assert found.word is Word.DEPENDS
    assert found.chance == Likely(0.9, 0.9, True, 1, 1, True)
    assert verdict(graph_with(first, second), facts={"engine": "2.0"}).chance == Likely(
        0.9, 0.9, True, 1, 1, False
    )


def test_where_either_original_may_be_on_the_car_it_is_between_the_two() -> None:
    """It goes for each, by better evidence for one of them: from 0.85 to 0.97, and the answer says so."""
    graph = graph_with(claim(word()), claim(word(How.OFFERED_UP), old="KT 2"), originals=("KT 1", "KT 2"))
    found = verdict(graph)
    assert found.word is Word.FITS
    assert found.chance is not None
    assert (found.chance.low, found.chance.high, found.chance.exact) == pytest.approx((0.85, 0.97, False))
    assert "chance-whichever" in codes(found)


def test_the_likelier_comes_first_between_equals_only() -> None:
    """The verdict and the hands come before the figure."""
    graph = graph_with(
        claim(word(How.OFFERED_UP), new="TC 1"), claim(word(), new="TC 2"), claim(word(How.TOLD), new="TC 0")
    )
    place = graph.place(HERE, "arm/lever")
    assert place is not None
    rows = answer(graph, Question(place, Car(car=Name("green"), is_=HERE))).verdicts
    assert [row.part.part for row in rows] == ["KT 1", "TC 2", "TC 1", "TC 0"]


# -- laws over random books


def _figures(book: Book) -> dict[str, tuple[Word, Likely | None]]:
    """Verdict and chance of every part of a book, by the policy's chances."""
    policy = msgspec.structs.replace(book.policy, chance=POLICY.chance)
    graph = graph_of(book._replace(policy=policy).records())
    place = graph.place(HERE, "arm/lever")
    assert place is not None
    rows = answer(graph, Question(place, book.car, only=book.parts)).verdicts
    return {row.part.part: (row.word, row.chance) for row in rows}


def _figure(likely: Likely | None) -> float:
    return likely.low if likely else 0.0


@given(books(), st.data())
@LAW
def test_evidence_against_never_raises_what_is_said_of_its_part(book: Book, data: st.DataObject) -> None:
    """Neither the verdict nor, where the same verdict stays, the chance; only a question less may raise the latter."""
    index = data.draw(st.integers(0, len(book.claims) - 1))
    one = book.claims[index]
    after = _figures(with_claim(book, index, against=(*one.against, data.draw(evidences()))))[one.use]
    before = _figures(book)[one.use]
    assert level(after[0]) >= level(before[0])
    asked = any(row is not None and row.if_answered for row in (before[1], after[1]))
    if after[0] is before[0] and not asked:
        assert _figure(after[1]) <= _figure(before[1]) + 1e-12


@given(books(), st.data())
@LAW
def test_evidence_for_never_lowers_a_claimed_fit(book: Book, data: st.DataObject) -> None:
    """Of a part that fits, and that nothing is asked about."""
    index = data.draw(st.integers(0, len(book.claims) - 1))
    one = book.claims[index]
    piece = msgspec.structs.replace(data.draw(evidences()), by="pell", source="")
    after = _figures(with_claim(book, index, evidence=(*one.evidence, piece)))
    for number, (before, likely) in _figures(book).items():
        if before in (Word.FITS, Word.FITS_WITH_WORK) and likely is not None and not likely.if_answered:
            assert _figure(after[number][1]) >= likely.low - 1e-12, number


@given(st.lists(evidences(), min_size=1, max_size=3), st.lists(evidences(), min_size=1, max_size=3))
@LAW
def test_a_chain_is_never_likelier_than_its_weakest_link(one: list[Evidence], two: list[Evidence]) -> None:
    """Each link by itself, and both in a row."""
    links = (claim(*one), claim(*two, old="TC 1", new="TC 2"))
    first = low(graph_with(links[0]))
    second = low(graph_with(links[1], originals=("TC 1",)), "TC 2")
    assert low(graph_with(*links), "TC 2") <= min(first, second) + 1e-12


def test_a_chain_reaches_no_farther_than_each_of_its_links() -> None:
    """A link that was made elsewhere is a hint: neither its chain nor the figure counts it."""
    here = claim(word(), new="TC 2")
    there = msgspec.structs.replace(claim(word(), old="TC 2"), reaches=(ELSEWHERE,))
    found = verdict(graph_with(here, there))
    assert (found.word, found.chance) == (Word.UNPROVEN, None)
    straight = claim(word(How.TOLD))
    assert low(graph_with(here, there, straight)) == pytest.approx(0.4)


@given(books())
@LAW
def test_a_figure_is_one_and_stands_only_where_nothing_is_in_dispute(book: Book) -> None:
    """Above nought, at most one, the lower bound never above the upper; none with a no or a dispute."""
    for number, (found, likely) in _figures(book).items():
        if likely is not None:
            assert 0.0 <= likely.low <= likely.high <= 1.0, number
            assert likely.high > 0.0, number
            assert found in (Word.FITS, Word.FITS_WITH_WORK, Word.DEPENDS, Word.UNPROVEN), number


def test_a_line_says_what_still_stands_and_no_more() -> None:
    """Neither a word that is taken back nor the word that takes it back is shown as one for or against."""
    back = word(How.TOLD, date="2026-02", note="it was another car")
    two = claim(word(date="2025-01"), word(by="quill", date="2025-03"), against=(back,))
    assert summary(verdict(graph_with(two)), name=False) == "fitted by quill"
    one = claim(word(date="2025-01"), against=(back,))
    assert summary(verdict(graph_with(one)), name=False) == "what was said for it is taken back"
