"""Days in words, on every system."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import fitlore
from fitlore.report.days import long_day, plain_day, short_day


def test_days_are_told_without_a_nought() -> None:
    """The third and the thirteenth of a month, by a calendar on paper: 3 December 2026 is a Thursday."""
    assert long_day(date(2026, 12, 3)) == "Thursday 3 December 2026"
    assert plain_day(date(2026, 12, 13)) == "13 December 2026"
    assert short_day(date(2026, 12, 3)) == "Thu 3 Dec"


def test_no_form_of_a_date_is_used_that_only_some_systems_know() -> None:
    """`%-d` and its like are the GNU C library's; the C standard (ISO/IEC 9899, strftime) has none of them."""
    package = Path(fitlore.__file__).parent
    texts = {path: path.read_text("utf-8") for path in package.rglob("*.py")}
    assert len(texts) > 100
    assert [
        path.name for path, text in texts.items() if re.search(r"%[-#_^][aAbBcdHIjmMpSUwWxXyYZeGgu]", text)
    ] == []
