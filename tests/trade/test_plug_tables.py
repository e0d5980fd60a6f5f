"""Tables, readings and comparisons of plugs, struts and fuel hoses: what holds for each of the families."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.report.sentences import SENTENCES
from fitlore.trade.family import FAMILIES, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import MEASURES
from fitlore.trade.standards import sections
from tests.trade.plugs import FOLDER, MINE, PLUGS, PROBLEMS, STANDARDS, ask, said

NEAR = {
    "spark-plug": [
        "spark plug M14x1.25, conical seat, reach 19 mm",
        "spark plug M14x1.25, flat seat, reach 12 mm, resistor, heat 5 of Merrow",
        "spark plug M14x1.25, flat seat, reach 19 mm, heat 7 of Brede, plain tip",
        "spark plug M14x1.25, flat seat, heat 7, reach 19 mm",
        "spark plug M14x1.5, flat seat, reach 19 mm",
        "plug M14x1.25",
    ],
    "gas-strut": [
        "gas strut 505/318 mm, 380 N, both ends ball 10 mm",
        "gas strut 505/305 mm, 300 N, both ends ball 13 mm",
        "gas strut 505/305 mm, 380 N, rod stud M8, tube ball 10 mm",
        "gas strut 530/305 mm, 380 N, both ends ball 10 mm",
        "gas strut 505/305 mm, both ends ball 10 mm",
        "gas strut 505/252.5 mm, 380 N, both ends ball 10 mm",
        "gas strut",
    ],
    "fuel-hose": [
        "fuel hose SAE J30R6, bore 8 mm",
        "fuel hose SAE J30R10, bore 8 mm",
        "fuel hose SAE J30R12, bore 8 mm",
        "fuel hose R14T2, bore 8 mm",
        "fuel hose R11, bore 8 mm, petrol",
        "DIN 73379 2B fuel hose 8 mm",
        "injection hose 8.6 mm, 3 bar, diesel",
        "R7 injection hose 8 mm",
        "fuel hose 8 mm, 10 bar",
        "fuel hose 8 mm",
    ],
}
"""Texts that are near to the spellings shown, or leave something open."""
POOL = {kind: [*FAMILIES[kind].about.spellings, *NEAR[kind], "M10x1", "nonsense 7", "8"] for kind in MINE}
ONE = st.sampled_from(MINE).flatmap(lambda kind: st.tuples(st.just(kind), st.sampled_from(POOL[kind])))
PAIRS = st.sampled_from(MINE).flatmap(
    lambda kind: st.tuples(st.just(kind), st.sampled_from(POOL[kind]), st.sampled_from(POOL[kind]))
)


def test_every_row_is_taken_and_none_is_faulty() -> None:
    """No problem is reported, and as many rows arrive as the files have lines that hold one."""
    texts = [(FOLDER / f"{name}.yaml").read_text("utf-8") for name in PLUGS]
    written = sum(len(re.findall(r"^  - \{", text, re.MULTILINE)) for text in texts)
    mine = [name for name, section in sections().items() if section.family in MINE]
    assert PROBLEMS == []
    assert sum(len(STANDARDS.table(name).rows) for name in mine) == written >= 56


@pytest.mark.parametrize("kind", MINE)
def test_every_spelling_shown_to_people_can_be_read(kind: str) -> None:
    """The page of families promises nothing that the program refuses."""
    for text in FAMILIES[kind].about.spellings:
        assert isinstance(FAMILIES[kind].read(text, STANDARDS), Reading), text


@pytest.mark.parametrize("kind", MINE)
def test_every_listed_size_is_a_designation_with_known_measures(kind: str) -> None:
    """Its designation is its own normal form; its bands are not empty; its proof has a sentence and an origin."""
    listed = list(FAMILIES[kind].sizes(STANDARDS))
    assert len({sized.designation for sized in listed}) == len(listed)
    for sized in listed:
        found = FAMILIES[kind].read(sized.designation, STANDARDS)
        assert isinstance(found, Reading), sized.designation
        assert found.normal == sized.designation
        assert sized.bands.keys() <= MEASURES.keys()
        assert all(band.low <= band.high for band in sized.bands.values())
        assert sized.because.origins
        said(sized.because)


@given(ONE)
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
    """A yes has two readings and no bench test of a trap anywhere in its proof; every step has its sentence."""
    kind, needed, offered = drawn
    result = ask(kind, needed, offered)
    if result.state in (FamilyState.OK, FamilyState.OK_WITH_WORK):
        assert all(isinstance(FAMILIES[kind].read(text, STANDARDS), Reading) for text in (needed, offered))
        assert not any("-tell-" in step.code or "trap" in step.code for _, step in result.because.walk())
    if result.state is FamilyState.TRAP:
        assert any("-tell-" in step.code for _, step in result.because.walk())


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused_without_a_fault(text: str) -> None:
    """Nothing that people write makes a family fall over."""
    for kind in MINE:
        assert isinstance(FAMILIES[kind].read(text, STANDARDS), (Reading, Unreadable))


@pytest.mark.parametrize(
    "text",
    ["10", "M10x1", "25 mm", "165/80 R 13", "KT 53 0650", "6203-2RS", "17 x 40 x 12", "12 V 21 W", "3/8-24 UNF", "flat",
     "drain plug M14x1.5, flat seat, reach 12 mm", "glow plug M12x1.25", "380 N", "8 mm hose", "5/8 in heater hose", "R7",
     "damper open 520 mm, closed 330 mm", "SAE 100R7 hydraulic hose 8 mm", "SAE 30"],
)  # fmt: skip
def test_what_is_plainly_another_thing_is_not_read(text: str) -> None:
    """A thread, a length, a tyre, a part number, a drain plug or a hydraulic hose belongs to none of these families."""
    assert not [kind for kind in MINE if isinstance(FAMILIES[kind].read(text, STANDARDS), Reading)]
