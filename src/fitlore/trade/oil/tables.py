"""What the tables of engine oils and gear oils look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow


def _band(row: TableRow) -> str:
    """A hot grade is a band of viscosity."""
    open_ended = "most" not in row.numbers
    return "" if open_ended or row.number("most") > row.number("least") else "the band is upside down"


SECTIONS: Final[Mapping[str, Section]] = {
    "engine-oil-winter": Section(
        family="engine-oil",
        key=("grade",),
        numbers={"crank-at": "degC", "crank": "mPa.s", "pump-at": "degC", "pump": "mPa.s", "least": "mm2/s"},
        words={"grade": ()},
        implausible=lambda row: "" if row.number("pump-at") < row.number("crank-at") else "pumped warmer",
    ),
    "engine-oil-hot": Section(
        family="engine-oil",
        key=("grade",),
        numbers={"least": "mm2/s", "most": "mm2/s", "shear": "mPa.s"},
        words={"grade": ()},
        implausible=_band,
    ),
    "engine-oil-service": Section(
        family="engine-oil",
        key=("class",),
        numbers={"rank": "1", "until": "year"},
        words={"class": (), "series": ("S", "C"), "alone": ("yes",)},
        optional=frozenset({"until", "alone"}),
    ),
    "engine-oil-phosphorus": Section(
        family="engine-oil", key=("class",), numbers={"most": "%", "up-to": "1"}, words={"class": ()}
    ),
    "gear-oil-winter": Section(
        family="gear-oil",
        key=("grade",),
        numbers={"flows-at": "degC", "least": "mm2/s"},
        words={"grade": ()},
    ),
    "gear-oil-hot": Section(
        family="gear-oil",
        key=("grade",),
        numbers={"least": "mm2/s", "most": "mm2/s"},
        words={"grade": ()},
        optional=frozenset({"most"}),
        implausible=_band,
    ),
    "gear-oil-old-hot": Section(
        family="gear-oil",
        key=("grade",),
        numbers={"least": "mm2/s", "most": "mm2/s"},
        words={"grade": ()},
        implausible=_band,
    ),
    "gear-oil-service": Section(
        family="gear-oil",
        key=("class",),
        numbers={"rank": "1"},
        words={"class": (), "for": (), "yellow-metal": ("safe", "doubted")},
    ),
}
"""Section name to its shape.

`alone` marks a class that no later one stands in for. `least` and `most` are mm2/s at 100 degrees;
the most itself is outside of the band.
"""
