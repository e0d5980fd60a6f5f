"""Price lists of suppliers: read as tables, matched with the parts of the books, and taken into the supplier's book."""

from __future__ import annotations

from fitlore.upkeep.pricelist.draft import Draft, Taken, drafted
from fitlore.upkeep.pricelist.layout import asked_first
from fitlore.upkeep.pricelist.taking import Written, written

__all__ = ["Draft", "Taken", "Written", "asked_first", "drafted", "written"]
