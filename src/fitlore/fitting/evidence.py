"""Evidence for and against a claim: whose word it is, counted once, and whether it is enough."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from fitlore.model.because import Because
from fitlore.model.choices import How, SafetyClass
from fitlore.model.job import ClassPolicy, Policy
from fitlore.model.part import CrossFit, Evidence


class Weighed(NamedTuple):
    """What the evidence on one claim comes to."""

    enough: bool
    spoken_for: bool
    first_hand: bool
    measured: bool
    against: str
    """`shop`, `outweighed` (by later first-hand evidence, though the shop's own trial said no), `others`, or empty."""
    steps: tuple[Because, ...]


def class_policy(policy: Policy, safety: SafetyClass) -> ClassPolicy:
    """The rules of a safety class; without any, the strictest there can be (only `fitted` counts)."""
    for row in policy.classes:
        if row.safety is safety:
            return row
    return ClassPolicy(safety=safety, least=(How.FITTED,))


def weigh(claim: CrossFit, rules: ClassPolicy, shop: str) -> Weighed:
    """Pieces that share a source are one; a person's later word against withdraws his earlier one for, and its echoes."""
    kept = _not_withdrawn(claim.evidence, claim.against)
    standing = events(kept)
    strong = [piece for piece in standing if piece.how in rules.least]
    steps = [_step("evidence-for", piece, _echoes(piece, claim.evidence)) for piece in standing]
    steps += [_step("evidence-against", piece, 1) for piece in claim.against]
    steps += [_step("evidence-withdrawn", piece, 1) for piece in claim.evidence if piece not in kept]
    return Weighed(
        enough=len(strong) >= max(1, rules.least_pieces),
        spoken_for=bool(standing),
        first_hand=any(piece.how.first_hand for piece in standing),
        measured=any(piece.how is How.MEASURED for piece in standing),
        against=_against(claim, standing, shop),
        steps=tuple(steps),
    )


def events(pieces: Iterable[Evidence]) -> list[Evidence]:
    """One piece per independent event, each the strongest of its event; in the order written."""
    best: dict[tuple[str, ...], Evidence] = {}
    for piece in pieces:
        key = event(piece)
        if key not in best or _strength(piece) < _strength(best[key]):
            best[key] = piece
    return list(best.values())


def event(piece: Evidence) -> tuple[str, ...]:
    """Its source if it names one, else who found out and on which car, else who."""
    if piece.source:
        return ("source", piece.source.casefold())
    return ("by", piece.by.casefold(), piece.on_car.casefold())


def _strength(piece: Evidence) -> int:
    return list(How).index(piece.how)


def _not_withdrawn(pieces: Iterable[Evidence], against: Iterable[Evidence]) -> list[Evidence]:
    """What its own author has not taken back since; with him goes whoever repeated him."""
    every, words = list(pieces), list(against)
    gone = [p for p in every if any(_same_person(p, w) and not _surely_before(w, p) for w in words)]
    sources = {event(piece) for piece in gone if piece.source}
    return [piece for piece in every if piece not in gone and event(piece) not in sources]


def _same_person(one: Evidence, other: Evidence) -> bool:
    return bool(one.by) and one.by.casefold() == other.by.casefold()


def _surely_before(one: Evidence, other: Evidence) -> bool:
    """Whether one piece is certainly the earlier; undated counts as earliest."""
    if one.date is None or other.date is None:
        return one.date is None and other.date is not None
    return one.date.end < other.date.start and not (one.date.qualified or other.date.qualified)


def _against(claim: CrossFit, standing: list[Evidence], shop: str) -> str:
    if not claim.against:
        return ""
    own = [p for p in claim.against if p.by.casefold() == shop.casefold() and p.how.first_hand]
    answered = any(
        p.how.first_hand and all(_surely_before(w, p) for w in (own or claim.against)) for p in standing
    )
    if own:
        return "outweighed" if answered else "shop"
    hearsay = not any(p.how.first_hand for p in claim.against)
    return "" if answered and hearsay else "others"


def _echoes(piece: Evidence, pieces: Iterable[Evidence]) -> int:
    return sum(event(other) == event(piece) for other in pieces)


def _step(code: str, piece: Evidence, times: int) -> Because:
    values = {
        "how": piece.how.value,
        "by": piece.by,
        "source": piece.source,
        "date": str(piece.date or ""),
        "lasted": piece.lasted,
        "times": str(times),
        "note": piece.note,
    }
    return Because(code, values, (piece.origin,) if piece.origin.book else ())
