"""What the tables of lambda probes look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section

WORKS: Final = ("zirconia", "titania", "wide band")

SECTIONS: Final[Mapping[str, Section]] = {
    "probe-kind": Section(
        family="lambda-probe",
        key=("works",),
        words={"works": WORKS, "signal": (), "tell": ()},
    ),
    "probe-wires": Section(
        family="lambda-probe",
        key=("works", "wires"),
        numbers={"wires": "1"},
        words={"works": WORKS, "heated": ("yes", "no")},
    ),
    "probe-thread": Section(
        family="lambda-probe", key=("works", "thread"), words={"works": WORKS, "thread": ()}
    ),
    "probe-heater": Section(
        family="lambda-probe",
        key=("works",),
        numbers={"least": "ohm", "most": "ohm"},
        words={"works": WORKS},
        implausible=lambda row: "" if row.number("least") < row.number("most") else "upside down",
    ),
}
"""Section name to its shape."""
