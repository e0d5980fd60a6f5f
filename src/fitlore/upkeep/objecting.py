"""What is to be said before something is noted: known already, a trap, off in a measure, contradicted, one way or both."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from fitlore.books.faults import fault
from fitlore.fitting.shape import Check, State
from fitlore.model.choices import Goes
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.numbers import number_key
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Evidence
from fitlore.model.record import Rec
from fitlore.upkeep import catalogue  # noqa: F401  (registers the faults)
from fitlore.upkeep.addition import Addition, MoreEvidence, NewClaim, NewItem, SpeaksAgainst, Withdrawal
from fitlore.upkeep.knowing import Known, named, off, said
from fitlore.upkeep.placing import bare

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


def before_writing(known: Known, addition: Addition) -> Iterator[Diagnostic]:
    """Objections that need no new text: what is there already, and what cannot be withdrawn."""
    match addition:
        case NewClaim(claim):
            yield from _known_claim(known, claim)
        case MoreEvidence(claim, piece):
            yield from _known_piece(claim, claim.evidence, piece)
        case SpeaksAgainst(claim, piece):
            yield from _known_piece(claim, claim.against, piece)
        case Withdrawal(claim, by):
            people = {piece.by.casefold() for piece in claim.evidence if piece.by}
            if by.casefold() not in people:
                names = ", ".join(sorted({piece.by for piece in claim.evidence if piece.by})) or "nobody"
                yield fault(
                    "U08-nothing-to-withdraw",
                    claim.origin,
                    by=by or "nobody",
                    name=claim.crossfit,
                    known=names,
                )


def _known_claim(known: Known, claim: CrossFit) -> Iterator[Diagnostic]:
    taken = known.graph.crossfit(claim.crossfit)
    if taken is not None and not taken.origin.book.startswith("kb/"):
        where = str(taken.origin)
        yield fault("U02-name-taken", taken.origin, name=claim.crossfit, kind="claim", where=where)
    other = known_as(known.graph, claim)
    if other is not None:
        where = str(other.origin)
        yield fault("U01-known-already", other.origin, what="this claim", name=other.crossfit, where=where)


def known_as(graph: Graph, claim: CrossFit) -> CrossFit | None:
    """The claim that says this already, under the same limits: a word for or against goes to it, not into a second one."""
    return next((other for other in _between(graph, claim) if _same_claim(other, claim)), None)


def _between(graph: Graph, claim: CrossFit) -> tuple[CrossFit, ...]:
    """Claims that bring in the same part for the same part or place, in this or in both directions."""
    at = claim.at.partition("@")[0] if claim.at else ""
    if at:
        platform, _, path = at.partition("/")
        found = graph.claims_at(platform, path)
    else:
        found = graph.claims_from([number_key(claim.instead_of or "")])
    return tuple(one for one in found if number_key(claim.use) in _keys(one))


def _keys(claim: CrossFit) -> set[str]:
    return {number_key(number) for number in (claim.use, claim.instead_of) if number}


def _same_claim(one: CrossFit, other: CrossFit) -> bool:
    """Under the same limits and with the same work; a claim that reaches more says the same and more."""
    limits = ("only_if", "changed_at", "with_", "extras", "work", "waives")
    same = all(bare_of(getattr(one, name)) == bare_of(getattr(other, name)) for name in limits)
    reaches = not one.reaches or (bool(other.reaches) and set(other.reaches) <= set(one.reaches))
    return same and reaches and (one.goes is Goes.BOTH_WAYS or one.goes is other.goes)


def bare_of(value: object) -> object:
    """A field of a record without origins."""
    if isinstance(value, Rec):
        return bare(value)
    if isinstance(value, dict):
        return {key: bare_of(one) for key, one in value.items()}
    return [bare_of(one) for one in value] if isinstance(value, tuple) else value


def _known_piece(claim: CrossFit, pieces: tuple[Evidence, ...], piece: Evidence) -> Iterator[Diagnostic]:
    there = next((one for one in pieces if bare(one) == bare(piece)), None)
    if there is not None:
        origin = there.origin if there.origin.book else claim.origin
        yield fault(
            "U01-known-already",
            origin,
            what="this word",
            name=claim.crossfit,
            where=str(origin),
        )


def as_noted(known: Known, claim: CrossFit, addition: Addition, origin: Origin) -> Iterator[Diagnostic]:
    """Objections to the claim as it would then stand. `known` is the knowledge with it, `origin` where the new text is."""
    against = _speaks_against(addition) or not claim.evidence
    by = addition.by.casefold() if isinstance(addition, Withdrawal) else ""
    yield from _contradicted(known, claim, against, origin, by)
    if against:
        return
    checks = known.claim_checks(claim)
    needed = claim.instead_of or claim.at or ""
    if trap := known.claim_traps(claim):
        yield fault("U03-trap", origin, use=claim.use, for_=needed, features=said(trap))
        return
    if no := off(checks, claim.waives):
        yield fault("U04-measures-say-no", origin, use=claim.use, for_=needed, features=said(no))
    if isinstance(addition, NewClaim):
        yield from _direction(known, claim, origin)


def _speaks_against(addition: Addition) -> bool:
    item = isinstance(addition, NewItem) and addition.path[:1] == ("against",)
    return item or isinstance(addition, SpeaksAgainst | Withdrawal)


def _contradicted(
    known: Known, claim: CrossFit, against: bool, origin: Origin, by: str
) -> Iterator[Diagnostic]:
    """Words to the contrary, on this claim or on another one between the same parts; not those of whoever takes his back."""
    for other in {str(one.origin): one for one in (claim, *_between(known.graph, claim))}.values():
        contrary = other.evidence if against else other.against
        first_hand = [p for p in contrary if p.how.first_hand and not (by and p.by.casefold() == by)]
        if first_hand:
            piece = first_hand[-1]
            words = " ".join(
                filter(None, [piece.how.value, f"by {piece.by}" if piece.by else "", str(piece.date or "")])
            )
            where = piece.origin if piece.origin.book else other.origin
            yield fault("U05-contradicted", origin, said=words, name=other.crossfit, where=str(where))


def _direction(known: Known, claim: CrossFit, origin: Origin) -> Iterator[Diagnostic]:
    old, new = known.ends(claim)
    if old is None or new is None:
        return
    back = [c for c in known.checks(new, old) if c.definition.role.value != "looks"]
    unequal = [c for c in back if c.state is not State.OK and c.feature not in claim.waives]
    if claim.goes is Goes.BOTH_WAYS and unequal:
        yield fault("U06-not-both-ways", origin, use=named(new), for_=named(old), features=_states(unequal))
    limits = (claim.only_if, claim.work, claim.with_, claim.extras, claim.waives, claim.keep)
    forth = [c for c in known.checks(old, new) if c.definition.role.value != "looks"]
    equal = back and not unequal and all(c.state is State.OK for c in forth)
    if claim.goes is Goes.ONE_WAY and equal and not any(limits):
        yield fault("U07-other-direction-too", origin, use=named(new), for_=named(old))


def _states(checks: list[Check]) -> str:
    return ", ".join(f"{check.feature} {check.state.value}" for check in checks)
