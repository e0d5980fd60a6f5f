"""What the tables of relays and flashers look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section

CONTACTS: Final = ("make", "break", "changeover", "double make")
SECTIONS: Final[Mapping[str, Section]] = {
    "relay-contacts": Section(
        "relay", ("contact",), words={"contact": CONTACTS, "terminals": (), "middle": ()}
    ),
    "relay-layouts": Section("relay", ("layout",), words={"layout": ("A", "B"), "tells": ()}),
    "relay-sizes": Section(
        "relay", ("size",), {"coil-blade": "mm", "contact-blade": "mm"}, {"size": ("mini", "micro")}
    ),
    "flasher-works": Section(
        "flasher", ("works",), words={"works": ("hot wire", "electronic"), "load": ("counts", "at most")}
    ),
}
"""Section name to its shape."""
