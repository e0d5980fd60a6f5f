"""Places and offers as the graph hands them out: each with the record it belongs to."""

from __future__ import annotations

from fitlore.model.platform import Place
from fitlore.model.record import Name, Rec
from fitlore.model.supply import Offer


class PlaceOn(Rec, frozen=True, kw_only=True):
    """A place on a platform; its origin is the place's line."""

    on: Name
    """The platform."""
    assembly: Name
    name: Name
    sides: tuple[str, ...] = ()
    called: tuple[str, ...] = ()
    """Other words for the assembly."""
    maker: str = ""
    """The default issuer of numbers at this place."""
    place: Place

    @property
    def path(self) -> str:
        """`assembly/place`."""
        return f"{self.assembly}/{self.name}"

    @property
    def full_path(self) -> str:
        """`platform/assembly/place`."""
        return f"{self.on}/{self.assembly}/{self.name}"


class OfferFrom(Rec, frozen=True, kw_only=True):
    """An offer and who makes it; its origin is the offer's line."""

    supplier: Name
    trade: str
    offer: Offer

    @property
    def id(self) -> str:
        """Stable as long as the line stands: supplier and place in the book."""
        return f"{self.supplier}@{self.origin}"
