"""The families of fluids, over all built-in tables."""

from __future__ import annotations

from tests.trade.families import FOLDER, PROBLEMS, STANDARDS, ask, codes, kinds_of, normal, refused, said

__all__ = ["FLUIDS", "FOLDER", "MINE", "PROBLEMS", "STANDARDS", "ask", "codes", "normal", "refused", "said"]

FLUIDS = ("brake_fluid", "oil", "coolant")
MINE = kinds_of(FLUIDS)
