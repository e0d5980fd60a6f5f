"""Claims followed in their own direction: what a chain of them asks for, adds up, and on whose word."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.companions import companion_state
from fitlore.fitting.conditions import holds, merge_asks
from fitlore.fitting.evidence import Weighed, weigh
from fitlore.fitting.requirement import part_named
from fitlore.fitting.shape import Ask, Way
from fitlore.model.because import Because
from fitlore.model.choices import Reason
from fitlore.model.kleene import Tri, all_of
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Part, Replacement

if TYPE_CHECKING:
    from fitlore.fitting.ways import Setting


class Link(NamedTuple):
    """One step from a part that goes to one that is said to do its job."""

    to: Part
    claim: CrossFit | None
    replacement: Replacement | None
    after: Part | None
    dead: bool = False
    """A change point, or the shop's own trial, says no: nothing may be chained on it."""

    @property
    def key(self) -> str:
        return number_key(self.to.part)

    @property
    def says(self) -> CrossFit | Replacement | None:
        """The record that makes the link; none where two numbers are one part."""
        return self.claim or self.replacement

    @property
    def hint(self) -> bool:
        """A replacement for reasons of supply, or unknown ones, is only a hint; one sold in a kit is bought as the kit."""
        return self.replacement is not None and self.replacement.reason in (Reason.SUPPLIER, Reason.UNKNOWN)


def link_for(setting: Setting, claim: CrossFit, number: str) -> Iterator[Link]:
    """The link a claim makes to one number, if that names one part."""
    to = part_named(setting.graph, number, "")
    if to is not None:
        changed = holds(claim.changed_at, setting.resolved.facts)
        weighed = weigh(claim, setting.rules, setting.graph.shop.person)
        yield Link(to, claim, None, None, changed.value is Tri.FALSE or weighed.against == "shop")


def link_for_place(setting: Setting, claim: CrossFit) -> Iterator[Link]:
    """The link of a claim made for this place."""
    yield from link_for(setting, claim, claim.use)


def claim_way(chain: tuple[Link, ...], start: Way, setting: Setting) -> Way:
    """What a whole chain comes to: every link must hold; work, extras and companions add up; a hint in it makes it a hint."""
    steps = [_judge(link, setting) for link in chain]
    claims = tuple(link.claim for link in chain if link.claim is not None)
    works = [link.says.work for link in chain if link.says is not None and link.says.work is not None]
    against = [s.weighed.against for s in steps if s.weighed is not None and s.weighed.against]
    order = ["shop", "others", "outweighed"]
    return Way(
        kind="successor" if not claims else ("place-claim" if start.kind == "place" else "claim"),
        claims=claims,
        condition=all_of([start.condition, *(s.condition for s in steps)]),
        forbidden=any(s.forbidden for s in steps),
        changed=any(s.changed for s in steps),
        applies=all(s.applies for s in steps),
        hint=any(s.hint for s in steps),
        proven=all(s.weighed.enough for s in steps if s.weighed is not None),
        spoken_against=min(against, key=order.index) if against else "",
        spoken_for=any(s.weighed.spoken_for for s in steps if s.weighed is not None),
        first_hand=bool(claims) and all(s.weighed.first_hand for s in steps if s.weighed is not None),
        measured=bool(claims) and all(s.weighed.measured for s in steps if s.weighed is not None),
        asks=merge_asks([start.asks, *(s.asks for s in steps)]),
        companions=tuple(companion for link in chain if link.says for companion in link.says.with_),
        extras=tuple(extra for claim in claims for extra in claim.extras),
        minutes=sum(work.minutes for work in works),
        work=tuple(work.do for work in works if work.do),
        waives=frozenset(name for link in chain if link.says for name in link.says.waives),
        keep=tuple(keep for claim in claims for keep in claim.keep),
        tell_buyer=tuple(claim.tell_buyer for claim in claims if claim.tell_buyer),
        law=tuple(law for claim in claims for law in claim.law),
        because=Because(
            "way-chain", {"links": str(len(chain))}, under=(start.because, *(s.because for s in steps))
        ),
    )


class _Judged(NamedTuple):
    condition: Tri
    applies: bool
    forbidden: bool
    changed: bool
    hint: bool
    asks: tuple[Ask, ...]
    weighed: Weighed | None
    because: Because


def _judge(link: Link, setting: Setting) -> _Judged:
    if link.claim is None:
        return _judge_replacement(link, setting)
    claim, facts = link.claim, setting.resolved.facts
    only_if, changed = holds(claim.only_if, facts), holds(claim.changed_at, facts)
    seen_on = holds(claim.seen_on, facts)
    weighed = weigh(claim, setting.rules, setting.graph.shop.person)
    beside = companion_state(claim.with_, claim.never_with, setting)
    reaches = not claim.reaches or setting.resolved.place.on in claim.reaches or claim.at is not None
    if setting.car is not None and setting.resolved.book_place is None:
        reaches = reaches or setting.car.is_ in claim.reaches
    under = [*only_if.steps, *changed.steps, *seen_on.steps, *weighed.steps, *beside.steps]
    if not reaches:
        under.append(Because("claim-elsewhere", {"reaches": ", ".join(claim.reaches)}))
    values = {
        "claim": claim.crossfit,
        "use": claim.use,
        "for": claim.instead_of or claim.at or "",
        "why": claim.why,
    }
    return _Judged(
        condition=_joined(only_if.value, changed.value, seen_on.value, beside.condition),
        applies=only_if.value is not Tri.FALSE and seen_on.value is not Tri.FALSE,
        forbidden=beside.never,
        changed=changed.value is Tri.FALSE,
        hint=not reaches,
        asks=merge_asks([only_if.asks, changed.asks, seen_on.asks, beside.asks]),
        weighed=weighed,
        because=Because("claim", values, (claim.origin,), under=tuple(under)),
    )


def _joined(*values: Tri) -> Tri:
    """A false one is told apart elsewhere (the claim does not apply); here only what is unknown matters."""
    return Tri.ASK if Tri.ASK in values else Tri.TRUE


def _judge_replacement(link: Link, setting: Setting) -> _Judged:
    if link.replacement is None:
        because = Because("same-part", {"number": link.to.part}, (link.to.origin,))
        return _Judged(Tri.TRUE, True, False, False, False, (), None, because)
    beside = companion_state(link.replacement.with_, (), setting)
    origin = link.replacement.origin if link.replacement.origin.book else (link.after or link.to).origin
    values = {"number": link.to.part, "reason": link.replacement.reason.value}
    because = Because("replaced-by", values, (origin,), under=beside.steps)
    return _Judged(beside.condition, True, beside.never, False, link.hint, beside.asks, None, because)
