"""Copper by formula: gauge to diameter and back, strands to area, resistance, volts lost, the area a loss allows."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Final

RESISTIVITY: Final = Decimal("17.241")
"""IEC 60028: resistivity of annealed copper at 20 degrees C, in mohm mm2/m (1/58 ohm mm2/m)."""
PER_DEGREE: Final = Decimal("0.00393")
"""IEC 60028: share by which it rises with each degree C from 20 on."""
_QUARTER_PI: Final = Decimal("0.785398163397")
_LAST: Final = 36
_STEPS: Final = 39
_RATIO: Final = 92
_LEAST: Final = 0.127
"""ASTM B258: AWG 36 is 0.005 in (in mm here); 39 steps lead to 0000, which is 92 times as thick."""


def awg_diameter(gauge: int) -> Decimal:
    """The diameter of a solid wire in mm; gauge 0000 is -3, 00 is -1 (ASTM B258)."""
    return Decimal(str(_LEAST * _RATIO ** ((_LAST - gauge) / _STEPS)))


def awg_gauge(diameter: Decimal) -> float:
    """The gauge of a solid wire of this diameter in mm, with its fraction (ASTM B258, the other way round)."""
    return _LAST - _STEPS * math.log(float(diameter) / _LEAST) / math.log(_RATIO)


def awg_area(gauge: int) -> Decimal:
    """The cross-section of a gauge in mm2."""
    return strand_area(1, awg_diameter(gauge))


def strand_area(strands: int, strand: Decimal) -> Decimal:
    """The copper of so many strands of this diameter in mm, in mm2."""
    return strands * _QUARTER_PI * strand * strand


def resistance(area: Decimal, degrees: Decimal = Decimal(20)) -> Decimal:
    """Of a metre of copper of this area in mm2, in mohm, at a temperature in degrees C (IEC 60028)."""
    return RESISTIVITY / area * (1 + PER_DEGREE * (degrees - 20))


def volts_lost(amps: Decimal, metres: Decimal, area: Decimal, degrees: Decimal = Decimal(20)) -> Decimal:
    """Volts lost along a cable of this length and area in mm2; there and back where both are of it, give both lengths."""
    return amps * metres * resistance(area, degrees) / 1000


def area_for(amps: Decimal, metres: Decimal, volts: Decimal, degrees: Decimal = Decimal(20)) -> Decimal:
    """The least area in mm2 that loses no more than these volts: `volts_lost` the other way round."""
    return amps * metres * resistance(Decimal(1), degrees) / 1000 / volts
