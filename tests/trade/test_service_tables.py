"""Tables, readings and comparisons of service parts: what holds for each of the families."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.report.sentences import SENTENCES
from fitlore.trade.family import FAMILIES, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import MEASURES
from fitlore.trade.standards import sections
from tests.trade.service import FOLDER, MINE, PROBLEMS, SERVICE, STANDARDS, ask, said

NEAR = {
    "spin-on-filter": [
        "oil filter M20x1.5, gasket 72 mm",
        "oil filter 3/4-16 UNF, gasket 70 mm, no anti-drain",
        "oil filter 3/4",
    ],
    "hose": ["6 mm hose", "hose, vacuum, bore 32 mm", "fuel hose 8 mm", "hose"],
    "hose-clip": [
        "hose clip 40-60 mm",
        "hose clip for 52 mm",
        "spring clip 24 mm",
        "wire hose clip 30-40 mm",
        "clip",
    ],
    "thermostat": ["thermostat 88", "thermostat, no bypass, opens 82 C", "thermostat"],
    "radiator-cap": [
        "16 psi radiator cap",
        "radiator cap 0.9 bar, no return valve, reach 12 mm",
        "radiator cap 13",
    ],
    "lambda-probe": ["lambda probe titania 4 wires", "lambda probe zirconia 5 wires", "lambda probe M18x1.5"],
    "damper": [
        "damper 520/345 mm, top stud 10 mm, bottom eye 12 mm",
        "damper 500/330 mm, top eye, bottom eye",
        "damper",
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
    texts = [(FOLDER / f"{name}.yaml").read_text("utf-8") for name in SERVICE]
    written = sum(len(re.findall(r"^  - \{", text, re.MULTILINE)) for text in texts)
    mine = [name for name, section in sections().items() if section.family in MINE]
    assert PROBLEMS == []
    assert sum(len(STANDARDS.table(name).rows) for name in mine) == written >= 110


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
    """A yes has two readings and no trap anywhere in its proof; every trap has its bench test."""
    kind, needed, offered = drawn
    result = ask(kind, needed, offered)
    if result.state in (FamilyState.OK, FamilyState.OK_WITH_WORK):
        assert all(isinstance(FAMILIES[kind].read(text, STANDARDS), Reading) for text in (needed, offered))
        assert not any("trap" in step.code for _, step in result.because.walk())
    if result.state is FamilyState.TRAP:
        traps = [step for _, step in result.because.walk() if "-trap-" in step.code]
        assert traps
        assert all(any("-tell-" in under.code for under in step.under) for step in traps)


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused_without_a_fault(text: str) -> None:
    """Nothing that people write makes a family fall over."""
    for kind in MINE:
        assert isinstance(FAMILIES[kind].read(text, STANDARDS), (Reading, Unreadable))


@pytest.mark.parametrize(
    "text",
    ["10", "M10x1", "25 mm", "165/80 R 13", "KT 53 0650", "6203-2RS", "17 x 40 x 12", "12 V 21 W", "3/8-24 UNF", "82 C",
     "0.9 bar", "520/330", "DOT 4", "4 wires", "32-50 mm", "3/4-16 UNF", "zirconia", "hose", "filter", "damper"],
)  # fmt: skip
def test_what_is_plainly_another_thing_is_not_read(text: str) -> None:
    """A thread, a length, a tyre and its date, a part number and a bearing belong to none of these families."""
    assert not [kind for kind in MINE if isinstance(FAMILIES[kind].read(text, STANDARDS), Reading)]
