"""Shaft seals: three figures and all that is said beside them."""

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

SIZES = STANDARDS.table("seal-size").rows
NAMES = ["x".join(row.cell(part) for part in ("shaft", "housing", "width")) for row in SIZES]


@st.composite
def seals(draw: st.DrawFn) -> str:
    """Listed sizes with and without letters, rubber and turning."""
    lead = draw(st.sampled_from(["", "A ", "AS ", "B ", "BS ", "TC "]))
    rubber = draw(st.sampled_from(["", " NBR", " FKM", " ACM", " silicone", " EPDM"]))
    turns = draw(st.sampled_from(["", " right", " left", " both ways", " clockwise"]))
    return f"{lead}{draw(st.sampled_from(NAMES))}{rubber}{turns}"


def test_every_row_is_usable_and_every_size_reads_as_itself() -> None:
    """No two rows share a size."""
    assert PROBLEMS == []
    assert [normal("shaft-seal", name) for name in NAMES] == NAMES
    assert len(set(NAMES)) == len(NAMES) > 90


@pytest.mark.parametrize("line", table("iso_286_h8.csv"), ids=lambda line: line["size"])
def test_the_holes_tolerance_is_h8(line: dict[str, str]) -> None:
    """ISO 286-1 IT8 from pressfit 0.1.0, for sizes that seals have: 14 values."""
    size = Decimal(line["size"])
    found = [
        row for row in STANDARDS.table("seal-hole").rows if row.number("over") < size <= row.number("up-to")
    ]
    assert [row.cell("h8") for row in found] == [line["it8"]]


@pytest.mark.parametrize(
    ("housing", "metal", "rubber"),
    [(35, "0.1 0.2", "0.15 0.3"), (52, "0.13 0.23", "0.2 0.35"), (80, "0.13 0.23", "0.2 0.35"),
     (100, "0.15 0.25", "0.2 0.35"), (150, "0.18 0.28", "0.25 0.45"), (200, "0.2 0.3", "0.25 0.45")],
)  # fmt: skip
def test_a_seal_is_made_bigger_than_its_hole(housing: int, metal: str, rubber: str) -> None:
    """ISO 6194-1 and DIN 3760 as quoted on a public page, in mm over the nominal size: 24 values; always more than H8."""
    row = next(
        row
        for row in STANDARDS.table("seal-allowance").rows
        if row.number("over") < housing <= row.number("up-to")
    )
    for case, printed in (("metal", metal), ("rubber", rubber)):
        assert f"{row.cell(f'{case}-low')} {row.cell(f'{case}-high')}" == printed
        hole = [
            h for h in STANDARDS.table("seal-hole").rows if h.number("over") < housing <= h.number("up-to")
        ]
        assert all(h.number("h8") < row.number(f"{case}-low") * 1000 for h in hole)


def test_shafts_that_got_a_second_width() -> None:
    """DIN 3760:1996, foreword (seen): 8 mm was introduced for shafts of 32, 35, 38 and 40 mm: 4 values; 7 was kept."""
    for shaft in ("32", "35", "38", "40"):
        widths = {row.cell("width") for row in SIZES if row.cell("shaft") == shaft}
        assert widths == {"7", "8"}


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("38x52x7", "38x52x7"), ("38 x 52 x 7 mm", "38x52x7"), ("38×52×7", "38x52x7"), ("38X52X7", "38x52x7"),
        ("38-52-7", "38x52x7"), ("38,0 x 52 x 7", "38x52x7"), ("38.1x52x7", "38.1x52x7"), ("oil seal 38x52x7", "38x52x7"),
        ("AS 38x52x7", "38x52x7 rubber case dust lip"), ("AS38x52x7", "38x52x7 rubber case dust lip"),
        ("38x52x7 AS", "38x52x7 rubber case dust lip"), ("TC 38x52x7", "38x52x7 rubber case dust lip"),
        ("A 38x52x7 NBR", "38x52x7 rubber case single lip NBR"), ("BS 38x52x7", "38x52x7 metal case dust lip"),
        ("DIN 3760 - AS38x52x7 - NBR", "38x52x7 rubber case dust lip NBR"), ("38x52x7 nitrile", "38x52x7 NBR"),
        ("38x52x7 with dust lip", "38x52x7 dust lip"), ("38x52x7 double lip FPM", "38x52x7 dust lip FKM"),
        ("38x52x7 right", "38x52x7 turns right"), ("38x52x7 clockwise", "38x52x7 turns right"),
        ("38x52x7 anticlockwise", "38x52x7 turns left"), ("38x52x7 LH helix", "38x52x7 turns left"),
        ("38x52x7 both ways", "38x52x7 turns both"), ("38x52x7/9", "38x52x7/9"), ("1 1/2 x 2 x 3/8", "38.1x50.8x9.52"),
        ("1.5 x 2 x 0.375 in", "38.1x50.8x9.52"),
    ],
)  # fmt: skip
def test_usual_spellings_are_understood(written: str, meant: str) -> None:
    """Spellings on seals and in adverts (common practice)."""
    assert normal("shaft-seal", written) == meant


@pytest.mark.parametrize(
    ("written", "reason"),
    [("", "shaft-seal-unknown"), ("38x52", "shaft-seal-unknown"), ("20x2.5", "shaft-seal-unknown"),
     ("M10x1x25", "shaft-seal-unknown"), ("165/70R13", "shaft-seal-unknown"), ("52x38x7", "shaft-seal-figures"),
     ("480 x 200 x 12.5", "shaft-seal-figures"), ("38x52x20", "shaft-seal-figures"), ("38x40x7", "shaft-seal-figures"),
     ("38x52x7 green", "shaft-seal-words"), ("35x50x8 R", "shaft-seal-words"), ("AS B 38x52x7", "shaft-seal-words"),
     ("A 38x52x7 dust lip", "shaft-seal-words")],
)  # fmt: skip
def test_what_is_no_seal_is_refused(written: str, reason: str) -> None:
    """`R` could be rubber or right; letters and words that contradict each other are asked about."""
    assert refused("shaft-seal", written).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("38x52x7", "38x52x7 NBR", "ok", "rubber-serves"),
        ("38x52x7", "38x52x7 EPDM", "trap", "rubber-swells"),
        ("38x52x7 NBR", "38x52x7 FKM", "ok", "shaft-seal-bears-heat"),
        ("38x52x7 FKM", "38x52x7 NBR", "off", "shaft-seal-cooler"),
        ("38x52x7 FKM", "38x52x7", "unreadable", "rubber-unsaid"),
        ("38x52x7 NBR", "38x52x7 silicone", "unreadable", "rubber-some"),
        ("38x52x7 NBR", "38x52x7 PTFE", "unreadable", "shaft-seal-lip-ptfe"),
        ("38x52x7", "38x52x7 PTFE", "unreadable", "shaft-seal-lip-ptfe"),
        ("38x52x7 PTFE", "38x52x7 FKM", "unreadable", "shaft-seal-lip-ptfe"),
        ("A 38x52x7", "AS 38x52x7", "ok", "shaft-seal-dust-spare"),
        ("AS 38x52x7", "A 38x52x7", "off", "shaft-seal-dust-missing"),
        ("AS 38x52x7", "38x52x7", "unreadable", "shaft-seal-dust-unsaid"),
        ("A 38x52x7", "B 38x52x7", "ok-with-work", "shaft-seal-case-metal"),
        ("B 38x52x7", "A 38x52x7", "ok", "shaft-seal-case-rubber"),
        ("38x52x7 right", "38x52x7 left", "trap", "shaft-seal-turns-wrong"),
        ("38x52x7 left", "38x52x7 right", "trap", "shaft-seal-turns-wrong"),
        ("38x52x7 right", "38x52x7 both ways", "ok", "shaft-seal-turns-same"),
        ("38x52x7 both ways", "38x52x7 right", "unreadable", "shaft-seal-turns-ask"),
        ("38x52x7 right", "38x52x7", "unreadable", "shaft-seal-turns-unsaid"),
        ("38x52x7", "38x52x7 right", "unreadable", "shaft-seal-turns-ask"),
        ("38x52x7", "38x52x7 both ways", "ok", "shaft-seal-turns-spare"),
        ("38x52x8", "38x52x7", "ok", "shaft-seal-narrower"),
        ("38x52x7", "38x52x8", "unreadable", "shaft-seal-wider"),
        ("38x62x12", "38x62x7", "unreadable", "shaft-seal-thin"),
        ("38x52x7", "38x52x7/9", "unreadable", "shaft-seal-wider"),
        ("38x52x7/9", "38x52x9", "unreadable", "shaft-seal-wider"),
        ("38x52x7/9", "38x52x8", "unreadable", "shaft-seal-wider"),
        ("38x52x9", "38x52x7/9", "ok", "shaft-seal-width-same"),
        ("38.1x52x7", "38x52x7", "unreadable", "shaft-seal-lip-snug"),
        ("38x52x7", "38.1x52x7", "trap", "shaft-seal-lip-loose"),
        ("38.5x52x7", "38x52x7", "trap", "shaft-seal-lip-tight"),
        ("38x52x7", "40x52x7", "off", "shaft-seal-shaft-off"),
        ("38x52x7", "38x52.4x7", "trap", "shaft-seal-case-tight"),
        ("38x52x7", "38x51.6x7", "trap", "shaft-seal-case-loose"),
        ("38x52x7", "38x55x7", "off", "shaft-seal-housing-off"),
        ("1 1/2 x 2 x 3/8", "38.1x50.8x9.525", "ok", "shaft-seal-same"),
        ("38x52x7", "38x52", "unreadable", "shaft-seal-unknown"),
    ],
)
def test_one_seal_for_another(needed: str, offered: str, state: str, code: str) -> None:
    """Directions of the trade (common practice)."""
    result = ask("shaft-seal", needed, offered)
    assert result.state == state
    assert code in codes(result)
    if state == "trap":
        assert any(one.startswith(("shaft-seal-tell-", "rubber-tell")) for one in codes(result))


def test_letters_of_the_trade_make_the_answer_recalled() -> None:
    """TC for AS rests on a row from memory."""
    assert ask("shaft-seal", "AS 38x52x7", "TC 38x52x7").certainty is Certainty.MEMORY
    assert ask("shaft-seal", "AS 38x52x7", "AS 38x52x7").certainty is Certainty.PUBLISHED


@given(seals())
def test_reading_the_normal_form_gives_it_back(text: str) -> None:
    """A normal form stands for its seal in a store, and every seal serves for itself."""
    once = normal("shaft-seal", text)
    assert normal("shaft-seal", once) == once
    assert ask("shaft-seal", text, text).state is FamilyState.OK


@given(seals(), seals())
def test_a_yes_needs_shaft_and_hole_equal(needed: str, offered: str) -> None:
    """A trap is never a fit; nothing wider is a yes."""
    result = ask("shaft-seal", needed, offered)
    one, other = (FAMILIES["shaft-seal"].read(text, STANDARDS) for text in (needed, offered))
    assert isinstance(one, Reading)
    assert isinstance(other, Reading)
    if result.state in YES:
        assert (one.keys["shaft"], one.keys["housing"]) == (other.keys["shaft"], other.keys["housing"])
        assert other.keys["width"] <= one.keys["width"]
        assert not codes(result) & {"shaft-seal-turns-wrong", "rubber-swells"}


@given(st.text(max_size=60) | st.from_regex(r"[0-9xABSTC./ \"-]{0,20}", fullmatch=True))
def test_no_text_raises(text: str) -> None:
    """Any text is read or refused with a reason."""
    found = FAMILIES["shaft-seal"].read(text, STANDARDS)
    assert isinstance(found, Reading) or found.reason.startswith("shaft-seal-")
    FAMILIES["shaft-seal"].compare("38x52x7", text, End.MALE, STANDARDS)


def test_the_sizes_to_measure_by_are_the_listed_ones() -> None:
    """An old lip measures too big, and the outside is made bigger than the hole."""
    sizes = {size.designation: size for size in FAMILIES["shaft-seal"].sizes(STANDARDS)}
    assert len(sizes) == len(SIZES)
    assert sizes["38x52x7"].bands["inside"].wears == "up"
    assert sizes["38x52x7"].bands["outside"].high == Decimal("52.35")
