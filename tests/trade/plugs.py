"""The families of plugs, struts and fuel hoses, over all built-in tables."""

from __future__ import annotations

from tests.trade.families import (
    FOLDER,
    PLUGS,
    PROBLEMS,
    STANDARDS,
    ask,
    codes,
    kinds_of,
    normal,
    refused,
    said,
)

__all__ = ["FOLDER", "MINE", "PLUGS", "PROBLEMS", "STANDARDS", "ask", "codes", "normal", "refused", "said"]

MINE = kinds_of(PLUGS)
