"""Circlips: a figure says neither shaft nor bore, and a ring one size off still goes in."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.choices import End
from fitlore.trade.family import FAMILIES
from fitlore.trade.result import FamilyState, Reading
from fitlore.trade.rows import Certainty
from tests.trade.families import PROBLEMS, STANDARDS, YES, ask, codes, normal, refused
from tests.trade.loading import table

RINGS = STANDARDS.table("circlip-size")
LETTERS = {"shaft": "DIN 471", "bore": "DIN 472"}
NAMES = [f"{LETTERS[row.word('sits')]} {row.cell('size')}x{row.cell('thickness')}" for row in RINGS.rows]
NAMES += [
    f"DIN 471 {row.cell('size')}x{row.cell('thickness')}" for row in STANDARDS.table("circlip-heavy").rows
]
NAMES += [f"DIN 6799 {row.cell('groove')}" for row in STANDARDS.table("e-clip-size").rows]
WRONG_THERE = {("shaft", "48"), ("bore", "72"), ("bore", "90")}
"""Rows of the library that contradict themselves or another table; ours are marked recalled."""
LIBRARY = [
    row
    for row in table("circlips.csv")
    if RINGS.find(sits=row["sits"], size=row["size"]) and (row["sits"], row["size"]) not in WRONG_THERE
]


def test_every_row_is_usable_and_reads_as_itself() -> None:
    """Each listed ring is its own normal form; no two share one."""
    assert PROBLEMS == []
    assert [normal("circlip", name) for name in NAMES] == NAMES
    assert len(set(NAMES)) == len(NAMES) > 130


@pytest.mark.parametrize("line", LIBRARY, ids=lambda line: f"{line['sits']} {line['size']}")
def test_rings_agree_with_a_reference_library(line: dict[str, str]) -> None:
    """bd-warehouse 0.4.0, din471.csv and din472.csv up to 100 mm: thickness, free diameter, groove and its width."""
    ours = RINGS.find(sits=line["sits"], size=line["size"])[0]
    assert {name: ours.number(name) for name in ours.numbers} == {
        name: Decimal(line[name]) for name in ours.numbers
    }


@pytest.mark.parametrize(
    ("groove", "printed"),
    [("1.2", "3.25 0.3 1.4 2 0.34"), ("1.5", "4.25 0.4 2 2.5 0.44"), ("1.9", "4.8 0.5 2.5 3 0.54"),
     ("2.3", "6.3 0.6 3 4 0.64"), ("3.2", "7.3 0.6 4 5 0.64"), ("4", "9.3 0.7 5 7 0.74"), ("5", "11.3 0.7 6 8 0.74"),
     ("6", "12.3 0.7 7 9 0.74"), ("7", "14.3 0.9 8 11 0.94"), ("8", "16.3 1 9 12 1.05"), ("9", "18.8 1.1 10 14 1.15"),
     ("10", "20.4 1.2 11 15 1.25")],
)  # fmt: skip
def test_e_clips_are_as_printed(groove: str, printed: str) -> None:
    """DIN 6799 in an open table, read in November 2026: outside, thickness, shafts from and to, groove width: 60 values."""
    row = STANDARDS.table("e-clip-size").find(groove=groove)[0]
    columns = ("outside", "thickness", "shaft-from", "shaft-to", "groove-width")
    assert " ".join(row.cell(column) for column in columns) == printed
    assert row.certainty is Certainty.PUBLISHED


def test_the_library_covers_nearly_all() -> None:
    """Four values each."""
    assert len(LIBRARY) >= 95


def test_rows_that_the_library_has_wrong_are_recalled_or_have_a_second_table() -> None:
    """48 of DIN 471: a ring of 2 mm does not go into its groove of 1.85 mm; another open table has 1.75, as here."""
    for sits, size in WRONG_THERE:
        row = RINGS.find(sits=sits, size=size)[0]
        assert row.certainty is (Certainty.PUBLISHED if (sits, size) == ("shaft", "48") else Certainty.MEMORY)
    assert RINGS.find(sits="shaft", size="48")[0].cell("thickness") == "1.75"
    line = next(row for row in table("circlips.csv") if (row["sits"], row["size"]) == ("shaft", "48"))
    assert Decimal(line["thickness"]) > Decimal(line["groove-width"])


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("DIN 471 20x1.2", "DIN 471 20x1.2"), ("DIN 471 - 20 x 1,2", "DIN 471 20x1.2"), ("DIN471-20", "DIN 471 20x1.2"),
        ("din 471 20×1.20", "DIN 471 20x1.2"), ("circlip 20 mm shaft", "DIN 471 20x1.2"), ("20 on a shaft", "DIN 471 20x1.2"),
        ("external circlip 20", "DIN 471 20x1.2"), ("outer circlip DIN 471 20", "DIN 471 20x1.2"), ("DIN 472 52", "DIN 472 52x2"),
        ("internal circlip 52", "DIN 472 52x2"), ("52 mm bore", "DIN 472 52x2"), ("snap ring 52 in the hole", "DIN 472 52x2"),
        ("DIN 471 20x1.75", "DIN 471 20x1.75"), ("E-clip 6", "DIN 6799 6"), ("DIN 6799 - 6", "DIN 6799 6"),
        ("e clip 3.2", "DIN 6799 3.2"), ("inside circlip 52", "DIN 472 52x2"), ("outside snap ring 20", "DIN 471 20x1.2"),
    ],
)  # fmt: skip
def test_usual_spellings_are_understood(written: str, meant: str) -> None:
    """Spellings on boxes and in adverts (common practice)."""
    assert normal("circlip", written) == meant


@pytest.mark.parametrize(
    ("written", "reason"),
    [("", "circlip-unknown"), ("M10x1", "circlip-unknown"), ("6203", "circlip-unknown"), ("38x52x7", "circlip-unknown"),
     ("20x2", "circlip-unknown"), ("shaft and bore 20", "circlip-unknown"), ("20", "circlip-several"),
     ("52x2", "circlip-several"), ("DIN 471 23", "circlip-unlisted"), ("E-clip 6.5", "circlip-unlisted"),
     ("circlip 20 mm inside", "circlip-unknown"), ("circlip outside 20", "circlip-unknown"),
     ("DIN 471 20x1.3", "circlip-thickness"), ("DIN 471 48x2", "circlip-thickness")],
)  # fmt: skip
def test_what_names_no_one_ring_is_refused(written: str, reason: str) -> None:
    """A figure alone is a ring for a shaft or for a bore: never guessed."""
    found = refused("circlip", written)
    assert found.reason == reason
    assert all(normal("circlip", reading) == reading for reading in found.readings)


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("DIN 471 20", "DIN 472 20", "trap", "circlip-tell-eyes"),
        ("DIN 472 20", "DIN 471 20", "trap", "circlip-tell-eyes"),
        ("DIN 471 6", "E-clip 6", "trap", "circlip-tell-groove"),
        ("DIN 471 20", "DIN 472 52", "off", "circlip-other-seat"),
        ("DIN 471 20", "DIN 471 21", "trap", "circlip-slack"),
        ("DIN 471 20", "DIN 471 19", "trap", "circlip-strained"),
        ("DIN 472 52", "DIN 472 50", "trap", "circlip-slack"),
        ("DIN 472 50", "DIN 472 52", "trap", "circlip-strained"),
        ("DIN 471 20", "DIN 471 30", "off", "circlip-size-off"),
        ("DIN 471 20", "DIN 471 20x1.75", "off", "circlip-thick"),
        ("DIN 471 20x1.75", "DIN 471 20", "trap", "circlip-thin"),
        ("DIN 471 20", "external 20x1.2", "ok", "circlip-same"),
        ("DIN 471 20", "20x1.2", "unreadable", "circlip-several"),
    ],
)
def test_one_ring_for_another(needed: str, offered: str, state: str, code: str) -> None:
    """Which way each is wrong (common practice); sizes DIN 471, DIN 472, DIN 6799."""
    result = ask("circlip", needed, offered)
    assert result.state == state
    assert code in codes(result)
    assert state != "trap" or any(one.startswith("circlip-tell-") for one in codes(result))


@given(st.sampled_from(NAMES), st.sampled_from(NAMES))
def test_only_the_same_ring_is_a_yes(needed: str, offered: str) -> None:
    """Comparison is reflexive and nothing else fits."""
    assert (ask("circlip", needed, offered).state in YES) == (needed == offered)
    assert ask("circlip", needed, needed).state is FamilyState.OK


@given(st.text(max_size=60) | st.from_regex(r"(DIN )?[0-9x./ \-]{0,16}(shaft|bore)?", fullmatch=True))
def test_no_text_raises(text: str) -> None:
    """Any text is read or refused with a reason."""
    found = FAMILIES["circlip"].read(text, STANDARDS)
    assert isinstance(found, Reading) or found.reason.startswith("circlip-")
    FAMILIES["circlip"].compare("DIN 471 20", text, End.MALE, STANDARDS)


def test_the_sizes_to_measure_by_are_the_listed_ones() -> None:
    """A used ring is sprung: a shaft ring wider, a bore ring narrower."""
    sizes = {size.designation: size for size in FAMILIES["circlip"].sizes(STANDARDS)}
    assert len(sizes) == len(RINGS.rows) + len(STANDARDS.table("e-clip-size").rows)
    assert sizes["DIN 471 20x1.2"].bands["inside"].wears == "up"
    assert sizes["DIN 472 52x2"].bands["outside"].wears == "down"
