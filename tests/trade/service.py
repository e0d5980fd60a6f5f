"""The families of service parts, over all built-in tables."""

from __future__ import annotations

from tests.trade.families import (
    FOLDER,
    PROBLEMS,
    SERVICE,
    STANDARDS,
    ask,
    codes,
    kinds_of,
    normal,
    refused,
    said,
)

__all__ = ["FOLDER", "MINE", "PROBLEMS", "SERVICE", "STANDARDS", "ask", "codes", "normal", "refused", "said"]

MINE = kinds_of(SERVICE)
