"""How a strut's force goes with the temperature: by the law of ideal gases at constant volume."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

_ZERO: Final = Decimal("273.15")
"""Nought degrees Celsius in kelvin (definition)."""
_STATED: Final = Decimal(20)
"""The temperature at which forces are stated, in degrees Celsius (common practice)."""
SOURCE: Final = "law of ideal gases, at constant volume"


def force_at(force: Decimal, celsius: Decimal) -> Decimal:
    """The force at a temperature in degrees Celsius of a strut that has `force` at 20, in the same unit."""
    return force * (celsius + _ZERO) / (_STATED + _ZERO)


def force_at_20(force: Decimal, celsius: Decimal) -> Decimal:
    """The force at 20 degrees of a strut that has `force` at a temperature in degrees Celsius."""
    return force * (_STATED + _ZERO) / (celsius + _ZERO)
