"""Shelves of a shop: those there are, other people's added after a look, taken away, and how far each is trusted."""

from __future__ import annotations

from fitlore.upkeep.shelves.draft import Draft, NotAShelf, drafted
from fitlore.upkeep.shelves.writing import Done, Listed, add, listed, remove, trust

__all__ = ["Done", "Draft", "Listed", "NotAShelf", "add", "drafted", "listed", "remove", "trust"]
