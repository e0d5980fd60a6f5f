"""Where another shelf says otherwise than the knowledge there is: names, numbers, claims, and kinds of part made looser."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

import msgspec

from fitlore.books.faults import fault
from fitlore.books.reading import identity
from fitlore.fitting.interface import interface_of
from fitlore.fitting.shape import Interface
from fitlore.graph.derive import citable, kind_of, name_of
from fitlore.model.category import Category
from fitlore.model.choices import SafetyClass
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import OfferFrom
from fitlore.model.policy import Policy
from fitlore.model.record import Rec
from fitlore.upkeep.addition import NewClaim
from fitlore.upkeep.knowing import Known, named, said
from fitlore.upkeep.objecting import as_noted
from fitlore.upkeep.on_claims import unopposed
from fitlore.upkeep.placing import bare

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

_PIECE = 400
"""Names that are looked up at one go."""


def conflicts(
    now: Graph, then: Graph, shelf: str, records: Sequence[Rec], today: date
) -> tuple[Diagnostic, ...]:
    """Everything that is to be said of a shelf's records against the knowledge `now`; `then` is the knowledge with them.

    What is dangerous is an error. Sorted by where it stands on the shelf.
    """
    every = [one for one in citable(records) if not isinstance(one, OfferFrom | Policy)]
    found = [
        *_same_names(now, [one for one in every if not isinstance(one, Part)]),
        *_same_numbers(now, [one for one in every if isinstance(one, Part)]),
        *_looser_kinds(now, then, shelf, [one for one in every if isinstance(one, Category)]),
        *_claims(now, then, [one for one in every if isinstance(one, CrossFit)], today),
    ]
    return tuple(sorted(dict.fromkeys(found), key=lambda one: (one.origin, one.code, one.message)))


def _same_names(graph: Graph, records: Sequence[Rec]) -> Iterator[Diagnostic]:
    """Records of a name that there is already, unless both say the same."""
    by_key = {f"{kind_of(one)} {name_of(one)}": one for one in records}
    keys = sorted(by_key)
    for start in range(0, len(keys), _PIECE):
        for row in graph.facts.run("named", keys[start : start + _PIECE]):
            ours: dict[str, Any] = msgspec.json.decode(row.record)
            theirs = by_key[row.key]
            where = "{}:{}:{}".format(*ours["@origin"])
            differs = _differing(_plain(ours), bare(theirs))
            if differs:
                yield _otherwise(theirs, where, differs)


def _otherwise(theirs: Rec, where: str, keys: Iterable[str]) -> Diagnostic:
    first = "the one of the shelf that fitlore.yaml names first"
    return fault(
        "U45-said-otherwise",
        theirs.origin,
        kind=kind_of(theirs),
        name=name_of(theirs),
        where=where,
        keys=", ".join(keys),
        first=first,
    )


def _plain(value: object) -> object:
    """A record as JSON, without the places of it and of what is in it."""
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in value.items() if key != "@origin"}
    return [_plain(one) for one in value] if isinstance(value, list) else value


def _differing(one: object, other: object) -> list[str]:
    assert isinstance(one, dict)
    assert isinstance(other, dict)
    return [key for key in dict.fromkeys([*one, *other]) if one.get(key) != other.get(key)]


def _same_numbers(graph: Graph, parts: Sequence[Part]) -> Iterator[Diagnostic]:
    """Parts of a number that is taken: by the same part described otherwise, or by another one."""
    graph.parts(number_key(part.part) for part in parts)  # asked at one go
    for part in parts:
        for other in graph.parts([number_key(part.part)]):
            if identity(other) == identity(part) and other.is_ == part.is_:
                differs = _differing(bare(other), bare(part))
                if differs:
                    yield _otherwise(part, str(other.origin), differs)
            else:
                yield fault(
                    "U46-same-number",
                    part.origin,
                    number=part.part,
                    what=_what(part),
                    other=_what(other),
                    where=str(other.origin),
                )


def _what(part: Part) -> str:
    return f"{named(part)} ({part.is_})"


def _looser_kinds(now: Graph, then: Graph, shelf: str, kinds: Sequence[Category]) -> Iterator[Diagnostic]:
    """Kinds of part that would count in place of ours, and ask for less."""
    for kind in kinds:
        before, after = interface_of(now, kind.category), interface_of(then, kind.category)
        if before is None or after is None or not after.category.origin.book.startswith(f"{shelf}/"):
            continue
        keys = _looser(before, after)
        if keys:
            where = str(before.category.origin)
            yield fault("U47-looser-kind", kind.origin, name=kind.category, where=where, keys=", ".join(keys))


def _looser(before: Interface, after: Interface) -> list[str]:
    """In what; a feature that is defined in another way counts as looser, for nobody can say that it is not."""
    order = list(SafetyClass)
    found = ["safety"] if order.index(after.safety) > order.index(before.safety) else []
    found += ["always-new"] if before.always_new and not after.always_new else []
    found += ["sides"] if before.sides != after.sides else []
    found += ["look-first"] if set(before.look_first) - set(after.look_first) else []
    found += ["cautions"] if set(before.cautions) - set(after.cautions) else []
    same = {
        name
        for name, feature in after.features.items()
        if name in before.features and bare(feature) == bare(before.features[name])
    }
    return found + [name for name in before.features if name not in same]


def _claims(now: Graph, then: Graph, claims: Sequence[CrossFit], today: date) -> Iterator[Diagnostic]:
    """Claims into a trap, against our measures, or against what somebody here found out."""
    knowing = Known(then, today)
    for claim in claims:
        trap = knowing.claim_traps(claim) if claim.evidence and unopposed(knowing, claim) else []
        if trap:
            yield fault(
                "U48-trap-said-to-fit", claim.origin, name=claim.crossfit, use=claim.use, features=said(trap)
            )
            continue
        alone = msgspec.structs.replace(claim, against=()) if claim.evidence else claim
        yield from _contrary(now, claim)
        there = as_noted(knowing, alone, NewClaim(alone), claim.origin)
        yield from (one for one in there if one.code in ("U04-measures-say-no", "U06-not-both-ways"))


def _contrary(graph: Graph, claim: CrossFit) -> Iterator[Diagnostic]:
    """Claims here of the same part for the same part or place: a word for it on the one side, a word against on the other."""
    platform, _, path = (claim.at or "").partition("@")[0].partition("/")
    found = (
        graph.claims_at(platform, path)
        if claim.at
        else graph.claims_from([number_key(claim.instead_of or "")])
    )
    for other in found:
        if number_key(claim.use) not in {number_key(one) for one in (other.use, other.instead_of) if one}:
            continue
        no = bool(claim.evidence and other.against)
        contrary = other.against if no else other.evidence if claim.against else ()
        if not contrary or bare(claim) == bare(other):
            continue
        piece = contrary[-1]
        yield fault(
            "U49-contradicts",
            claim.origin,
            name=claim.crossfit,
            theirs="yes" if no else "no",
            ours="no" if no else "yes",
            other=other.crossfit,
            where=str(other.origin),
            word=" ".join(filter(None, [piece.how.value, f"by {piece.by}" if piece.by else ""])),
        )
