"""The options of a need: what the verdicts and the policy let a plan buy, and the routes the finding states itself."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.fitting import Answer, Verdict, Word
from fitlore.fitting.evidence import class_policy
from fitlore.fitting.interface import interface_of
from fitlore.fitting.shape import Interface
from fitlore.model.category import Refurbish
from fitlore.model.choices import RouteKind, State, UsedOnes
from fitlore.model.job import Accepted, Job, Route
from fitlore.model.numbers import number_key
from fitlore.model.platform import Contained
from fitlore.model.supply import Offer
from fitlore.sourcing import problem as p
from fitlore.sourcing.coins import chance, coins
from fitlore.sourcing.mending import as_route, by_itself, named_by, odds
from fitlore.sourcing.needs import NeedAt, item, service_item

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

ROUTE_OF_STATE: Mapping[State, RouteKind] = {
    State.NEW: RouteKind.RENEW,
    State.EXCHANGE: RouteKind.EXCHANGE,
    State.USED: RouteKind.USED,
    State.OLD_STOCK: RouteKind.RENEW,
}


class Then(NamedTuple):
    """What is done where a route fails: the branch that was looked for beforehand, with what it costs by itself."""

    option: str
    """The option of the same need that follows."""
    offers: tuple[str, ...]
    """What is bought for it then."""
    money: int
    """Coins that are gone at the end."""
    minutes: int
    days: int
    """So many days after the look everything for it is in hand."""


class Choice(NamedTuple):
    """One option of one need, and where it comes from."""

    option: p.Option
    need: NeedAt
    verdict: Verdict | None
    route: Route | None
    then: Then | None = None
    mends: Refurbish | None = None
    """The way of its category by which the old one is made good again."""

    @property
    def by_itself(self) -> bool:
        """Whether the category alone says so, and no route of the finding."""
        return self.mends is not None and self.route is not None and self.route.origin == self.mends.origin


class Refused(NamedTuple):
    """A candidate that no plan may buy, and why."""

    need: NeedAt
    verdict: Verdict
    code: str


def choices_of(
    graph: Graph, need: NeedAt, home: str, accepted: Iterable[Accepted]
) -> tuple[list[Choice], list[Refused]]:
    """The options of a need in the order of the verdicts, then the finding's own routes; and what was refused."""
    rows: list[Choice] = []
    refused: list[Refused] = []
    if not need.finding.only_these_routes:
        for verdict in need.answer.verdicts:
            if may_be_bought(graph, need.answer, verdict) or _accepted(need, verdict, accepted):
                rows.append(_from_verdict(graph, need, verdict, home))
            else:
                refused.append(Refused(need, verdict, "verdict-not-buyable"))
    rows += [
        _from_route(graph, need, route, number, home) for number, route in enumerate(need.finding.routes, 1)
    ]
    rows += [_mended(graph, need, way, home) for way in by_itself(graph, need) if way.succeeds is not None]
    return _unique(rows), refused


def may_be_bought(graph: Graph, reply: Answer, verdict: Verdict) -> bool:
    """Whether a verdict is a yes that a plan may buy."""
    if verdict.word is Word.BY_MEASURE:
        return class_policy(graph.policy, reply.interface.safety).by_measure_may_be_bought
    return verdict.word in (Word.FITS, Word.FITS_WITH_WORK)


def _accepted(need: NeedAt, verdict: Verdict, accepted: Iterable[Accepted]) -> bool:
    """Somebody wrote down why this very part is taken all the same; a trap or a plain no is never accepted."""
    if verdict.word in (Word.DOES_NOT_FIT, Word.DISPUTED):
        return False
    return any(a.at == need.finding.at and a.use and number_key(a.use) == verdict.key for a in accepted)


def _from_verdict(graph: Graph, need: NeedAt, verdict: Verdict, home: str) -> Choice:
    reply = need.answer
    wants = [p.Want((verdict.key,), need.quantity, _surely(verdict))]
    for companion in verdict.way.companions:
        wants.append(p.Want(tuple(sorted(item(n) for n in companion.use)), companion.quantity))
    wants += [want for extra in verdict.way.extras for want in _wants(graph, extra, need.quantity)]
    place = reply.place.place
    option = p.Option(
        id=f"{need.id} = {verdict.part.part}",
        need=need.id,
        minutes=(place.minutes or 0) * need.quantity + verdict.minutes,
        adds=coins(need.finding.adds, home) if _adds_here(need) else 0,
        wants=tuple(wants),
        shared=_shares(graph, place.shares if place.shares is not None else reply.interface.shares),
    )
    return Choice(option, need, verdict, None)


def _surely(verdict: Verdict) -> int:
    """How surely the words for a part hold, at least; certain where it rests on no words."""
    return p.CERTAIN if verdict.chance is None else int(verdict.chance.low * p.CERTAIN + 1e-6)


def _adds_here(need: NeedAt) -> bool:
    """What mending adds to the sale counts once, on the first side, where both sides are two needs of one finding."""
    return not need.twin or need.apart or need.id < need.twin


def _from_route(graph: Graph, need: NeedAt, route: Route, number: int, home: str) -> Choice:
    mends = named_by(graph, need, route)
    if mends is not None:
        return _mended(graph, need, mends, home, route)
    otherwise = route.else_
    option = p.Option(
        id=f"{need.id} : {route.route.value} {number}",
        need=need.id,
        money=coins(route.money, home),
        minutes=route.minutes,
        adds=coins(route.adds if route.adds is not None else need.finding.adds, home),
        wants=tuple(want for use in route.takes for want in _wants(graph, use, 1)),
        shared=_shares(graph, route.shares),
        succeeds=chance(route.succeeds),
        otherwise=p.Otherwise(coins(otherwise.money, home), otherwise.minutes)
        if otherwise
        else p.Otherwise(),
    )
    return Choice(option, need, None, route)


def _mended(graph: Graph, need: NeedAt, way: Refurbish, home: str, written: Route | None = None) -> Choice:
    """Made good again as the category says; its materials are wanted where they have a price (`besides`)."""
    route = as_route(way, need.quantity, written)
    more = route.else_
    added = route.adds if route.adds is not None else need.finding.adds
    option = p.Option(
        id=f"{need.id} : {way.do}",
        need=need.id,
        minutes=route.minutes,
        adds=coins(added, home) if _adds_here(need) else 0,
        shared=_shares(graph, route.shares),
        succeeds=odds(route, need.quantity),
        otherwise=p.Otherwise(coins(more.money, home), more.minutes) if more else p.Otherwise(),
    )
    return Choice(option, need, None, route, mends=way)


def _wants(graph: Graph, content: Contained, times: int) -> list[p.Want]:
    items: tuple[str, ...]
    if content.number:
        items = (item(content.number),)
    elif content.service:
        items = (service_item(content.service),)
    elif content.is_:
        parts = graph.parts_of(sorted(graph.narrower(content.is_)))
        items = tuple(sorted({number_key(part.part) for part in parts}))
    else:
        items = ()
    return [p.Want(items, content.quantity * times)] if items else []


def _shares(graph: Graph, names: Iterable[str]) -> tuple[str, ...]:
    """Shared works that the shop has described; what a category would share but nobody described costs nothing here."""
    return tuple(sorted(name for name in names if graph.shared_work(name) is not None))


def shared_works(graph: Graph, choices: Iterable[Choice]) -> tuple[p.SharedWork, ...]:
    """The works the options share."""
    names = sorted({name for choice in choices for name in choice.option.shared})
    rows = []
    for name in names:
        work = graph.shared_work(name)
        if work is not None:
            wants = tuple(want for content in work.wants for want in _wants(graph, content, 1))
            rows.append(p.SharedWork(name, work.minutes, wants=wants))
    return tuple(rows)


def refused_state(
    graph: Graph, choice: Choice, wanted: str, offer: Offer, accepted: Iterable[Accepted]
) -> str:
    """Why an offer in this state may not serve this need with the item it is wanted for (a code), or nothing.

    The part at the place is judged by the place's category, what goes with it by its own. What comes off a whole car is
    used, whatever the offer says of the car, where somebody may be hurt by it; a hose that came with the radiator is not
    thrown away for that.
    """
    route = ROUTE_OF_STATE[offer.state]
    at = choice.need.finding.at
    if route in choice.need.finding.forbid:
        return "route-forbidden-by-job"
    if any(a.at == at and a.route is route for a in accepted):
        return ""
    interface = _interface_of(graph, choice, wanted)
    if interface is None:
        return ""
    rules = class_policy(graph.policy, interface.safety)
    off_a_wreck = bool(offer.whole_car) and rules.trap_stands
    state = State.USED if off_a_wreck else offer.state
    if state is State.USED and (rules.no_used or interface.always_new or interface.used is UsedOnes.NEVER):
        return "used-not-taken"
    if state is State.OLD_STOCK and (rules.no_old_stock or not offer.made):
        return "old-stock-not-taken"
    return ""


def _interface_of(graph: Graph, choice: Choice, wanted: str) -> Interface | None:
    if wanted in choice.option.wants[0].items:
        return choice.need.answer.interface
    parts = graph.parts([wanted]) if " " not in wanted else ()
    return interface_of(graph, parts[0].is_) if len(parts) == 1 else None


def _unique(rows: list[Choice]) -> list[Choice]:
    seen: dict[str, Choice] = {}
    for row in rows:
        name, number = row.option.id, 2
        while name in seen:
            name, number = f"{row.option.id} #{number}", number + 1
        seen[name] = row._replace(option=msgspec.structs.replace(row.option, id=name))
    return list(seen.values())


def accepted_of(job: Job) -> tuple[Accepted, ...]:
    """The written reasons of a job; one without a reason does not count."""
    return tuple(a for a in job.accepted if a.reason.strip())
