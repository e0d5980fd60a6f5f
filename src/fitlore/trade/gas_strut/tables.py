"""What the tables of gas struts look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

ENDS: Final = ("ball", "eye", "fork", "stud")


def _thin_neck(row: TableRow) -> str:
    """The thread of a ball stud is thinner than its ball."""
    return "" if row.number("diameter") < row.number("ball") else "a thread thicker than its ball"


SECTIONS: Final[Mapping[str, Section]] = {
    "strut-end": Section(
        family="gas-strut",
        key=("form",),
        words={"form": ENDS, "size": ("hole", "thread"), "tell": ()},
    ),
    "strut-ball": Section(
        family="gas-strut",
        key=("ball", "thread"),
        numbers={"ball": "mm", "diameter": "mm"},
        words={"thread": ()},
        implausible=_thin_neck,
    ),
}
"""Section name to its shape. `size` says what the figure of an end is: a hole (of a socket, for its ball), or a thread."""
