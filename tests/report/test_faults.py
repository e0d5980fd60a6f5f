"""Faults in words: the mark stands under the fault, whatever stands before it."""

from __future__ import annotations

import pytest

from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin
from fitlore.report.faults import all_lines, counted, fault_lines
from fitlore.report.text import plain


def fault(text: str, column: int, width: int, severity: Severity = Severity.ERROR) -> Diagnostic:
    """A fault in line 3 of a book."""
    return Diagnostic(
        "Z1-test", severity, Origin("shop/a.yaml", 3, column), "it is wrong", "right", "mend it", text, width
    )


@pytest.mark.parametrize("lead", ["", "  ", "\t", "\t  \t", "  is: "])
@pytest.mark.parametrize("at", [40, 80])
def test_the_mark_is_under_the_fault(lead: str, at: int) -> None:
    """With tabs as tabs, so that it stands under it in every editor; a long line is not wrapped."""
    rows = plain(fault_lines(fault(f"{lead}wrong{' and more' * 20}", len(lead) + 1, 5)), at).splitlines()
    text = next(row for row in rows if "wrong and" in row)
    mark = rows[rows.index(text) + 1]
    assert mark.strip() == "^^^^^"
    assert mark.index("^") == text.index("wrong")
    assert [c for c in mark if c == "\t"] == [c for c in lead if c == "\t"]


def test_a_mark_never_runs_over_the_line() -> None:
    """A fault that goes on in the next line is marked to the end of its first one."""
    rows = plain(fault_lines(fault("  is: [a,", 7, 40)), 80).splitlines()
    assert rows[1:3] == ["      is: [a,", "          ^^^"]


def test_the_first_line_is_one_an_editor_jumps_to() -> None:
    """`file:line:column: severity: message [code]`."""
    assert (
        plain(fault_lines(fault("", 5, 1)), 80).splitlines()[0]
        == "shop/a.yaml:3:5: error: it is wrong [Z1-test]"
    )


def test_faults_are_counted_by_severity() -> None:
    """One of each, two of one, none."""
    rows = [
        fault("", 1, 1),
        fault("", 2, 1),
        fault("", 3, 1, Severity.WARNING),
        fault("", 4, 1, Severity.NOTE),
    ]
    assert counted(rows) == "2 errors, 1 warning and 1 note"
    assert counted([]) == "no faults"
    assert plain(all_lines(rows), 80).splitlines()[-1] == "2 errors, 1 warning and 1 note"
