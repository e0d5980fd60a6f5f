"""What every row of a standard's table carries, and how the text of one is turned into values."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from enum import Enum
from typing import Final

import msgspec

from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.late import Late
from fitlore.model.origin import Origin

_NUMBER: Final = Late(r"[0-9]{1,6}(?:\.[0-9]{1,8})?")
_SIGNED: Final = Late(r"[-+]?[0-9]{1,7}(?:\.[0-9]{1,8})?")
COMMON: Final = frozenset({"source", "certainty", "use"})
"""Keys that every row may have."""


class Certainty(Enum):
    """How sure a row is: seen in a public source, worked out by a formula, or recalled and not looked up again."""

    PUBLISHED = "published"
    COMPUTED = "computed"
    MEMORY = "memory"


class Row(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A row of a standard's table, with the place where it is written: the proof of every figure taken from it."""

    origin: Origin
    source: str
    certainty: Certainty


class BadRow(Exception):
    """A row that cannot be used; carries what is wrong, what was expected and what to do. Never leaves this room."""

    def __init__(self, code: str, message: str, expected: str, remedy: str) -> None:
        super().__init__(message)
        self.code, self.message, self.expected, self.remedy = code, message, expected, remedy

    def at(self, origin: Origin) -> Diagnostic:
        """The same as a value that rides with the records."""
        return Diagnostic(self.code, Severity.ERROR, origin, self.message, self.expected, self.remedy)


def check_keys(row: Mapping[str, str], needed: frozenset[str]) -> None:
    """Raise `BadRow` where a needed key is missing or a key is not known."""
    missing = sorted((needed | {"source", "certainty"}) - row.keys())
    if missing:
        raise BadRow("table-key-missing", f"no {missing[0]}", ", ".join(missing), "add it to the row")
    unknown = sorted(row.keys() - needed - COMMON)
    if unknown:
        known = ", ".join(sorted(needed | COMMON))
        raise BadRow("table-key-unknown", f"unknown key {unknown[0]}", known, "remove or rename it")


def number(row: Mapping[str, str], key: str) -> Decimal:
    """A positive plain decimal number of the row; `BadRow` for anything else."""
    text = row[key].strip()
    value = Decimal(text) if _NUMBER.fullmatch(text) else Decimal(0)
    if not value:
        raise BadRow(
            "table-number",
            f"{key}: {text!r} is no number",
            "a number such as 1.25",
            "write digits and a point",
        )
    return value


def signed(row: Mapping[str, str], key: str) -> Decimal:
    """A plain decimal number of the row, with or without a sign; `BadRow` for anything else."""
    text = row[key].strip()
    if not _SIGNED.fullmatch(text):
        raise BadRow(
            "table-number",
            f"{key}: {text!r} is no number",
            "a number such as 1.25 or -40",
            "write digits and a point",
        )
    return Decimal(text)


def certainty(row: Mapping[str, str]) -> Certainty:
    """The row's certainty; `BadRow` for a word that is none."""
    words = [c.value for c in Certainty]
    if row["certainty"] not in words:
        raise BadRow(
            "table-certainty", f"certainty: {row['certainty']!r}", ", ".join(words), "use one of these words"
        )
    return Certainty(row["certainty"])
