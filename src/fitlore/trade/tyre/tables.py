"""What the tables of tyres look like."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from fitlore.trade.table import Section, TableRow

_STEP: Final = Decimal("0.03")
"""How far a printed load may be off the geometric step, as a share of it: the standard rounds by up to 2.5 %."""


def _load(row: TableRow) -> str:
    """Eighty steps of the index make ten times the load, 450 kg at 80."""
    by_step = 450 * 10 ** ((float(row.number("index")) - 80) / 80)
    return (
        "" if abs(float(row.number("kg")) / by_step - 1) < _STEP else "the load is not near that of its step"
    )


def _rim_code(row: TableRow) -> str:
    """The diameter is the code times 25.4 mm, to the nearest mm."""
    exact = row.number("code") * Decimal("25.4")
    return (
        ""
        if abs(exact - row.number("diameter")) <= Decimal("0.5")
        else "the diameter is not the code in inches"
    )


def _sized(row: TableRow) -> str:
    """A tyre stands between seven tenths and a whole of its width high over the rim, and no width is far from its rim."""
    rim = Decimal(row.word("size").replace("-", " ").split()[-1]) * Decimal("25.4")
    share = (row.number("outside") - rim) / 2 / row.number("section")
    return "" if Decimal("0.7") < share < Decimal("1.02") else "the height is no usual share of the width"


def _rims(row: TableRow) -> str:
    """The measuring rim lies between the narrowest and the widest."""
    rims = [row.numbers.get(column) for column in ("least", "measuring", "widest")]
    sound = None in rims or rims == sorted(rims, key=lambda rim: rim or Decimal(0))
    return "" if sound else "the rims are not in order"


_LISTED: Final[Mapping[str, str]] = {"outside": "mm", "section": "mm", "rim": "in"}
SECTIONS: Final[Mapping[str, Section]] = {
    "load-index": Section("tyre", ("index",), {"index": "1", "kg": "kg"}, implausible=_load),
    "speed-symbol": Section(
        family="tyre",
        key=("symbol", "in"),
        numbers={"kmh": "km/h"},
        words={"symbol": (), "in": ("service", "size"), "means": ("most", "above")},
        optional=frozenset({"means"}),
    ),
    "rim-code": Section("tyre", ("code",), {"code": "in", "diameter": "mm"}, implausible=_rim_code),
    "millimetre-rim": Section("tyre", ("diameter",), {"diameter": "mm"}),
    "no-profile-tyre": Section("tyre", ("size",), _LISTED, {"size": ()}, implausible=_sized),
    "cross-ply-tyre": Section(
        family="tyre",
        key=("size",),
        numbers={**_LISTED, "seen": "mm"},
        words={"size": (), "metric": ()},
        optional=frozenset({"seen", "metric"}),
        implausible=_sized,
    ),
    "cross-ply-swap": Section("tyre", ("cross-ply", "radial"), words={"cross-ply": (), "radial": ()}),
    "rim-for-section": Section(
        family="tyre",
        key=("rim",),
        numbers={"rim": "in", "least": "mm", "best": "mm", "most": "mm"},
        optional=frozenset({"best"}),
    ),
    "metric-tyre": Section(
        family="tyre",
        key=("size",),
        numbers={"least": "in", "measuring": "in", "widest": "in"},
        words={"size": ()},
        optional=frozenset({"least", "measuring", "widest"}),
        implausible=_rims,
    ),
    "millimetre-tyre": Section("tyre", ("size",), words={"size": ()}),
}
"""Section name to its shape."""
