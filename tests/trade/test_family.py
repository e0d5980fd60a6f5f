"""The door through which other rooms use families of standards: texts in, a state and a proof out."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.trade.family import FAMILIES, FamilyResult, FamilyState, Reading, Unreadable, compare_texts
from tests.trade.loading import STANDARDS

WRITTEN = st.sampled_from(
    ["M10x1", "3/8-24 UNF", "3/8-24", "1/8 BSP", "1/8", "G1/8", "R1/8", "1/8 NPT", "1/4-20", "1/4 Whit", "M10",
    "M14x1.55", "nut", "7/16 UNF"]
)  # fmt: skip
ENDS = st.sampled_from(["male", "female"])


def ask(needed: str, offered: str, end: str = "male") -> FamilyResult:
    """One thread text held against another."""
    return compare_texts("thread", needed, offered, end, STANDARDS)


@pytest.mark.parametrize(
    ("needed", "offered", "end", "state"),
    [
        ("M10x1", "m10 × 1,0", "male", "ok"),
        ("G1/8", "R1/8", "male", "ok-with-work"),
        ("M10x1.5", "M10x1.25", "male", "off"),
        ("M10x1", "3/8-24 UNF", "male", "trap"),
        ("M10x1", "3/8-24 UNF", "female", "off"),
        ("7/16-20 UNF", "M12x1.25", "female", "trap"),
        ("M14x1.5", "M14x1.55", "male", "unreadable"),
        ("1/8 BSP", "1/8 BSP", "male", "unreadable"),
        ("1/4-20", "1/4 UNC", "male", "unreadable"),
    ],
)
def test_states_are_the_words_the_fitting_room_knows(needed: str, offered: str, end: str, state: str) -> None:
    """A state compares equal to its word."""
    assert ask(needed, offered, end).state == state


def test_a_text_of_several_readings_is_a_no_where_none_of_them_goes() -> None:
    """`1/8 BSP` may be parallel or taper; a 10 mm port refuses both, so that nobody needs to look first."""
    result = ask("M10x1", "1/8 BSP")
    assert result.state is FamilyState.TRAP
    assert result.because.code == "thread-no-reading-goes"
    assert [inner.values["offered"] for inner in result.because.under] == ["G1/8", "R1/8"]


def test_a_text_of_several_readings_is_a_question_where_one_of_them_goes() -> None:
    """The question names the readings; unknown is never yes."""
    result = ask("G1/8", "1/8 BSP")
    assert result.state is FamilyState.UNREADABLE
    assert (result.because.code, result.because.values) == (
        "thread-several",
        {"text": "1/8 BSP", "expected": "G1/8, R1/8"},
    )


def test_what_cannot_be_read_is_told_with_what_was_expected() -> None:
    """A pitch that no table lists, and the nearest that are."""
    because = ask("M14x1.5", "M14x1.55").because
    assert because.code == "thread-pitch-unlisted"
    assert because.values["expected"].startswith("M14x1.5, ")


def test_a_reading_gives_the_normal_form_and_figures_to_look_parts_up_by() -> None:
    """The graph stores these as derived keys; books report the other outcome where it is written."""
    found = FAMILIES["thread"].read("3/8 x 24", STANDARDS)
    assert isinstance(found, Reading)
    assert (found.normal, found.implied) == ("3/8-24 UNF", "series")
    assert {name: f"{value:.4f}" for name, value in found.keys.items()} == {
        "major": "9.5250",
        "pitch": "1.0583",
    }
    assert isinstance(FAMILIES["thread"].read("M14x1.55", STANDARDS), Unreadable)


def test_texts_that_mean_one_thread_have_one_key() -> None:
    """Spelling and tolerance class do not part them; the hand does."""
    written = ("M10x1", "m10 × 1,0", "MF10x1", "M10x1-6g", "M10x1 LH")
    found = [FAMILIES["thread"].read(text, STANDARDS) for text in written]
    keys = [one.normal for one in found if isinstance(one, Reading)]
    assert keys == ["M10x1", "M10x1", "M10x1", "M10x1", "M10x1 LH"]


def test_a_kind_without_a_family_is_a_slip_of_the_program() -> None:
    """The caller asks for membership first."""
    assert "length" not in FAMILIES
    with pytest.raises(KeyError):
        compare_texts("length", "1 mm", "1 mm", "male", STANDARDS)


@given(WRITTEN, WRITTEN, ENDS)
def test_a_yes_comes_only_from_two_texts_with_one_reading_each(needed: str, offered: str, end: str) -> None:
    """Nothing unread and nothing with two readings ever becomes a yes; every answer has a proof."""
    result = ask(needed, offered, end)
    assert result.because.code
    if result.state in (FamilyState.OK, FamilyState.OK_WITH_WORK):
        reads = [FAMILIES["thread"].read(text, STANDARDS) for text in (needed, offered)]
        assert all(isinstance(found, Reading) for found in reads)
        assert {"needed", "offered"} <= result.because.values.keys()
