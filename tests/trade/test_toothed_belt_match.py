"""Toothed belts of engines: teeth are counted, forms of tooth do not mix."""

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

FORMS = STANDARDS.table("tooth-form")
NAMES = [row.word("form") for row in FORMS.rows]


@st.composite
def belts(draw: st.DrawFn) -> str:
    """Belts that say some or all of teeth, form and width."""
    teeth, width = draw(st.integers(60, 180)), draw(st.sampled_from(["17", "19", "25", "25.4", "30"]))
    form = draw(st.sampled_from(NAMES))
    return draw(
        st.sampled_from(
            [f"{teeth}{form}{width}", f"{teeth}{form}", f"{teeth} teeth", f"{teeth} teeth {width} mm", form]
        )
    )


def test_every_row_is_usable_and_every_form_reads_as_itself() -> None:
    """Forms are unique."""
    assert PROBLEMS == []
    assert [normal("toothed-belt", name) for name in NAMES] == NAMES
    assert len(set(NAMES)) == len(NAMES)


@pytest.mark.parametrize(
    ("form", "pitch", "height"),
    [("ZA", "9.525", "1.91"), ("ZH", "9.525", "3.5"), ("YH", "8", "3.04"), ("ZR", "9.525", "3.2"), ("YS", "8", "3.04"),
     ("ZS", "9.525", "3.53"), ("YU", "8", "3.02")],
)  # fmt: skip
def test_forms_are_as_printed(form: str, pitch: str, height: str) -> None:
    """Pitches and heights of teeth in an open table of forms, read in November 2026: 14 values."""
    row = FORMS.find(form=form)[0]
    assert (row.cell("pitch"), row.cell("height")) == (pitch, height)


@pytest.mark.parametrize(
    ("form", "height", "back"), [("ZA", "1.91", "4.1"), ("ZB", "2.29", "4.5"), ("ZS", "3.53", "5.7")]
)
def test_what_is_left_of_a_belt_above_its_teeth_is_about_alike(form: str, height: str, back: str) -> None:
    """Heights of belts in the same open table: 2.17 to 2.21 mm are left above the teeth, which 2.92 for ZB would not leave."""
    assert FORMS.find(form=form)[0].cell("height") == height
    assert Decimal("2.1") < Decimal(back) - Decimal(height) < Decimal("2.3")


@pytest.mark.parametrize(
    ("written", "meant"),
    [("104ZA19", "104ZA19"), ("104 ZA 19", "104ZA19"), ("104za x 19 mm", "104ZA19"), ("129YU25.4", "129YU25.4"),
     ("129 YU 25,4 mm", "129YU25.4"), ("104 teeth ZA 19 mm", "104ZA19"), ("cam belt 104 teeth, 19 mm wide", "104 teeth 19 mm"),
     ("timing belt 104 teeth", "104 teeth"), ("104 teeth x 19 mm", "104 teeth 19 mm"), ("104ZA", "104ZA"), ("ZA", "ZA")],
)  # fmt: skip
def test_usual_spellings_are_understood(written: str, meant: str) -> None:
    """Short as in ISO 9010, or in words (common practice)."""
    assert normal("toothed-belt", written) == meant


@pytest.mark.parametrize(
    ("written", "reason"),
    [("", "toothed-belt-unknown"), ("104", "toothed-belt-unknown"), ("19 mm", "toothed-belt-unknown"),
     ("6PK1045", "toothed-belt-unknown"), ("104x19", "toothed-belt-unknown"), ("104ZA190", "toothed-belt-unknown"),
     ("8ZA", "toothed-belt-unknown"), ("104ZA19 blue", "toothed-belt-unknown"), ("104ZX19", "toothed-belt-unlisted")],
)  # fmt: skip
def test_what_is_no_toothed_belt_is_refused(written: str, reason: str) -> None:
    """A width alone names no belt, and letters that are not listed are not guessed."""
    assert refused("toothed-belt", written).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("104ZA19", "104 ZA 19", "ok", "toothed-belt-same"),
        ("104 teeth", "104ZA19", "unreadable", "toothed-belt-unsaid"),
        ("104ZA19", "104 teeth 19 mm", "unreadable", "toothed-belt-unsaid"),
        ("104ZA19", "104ZA", "unreadable", "toothed-belt-unsaid"),
        ("104ZA19", "ZA", "unreadable", "toothed-belt-unsaid"),
        ("104ZA19", "105ZA19", "off", "toothed-belt-teeth-off"),
        ("104ZA19", "103 teeth", "off", "toothed-belt-teeth-off"),
        ("104ZA19", "104YU19", "off", "toothed-belt-pitch-off"),
        ("104ZA19", "104ZH19", "trap", "toothed-belt-form"),
        ("104ZH19", "104ZA19", "trap", "toothed-belt-form"),
        ("104ZA19", "104ZB19", "trap", "toothed-belt-form"),
        ("129YU25.4", "129YH25.4", "trap", "toothed-belt-form"),
        ("104ZA25.4", "104ZA25", "ok", "toothed-belt-width-same"),
        ("104ZA25.4", "104ZA19", "trap", "toothed-belt-slim"),
        ("104ZA19", "104ZA25.4", "off", "toothed-belt-wide"),
        ("104ZA19", "104x19", "unreadable", "toothed-belt-unknown"),
    ],
)
def test_one_belt_for_another(needed: str, offered: str, state: str, code: str) -> None:
    """Straight-flanked and round teeth of one pitch do not run in each other's wheels (common practice; forms ISO 21342)."""
    result = ask("toothed-belt", needed, offered)
    assert result.state == state
    assert code in codes(result)
    if state == "trap":
        assert any(one.startswith("toothed-belt-tell-") for one in codes(result))


def test_a_form_recalled_makes_the_answer_recalled() -> None:
    """The height of ZB is recalled, those of ZA and ZH were seen."""
    assert ask("toothed-belt", "104ZA19", "104ZB19").certainty is Certainty.MEMORY
    assert ask("toothed-belt", "104ZA19", "104ZH19").certainty is Certainty.PUBLISHED


def test_a_tooth_more_is_told_as_length() -> None:
    """One pitch of a Z form is 9.525 mm (ISO 9010)."""
    because = ask("toothed-belt", "104ZA19", "106ZA19").because
    step = next(step for _, step in because.walk() if step.code == "toothed-belt-teeth-off")
    assert step.values["gap"] == "19.05 mm"


@given(belts())
def test_reading_the_normal_form_gives_it_back(text: str) -> None:
    """A normal form stands for its belt in a store, and every belt serves for itself."""
    once = normal("toothed-belt", text)
    assert normal("toothed-belt", once) == once
    assert ask("toothed-belt", text, text).state is FamilyState.OK


@given(belts(), belts())
def test_a_yes_needs_all_that_is_asked(needed: str, offered: str) -> None:
    """Teeth and pitch equal, width within half a millimetre; a trap is never a fit."""
    result = ask("toothed-belt", needed, offered)
    one, other = (FAMILIES["toothed-belt"].read(text, STANDARDS) for text in (needed, offered))
    assert isinstance(one, Reading)
    assert isinstance(other, Reading)
    if result.state in YES:
        for name, value in one.keys.items():
            assert abs(value - other.keys[name]) <= (Decimal("0.5") if name == "width" else 0)
        assert "toothed-belt-form" not in codes(result)


@given(st.text(max_size=60) | st.from_regex(r"[0-9ZYAHU. ]{0,12}( teeth)?", fullmatch=True))
def test_no_text_raises(text: str) -> None:
    """Any text is read or refused with a reason."""
    found = FAMILIES["toothed-belt"].read(text, STANDARDS)
    assert isinstance(found, Reading) or found.reason.startswith("toothed-belt-")
    FAMILIES["toothed-belt"].compare("104ZA19", text, End.MALE, STANDARDS)


def test_the_sizes_to_measure_by_are_the_listed_ones() -> None:
    """Pitch tells Z from Y, the height tells the forms of one pitch."""
    sizes = {size.designation: size for size in FAMILIES["toothed-belt"].sizes(STANDARDS)}
    assert list(sizes) == NAMES
    assert sizes["ZA"].bands["pitch"].high < Decimal("9.6")
    assert sizes["ZA"].bands["height"].high < sizes["ZB"].bands["height"].low
