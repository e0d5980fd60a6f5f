"""Texts into ignition coils: the ohms of the primary, and what stands before or behind it."""

from __future__ import annotations

from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import Words, size, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

EXAMPLES: Final = (
    "coil 3 ohm plain",
    "coil 1.5 ohm ballast",
    "coil 1.5 ohm with 1.5 ohm ballast",
    "coil 0.6 ohm electronic",
)
_NUM: Final = r"\d{1,2}(?:[.,]\d{1,2})?"
_OHM: Final = r"\s?(?:ohms?|Ω)"
_BALLAST_OHMS: Final = words(
    rf"with (?:a )?(?P<n>{_NUM}){_OHM} ballast(?: resistor)?|ballast(?: resistor)? of (?P<after>{_NUM}){_OHM}"
)
_OHMS: Final = words(rf"(?<![\w.,-])(?P<n>{_NUM}){_OHM}(?: primary)?")
_WITHOUT: Final = words(
    r"\b(?:without (?:a )?ballast(?: resistor)?|no ballast|non-?ballast(?:ed)?|unballasted|plain"
    r"|12 V coil)\b"
)
_BALLAST: Final = words(r"\b(?:(?:with|for) (?:a )?)?(?:ballast(?:ed)?(?: resistor)?|[69] V)\b")
_ELECTRONIC: Final = words(r"\b(?:for )?electronic(?: ignition)?\b|\bfor a module\b")
_POINTS: Final = words(r"\b(?:for )?(?:contact breaker )?points\b")
_COIL: Final = words(r"\b(?:ignition )?coil\b")
_FILLING: Final = words(r"\b(?:ignition|primary|12 V|with|for)\b|[,;]")


class Coil(NamedTuple):
    """A coil: ohms of its primary, its kind (`plain`, `ballast`, `electronic`), the ballast's own ohms where said.

    `row` is the row its kind was taken from; None where the text says it.
    """

    name: str
    ohms: Decimal
    kind: str
    ballast: Decimal | None = None
    row: TableRow | None = None


def read(text: str, standards: Standards) -> Coil | Unreadable:
    """The coil a text names. Of which kind it is follows from the ohms where it is not said, and is marked so."""
    said = Words(text)
    if said.too_long:
        return Unreadable(text, "ignition-coil-unknown", expected=EXAMPLES)
    without, ballast_ohms = said.take(_WITHOUT), said.take(_BALLAST_OHMS)
    ohms, ballast, electronic = said.take(_OHMS), said.take(_BALLAST), said.take(_ELECTRONIC)
    while said.take(_BALLAST):
        pass
    said.take(_POINTS)
    coil = said.take(_COIL)
    while said.take(_FILLING):
        pass
    kinds = [
        kind
        for kind, there in (
            ("plain", without),
            ("ballast", ballast or ballast_ohms),
            ("electronic", electronic),
        )
        if there
    ]
    if said.bare() or not ohms or not (coil or kinds):
        return Unreadable(text, "ignition-coil-unknown", expected=EXAMPLES)
    if len(kinds) > 1:
        return Unreadable(text, "ignition-coil-clash", expected=EXAMPLES)
    own = size(ohms["n"])
    row = None if kinds else _kind(own, standards)
    if not kinds and row is None:
        return Unreadable(text, "ignition-coil-kind", expected=EXAMPLES)
    kind = kinds[0] if kinds else row.word("kind") if row else ""
    resistor = size(ballast_ohms["n"] or ballast_ohms["after"]) if ballast_ohms else None
    shown = f"with ballast of {plain(resistor)} ohm" if resistor else kind
    return Coil(f"coil {plain(own)} ohm {shown}", own, kind, resistor, row)


def _kind(ohms: Decimal, standards: Standards) -> TableRow | None:
    """The kind that has such a primary; None between two ranges."""
    rows = standards.table("coil-kinds").rows
    return next((row for row in rows if row.number("low") <= ohms <= row.number("high")), None)
