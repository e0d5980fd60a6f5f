"""What is wrong with a text somebody wrote, as a value that rides with the records; all of them are shown."""

from __future__ import annotations

from enum import Enum

import msgspec

from fitlore.model.origin import Origin


class Severity(Enum):
    """How much it matters: an error keeps a record out, a warning does not, a note is advice."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


class Diagnostic(msgspec.Struct, frozen=True):
    """One fault: its code (a row of the generated error page), place, what is there, what was expected, what to do."""

    code: str
    severity: Severity
    origin: Origin
    message: str
    expected: str
    remedy: str
    excerpt: str = ""
    """The line of the book as it stands, without its end of line; of a very long line the stretch around the fault."""
    width: int = 1
    """How many characters from the column on the fault covers."""
    cut: int = 0
    """How many characters of the line are left out before the excerpt."""
