"""Evidence for and against a claim: whose word it is, counted once, and whether it is enough."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.graph.asking import BUILTIN
from fitlore.model.because import Because
from fitlore.model.choices import How, SafetyClass
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Evidence
from fitlore.model.policy import ClassRules, InForce

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Weighed(NamedTuple):
    """What the evidence on one claim comes to."""

    enough: bool
    spoken_for: bool
    first_hand: bool
    measured: bool
    against: str
    """What speaks against it: `shop`, `outweighed` (by later first-hand evidence, though the shop's own trial said no),
    `others`, `taken-back` (nobody, but whoever spoke for it has withdrawn his word), or empty."""
    steps: tuple[Because, ...]
    standing: tuple[Evidence, ...] = ()
    """The pieces for it that nobody has taken back, several of one event among them."""


def class_policy(policy: InForce, safety: SafetyClass) -> ClassRules:
    """The rules of a safety class; without any, the strictest there can be (only `fitted` counts)."""
    for row in policy.classes:
        if row.safety is safety:
            return row
    return ClassRules(safety)


def attributed(claim: CrossFit, graph: Graph) -> CrossFit:
    """The claim with each word under the name it counts under here.

    The shop's own shelf is the first without a cap on its trust, the one it writes on. On any other whoever is written down
    by the name of the shop's person is somebody else: it is that shelf's word.
    """
    shelf, person = claim.origin.book.partition("/")[0], graph.shop.person.casefold()
    held = graph.held
    own = next((name for name in held.shelves if name and name not in held.trust), shelf)
    if shelf in ("", own) and shelf not in held.trust and shelf != BUILTIN:
        return claim
    name = shelf if shelf.casefold() != person else f"the shelf {shelf}"

    def known(pieces: tuple[Evidence, ...]) -> tuple[Evidence, ...]:
        return tuple(
            msgspec.structs.replace(piece, by=name) if piece.by.casefold() == person else piece
            for piece in pieces
        )

    return msgspec.structs.replace(claim, evidence=known(claim.evidence), against=known(claim.against))


def shelf_doubted(graph: Graph, rules: ClassRules, origins: Iterable[Origin]) -> tuple[Because, ...]:
    """Shelves that say what only a printed book may say, and whose trust is less than the class asks for; a step for each.

    What a platform lists and what replaces what is taken for printed (common practice). On a shelf that counts as hearsay it
    is hearsay, and that is enough only where the class takes hearsay.
    """
    shelves = dict.fromkeys(origin.book.partition("/")[0] for origin in origins)
    caps = ((shelf, graph.held.trust.get(shelf)) for shelf in shelves)
    return tuple(
        Because("shelf-counts-as", {"shelf": shelf, "how": cap.value})
        for shelf, cap in caps
        if cap is How.TOLD and cap not in rules.least
    )


def weigh(claim: CrossFit, rules: ClassRules, shop: str) -> Weighed:
    """Pieces that share a source are one; a person's later word under `against` takes his earlier one for it back.

    With it go those who repeated him. `shop` is who its own trials are by; `attributed` says whose word counts as that.
    """
    kept, speaking = still_said(claim)
    standing = events(kept)
    strong = [piece for piece in standing if piece.how in rules.least]
    steps = [_step("evidence-for", piece, _echoes(piece, kept)) for piece in standing]
    steps += [_step("evidence-against", piece, 1) for piece in speaking]
    steps += [_withdrawn(piece, claim.against) for piece in claim.evidence if piece not in kept]
    against = _against(speaking, standing, shop)
    return Weighed(
        enough=len(strong) >= max(1, rules.least_pieces),
        spoken_for=bool(standing),
        first_hand=any(piece.how.first_hand for piece in standing),
        measured=any(piece.how is How.MEASURED for piece in standing),
        against=against or ("taken-back" if claim.evidence and not standing else ""),
        steps=tuple(steps),
        standing=tuple(kept),
    )


def still_said(claim: CrossFit) -> tuple[list[Evidence], list[Evidence]]:
    """What still stands for a claim, and what speaks against it: not what is taken back, nor the words that take it back."""
    speaking = [word for word in claim.against if not _only_takes_back(word, claim.evidence)]
    return _not_withdrawn(claim.evidence, claim.against), speaking


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
    gone = [piece for piece in every if any(_takes_back(word, piece) for word in words)]
    sources = {event(piece) for piece in gone if piece.source}
    return [piece for piece in every if piece not in gone and event(piece) not in sources]


def _takes_back(word: Evidence, piece: Evidence) -> bool:
    """Whether a word under `against` is the same person's and not certainly the earlier one."""
    return _same_person(word, piece) and not _surely_before(word, piece)


def _only_takes_back(word: Evidence, pieces: Iterable[Evidence]) -> bool:
    """Whether he who spoke for it says no more than that he does so no longer: he has not tried it again."""
    return not word.how.first_hand and any(_takes_back(word, piece) for piece in pieces)


def _same_person(one: Evidence, other: Evidence) -> bool:
    return bool(one.by) and one.by.casefold() == other.by.casefold()


def _surely_before(one: Evidence, other: Evidence) -> bool:
    """Whether one piece is certainly the earlier; undated counts as earliest."""
    if one.date is None or other.date is None:
        return one.date is None and other.date is not None
    return one.date.end < other.date.start and not (one.date.qualified or other.date.qualified)


def _against(speaking: list[Evidence], standing: list[Evidence], shop: str) -> str:
    if not speaking:
        return ""
    own = [p for p in speaking if p.by.casefold() == shop.casefold() and p.how.first_hand]
    answered = any(
        p.how.first_hand and all(_surely_before(w, p) for w in (own or speaking)) for p in standing
    )
    if own:
        return "outweighed" if answered else "shop"
    hearsay = not any(p.how.first_hand for p in speaking)
    return "" if answered and hearsay else "others"


def _echoes(piece: Evidence, pieces: Iterable[Evidence]) -> int:
    return sum(event(other) == event(piece) for other in pieces)


def _withdrawn(piece: Evidence, against: Iterable[Evidence]) -> Because:
    """Who took it back and when; what only repeated another's word goes with that."""
    word = next((word for word in against if _takes_back(word, piece)), None)
    if word is None:
        return _step("evidence-gone-with-source", piece, 1)
    step = _step("evidence-withdrawn", piece, 1)
    values = {**step.values, "since": str(word.date or ""), "note": word.note}
    origins = (*step.origins, *((word.origin,) if word.origin.book else ()))
    return Because(step.code, values, origins)


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
