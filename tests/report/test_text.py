"""Lines laid out for a width: nothing is cut, numbers and figures stay whole, columns stand."""

from __future__ import annotations

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.report.text import BLANK, Line, columns, listed, minutes, plain, show, tied

WORD = st.text(
    st.characters(categories=["Lu", "Ll", "Nd", "Po"], max_codepoint=0x24F), min_size=1, max_size=30
)


@given(st.lists(WORD, max_size=40), st.integers(1, 120), st.integers(0, 60), st.integers(0, 12))
def test_every_word_is_printed_in_order_at_any_width(
    words: list[str], width: int, hang: int, lead: int
) -> None:
    """Whatever the width: the same words, and no line over it but for a single word longer than the room left."""
    text = " " * lead + " ".join(words)
    out = plain([Line(text, hang=hang)], width)
    assert out.split() == text.split()
    for row in out.splitlines():
        assert len(row) <= max(width, 40) or len(row.split()) == 1 or " " not in row.strip()


@pytest.mark.parametrize("width", range(40, 90))
def test_a_number_and_a_figure_are_never_cut_in_two(width: int) -> None:
    """A tied part's number, and a figure with its unit, stand on one line at every width."""
    text = f"use {tied('KT 48 0316')} or {tied('OS 4810 316')}, bore 22.22 mm, 71.00 GBP, 1 h 15 min, 56 % of 2 ohm at 12 V, "
    out = plain([Line(text * 3, hang=6)], width)
    for whole in ("KT 48 0316", "OS 4810 316", "22.22 mm", "71.00 GBP", "15 min", "56 %", "2 ohm", "12 V"):
        assert sum(row.count(whole) for row in out.splitlines()) == 3, whole
    assert "\u00a0" not in out


def test_a_hang_too_deep_for_the_width_is_given_up() -> None:
    """On a narrow terminal the last column goes under the line instead of into a gutter of single words."""
    line = columns(
        [("1", "fits with work", "Kestin KT 48 0090", "some words that go on " * 3)], ["plain"], "rll"
    )
    wide, narrow = plain(line, 100), plain(line, 40)
    assert {len(row) - len(row.lstrip()) for row in wide.splitlines()[1:]} == {38}
    assert {len(row) - len(row.lstrip()) for row in narrow.splitlines()[1:]} == {4}


def test_text_of_a_book_stands_as_it_is() -> None:
    """It is neither wrapped nor squeezed, so that it can be pasted."""
    text = "    - {part: ZZ 1,   is: radiator}" + " " * 3 + "# " + "x" * 90
    assert plain([Line(text, wrap=False)], 40) == text + "\n"


def test_columns_are_aligned_as_they_are_told() -> None:
    """Figures to the right, words to the left, the last cell free."""
    lines = columns([("1", "9.00", "a", "x"), ("10", "120.50", "bcd", "y")], ["plain", "plain"], "rrl")
    assert plain(lines, 80) == " 1    9.00  a    x\n10  120.50  bcd  y\n"
    assert columns([], [], "r") == []


def test_no_colour_goes_into_a_file(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is no terminal gets plain text."""
    monkeypatch.setenv("COLUMNS", "80")
    out = io.StringIO()
    show([Line("careful", "danger"), BLANK, Line("go", "good")], out)
    assert out.getvalue() == "careful\n\ngo\n"


class Terminal(io.StringIO):
    """Says that it is one."""

    def isatty(self) -> bool:
        """Always."""
        return True


@pytest.mark.parametrize(
    ("environment", "coloured"),
    [({"TERM": "xterm"}, True), ({"TERM": "dumb"}, False), ({"TERM": "xterm", "NO_COLOR": "1"}, False)],
)
def test_colour_only_where_it_is_wanted(
    environment: dict[str, str], coloured: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a terminal that can, unless NO_COLOR is set; the words are the same."""
    monkeypatch.delenv("NO_COLOR", raising=False)
    for name, value in {"COLUMNS": "80", **environment}.items():
        monkeypatch.setenv(name, value)
    out = Terminal()
    show([Line("careful with this one", "danger")], out)
    assert ("\x1b[" in out.getvalue()) is coloured
    assert "careful with this one" in out.getvalue()


def test_small_words() -> None:
    """Lists and minutes as people say them."""
    assert [listed(row) for row in ([], ["a"], ["a", "", "b"], ["a", "b", "c"])] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]
    assert [minutes(count) for count in (0, 45, 60, 1063)] == ["0 min", "45 min", "1 h", "17 h 43 min"]
