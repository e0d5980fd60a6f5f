"""Questions in SPARQL that nobody foresaw: read only, within limits of time and rows, over what the books say."""

from __future__ import annotations

from fitlore.upkeep.query.asked import Answered, Limits, Term, asked
from fitlore.upkeep.query.ready import OWN, Ready, ready

__all__ = ["OWN", "Answered", "Limits", "Ready", "Term", "asked", "ready"]
