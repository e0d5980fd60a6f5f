"""Where water boils under the pressure of a cap (IAPWS-IF97, region 4, equation 31)."""

from __future__ import annotations

from decimal import Decimal
from math import sqrt
from typing import Final

_N: Final = (
    0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
    0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
)  # fmt: skip
AIR: Final = 1.01325
"""The air's pressure at sea level in bar (ISO 2533)."""
MOST: Final = 20.0


def boils_at(absolute: float) -> float:
    """The temperature in degrees Celsius at which water boils under an absolute pressure in bar, from 0.1 to 20."""
    if not 0.1 <= absolute <= MOST:
        raise ValueError(f"{absolute} bar is no pressure of a cooling system")
    beta = sqrt(sqrt(absolute / 10))
    e = beta**2 + _N[2] * beta + _N[5]
    f = _N[0] * beta**2 + _N[3] * beta + _N[6]
    g = _N[1] * beta**2 + _N[4] * beta + _N[7]
    d = 2 * g / (-f - sqrt(f**2 - 4 * e * g))
    kelvin = (_N[9] + d - sqrt((_N[9] + d) ** 2 - 4 * (_N[8] + _N[9] * d))) / 2
    return kelvin - 273.15


def under_cap(gauge: Decimal) -> float:
    """The same under a cap that opens at so many bar over the air's pressure at sea level."""
    return boils_at(float(gauge) + AIR)
