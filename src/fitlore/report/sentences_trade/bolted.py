"""Sentences on fasteners, spanners, wheel fixings, pipe unions."""

from __future__ import annotations

from typing import Final

BOLTED: Final[dict[str, str]] = {}
