"""Plans as proofs: each line with what was bought, what comes second and what was not chosen; a clash member by member."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from fractions import Fraction
from math import floor

from fitlore.model.because import Because
from fitlore.model.origin import Origin
from fitlore.sourcing import problem as p
from fitlore.sourcing.clash import Group
from fitlore.sourcing.frontier import Point
from fitlore.sourcing.needs import NeedAt
from fitlore.sourcing.options import Choice
from fitlore.sourcing.planned import OrderLine, Plan, PlanLine


def line_proof(plan: Plan, line: PlanLine) -> Because:
    """Why a need is met as it is, down to the finding, the offers, the prices that would change it and the verdict."""
    steps = [_bought(plan, line, row) for row in line.offers]
    steps += [*_second(plan, line), *price_proofs(plan, line), *_not_chosen(plan, line)]
    if line.choice and line.choice.verdict:
        steps.append(line.choice.verdict.because)
    option = plan.words(line.choice.option.id) if line.choice else ""
    values = {"need": line.need.id, "fault": line.need.finding.fault, "option": option}
    code = "plan-line" if line.choice else "plan-line-left"
    return Because(code, values, (line.need.finding.origin,), under=tuple(steps))


def _bought(plan: Plan, line: PlanLine, row: OrderLine) -> Because:
    """What is bought of an offer in all; where others are served by it too, how much of it is for this line."""
    values = {"offer": row.offer.id, "packs": str(row.packs), "price": str(plan.money(row.offer.price))}
    others = [name for name in row.serves if name != line.need.id]
    if others and line.choice and [bring.units for bring in row.offer.brings] == [1]:
        owner = line.choice.option.id
        units = sum(u.units for u in plan.solution.assigned if (u.offer, u.owner) == (row.offer.id, owner))
        values["here"] = str(units)
    elif others:
        values["others"] = ", ".join(others)
    return Because("bought", {**values, "from": row.offer.supplier}, (row.line.origin,))


def _second(plan: Plan, line: PlanLine) -> Iterator[Because]:
    best = line.next_best
    if best is None:
        return
    if best.dearer is None:
        yield Because("no-other" if best.exact else "no-other-near")
        return
    values = {"option": plan.words(best.option or ""), "dearer": str(plan.money(best.dearer))}
    yield Because("next-best" if best.exact else "next-best-near", values)


def price_proofs(plan: Plan, line: PlanLine) -> Iterator[Because]:
    """At which price of a pack the plan changes: of what the line buys upwards, of what would come instead downwards."""
    offers = {row.id: row for row in plan.assembled.problem.offers}
    for rise in line.rises:
        offer = offers[rise.offer]
        values = {"offer": rise.offer, "now": str(plan.money(offer.price)), "about": _about(rise.steady)}
        if rise.coins is not None:
            values["price"] = str(plan.money(offer.price + rise.coins))
        yield Because(
            "price-up" if rise.coins is not None else "price-any", values, _origins(plan, rise.offer)
        )
    for cut in line.cuts:
        offer = offers[cut.offer]
        values = {"offer": cut.offer, "now": str(plan.money(offer.price)), "about": _about(cut.steady)}
        if cut.coins is not None:
            values["price"] = str(plan.money(offer.price - cut.coins))
        code = "price-down" if cut.coins is not None else "price-never"
        yield Because(code, values, _origins(plan, cut.offer))


def _about(steady: bool) -> str:
    return "" if steady else "a limit of carriage, a minimum order or the purse moves with it"


def _origins(plan: Plan, offer: str) -> tuple[Origin, ...]:
    return (plan.assembled.market.lines[offer].origin,)


def _not_chosen(plan: Plan, line: PlanLine) -> Iterator[Because]:
    """The other options, and the parts that no plan may buy."""
    told = line.next_best is not None and line.next_best.dearer is not None
    for other in line.others[1 if told else 0 :]:
        words = {"option": plan.words(other.option)}
        if other.dearer is None:
            yield Because("not-chosen-impossible", words)
        else:
            yield Because("not-chosen", {**words, "dearer": str(plan.money(other.dearer))})
    for row in plan.assembled.refused:
        if row.need.id == line.need.id:
            values = {"part": row.verdict.part.part, "word": row.verdict.word.value}
            yield Because("not-to-buy", values, row.verdict.because.origins)


def clash_proofs(plan: Plan) -> tuple[Because, ...]:
    """Each member of a clash as the line it stands in, with who has what when; in the order of the clash's members."""
    return tuple(_member(plan, group) for group in plan.clash.members) if plan.clash else ()


def _member(plan: Plan, group: Group) -> Because:
    job, limits = plan.assembled.job, plan.assembled.problem.limits
    match group.kind:
        case "need":
            return _need(plan, group.id)
        case "days":
            values = {"day": _day(plan, limits.days or 0)}
            return _limit("clash-days", values, job.origin, asked=plan.wishes.by is not None)
        case "cash":
            origin = job.purse.origin if job.purse else job.origin
            values = {"cash": str(plan.money(limits.cash or 0))}
            return _limit("clash-cash", values, origin, asked=plan.wishes.cash is not None)
        case "minutes":
            origin = job.hands.origin if job.hands else job.origin
            hours, rest = divmod(limits.minutes or 0, 60)
            words = [f"{hours} h"] * bool(hours) + [f"{rest} min"] * bool(rest or not hours)
            values = {"minutes": str(limits.minutes or 0), "hands": " ".join(words)}
            return _limit("clash-hands", values, origin, asked=plan.wishes.minutes is not None)
        case "suppliers":
            values = {"count": str(limits.suppliers or 0)}
            return _limit("clash-suppliers", values, job.origin, asked=True)
        case "without supplier":
            return _limit("clash-without", {"supplier": group.id}, job.origin, asked=True)
        case "banned":
            code = next(
                (
                    row.code
                    for row in plan.assembled.barred
                    if (row.need, row.offer) == (group.id, group.offer)
                ),
                "",
            )
            values = {"need": group.id, "offer": group.offer, "why": code.replace("-", " ")}
            return Because("clash-banned", values, _origins(plan, group.offer))
        case _:
            return Because("clash-limit", {"kind": group.kind, "id": group.id}, (job.origin,))


def _day(plan: Plan, days: int) -> str:
    """A day as ISO 8601 writes it."""
    return str(plan.assembled.today + timedelta(days=days))


def _limit(code: str, values: dict[str, str], origin: Origin, *, asked: bool) -> Because:
    return Because(code, {**values, "asked": "as asked" if asked else ""}, () if asked else (origin,))


def _need(plan: Plan, name: str) -> Because:
    need = next(row for row in plan.assembled.needs if row.id == name)
    options = [row for row in plan.assembled.choices.values() if row.need.id == name]
    steps = [_option(plan, need, choice) for choice in options]
    steps += [
        Because(
            "clash-refused",
            {"part": row.verdict.part.part, "word": row.verdict.word.value},
            under=(row.verdict.because,),
        )
        for row in plan.assembled.refused
        if row.need.id == name
    ]
    values = {"need": name, "fault": need.finding.fault}
    return Because("clash-need", values, (need.finding.origin,), under=tuple(steps))


def _option(plan: Plan, need: NeedAt, choice: Choice) -> Because:
    """One way to meet it: for each thing it wants, who has it and when, the soonest first."""
    origins = (
        (choice.route.origin,) if choice.route else choice.verdict.because.origins if choice.verdict else ()
    )
    steps = [step for want in choice.option.wants for step in _want(plan, need, want)]
    values = {"option": plan.words(choice.option.id), "minutes": str(choice.option.minutes)}
    return Because("clash-option", values, origins, under=tuple(steps))


def _want(plan: Plan, need: NeedAt, want: p.Want) -> Iterator[Because]:
    market, problem = plan.assembled.market, plan.assembled.problem
    banned = {row.offer for row in problem.limits.banned if row.need == need.id}
    bringing = [
        row
        for row in problem.offers
        if row.id not in banned and any(bring.item in want.items for bring in row.brings)
    ]
    for row in sorted(bringing, key=lambda offer: (offer.days, offer.price, offer.id)):
        values = {"offer": row.id, "price": str(plan.money(row.price)), "day": _day(plan, row.days)}
        yield Because("clash-offer", values, (market.lines[row.id].origin,))
    if not bringing:
        yield Because("clash-nobody", {"item": " or ".join(want.items), "count": str(want.amount)})


def point_proof(plan: Plan, points: tuple[Point, ...], at: int) -> Because:
    """One plan of a frontier: what it does and buys that the cheapest does not."""
    point, first = points[at], points[0]
    values = {
        "cost": str(plan.money(point.cost)),
        "day": _day(plan, point.days),
        "chance": hundredths(point.chance),
    }
    return Because("trade-off", values, under=tuple(_differing(plan, point, first)) if at else ())


def hundredths(chance: Fraction) -> str:
    """A chance as so many in 100, with one decimal where it needs one, rounded down: never surer than it is."""
    tenths = floor(chance * 1000)
    return f"{tenths // 10}.{tenths % 10}" if tenths % 10 else str(tenths // 10)


def _differing(plan: Plan, point: Point, first: Point) -> Iterator[Because]:
    before = {row.need: row.option for row in first.plan.chosen}
    after = {row.need: row.option for row in point.plan.chosen}
    for need in plan.assembled.needs:
        if after.get(need.id) != before.get(need.id):
            option = after.get(need.id)
            values = {"need": need.id, "option": plan.words(option) if option else ""}
            yield Because("trade-off-takes" if option else "trade-off-leaves", values, (need.finding.origin,))
    ordered = {row.offer: row.packs for row in first.plan.bought}
    offers = {row.id: row for row in plan.assembled.problem.offers}
    for row in point.plan.bought:
        if ordered.get(row.offer) != row.packs:
            price = str(plan.money(offers[row.offer].price))
            words = {"offer": row.offer, "packs": str(row.packs), "price": price}
            yield Because("bought", words, _origins(plan, row.offer))
