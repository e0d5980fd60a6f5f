"""Sentences on fluids, hoses, spark plugs, probes, struts and thermostats."""

from __future__ import annotations

from typing import Final

FLUID: Final[dict[str, str]] = {}
