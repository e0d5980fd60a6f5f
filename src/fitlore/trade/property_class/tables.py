"""What the tables of property classes look like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section, TableRow


def _bolt(row: TableRow) -> str:
    """Proof below yield below tensile; an ISO class says a hundredth of the tensile strength and their ratio."""
    stresses = [row.numbers[name] for name in ("proof", "yield", "tensile") if name in row.numbers]
    if stresses != sorted(stresses):
        return "proof, yield and tensile are out of order"
    if row.word("system") == "ISO":
        first, second = row.word("class").split(".")
        nominal = 100 * int(first)
        if not 0 <= row.number("tensile") - nominal <= 40:
            return "the class does not say this tensile strength"
        if abs(row.number("yield") - nominal * int(second) // 10) > 60:
            return "the class does not say this yield"
    return ""


SECTIONS: Final[Mapping[str, Section]] = {
    "bolt-class": Section(
        family="property-class",
        key=("class", "over"),
        numbers={
            "over": "mm",
            "up-to": "mm",
            "tensile": "MPa",
            "yield": "MPa",
            "proof": "MPa",
            "hardness-most": "HV",
        },
        words={"class": (), "system": ("ISO", "SAE", "BS", "JIS", "stainless"), "mark": ()},
        optional=frozenset({"yield", "proof", "hardness-most"}),
        implausible=_bolt,
    ),
    "nut-class": Section(
        family="property-class", key=("class",), numbers={"strips-at": "MPa"}, words={"class": (), "bolt": ()}
    ),
}
"""Section name to its shape."""
