"""What the tables of senders and switches look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

FREE: Final = ("open", "closed")


def _range(row: TableRow) -> str:
    """The two ends are far enough apart to be told."""
    return "" if abs(row.number("low") - row.number("high")) >= 10 else "both ends are alike"


SECTIONS: Final[Mapping[str, Section]] = {
    "sender-ranges": Section("sender", ("low", "high"), {"low": "ohm", "high": "ohm"}, implausible=_range),
    "switch-jobs": Section(
        "switch-contact", ("job",), words={"job": (), "pressed": ("yes", "no"), "free": FREE}
    ),
}
"""Section name to its shape."""
