"""The books in the hands of a general-purpose RDF library, for notebooks and questions nobody foresaw."""

from __future__ import annotations

from fitlore.upkeep.shapes import dataset

__all__ = ["dataset"]
