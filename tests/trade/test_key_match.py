"""Keys: parallel by three figures, Woodruff by two or by a number."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.choices import End
from fitlore.trade.family import FAMILIES
from fitlore.trade.key.tables import woodruff_inches
from fitlore.trade.result import FamilyState, Reading
from tests.trade.families import PROBLEMS, STANDARDS, YES, ask, codes, normal, refused
from tests.trade.loading import table

PARALLEL = STANDARDS.table("parallel-key").rows
WOODRUFF = [
    f"Woodruff {row.cell('width')}x{row.cell('height')}" for row in STANDARDS.table("woodruff-key").rows
]
NUMBERS = [f"Woodruff {row.word('number')}" for row in STANDARDS.table("woodruff-number").rows]
LISTED = [f"{row.cell('width')}x{row.cell('height')}x{row.number('width') * 3}" for row in PARALLEL]
NAMES = [*LISTED, *(f"A {name}" for name in LISTED), *(f"B {name}" for name in LISTED), *WOODRUFF, *NUMBERS]


def test_every_row_is_usable_and_reads_as_itself() -> None:
    """Each listed key is its own normal form; no two share one."""
    assert PROBLEMS == []
    assert [normal("key", name) for name in NAMES] == NAMES
    assert len(set(NAMES)) == len(NAMES)


@pytest.mark.parametrize("line", table("keys.csv"), ids=lambda line: line["shaft"])
def test_keys_by_shaft_agree_with_a_reference_library(line: dict[str, str]) -> None:
    """bd-warehouse 0.4.0, shaft_key_parameters.csv (DIN 6885): width, height and the depth in the shaft for each shaft."""
    shaft = Decimal(line["shaft"])
    low = min(row.number("over") for row in PARALLEL)
    found = [
        row
        for row in PARALLEL
        if row.number("over") < shaft <= row.number("up-to") or shaft == low == row.number("over")
    ]
    assert [(row.cell("width"), row.cell("height")) for row in found] == [(line["width"], line["height"])]
    assert found[0].number("in-shaft") == Decimal(line["in-shaft"])
    assert found[0].number("in-hub") == Decimal(line["in-hub"])


@pytest.mark.parametrize(
    "printed",
    ["1x1.4 4", "1.5x2.6 7", "2x2.6 7", "2x3.7 10", "2.5x3.7 10", "3x3.7 10", "3x5 13", "3x6.5 16", "4x5 13", "4x6.5 16",
     "4x7.5 19"],
)  # fmt: skip
def test_metric_woodruff_keys_are_as_printed(printed: str) -> None:
    """DIN 6888:1956 as printed: width, height and disc: 33 values."""
    size, disc = printed.split()
    width, height = size.split("x")
    rows = STANDARDS.table("woodruff-key").find(width=width, height=height)
    assert [row.cell("disc") for row in rows] == [disc]


@pytest.mark.parametrize(
    ("shaft", "printed"),
    [
        (55, "16x10 6 4.3"),
        (60, "18x11 7 4.4"),
        (70, "20x12 7.5 4.9"),
        (18, "6x6 3.5 2.8"),
        (40, "12x8 5 3.3"),
    ],
)
def test_parallel_keys_are_as_printed(shaft: int, printed: str) -> None:
    """DIN 6885-1 in an open chart of keyways: width, height and both depths by shaft: 20 values."""
    row = next(row for row in PARALLEL if row.number("over") < shaft <= row.number("up-to"))
    assert f"{row.cell('width')}x{row.cell('height')} {row.cell('in-shaft')} {row.cell('in-hub')}" == printed


@pytest.mark.parametrize(
    ("number", "width", "disc"),
    [("202", "1/16", "1/4"), ("303", "3/32", "3/8"), ("404", "1/8", "1/2"), ("405", "1/8", "5/8"), ("505", "5/32", "5/8"),
     ("606", "3/16", "3/4"), ("608", "3/16", "1"), ("808", "1/4", "1"), ("1008", "5/16", "1"), ("1212", "3/8", "3/2")],
)  # fmt: skip
def test_woodruff_numbers_are_32nds_and_eighths(number: str, width: str, disc: str) -> None:
    """ANSI B17.2 as printed in handbooks: width and disc in inches: 20 values."""
    inches = [
        Decimal(top) / Decimal(bottom or 1)
        for top, _, bottom in (one.partition("/") for one in (width, disc))
    ]
    assert list(woodruff_inches(number)) == [inch * Decimal("25.4") for inch in inches]


@pytest.mark.parametrize(
    ("written", "meant"),
    [("6x6x20", "6x6x20"), ("6 x 6 x 20 mm", "6x6x20"), ("A6x6x20", "A 6x6x20"), ("DIN 6885 - A 6×6×20", "A 6x6x20"),
     ("parallel key 8x7x32 B", "B 8x7x32"), ("Woodruff 4x6.5", "Woodruff 4x6.5"), ("DIN 6888 4 x 6,5", "Woodruff 4x6.5"),
     ("half-moon key 3x5", "Woodruff 3x5"), ("Woodruff key No. 405", "Woodruff 405"), ("woodruff 1008", "Woodruff 1008")],
)  # fmt: skip
def test_usual_spellings_are_understood(written: str, meant: str) -> None:
    """Spellings on boxes and in adverts (common practice)."""
    assert normal("key", written) == meant


@pytest.mark.parametrize(
    ("written", "reason"),
    [("", "key-unknown"), ("6x6", "key-unknown"), ("405", "key-unknown"), ("M10x1x25", "key-unknown"),
     ("38x52x7", "key-unlisted"), ("6x7x20", "key-unlisted"), ("6x6x300", "key-unlisted"), ("Woodruff 4x7", "key-unlisted"),
     ("Woodruff 999", "key-unlisted")],
)  # fmt: skip
def test_what_is_no_listed_key_is_refused(written: str, reason: str) -> None:
    """A seal has three figures too."""
    assert refused("key", written).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("6x6x20", "A 6x6x20", "ok", "key-width-same"),
        ("A 6x6x20", "6x6x20", "unreadable", "key-ends-unsaid"),
        ("A 6x6x20", "B 6x6x20", "ok-with-work", "key-ends-file"),
        ("B 6x6x20", "A 6x6x20", "unreadable", "key-ends-round"),
        ("6x6x20", "6x6x25", "ok-with-work", "key-longer"),
        ("6x6x25", "6x6x20", "off", "key-shorter"),
        ("6x6x20", "5x5x20", "off", "key-narrow"),
        ("6x6x20", "8x7x20", "off", "key-wide"),
        ("20x12x60", "18x11x60", "trap", "key-slack"),
        ("Woodruff 4x6.5", "Woodruff 4x5", "off", "key-third-off"),
        ("6x6x20", "Woodruff 6x9", "off", "key-form-off"),
        ("Woodruff 405", "half moon 405", "ok", "key-same"),
    ],
)
def test_one_key_for_another(needed: str, offered: str, state: str, code: str) -> None:
    """A narrow one that seems to fill the way is the trap (common practice); sizes DIN 6885-1, DIN 6888, ANSI B17.2."""
    result = ask("key", needed, offered)
    assert result.state == state
    assert code in codes(result)
    assert state != "trap" or "key-tell-rock" in codes(result)


def test_a_metric_woodruff_key_a_little_narrower_than_an_inch_one_is_a_trap() -> None:
    """3 mm in a way of 1/8 inch: 0.175 mm of play, not seen. Common practice."""
    result = ask("key", "Woodruff 405", "Woodruff 3x6.5")
    assert "key-slack" in codes(result)
    assert result.state is FamilyState.OFF or result.state is FamilyState.TRAP
    assert ask("key", "Woodruff 3x6.5", "Woodruff 405").state is FamilyState.OFF


@given(st.sampled_from(NAMES), st.sampled_from(NAMES))
def test_a_yes_needs_width_and_height_equal(needed: str, offered: str) -> None:
    """Comparison is reflexive; a trap is never a fit."""
    assert ask("key", needed, needed).state is FamilyState.OK
    one, other = (FAMILIES["key"].read(text, STANDARDS) for text in (needed, offered))
    assert isinstance(one, Reading)
    assert isinstance(other, Reading)
    if ask("key", needed, offered).state in YES:
        assert one.keys["width"] == other.keys["width"]


@given(st.text(max_size=60) | st.from_regex(r"(Woodruff )?[AB0-9x./ ]{0,16}", fullmatch=True))
def test_no_text_raises(text: str) -> None:
    """Any text is read or refused with a reason."""
    found = FAMILIES["key"].read(text, STANDARDS)
    assert isinstance(found, Reading) or found.reason.startswith("key-")
    FAMILIES["key"].compare("6x6x20", text, End.MALE, STANDARDS)


def test_the_sizes_to_measure_by_are_the_listed_ones() -> None:
    """Keys wear in width."""
    sizes = list(FAMILIES["key"].sizes(STANDARDS))
    assert (
        len({size.designation for size in sizes})
        == len(sizes)
        == len(PARALLEL) + len(WOODRUFF) + len(NUMBERS)
    )
    assert all(size.bands["width"].wears == "down" for size in sizes)
