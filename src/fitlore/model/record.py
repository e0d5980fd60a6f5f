"""What all records share: their field names as people write them, and where they were written."""

from __future__ import annotations

from typing import NewType

import msgspec

from fitlore.model.origin import Origin

Name = NewType("Name", str)
"""A name this shelf gives: lower-case words joined by hyphens (`rear-brakes`, `tarn-corva`)."""
Number = NewType("Number", str)
"""A part number as written, by itself (`TC 941 377`) or with its issuer's name in front (`Tarn TC 941 377`)."""
PlacePath = NewType("PlacePath", str)
"""`assembly/place`, with `@left`, `@right` or `@2` for a side, and with `platform/` in front where no car is meant."""
PlaceOrAssembly = NewType("PlaceOrAssembly", str)
"""`assembly/place` (with or without a side), or `assembly` alone."""
Currency = NewType("Currency", str)
"""A currency's code (ISO 4217): `GBP`."""
Clock = NewType("Clock", str)
"""A time of day, as `16:00`."""
Look = NewType("Look", str)
"""How a part number looks: capitals and figures as they stand; `n` for any figure, `a` for any letter, `x` for either."""

NOWHERE = Origin("", 0, 0)
"""The origin of a record that no book holds (made by a test or a what-if)."""

_AS_WRITTEN = {
    "is_": "is",
    "from_": "from",
    "with_": "with",
    "not_": "not",
    "else_": "else",
    "any_": "any",
    "for_": "for",
    "return_": "return",
    "origin": "@origin",
}


def as_written(field: str) -> str:
    """The key of a field in a book: `only_if` is written `only-if`, `is_` is written `is`."""
    return _AS_WRITTEN.get(field) or field.replace("_", "-")


class Rec(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True, rename=as_written):
    """A record, or a part of one that can be cited."""

    origin: Origin = NOWHERE
