"""What all families of turning parts have in common: examples that read, sizes that read, and no family taking another's text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.choices import End
from fitlore.trade.family import FAMILIES, Reading, Unreadable
from fitlore.trade.result import FamilyResult, FamilyState
from tests.trade.families import PROBLEMS, STANDARDS, TURNING, YES, codes, kinds_of, normal, said

MINE = kinds_of(TURNING)

STRANGE = (
    "", "10", "M10x1", "3/8-24 UNF", "165/70R13", "12 V", "8.8", "104", "BR 10 950", "KT 42 0410", "H4", "55 W", "1.5 mm2",
    "glycol", "DOT 4", "cone 60", "round", "2026-11",
)  # fmt: skip
"""Texts that stand in books beside designations of these families and are none."""
PLAIN = {("shaft-seal", "o-ring"), ("shaft-seal", "key")}
"""Whose sizes a family may take for its own: three plain figures with room for a lip can be a seal."""
TOGETHER = [(kind, text) for kind in MINE for text in FAMILIES[kind].about.spellings]


def test_all_kinds_are_there() -> None:
    """Each kind of this group has its package, its tables and its page."""
    assert set(MINE) == {"bearing", "shaft-seal", "o-ring", "circlip", "key", "belt", "toothed-belt"}
    assert PROBLEMS == []
    for kind in MINE:
        about = FAMILIES[kind].about
        assert about.title
        assert about.standards
        assert about.not_said
        assert about.gaps
        assert not about.ended


@pytest.mark.parametrize(("kind", "text"), TOGETHER)
def test_examples_are_read(kind: str, text: str) -> None:
    """Every example the page of families shows is read, and its normal form reads as itself."""
    once = normal(kind, text)
    assert normal(kind, once) == once


@pytest.mark.parametrize("kind", MINE)
def test_strange_texts_are_no_designations(kind: str) -> None:
    """Threads, tyres, numbers and words are refused, and refusing never becomes a yes."""
    for text in STRANGE:
        assert isinstance(FAMILIES[kind].read(text, STANDARDS), Unreadable), text
        result = FAMILIES[kind].compare(text, text, End.MALE, STANDARDS)
        assert result.state is FamilyState.UNREADABLE
        said(result.because)


@pytest.mark.parametrize(("kind", "text"), TOGETHER)
def test_no_family_reads_what_is_plainly_anothers(kind: str, text: str) -> None:
    """A belt is no bearing, a key no seal: only plain sizes of three figures can be a seal as well."""
    for other in set(MINE) - {kind}:
        found = FAMILIES[other].read(text, STANDARDS)
        if isinstance(found, Reading):
            assert (other, kind) in PLAIN, found
            assert text.count("x") + text.count("-") >= 2


@pytest.mark.parametrize("kind", MINE)
def test_every_size_to_measure_by_is_readable_and_told(kind: str) -> None:
    """Each listed size has a designation that reads, bands that are not upside down, and a proof with its line."""
    for size in FAMILIES[kind].sizes(STANDARDS):
        assert size.kind == kind
        found = FAMILIES[kind].read(size.designation, STANDARDS)
        assert isinstance(found, Reading), size.designation
        assert size.bands
        assert all(band.low <= band.high for band in size.bands.values())
        assert size.because.origins
        assert size.because.sources
    said(size.because)


@given(st.sampled_from(MINE).flatmap(lambda kind: st.tuples(st.just(kind), *[st.sampled_from(
    FAMILIES[kind].about.spellings)] * 2)))  # fmt: skip
def test_a_yes_never_hides_a_trap(asked: tuple[str, str, str]) -> None:
    """Whatever is compared: a yes has no step that tells of a trap, and comparison with itself is a yes.

    A belt without a length is a question even to itself: no belt is chosen by its section alone.
    """
    kind, needed, offered = asked
    result = FAMILIES[kind].compare(needed, offered, End.MALE, STANDARDS)
    said(result.because)
    if result.state in YES:
        assert not any("-tell-" in code or code.endswith("-trap") for code in codes(result))
    whole = kind != "belt" or "length-unasked" not in " ".join(codes(itself(kind, needed)))
    assert itself(kind, needed).state is (FamilyState.OK if whole else FamilyState.UNREADABLE)


def itself(kind: str, text: str) -> FamilyResult:
    """A designation held against itself."""
    return FAMILIES[kind].compare(text, text, End.MALE, STANDARDS)
