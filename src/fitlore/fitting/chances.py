"""How likely it is that what speaks for a candidate is right: its chains of claims as a network over pieces of evidence.

The figure informs and sorts. It never decides a verdict, and what speaks against is not averaged into it: a claim that is
spoken against is not counted, and a candidate in dispute, or one that does not fit, has no figure.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Final, NamedTuple

import msgspec

from fitlore.fitting.chance import Arc, Chance, Network, chance
from fitlore.fitting.claims import judged
from fitlore.fitting.evidence import event
from fitlore.fitting.links import Link, links_from, place_links
from fitlore.fitting.parts import Identity, identity
from fitlore.fitting.shape import Likely, Verdict, Word
from fitlore.fitting.ways import LONGEST_CHAIN, Setting, passes
from fitlore.model.because import Because
from fitlore.model.choices import How
from fitlore.model.kleene import Tri
from fitlore.model.part import Evidence, Part

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

_PLACE: Final = "place"
_KINDS: Final = frozenset({"claim", "place-claim", "successor"})
_CLAIMED: Final = (Word.FITS, Word.FITS_WITH_WORK)
_WORDS: Final = frozenset({*_CLAIMED, Word.DEPENDS, Word.UNPROVEN})


class Tie(NamedTuple):
    """A link as it counts: between which parts, on which events, and whether it is open whether it holds here."""

    tail: str
    head: str
    link: Link
    events: frozenset[tuple[str, float]] | None
    """Any one of them is enough; each with how likely it is. None: nothing has to be known for it."""
    open: bool
    left_out: bool
    """It is spoken against: it is named and not counted."""


def with_chances(verdicts: Iterable[Verdict], setting: Setting) -> list[Verdict]:
    """The verdicts, with a chance and its step of the proof where they rest on somebody's word that is not in dispute."""
    rows = list(verdicts)
    if not any(map(_has_one, rows)):
        return rows
    ties = tuple(_ties(setting))
    return [_with_chance(row, ties, setting) if _has_one(row) else row for row in rows]


def _has_one(verdict: Verdict) -> bool:
    return verdict.word in _WORDS and verdict.way.kind in _KINDS and not verdict.way.spoken_against


def _with_chance(verdict: Verdict, ties: tuple[Tie, ...], setting: Setting) -> Verdict:
    goal = _node(identity(verdict.part))
    own = set(verdict.way.links)
    here = _between([t for t in ties if not t.open or t.link.mark in own], goal)
    counted = [t for t in here if not t.left_out]
    found = [chance(_network(counted, start, goal, setting.graph)) for start in _starts(verdict, setting)]
    low, high = min(one.low for one in found), max(one.high for one in found)
    if high <= 0.0:
        return verdict
    used = _between(counted, goal)
    likely = Likely(
        low=low,
        high=high,
        exact=all(one.exact for one in found) and low == high,
        pieces=len({name for tie in used for name, _ in tie.events or ()}),
        claims=len({tie.link.mark for tie in used if tie.link.claim is not None}),
        if_answered=bool(verdict.asks),
    )
    step = _step(likely, found, used, [tie for tie in here if tie.left_out], own)
    first, *rest = verdict.because.under
    because = msgspec.structs.replace(verdict.because, under=(first, step, *rest))
    return msgspec.structs.replace(verdict, chance=likely, because=because)


def _starts(verdict: Verdict, setting: Setting) -> list[str]:
    """From which original it is reached; one by one where any of several may be on the car and it goes for each."""
    listed = list(dict.fromkeys(_node(identity(row.part)) for row in setting.requirement.listed))
    if len(listed) < 2:
        return listed or [_PLACE]
    if verdict.word in _CLAIMED:
        return listed
    return [_node(verdict.way.start) if verdict.way.start else _PLACE]


def _network(ties: Iterable[Tie], start: str, goal: str, graph: Graph) -> Network:
    """From the place over its original, or over claims for the place, to the candidate."""
    rows = list(ties)
    arcs = [Arc(_PLACE, start)] if start != _PLACE else []
    arcs += [Arc(tie.tail, tie.head) for tie in rows if tie.events is None]
    needs, chances = _nested({piece for tie in rows for piece in tie.events or ()})
    arcs += [Arc(tie.tail, tie.head, needs[piece]) for tie in rows for piece in tie.events or ()]
    there = set(arcs)
    both = {arc for arc in there if arc.tail < arc.head and _back(arc) in there}
    one_way = there - both - set(map(_back, both))
    return Network(_PLACE, goal, (*(arc._replace(both=True) for arc in both), *one_way), chances)


def _nested(
    pieces: Iterable[tuple[str, float]],
) -> tuple[dict[tuple[str, float], frozenset[str]], dict[str, float]]:
    """What each piece needs: where one source is known better of one claim than of another, the lesser holds only if the
    better does, so that it is one event and each claim has the chance of its own piece.
    """
    needs: dict[tuple[str, float], frozenset[str]] = {}
    chances: dict[str, float] = {}
    above: dict[str, tuple[float, frozenset[str]]] = {}
    for name, likely in sorted(pieces, key=lambda piece: (piece[0], -piece[1])):
        better, all_above = above.get(name, (1.0, frozenset()))
        step = f"{name} as likely as {likely!r}"
        chances[step] = likely / better if better else 0.0
        needs[name, likely] = all_above | {step}
        above[name] = (likely, needs[name, likely])
    return needs, chances


def _back(arc: Arc) -> Arc:
    return arc._replace(tail=arc.head, head=arc.tail)


def _between(ties: Iterable[Tie], goal: str) -> list[Tie]:
    """Those from which the candidate can be reached."""
    rows, found, before = list(ties), {goal}, 0
    while len(found) != before:
        before = len(found)
        found |= {tie.tail for tie in rows if tie.head in found}
    return [tie for tie in rows if tie.head in found]


def _ties(setting: Setting) -> Iterator[Tie]:
    """Every link that may be in a chain of this place, each once."""
    frontier = {identity(row.part): row.part for row in setting.requirement.listed}
    reached = set(frontier)
    steps = [(_PLACE, link) for link in place_links(setting)]
    for _ in range(LONGEST_CHAIN):
        steps += [(_node(key), link) for key, part in frontier.items() for link in links_from(setting, part)]
        further: dict[Identity, Part] = {}
        for tail, link in steps:
            tie = _tie(tail, link, setting) if passes(link.to, setting) else None
            if tie is not None:
                yield tie
            if tie is not None and not link.dead:
                further.setdefault(link.key, link.to)
        frontier = {key: part for key, part in further.items() if key not in reached}
        reached |= set(frontier)
        steps = []


def _tie(tail: str, link: Link, setting: Setting) -> Tie | None:
    """None for what does not hold here, or proves nothing by itself."""
    found = judged(link, setting)
    if not found.applies or found.forbidden or found.changed or found.hint:
        return None
    against = found.weighed is not None and found.weighed.against != ""
    events = _events(link, found.weighed.standing if found.weighed else (), setting.graph)
    return Tie(tail, _node(link.key), link, events, found.condition is Tri.ASK, against)


def _events(link: Link, pieces: tuple[Evidence, ...], graph: Graph) -> frozenset[tuple[str, float]] | None:
    """On what a link rests. Whoever names a source shares one event with all who name it, whatever claim they speak for.

    A replacement is what its issuer prints: the issuer is its source. Two numbers of one part need no evidence.
    """
    likely = {how: share.percent / 100 for how, share in graph.policy.chance.items()}
    if link.claim is not None:
        return frozenset((_event(piece, link), float(likely.get(piece.how.value, 0))) for piece in pieces)
    if link.replacement is None:
        return None
    said_by = link.said_by or link.to
    cap = graph.held.trust.get(said_by.origin.book.partition("/")[0])
    how = cap if cap is How.TOLD else How.PRINTED
    return frozenset({(f"source {said_by.issuer.casefold()}", float(likely.get(how.value, 0)))})


def _event(piece: Evidence, link: Link) -> str:
    """A source is one event wherever it is named; what somebody found out himself is one of its claim."""
    name = " ".join(event(piece))
    return name if piece.source else f"{name} on {_name(link)}"


def _name(link: Link) -> str:
    return f"{link.claim.crossfit} {link.claim.origin}" if link.claim else ""


def _node(key: Identity) -> str:
    return f"part {' '.join(key)}"


def _step(
    likely: Likely, found: list[Chance], used: list[Tie], left_out: list[Tie], own: set[str]
) -> Because:
    """The chance in words, the claims of other chains that count, the sources behind several, and what is not counted."""
    values = {
        "low": str(math.floor(likely.low * 100 + 1e-9)),
        "high": str(math.ceil(likely.high * 100 - 1e-9)),
        "pieces": str(likely.pieces),
        "open": "if what is asked is answered so" if likely.if_answered else "",
    }
    exact = all(one.exact for one in found)
    code = "chance-exact" if likely.exact else ("chance-whichever" if exact else "chance-bounds")
    under = [_of_claim("chance-counts", tie) for tie in used if tie.link.claim and tie.link.mark not in own]
    behind: dict[str, set[str]] = {}
    for tie in used:
        for name, _ in tie.events or ():
            behind.setdefault(name, set()).add(_name(tie.link) or tie.link.mark)
    under += [
        Because("chance-shared", {"source": name.removeprefix("source "), "count": str(len(marks))})
        for name, marks in sorted(behind.items())
        if len(marks) > 1
    ]
    under += [_of_claim("chance-leaves-out", tie) for tie in left_out]
    once = {(step.code, *step.values.values(), step.origins): step for step in under}
    return Because(code, values, under=tuple(once.values()))


def _of_claim(code: str, tie: Tie) -> Because:
    claim = tie.link.claim
    assert claim is not None
    return Because(code, {"claim": claim.crossfit}, (claim.origin,) if claim.origin.book else ())
