"""Parts, and the claims that one part does another part's job."""

from __future__ import annotations

from fitlore.model.category import Law, Work
from fitlore.model.choices import Goes, How, Reason, SafetyClass, Side
from fitlore.model.dates import Period
from fitlore.model.platform import Condition, Contained
from fitlore.model.record import Name, Number, PlacePath, Rec


class Companion(Rec, frozen=True, kw_only=True):
    """A place that must change together with this one, and what may go there (any one of the numbers)."""

    at: PlacePath
    use: tuple[Number, ...]
    quantity: int = 1
    why: str = ""


class Replacement(Rec, frozen=True, kw_only=True):
    """The maker's newer number for a part, and why; it runs one way unless the reason is `identical`."""

    number: Number
    reason: Reason
    with_: tuple[Companion, ...] = ()
    work: Work | None = None
    waives: tuple[str, ...] = ()
    """Features in which the newer part differs and that its companions or the stated work take care of."""


class Never(Rec, frozen=True, kw_only=True):
    """A part that must not be on the car together with this one."""

    use: tuple[Number, ...]
    at: PlacePath | None = None
    why: str = ""


class TakenFrom(Rec, frozen=True, kw_only=True):
    """A donor that a part without a number comes off."""

    from_: Name
    """The donor's platform."""
    at: PlacePath
    built: Period | None = None
    marks: str = ""
    photo: str = ""
    """Where a picture of it is: a file's path or a word for the place."""


class Measured(Rec, frozen=True, kw_only=True):
    """A feature measured on one specimen, with how sure the measurement is."""

    value: str
    how: How = How.MEASURED
    by: str = ""
    date: Period | None = None
    error: str = ""
    note: str = ""


class Part(Rec, frozen=True, kw_only=True):
    """Something with a maker and a number, or taken from a described donor."""

    part: Number
    maker: str = ""
    issued_by: str = ""
    """Who gave the number, where it is not the maker."""
    is_: Name
    name: str = ""
    safety: SafetyClass | None = None
    """Where this part is stricter than its category."""
    side: Side | None = None
    features: dict[str, tuple[str, ...]] = {}
    """Nominal values. Several values: suits each of these."""
    measured: dict[str, Measured] = {}
    replaced_by: tuple[Replacement, ...] = ()
    contains: tuple[Contained, ...] = ()
    taken_from: TakenFrom | None = None
    same_as: tuple[Number, ...] = ()
    """Numbers of other issuers that are this very part."""
    note: str = ""

    @property
    def issuer(self) -> str:
        """Who gave the number."""
        return self.issued_by or self.maker


class Evidence(Rec, frozen=True, kw_only=True):
    """How somebody knows. Pieces that share a `source` are one piece."""

    how: How
    by: str = ""
    source: str = ""
    date: Period | None = None
    lasted: str = ""
    on_car: str = ""
    tried_on: str = ""
    from_: str = ""
    """The supplier whose version it was; the finding then counts for that supplier's offers."""
    batch: str = ""
    """The batch it was of, as stamped or printed; the finding then counts for that batch."""
    photo: str = ""
    note: str = ""


class CrossFit(Rec, frozen=True, kw_only=True):
    """A claim: this part does that part's job, there, only if these facts hold, with these extras and this work."""

    crossfit: Name
    instead_of: Number | None = None
    at: PlacePath | None = None
    """`platform/assembly/place`: a claim for a place rather than for a part."""
    use: Number
    goes: Goes = Goes.ONE_WAY
    reaches: tuple[Name, ...] = ()
    """Where the claim was made; absent: wherever the first part goes, and then it needs dimension evidence."""
    only_if: Condition = {}
    donor_only_if: Condition = {}
    """What the car must be that the part is taken from."""
    changed_at: Condition = {}
    """A known change point: outside it the answer is no."""
    changed_because: str = ""
    seen_on: Condition = {}
    with_: tuple[Companion, ...] = ()
    keep: tuple[str, ...] = ()
    never_with: tuple[Never, ...] = ()
    extras: tuple[Contained, ...] = ()
    work: Work | None = None
    waives: tuple[str, ...] = ()
    why: str = ""
    tell_buyer: str = ""
    law: tuple[Law, ...] = ()
    evidence: tuple[Evidence, ...] = ()
    against: tuple[Evidence, ...] = ()


class Quality(Rec, frozen=True, kw_only=True):
    """A doubt about somebody's version of a part: a supplier's, a maker's, a batch. A receipt that failed is kept so."""

    quality: Name
    number: Number
    maker: str = ""
    from_: Name | None = None
    """The supplier whose version it is."""
    batch: str = ""
    fault: str
    evidence: tuple[Evidence, ...]
    against: tuple[Evidence, ...] = ()
    """Who found it sound all the same."""
    note: str = ""


__all__ = [
    "Companion",
    "CrossFit",
    "Evidence",
    "Law",
    "Measured",
    "Never",
    "Part",
    "Quality",
    "Replacement",
    "TakenFrom",
]
