"""What the table of forms of teeth looks like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow

PITCHES: Final = {"Z": Decimal("9.525"), "Y": Decimal(8)}
"""Pitch in mm by the first letter of a form (ISO 21342, and every open table of forms)."""


def _form(row: TableRow) -> str:
    if row.number("pitch") != PITCHES.get(row.word("form")[0]):
        return "the letter says another pitch"
    high = row.numbers.get("height")
    return "" if high is None or high < row.number("pitch") / 2 else "no tooth is as high as that"


SECTIONS: Final[Mapping[str, Section]] = {
    "tooth-form": Section(
        family="toothed-belt",
        key=("form",),
        numbers={"pitch": "mm", "height": "mm"},
        words={
            "form": (),
            "shape": ("straight-flanked", "round", "parabolic", "round-flanked", "curved"),
        },
        optional=frozenset({"height"}),
        implausible=_form,
    ),
}
"""Section name to its shape."""
