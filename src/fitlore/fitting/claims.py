"""What a chain of links asks for and adds up, and on whose word it stands."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.companions import companion_state
from fitlore.fitting.conditions import Held, holds, holds_of_donor, merge_asks
from fitlore.fitting.evidence import Weighed, shelf_doubted, weigh
from fitlore.fitting.interface import compare
from fitlore.fitting.links import Link
from fitlore.fitting.measured import stated
from fitlore.fitting.parts import identity, keys_of, with_twins
from fitlore.fitting.place import split_side
from fitlore.fitting.shape import Ask, State, Way
from fitlore.model.because import Because
from fitlore.model.kleene import Tri, all_of
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Part, Replacement

if TYPE_CHECKING:
    from fitlore.fitting.ways import Setting

_GRAVEST_FIRST = ["shop", "others", "outweighed", "taken-back"]
_OWN_TRIALS = frozenset({"shop", "outweighed"})


def claim_way(chain: tuple[Link, ...], start: Way, setting: Setting, first: Part | None = None) -> Way:
    """What a whole chain comes to: every link must hold; work, extras and companions add up; a hint in it makes it a hint.

    `first` is the part it starts from, where it starts from one.
    """
    waived = _covered(chain, first, setting)
    steps = [judged(link, setting) for link in chain]
    doubt = tuple(step for link in chain if link.claim is None for step in _hearsay(link, setting))
    claims = tuple(link.claim for link in chain if link.claim is not None)
    works = [link.says.work for link in chain if link.says is not None and link.says.work is not None]
    weighed = [s.weighed for s in steps if s.weighed is not None]
    against = [w.against for w in weighed if w.against]
    last = steps[-1].weighed if not chain[-1].reverse else None
    return Way(
        kind="successor" if not claims else ("place-claim" if start.kind == "place" else "claim"),
        claims=claims,
        links=tuple(link.mark for link in chain),
        condition=all_of([start.condition, *(s.condition for s in steps)]),
        start=start.start,
        own_condition=all_of(s.condition for s in steps),
        own_asks=merge_asks(s.asks for s in steps),
        forbidden=any(s.forbidden for s in steps),
        changed=any(s.changed for s in steps),
        applies=all(s.applies for s in steps),
        hint=any(s.hint for s in steps),
        proven=start.proven and not doubt and all(w.enough for w in weighed),
        spoken_against=min(against, key=_GRAVEST_FIRST.index) if against else "",
        own_trial=last.against if last is not None and last.against in _OWN_TRIALS else "",
        spoken_for=bool(claims) and all(w.spoken_for for w in weighed),
        first_hand=bool(claims) and all(w.first_hand for w in weighed),
        measured=all(s.weighed.measured for s in steps if s.weighed is not None and s.scopeless),
        asks=merge_asks([start.asks, *(s.asks for s in steps)]),
        companions=tuple(companion for link in chain if link.says for companion in link.says.with_),
        extras=tuple(extra for claim in claims for extra in claim.extras),
        minutes=sum(work.minutes for work in works),
        work=tuple(work.do for work in works if work.do),
        waives=waived,
        vouched=waived & {name for link, s in zip(chain, steps, strict=True) for name in _vouched(link, s)},
        keep=tuple(keep for claim in claims for keep in claim.keep),
        tell_buyer=tuple(claim.tell_buyer for claim in claims if claim.tell_buyer),
        law=tuple(law for claim in claims for law in claim.law),
        because=Because(
            "way-chain",
            {"links": str(len(chain))},
            under=(start.because, *(s.because for s in steps), *doubt),
        ),
    )


def _hearsay(link: Link, setting: Setting) -> tuple[Because, ...]:
    """Why a replacement, or a second number of one part, is no proof: every record that says it is on a shelf of hearsay."""
    said_by = link.said_by or link.to
    there = set(keys_of(link.to))
    origins = [
        row.origin
        for row in setting.graph.parts(keys_of(said_by))
        if identity(row) == identity(said_by)
        and there & {number_key(n) for n in (*row.same_as, *(r.number for r in row.replaced_by))}
    ] or [said_by.origin]
    doubts = [shelf_doubted(setting.graph, setting.rules, [origin]) for origin in origins]
    return doubts[0] if all(doubts) else ()


class JudgedLink(NamedTuple):
    """What one link comes to at a place."""

    condition: Tri
    applies: bool
    forbidden: bool
    changed: bool
    hint: bool
    asks: tuple[Ask, ...]
    weighed: Weighed | None
    scopeless: bool
    because: Because


def _covered(chain: tuple[Link, ...], first: Part | None, setting: Setting) -> frozenset[str]:
    """Features that stated work takes care of all along the chain.

    A link speaks of the step it makes. In each other step the feature must be waived too, or be known to stay the same.
    """
    names = frozenset(name for link in chain if link.says for name in link.says.waives)
    for before, link in zip((first, *(link.to for link in chain)), chain, strict=False):
        if link.says is not None and not link.same:
            names = frozenset(
                n for n in names if n in link.says.waives or _stays(n, before, link.to, setting)
            )
    return names


def _stays(name: str, before: Part | None, after: Part, setting: Setting) -> bool:
    feature = setting.interface.features.get(name)
    if before is None or feature is None:
        return False
    standards = setting.graph.standards
    old, new = (stated(with_twins(setting.graph, p), name, feature, standards) for p in (before, after))
    states = {compare(feature, want, have, standards).state for want in old.values for have in new.values}
    return states == {State.OK}


def _vouched(link: Link, found: JudgedLink) -> tuple[str, ...]:
    """What a link may waive even of the features that protect."""
    if link.claim is None or found.weighed is None or not (found.weighed.enough and found.weighed.first_hand):
        return ()
    return link.claim.waives


def judged(link: Link, setting: Setting) -> JudgedLink:
    """Whether a link holds here, what it asks, and on whose word it stands."""
    if link.claim is None:
        return _judged_replacement(link, setting)
    claim, facts = link.claim, setting.resolved.facts
    only_if, changed = holds(claim.only_if, facts), holds(claim.changed_at, facts)
    seen_on, reached = holds(claim.seen_on, facts), _reaches(claim, setting)
    donor = holds_of_donor(claim.donor_only_if, link.to)
    weighed = weigh(claim, setting.rules, setting.graph.shop.person)
    beside = companion_state(claim.with_, claim.never_with, setting)
    under = [
        *only_if.steps,
        *donor.steps,
        *changed.steps,
        *seen_on.steps,
        *weighed.steps,
        *beside.steps,
        *reached.steps,
        *_takes(claim),
    ]
    values = {
        "claim": claim.crossfit,
        "use": claim.use,
        "for": claim.instead_of or claim.at or "",
        "why": claim.why,
    }
    tris = (only_if.value, donor.value, changed.value, seen_on.value, beside.condition, reached.value)
    return JudgedLink(
        condition=Tri.ASK if Tri.ASK in tris else Tri.TRUE,
        applies=Tri.FALSE not in (only_if.value, donor.value, seen_on.value),
        forbidden=beside.never,
        changed=changed.value is Tri.FALSE,
        hint=reached.value is Tri.FALSE or link.hint,
        asks=merge_asks([only_if.asks, donor.asks, changed.asks, seen_on.asks, beside.asks, reached.asks]),
        weighed=weighed,
        scopeless=not claim.reaches and claim.at is None,
        because=Because("claim", values, (claim.origin,), under=tuple(under)),
    )


def _takes(claim: CrossFit | Replacement) -> tuple[Because, ...]:
    """The stated work, and what is needed besides."""
    steps, lines = [], (claim.origin,) if claim.origin.book else ()
    if claim.work is not None and (claim.work.do or claim.work.minutes):
        values = {"do": claim.work.do, "minutes": str(claim.work.minutes or "")}
        steps.append(Because("takes-work", values, lines))
    for extra in claim.extras if isinstance(claim, CrossFit) else ():
        what = f"{extra.quantity} x {extra.number or extra.service or extra.is_}"
        steps.append(Because("takes-extra", {"what": what}, lines))
    return tuple(steps)


def _reaches(claim: CrossFit, setting: Setting) -> Held:
    """Whether the claim was made for this place: for its platform, or for the very place and side."""
    place = setting.resolved.place
    lines = (claim.origin,) if claim.origin.book else ()
    elsewhere = Because("claim-elsewhere", {"reaches": claim.at or ", ".join(claim.reaches)}, lines)
    if claim.at is None:
        here = not claim.reaches or place.on in claim.reaches
        return Held(Tri.TRUE if here else Tri.FALSE, (), () if here else (elsewhere,))
    path, side = split_side(claim.at)
    if path != place.full_path or (side and setting.side and side != setting.side):
        return Held(Tri.FALSE, (), (elsewhere,))
    if side and not setting.side:
        return Held(Tri.ASK, (Ask("place", "side", "the claim is for one side only", (side,)),), ())
    return Held(Tri.TRUE, (), ())


def _judged_replacement(link: Link, setting: Setting) -> JudgedLink:
    said_by = link.said_by or link.to
    if link.replacement is None:
        lines = tuple(dict.fromkeys((said_by.origin, link.to.origin)))
        because = Because("same-part", {"number": link.to.part}, lines)
        return JudgedLink(Tri.TRUE, True, False, False, link.hint, (), None, False, because)
    beside = companion_state(link.replacement.with_, (), setting)
    origin = link.replacement.origin if link.replacement.origin.book else said_by.origin
    newer = link.replacement.number if link.reverse else link.to.part
    values = {"number": newer, "reason": link.replacement.reason.value}
    under = (*beside.steps, *_takes(link.replacement))
    because = Because("replaced-by", values, (origin,), under=under)
    return JudgedLink(
        beside.condition, True, beside.never, False, link.hint, beside.asks, None, False, because
    )
