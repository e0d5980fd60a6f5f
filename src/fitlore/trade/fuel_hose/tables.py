"""What the tables of fuel hoses look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow

DUTIES: Final = ("carburettor", "injection", "in the tank", "vent")


def _falls(row: TableRow) -> str:
    """The wider a hose of one make-up, the less pressure it stands."""
    return (
        "" if row.number("wide") <= row.number("narrow") else "a wide hose that stands more than a narrow one"
    )


SECTIONS: Final[Mapping[str, Section]] = {
    "fuel-hose-type": Section(
        family="fuel-hose",
        key=("type",),
        words={"type": (), "duty": (*DUTIES, "unsaid"), "tight": ("yes", "no", "unsaid"), "title": ()},
    ),
    "fuel-hose-pressure": Section(
        family="fuel-hose",
        key=("type",),
        numbers={"narrow": "bar", "wide": "bar", "to": "mm"},
        words={"type": ()},
        implausible=_falls,
    ),
}
"""Section name to its shape. `narrow` is the working pressure up to the bore `to`, `wide` that of wider ones."""
