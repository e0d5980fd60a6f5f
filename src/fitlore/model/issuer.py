"""Issuers of part numbers, and how their numbers are to be read."""

from __future__ import annotations

from fitlore.model.choices import Ignored, Meaning, Side
from fitlore.model.record import Look, Name, Rec


class Affix(Rec, frozen=True, kw_only=True):
    """Signs before or behind an issuer's numbers, and what they say."""

    signs: tuple[Look, ...]
    """As they stand, or `a` for any letter, `n` for any figure, `x` for either."""
    means: Meaning
    side: Side | None = None
    only_for: tuple[Name, ...] = ()
    """Categories; absent: all of them."""
    counts: bool | None = None
    """Whether a number with it is another part than one without. Absent: a colour does not count, all others do."""
    note: str = ""

    @property
    def significant(self) -> bool:
        """Whether it tells one part from another."""
        return self.means is not Meaning.COLOUR if self.counts is None else self.counts


class SideDigit(Rec, frozen=True, kw_only=True):
    """Numbers whose last figure tells the side by being odd or even."""

    odd: Side
    even: Side
    only_for: tuple[Name, ...] = ()
    note: str = ""


class Mark(Rec, frozen=True, kw_only=True):
    """Something cast or stamped on this issuer's parts that is no part number: a casting's, a mould's, a date."""

    mark: str
    says: str
    only_for: tuple[Name, ...] = ()


class Issuer(Rec, frozen=True, kw_only=True):
    """Who gives numbers, and how they are to be read. All signs count but those it says do not."""

    issuer: str
    looks_like: tuple[Look, ...] = ()
    """What its numbers look like: `nnn nnn a`."""
    ignores: tuple[Ignored, ...] = ()
    prefixes: tuple[Affix, ...] = ()
    suffixes: tuple[Affix, ...] = ()
    side_digit: SideDigit | None = None
    no_numbers: tuple[Mark, ...] = ()
    source: str = ""
    note: str = ""
