"""What the tables of vehicle identification numbers look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section

SECTIONS: Final[Mapping[str, Section]] = {
    "vin-character": Section("vin", ("character",), {"value": "1"}, {"character": ()}),
    "vin-weight": Section("vin", ("position",), {"position": "1", "weight": "1"}),
    "vin-year": Section("vin", ("code",), {"first": "1"}, {"code": ()}),
    "vin-region": Section("vin", ("first",), words={"first": (), "region": (), "checked": ("yes", "no")}),
}
"""Section name to its shape."""
