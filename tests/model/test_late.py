"""Patterns compiled when they are first used."""

from __future__ import annotations

import re

import pytest

from fitlore.model.late import Late


def test_it_finds_what_the_compiled_one_finds_and_is_compiled_once() -> None:
    """Whole and in part, with flags; nothing is compiled before."""
    late = Late(r"(?P<m>m)(\d+)", re.IGNORECASE)
    assert "pattern" not in vars(late)
    whole = late.fullmatch("M10")
    assert whole is not None
    assert (whole["m"], whole[2]) == ("M", "10")
    first = late.pattern
    assert late.fullmatch("M10x1") is None
    found = late.search("an m8 stud")
    assert found is not None
    assert found[0] == "m8"
    assert late.pattern is first


def test_a_text_that_is_no_pattern_is_refused_when_it_is_used() -> None:
    """As by the standard library's own compiler."""
    with pytest.raises(re.error):
        Late("(").search("")
