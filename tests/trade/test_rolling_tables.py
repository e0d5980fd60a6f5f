"""Tables, readings and comparisons of everything that rolls: what holds for each of the families."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.report.sentences import SENTENCES
from fitlore.trade.family import FAMILIES, FamilyState, Reading, Unreadable, compare_texts
from fitlore.trade.sizes import MEASURES
from fitlore.trade.standards import sections
from tests.trade.rolling import FOLDER, MINE, PROBLEMS, ROLLING, STANDARDS, ask, said

POOL = {
    kind: [
        *FAMILIES[kind].about.spellings,
        *(sized.designation for sized in list(FAMILIES[kind].sizes(STANDARDS))[::4]),
        "175/75/14",
        "165 R 13 82S",
        "5.60 R 15",
        "DOT 238",
        "5x112",
        "6Jx15 ET35",
        "nonsense 7",
    ]
    for kind in MINE
}
PAIRS = st.sampled_from(MINE).flatmap(
    lambda kind: st.tuples(st.just(kind), st.sampled_from(POOL[kind]), st.sampled_from(POOL[kind]))
)


def test_every_row_is_taken_and_none_is_faulty() -> None:
    """No problem is reported, and as many rows arrive as the files have lines that hold one."""
    written = 0
    for name in ROLLING:
        written += len(re.findall(r"^  - \{", (FOLDER / f"{name}.yaml").read_text("utf-8"), re.MULTILINE))
    mine = [name for name, section in sections().items() if section.family in MINE]
    assert PROBLEMS == []
    assert sum(len(STANDARDS.table(name).rows) for name in mine) == written > 400


@pytest.mark.parametrize("kind", MINE)
def test_every_spelling_shown_to_people_can_be_read(kind: str) -> None:
    """The page of families promises nothing that the program refuses."""
    for text in FAMILIES[kind].about.spellings:
        assert isinstance(FAMILIES[kind].read(text, STANDARDS), Reading), text


@pytest.mark.parametrize("kind", MINE)
def test_every_listed_size_is_a_designation_with_known_measures(kind: str) -> None:
    """Its designation is its own normal form; its bands are not empty; its proof has a sentence and an origin."""
    for sized in FAMILIES[kind].sizes(STANDARDS):
        found = FAMILIES[kind].read(sized.designation, STANDARDS)
        assert isinstance(found, Reading), sized.designation
        assert found.normal == sized.designation
        assert sized.bands
        assert sized.bands.keys() <= MEASURES.keys()
        assert all(band.low <= band.high for band in sized.bands.values())
        assert sized.because.origins
        said(sized.because)


@given(st.sampled_from(MINE).flatmap(lambda kind: st.tuples(st.just(kind), st.sampled_from(POOL[kind]))))
def test_a_normal_form_is_read_as_itself_and_equals_itself(drawn: tuple[str, str]) -> None:
    """parse(format) is the identity, and a designation goes where its like went, resting on no row."""
    kind, text = drawn
    found = FAMILIES[kind].read(text, STANDARDS)
    if isinstance(found, Unreadable):
        assert found.reason in SENTENCES
        assert ask(kind, text, text).state is FamilyState.UNREADABLE
        return
    again = FAMILIES[kind].read(found.normal, STANDARDS)
    assert isinstance(again, Reading)
    assert again.normal == found.normal
    same = ask(kind, text, found.normal)
    assert (same.state, same.certainty.value) == (FamilyState.OK, "published")


@given(PAIRS)
def test_nothing_unread_is_a_yes_and_no_trap_is_called_a_fit(drawn: tuple[str, str, str]) -> None:
    """A yes has two readings and no trap anywhere in its proof; every step has its sentence."""
    kind, needed, offered = drawn
    result = compare_texts(kind, needed, offered, "male", STANDARDS)
    said(result.because)
    if result.state in (FamilyState.OK, FamilyState.OK_WITH_WORK):
        assert all(isinstance(FAMILIES[kind].read(text, STANDARDS), Reading) for text in (needed, offered))
        assert not any("trap" in step.code for _, step in result.because.walk())


@given(st.text(max_size=40) | st.text(alphabet="0123456789/xRJET .-HVSC", max_size=24))
def test_any_text_is_read_or_refused_without_a_fault(text: str) -> None:
    """Nothing that people write makes a family fall over."""
    for kind in MINE:
        found = FAMILIES[kind].read(text, STANDARDS)
        assert isinstance(found, (Reading, Unreadable))


@pytest.mark.parametrize(
    "text",
    ["10", "M10x1", "25 mm", "KT 53 0650", "6203-2RS", "17 x 40 x 12", "12 V 21 W", "DOT 4", "3/8-24 UNF", "8.8", "13x1.5",
     "SAE 20W-50", "10.9", "6PK1045", "38x52x7", "100 A"],
)  # fmt: skip
def test_what_is_plainly_another_thing_is_not_read(text: str) -> None:
    """A thread, a length, a part number, a bearing, a brake fluid and an oil belong to none of these families."""
    assert not [kind for kind in MINE if isinstance(FAMILIES[kind].read(text, STANDARDS), Reading)]
