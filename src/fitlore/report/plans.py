"""A plan in words: what it costs, what is bought where, how each finding is met, and what would change it."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from fitlore.model.choices import State
from fitlore.report.money import bare, said
from fitlore.report.text import BLANK, Line, minutes, right_aligned
from fitlore.report.verdicts import summary

if TYPE_CHECKING:
    from fitlore.sourcing.plan import Order, OrderLine, Plan, PlanLine


def plan_lines(plan: Plan) -> list[Line]:
    """The whole plan, read in ten seconds: the sum first, then orders, then findings."""
    if plan.solution.status == "infeasible":
        return [_title(plan), *_clash(plan)]
    lines = [_title(plan), *_sums(plan), BLANK]
    for order in plan.orders:
        lines += _order(plan, order)
    lines += [BLANK, Line("findings", "head")]
    for line in plan.lines:
        lines += _finding(plan, line)
    return [*lines, *_left_out(plan)]


def _title(plan: Plan) -> Line:
    job = plan.assembled.job
    by = f", in hand by {job.in_hand_by:%A %-d %B %Y}" if job.in_hand_by else ""
    return Line(f"{job.name or job.job}: from {plan.assembled.today:%A %-d %B %Y}{by}", "head")


def _sums(plan: Plan) -> list[Line]:
    from fitlore.sourcing.problem import MINUTE

    totals, home = plan.solution.totals, plan.home
    hands = minutes(-(-totals.hands // MINUTE))
    proof = "proven: no mix is cheaper" if plan.solution.status == "proven" else "not proven"
    worth = f" + {hands} of work {bare(totals.hands_worth, home)}" if totals.hands else ""
    adds = f" - {bare(totals.adds, home)} the extras add" if totals.adds else ""
    lines = [
        Line(
            f"{said(plan.solution.cost or 0, home)} ({proof}) = {bare(totals.money_end, home)} money at the end{worth}{adds}",
            "good",
            hang=2,
        ),
        Line(f"cash needed now {said(totals.cash_now, home)}{_lent(plan)}", hang=2),
    ]
    if plan.most_to_pay is not None:
        lines.append(Line(f"most to pay for such a car: {said(plan.most_to_pay, home)}"))
    return lines


def _lent(plan: Plan) -> str:
    totals = plan.solution.totals
    if not totals.surcharges:
        return ""
    back = totals.surcharges - totals.surcharges_lost
    return f", of which {bare(totals.surcharges, plan.home)} is lent as surcharges ({bare(back, plan.home)} expected back)"


def _order(plan: Plan, order: Order) -> list[Line]:
    home = plan.home
    way = order.way
    by = (
        f"carriage {bare(order.fee, home)}"
        if order.fee
        else _fetched(plan, way.trip) or way.mode or "handed over"
    )
    rows = []
    for row in order.lines:
        note = f"day {row.offer.days}" if row.offer.days else "now"
        rows.append((f"  {row.packs} x", _offer_words(row), bare(row.offer.price * row.packs, home), note))
    head = Line(f"{order.supplier}: {bare(order.goods, home)}, {by}", "head")
    return [head, *(Line(text, hang=8) for text in right_aligned(rows, "llrl"))]


def _fetched(plan: Plan, name: str) -> str:
    trip = next((trip for trip in plan.assembled.problem.trips if trip.id == name), None)
    return f"fetched: {bare(trip.money, plan.home)} and {minutes(trip.minutes)}" if trip else ""


def _offer_words(row: OrderLine) -> str:
    offer = row.line.offer
    what = offer.number or offer.service or offer.whole_car or offer.any_ or ""
    state = f" {offer.state.value}" if offer.state is not State.NEW else ""
    lent = " + surcharge" if row.offer.surcharge else ""
    return f"{what}{state}{lent}"


def _finding(plan: Plan, line: PlanLine) -> list[Line]:
    need = line.need
    must = need.finding.must.value if need.finding.must else "if it pays"
    lead = f"{line.number:>2}  {need.id} ({must}): {need.finding.fault}"
    if line.choice is None:
        return [Line(f"{lead}", hang=4), Line("    left: it adds less than it costs", "dim")]
    lines = [Line(lead, hang=4), Line(f"    {_choice_words(plan, line)}", hang=6)]
    if line.next_best is not None:
        lines.append(Line(f"    {_next_best(plan, line)}", "dim", hang=6))
    return lines


def _choice_words(plan: Plan, line: PlanLine) -> str:
    choice = line.choice
    if choice is None:
        return ""
    bought = " and ".join(f"{_offer_words(o)} from {o.offer.supplier}" for o in line.offers)
    time = minutes(choice.option.minutes) if choice.option.minutes else ""
    if choice.verdict is not None:
        words = [choice.verdict.part.part, bought, time, summary(choice.verdict)]
    elif choice.route is not None:
        words = [choice.route.do or choice.route.route.value, bought, time]
    else:
        words = [bought, time]
    return "; ".join(word for word in words if word)


def _next_best(plan: Plan, line: PlanLine) -> str:
    runner = line.next_best
    if runner is None:
        return ""
    if runner.dearer is None:
        return "nothing else would do"
    if runner.option is None:
        return f"next best: leave it, {said(runner.dearer, plan.home)} dearer"
    choice = plan.assembled.choices.get(runner.option)
    name = (
        choice.verdict.part.part
        if choice and choice.verdict
        else (choice.route.do or choice.route.route.value)
        if choice and choice.route
        else runner.option
    )
    return f"next best: {name}, {said(runner.dearer, plan.home)} dearer"


def _left_out(plan: Plan) -> list[Line]:
    rows = [row for row in plan.assembled.refused if row.verdict.danger]
    return [Line(f"! never: {row.verdict.part.part} at {row.need.id}", "danger", hang=2) for row in rows]


def _clash(plan: Plan) -> list[Line]:
    lines = [Line("not possible as it stands", "danger")]
    if plan.clash is None:
        return lines
    lines.append(Line("these clash, and no smaller set does:", "head"))
    lines += [Line(f"  need: {name}", hang=4) for name in plan.clash.needs]
    lines += [Line(f"  limit: {_limit(plan, name)}", hang=4) for name in plan.clash.limits]
    lines += [Line(f"  not buying from {name}", hang=4) for name in plan.clash.without_suppliers]
    if plan.clash.enough:
        lines.append(Line("any one of these makes it possible:", "head"))
        lines += [Line(f"  {_eased(plan, name, value)}", hang=4) for name, value in plan.clash.enough.items()]
    return lines


def _limit(plan: Plan, name: str) -> str:
    limits = plan.assembled.problem.limits
    if name == "minutes":
        return f"{minutes(limits.minutes or 0)} of hands"
    if name == "cash":
        return f"{said(limits.cash or 0, plan.home)} to spend now"
    if name == "days":
        return f"in hand by {day_of(plan, limits.days or 0)}"
    return f"{limits.suppliers} suppliers at most"


def _eased(plan: Plan, name: str, value: int) -> str:
    if name == "minutes":
        return f"{minutes(value)} of hands"
    if name == "cash":
        return f"{said(value, plan.home)} to spend now"
    if name == "days":
        return f"waiting till {day_of(plan, value)}"
    return f"{value} suppliers"


def day_of(plan: Plan, days: int) -> str:
    """Days from the day of planning as a date with its weekday."""
    return f"{plan.assembled.today + timedelta(days=days):%a %-d %b}"
