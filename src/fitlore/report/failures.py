"""A failure for programs: one object of one shape, whatever went wrong."""

from __future__ import annotations

from collections.abc import Sequence

from fitlore.model.diagnostic import Diagnostic
from fitlore.report.machine import Json, diagnostic_json


def error_json(code: str, said: str, faults: Sequence[Diagnostic] = (), file: str = "") -> Json:
    """`{"error": {...}}`: the first fault of a file where there is one (its code goes before `code`), else the words.

    What is not known is null; `further` are the other faults, as `check` gives them.
    """
    if not faults:
        place = {"file": file or None, "line": None, "column": None}
        return {
            "error": {"code": code, "message": said, **place, "expected": None, "remedy": None, "further": []}
        }
    first, *others = faults
    origin = first.origin
    return {
        "error": {
            "code": first.code,
            "message": first.message,
            "file": origin.book or None,
            "line": origin.line or None,
            "column": origin.column or None,
            "expected": first.expected or None,
            "remedy": first.remedy or None,
            "further": [diagnostic_json(one) for one in others],
        }
    }
