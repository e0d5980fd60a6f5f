"""In which order the keys of a record are written: that of its Struct, but for what people write otherwise."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from typing import Final

from fitlore.books.schema import KINDS, fields
from fitlore.model.category import Category, Feature
from fitlore.model.job import Finding
from fitlore.model.part import Evidence
from fitlore.model.platform import Car, Place
from fitlore.model.record import Rec
from fitlore.model.supply import Offer

_BEHIND: Final[dict[type[Rec], tuple[tuple[str, ...], ...]]] = {
    Car: (("name", "country"),),
    Category: (("renew", "used", "renew-with", "shares", "inspect"),),
    Evidence: (("on-car", "lasted"),),
    Feature: (("kind", "choices", "rule", "tolerance", "end", "role"),),
    Finding: (("only-these-routes", "routes"),),
    Offer: (
        ("whole-car", "side", "price", "scrap-back", "state"),
        ("stock", "minutes", "works", "days", "brings"),
        ("made", "said", "note", "seen", "until", "earlier"),
    ),
    Place: (("is", "quantity", "sides", "original"),),
}
"""Keys that people write one right behind the other, where the Struct has them in another order (common practice)."""


@cache
def ranks(cls: type[Rec]) -> dict[str, int]:
    """The places of a Struct's keys: in its order but for what people write otherwise, the kind key first."""
    keys = sorted((field.key for field in fields(cls)), key=lambda key: KINDS.get(key) is not cls)
    for row in _BEHIND.get(cls, ()):
        for before, key in pairwise(row):
            keys.remove(key)
            keys.insert(keys.index(before) + 1, key)
    return {key: place for place, key in enumerate(keys)}
