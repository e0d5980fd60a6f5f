"""The spellings of units that books may use: which of them are UCUM codes, and what Pint calls each.

UCUM: The Unified Code for Units of Measure, 2.1 (case-sensitive codes). The workshop spellings are common practice.
`python -m tests.model.unit_rows` writes `model/unit_table.py` anew, with exact factors worked out by Pint in fractions.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any, NamedTuple

import fitlore.model

TABLE = Path(fitlore.model.__file__).with_name("unit_table.py")


class Dimension(NamedTuple):
    """A base unit: our symbol, its UCUM code, what Pint calls it; and the spellings of its units by their name in Pint."""

    base: str
    ucum: str
    pint: str
    spellings: dict[str, tuple[tuple[str, ...], tuple[str, ...]]]
    """Name in Pint -> (UCUM codes, workshop spellings)."""


LEFT_OUT = {
    "'": "UCUM: minute of angle; in a workshop a foot",
    "mm[Hg]": "UCUM's mercury column differs from the conventional one, which `mmHg` is, in the sixth figure",
    "rad": "no exact factor to degrees",
}
"""UCUM codes that would fit a dimension and are refused, and why. `\"` is the workshop's inch, not UCUM's second of angle,
and `C` its degree Celsius, not UCUM's coulomb: no feature is an angle in seconds or a charge."""

# fmt: off
DIMENSIONS = (
    Dimension("mm", "mm", "mm", {
        "mm": (("mm",), ()), "cm": (("cm",), ()), "m": (("m",), ()), "km": (("km",), ()),
        "um": (("um",), ("µm", "μm")),
        "inch": (("[in_i]",), ("in", '"', "inch", "″")), "thou": (("[mil_i]",), ("thou",)),
        "foot": (("[ft_i]",), ("ft",)), "yard": (("[yd_i]",), ("yd",)), "mile": (("[mi_i]",), ("mi", "mile", "miles")),
    }),
    Dimension("A", "A", "A", {"A": (("A",), ()), "mA": (("mA",), ()), "kA": (("kA",), ())}),
    Dimension("Ah", "A.h", "A*h", {"A*h": (("A.h",), ("Ah",)), "mA*h": (("mA.h",), ("mAh",))}),
    Dimension("V", "V", "V", {"V": (("V",), ()), "mV": (("mV",), ()), "kV": (("kV",), ())}),
    Dimension("W", "W", "W", {
        "W": (("W",), ()), "mW": (("mW",), ()), "kW": (("kW",), ()),
        "horsepower": (("[HP]",), ("hp", "bhp")), "metric_horsepower": ((), ("PS",)),
    }),
    Dimension("ohm", "Ohm", "ohm", {
        "ohm": (("Ohm",), ("ohm", "\u03a9", "\u2126", "ohms")), "milliohm": (("mOhm",), ("mohm", "m\u03a9", "m\u2126")),
        "kiloohm": (("kOhm",), ("kohm", "k\u03a9", "k\u2126")), "megaohm": (("MOhm",), ("Mohm", "M\u03a9", "M\u2126")),
    }),
    Dimension("N", "N", "N", {
        "N": (("N",), ()), "kN": (("kN",), ()), "force_pound": (("[lbf_av]",), ("lbf",)), "force_kilogram": (("kgf",), ("kp",)),
    }),
    Dimension("N.m", "N.m", "N*m", {
        "N*m": (("N.m",), ("Nm", "N m")), "N*cm": (("N.cm",), ("Ncm",)),
        "force_pound*foot": (("[ft_i].[lbf_av]", "[lbf_av].[ft_i]"),
                             ("lbf.ft", "lbf ft", "lb.ft", "lb ft", "lb-ft", "ft.lbf", "ft lbf", "ft.lb", "ft lb", "ft-lb")),
        "force_pound*inch": (("[in_i].[lbf_av]", "[lbf_av].[in_i]"),
                             ("lbf.in", "lbf in", "lb.in", "lb in", "lb-in", "in.lbf", "in lbf", "in.lb", "in lb", "in-lb")),
        "force_kilogram*m": (("kgf.m",), ("kgf m", "kp.m", "mkp")), "force_kilogram*cm": (("kgf.cm",), ("kgf cm",)),
    }),
    Dimension("bar", "bar", "bar", {
        "bar": (("bar",), ()), "mbar": (("mbar",), ()), "Pa": (("Pa",), ()), "hPa": (("hPa",), ()), "kPa": (("kPa",), ()),
        "MPa": (("MPa",), ()),
        "pound_force_per_square_inch": (("[psi]",), ("psi", "lbf/in2", "lb/in2", "lbf/in²")),
        "force_kilogram/cm^2": (("kgf/cm2", "att"), ("kgf/cm²", "kp/cm2")), "atm": (("atm",), ()),
        "mmHg": ((), ("mmHg",)), "inHg": ((), ("inHg",)),
    }),
    Dimension("g", "g", "g", {
        "g": (("g",), ()), "mg": (("mg",), ()), "kg": (("kg",), ()), "tonne": (("t",), ()),
        "pound": (("[lb_av]",), ("lb", "lbs")),
        "ounce": (("[oz_av]",), ("oz",)),
    }),
    Dimension("l", "l", "l", {
        "l": (("l", "L"), ("litre", "litres")), "dl": (("dl", "dL"), ()), "cl": (("cl", "cL"), ()),
        "ml": (("ml", "mL", "cm3"), ("cc", "cm³", "ccm")),
        "mm^3": (("mm3",), ("mm³",)), "inch^3": (("[cin_i]",), ("cu in", "in3")),
        "imperial_gallon": (("[gal_br]",), ("imp gal",)), "imperial_quart": (("[qt_br]",), ("imp qt",)),
        "imperial_pint": (("[pt_br]",), ("imp pt",)), "imperial_fluid_ounce": (("[foz_br]",), ("imp fl oz",)),
        "gallon": (("[gal_us]",), ("US gal",)), "quart": (("[qt_us]",), ("US qt",)), "pint": (("[pt_us]",), ("US pt",)),
        "fluid_ounce": (("[foz_us]",), ("US fl oz",)),
    }),
    Dimension("min", "min", "min", {
        "min": (("min",), ("minutes",)), "s": (("s",), ()), "ms": (("ms",), ()), "h": (("h",), ("hours",)), "day": (("d",), ()),
    }),
    Dimension("deg", "deg", "degree", {
        "degree": (("deg",), ("°", "degrees")), "arcminute": ((), ("arcmin",)),
    }),
    Dimension("%", "%", "percent", {"percent": (("%",), ())}),
    Dimension("degC", "Cel", "degC", {
        "degC": (("Cel",), ("degC", "°C", "C")), "degF": (("[degF]",), ("degF", "°F")), "kelvin": (("K",), ()),
    }),
    Dimension("mm2", "mm2", "mm^2", {
        "mm^2": (("mm2",), ("mm²",)), "cm^2": (("cm2",), ("cm²",)), "inch^2": (("[sin_i]",), ("sq in", "in2")),
    }),
    Dimension("cd", "cd", "cd", {"cd": (("cd",), ())}),
    Dimension("lm", "lm", "lm", {"lm": (("lm",), ())}),
    Dimension("Hz", "Hz", "Hz", {"Hz": (("Hz",), ()), "kHz": (("kHz",), ()), "MHz": (("MHz",), ())}),
    Dimension("1/min", "/min", "1/min", {
        "1/min": (("/min", "1/min", "min-1"), ("rpm", "rev/min", "r/min")), "1/s": (("/s", "1/s", "s-1"), ()),
    }),
    Dimension("tpi", "/[in_i]", "1/inch", {"1/inch": (("/[in_i]", "1/[in_i]", "[in_i]-1"), ("tpi", "TPI"))}),
    Dimension("N/mm", "N/mm", "N/mm", {
        "N/mm": (("N/mm", "N.mm-1"), ()), "N/m": (("N/m",), ()), "kN/m": (("kN/m",), ()),
        "force_pound/inch": (("[lbf_av]/[in_i]",), ("lbf/in", "lb/in")),
        "force_kilogram/mm": (("kgf/mm",), ()), "force_kilogram/cm": (("kgf/cm",), ()),
    }),
)
COUNTED = ("", "teeth", "ribs", "off", "pins", "wires", "turns", "splines")
# fmt: on
"""What is counted and has no unit (UCUM: 1)."""


class Row(NamedTuple):
    """One spelling: value in the base unit = written value * up / down + plus_up / plus_down."""

    spelling: str
    base: str
    factor: Fraction
    offset: Fraction
    ucum: bool
    pint: str


def rows(registry: Any) -> list[Row]:
    """Every spelling but those of counts, with its exact factor. The registry must reckon in fractions."""
    found = []
    for dimension in DIMENSIONS:
        for name, (codes, others) in dimension.spellings.items():
            offset = registry.Quantity(Fraction(0), name).to(dimension.pint).magnitude
            factor = registry.Quantity(Fraction(1), name).to(dimension.pint).magnitude - offset
            for spelling in (*codes, *others):
                found.append(Row(spelling, dimension.base, factor, offset, spelling in codes, name))
    return found


def table_text() -> str:
    """The committed `model/unit_table.py`."""
    import pint

    lines = [
        '"""Generated by `python -m tests.model.unit_rows` with Pint in exact fractions; do not edit.',
        "",
        "Spellings of units (UCUM 2.1 codes first, then those of workshops) with their base unit and exact factors.",
        '"""',
        "",
        "from typing import Final",
        "",
        "UCUM: Final[dict[str, str]] = {",
        '    "1": "1",',
        *(f"    {_quoted(one.base)}: {_quoted(one.ucum)}," for one in DIMENSIONS),
        "}",
        '"""The UCUM code of each base unit."""',
        "",
        "COUNTED: Final = (" + ", ".join(map(_quoted, COUNTED)) + ")",
        '"""What is counted; its base unit is `1`."""',
        "",
        "ROWS: Final[tuple[tuple[str, str, int, int, int, int], ...]] = (",
    ]
    for row in rows(pint.UnitRegistry(non_int_type=Fraction)):
        (up, down), (more, less) = row.factor.as_integer_ratio(), row.offset.as_integer_ratio()
        lines.append(f"    ({_quoted(row.spelling)}, {_quoted(row.base)}, {up}, {down}, {more}, {less}),")
    lines += [
        ")",
        '"""Spelling, base unit, and the factor and offset to it as two whole numbers each: value * a / b + c / d."""',
        "",
    ]
    return "\n".join(lines)


def _quoted(text: str) -> str:
    return f"'{text}'" if '"' in text else f'"{text}"'


if __name__ == "__main__":
    TABLE.write_text(table_text(), "utf-8")
