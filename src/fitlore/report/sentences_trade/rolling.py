"""Sentences on tyres, wheels, vehicle identification and sides."""

from __future__ import annotations

from typing import Final

ROLLING: Final[dict[str, str]] = {}
