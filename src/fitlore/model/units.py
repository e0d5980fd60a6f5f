"""Units as workshops write them, with exact factors to one base unit per dimension.

Factors are definitions: the inch is 25.4 mm and the pound 0.45359237 kg (international yard and pound agreement, 1959),
standard gravity is 9.80665 m/s2 (3rd CGPM, 1901). They are checked in the tests against a units library.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Final, NamedTuple


class Unit(NamedTuple):
    """value in the base unit = written value * factor + offset."""

    base: str
    factor: Decimal
    offset: Decimal = Decimal(0)


_LBF = Decimal("4.4482216152605")
_INCH = Decimal("25.4")
_PSI = _LBF / (_INCH * _INCH) * 10
"""One pound-force per square inch in bar."""

_TABLE: Final[dict[str, dict[str, str | Decimal]]] = {
    "1": {
        "": "1",
        "teeth": "1",
        "ribs": "1",
        "off": "1",
        "pins": "1",
        "wires": "1",
        "turns": "1",
        "splines": "1",
    },
    "mm": {
        "mm": "1",
        "cm": "10",
        "m": "1000",
        "um": "0.001",
        "µm": "0.001",
        "in": _INCH,
        '"': _INCH,
        "inch": _INCH,
        "[in_i]": _INCH,
        "thou": "0.0254",
        "ft": "304.8",
        "km": "1000000",
    },
    "A": {"A": "1", "mA": "0.001"},
    "Ah": {"Ah": "1", "A.h": "1"},
    "V": {"V": "1", "mV": "0.001"},
    "W": {"W": "1", "kW": "1000"},
    "ohm": {"ohm": "1", "Ohm": "1", "kohm": "1000", "Ω": "1", "kΩ": "1000"},
    "N": {"N": "1", "kN": "1000", "lbf": _LBF, "kgf": "9.80665"},
    "N.m": {"N.m": "1", "Nm": "1", "lbf.ft": _LBF * Decimal("0.3048"), "lbf.in": _LBF * Decimal("0.0254")},
    "bar": {"bar": "1", "kPa": "0.01", "MPa": "10", "psi": _PSI, "[psi]": _PSI, "lbf/in2": _PSI},
    "g": {"g": "1", "kg": "1000", "lb": "453.59237", "oz": "28.349523125"},
    "l": {"l": "1", "L": "1", "ml": "0.001", "cc": "0.001", "cm3": "0.001"},
    "min": {"min": "1", "h": "60"},
    "deg": {"deg": "1", "°": "1", "degrees": "1"},
    "%": {"%": "1"},
    "degC": {"degC": "1", "°C": "1", "C": "1", "Cel": "1"},
    "mm2": {"mm2": "1", "mm²": "1", "cm2": "100"},
    "cd": {"cd": "1"},
    "lm": {"lm": "1"},
    "Hz": {"Hz": "1"},
    "1/min": {"rpm": "1", "1/min": "1"},
    "tpi": {"tpi": "1"},
    "N/mm": {"N/mm": "1"},
}

UNITS: Final[dict[str, Unit]] = {
    symbol: Unit(base, Decimal(factor))
    for base, symbols in _TABLE.items()
    for symbol, factor in symbols.items()
}
UNITS["degF"] = UNITS["°F"] = UNITS["[degF]"] = Unit("degC", Decimal(5) / 9, Decimal(-160) / 9)
