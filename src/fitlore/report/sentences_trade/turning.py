"""Sentences on bearings, seals, rings, belts."""

from __future__ import annotations

from typing import Final

TURNING: Final[dict[str, str]] = {}
