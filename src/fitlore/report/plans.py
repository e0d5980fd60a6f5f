"""A plan in words: what it costs, what is bought where, how each finding is met, and what would change it."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from fitlore.model.choices import State
from fitlore.report.money import bare, said
from fitlore.report.sources import BY
from fitlore.report.text import BLANK, Line, Tone, columns, listed, minutes, tied
from fitlore.report.verdicts import WORDS, danger_words, named, summary

if TYPE_CHECKING:
    from fitlore.sourcing.clash import Group, Relaxation
    from fitlore.sourcing.plan import Order, OrderLine, Plan, PlanLine


def plan_lines(plan: Plan) -> list[Line]:
    """The whole plan, read in ten seconds: what must never go in and the sum first, then orders, then findings."""
    if plan.solution.status == "infeasible":
        return [*_title(plan), *_clash(plan)]
    if plan.solution.cost is None:
        return [*_title(plan), Line("stopped before any plan was found; one may exist", "danger")]
    lines = [*_title(plan), *_dangers(plan), *_sums(plan), BLANK, *_orders(plan)]
    lines += [BLANK, Line("findings", "head")]
    for line in plan.lines:
        lines += _finding(plan, line)
    return lines


def _title(plan: Plan) -> list[Line]:
    job, limits = plan.assembled.job, plan.assembled.problem.limits
    words = [f"planned from {plan.assembled.today:%A %-d %B %Y}"]
    if limits.days is not None:
        last = plan.assembled.today + timedelta(days=limits.days)
        words.append(f"all in hand by {last:%A %-d %B %Y}")
    if limits.suppliers is not None:
        words.append(f"{_suppliers(limits.suppliers)} at most")
    if limits.without_suppliers:
        words.append(f"nothing from {listed(limits.without_suppliers, 'or')}")
    return [Line(job.name or job.job, "head", hang=2), Line(", ".join(words), hang=2)]


def _dangers(plan: Plan) -> list[Line]:
    rows = (row for row in plan.assembled.refused if row.verdict.danger)
    texts = (f"! {named(row.verdict)}, never at {row.need.id}: {danger_words(row.verdict)}" for row in rows)
    return [Line(text, "danger", hang=2) for text in dict.fromkeys(texts)]


def _sums(plan: Plan) -> list[Line]:
    from fitlore.sourcing.problem import MINUTE

    totals, limits, home = plan.solution.totals, plan.assembled.problem.limits, plan.home
    proof = "proven: no mix is cheaper"
    if plan.solution.status != "proven":
        least = f"none is below {said(plan.solution.bound, home)}" if plan.solution.bound is not None else ""
        proof = "; ".join(word for word in ("stopped, NOT proven to be the cheapest", least) if word)
    rows: list[tuple[str, str]] = [(said(plan.solution.cost or 0, home), f"in all ({proof}):")]
    rows.append((said(totals.money_end, home), "  money that is gone at the end"))
    if totals.hands:
        there = f", of {minutes(limits.minutes)}" if limits.minutes is not None else ""
        hands = minutes(-(-totals.hands // MINUTE))
        rows.append((f"+ {said(totals.hands_worth, home)}", f"  {hands} of hands{there}"))
    if totals.adds:
        rows.append((f"- {said(totals.adds, home)}", "  what the extras add to the sale"))
    there = f", of {bare(limits.cash, home)} to spend" if limits.cash is not None else ""
    rows.append((said(totals.cash_now, home), f"cash needed now{there}{_lent(plan)}"))
    if plan.most_to_pay is not None:
        rows.append((said(plan.most_to_pay, home), "most to pay for such a car"))
    tones: list[Tone] = ["plain"] * len(rows)
    tones[0] = "good"
    return columns(rows, tones, "r")


def _lent(plan: Plan) -> str:
    totals = plan.solution.totals
    if not totals.surcharges:
        return ""
    back = totals.surcharges - totals.surcharges_lost
    return f"; {bare(totals.surcharges, plan.home)} of it lent as surcharges, {bare(back, plan.home)} expected back"


def _orders(plan: Plan) -> list[Line]:
    """Each order with its lines; the columns are those of all orders, so that figures stand under figures."""
    home = plan.home
    cells = [
        (f"{row.packs} x", _offer_words(row), bare(row.offer.price * row.packs, home), _arrives(plan, row))
        for order in plan.orders
        for row in order.lines
    ]
    rows = iter(columns([(" ", *cell) for cell in cells], ["plain" for _ in cells], "lrlr"))
    lines: list[Line] = []
    for order in plan.orders:
        lines.append(_order(plan, order))
        lines += [next(rows) for _ in order.lines]
    return lines


def _order(plan: Plan, order: Order) -> Line:
    home, way = plan.home, order.way
    lent = f", surcharges {bare(order.surcharges, home)}" if order.surcharges else ""
    carried = f"carriage {bare(order.fee, home)}" if order.fee else ""
    by = carried or _fetched(plan, way.trip) or BY.get(way.mode, way.mode) or "handed over"
    return Line(f"{order.supplier}: {bare(order.goods, home)}{lent}, {by}", "head", hang=2)


def _arrives(plan: Plan, row: OrderLine) -> str:
    return tied(day_of(plan, row.offer.days)) if row.offer.days else "now"


def _fetched(plan: Plan, name: str) -> str:
    trip = next((trip for trip in plan.assembled.problem.trips if trip.id == name), None)
    return f"fetched for {bare(trip.money, plan.home)} and {minutes(trip.minutes)}" if trip else ""


def _offer_words(row: OrderLine) -> str:
    offer = row.line.offer
    what = offer.number or offer.service or offer.whole_car or offer.any_ or ""
    state = f" {offer.state.value}" if offer.state is not State.NEW else ""
    return tied(f"{what}{state}")


def _finding(plan: Plan, line: PlanLine) -> list[Line]:
    need = line.need
    must = need.finding.must.value if need.finding.must else "if it pays"
    lead = f"{line.number:>2}  {need.id} ({must}): {need.finding.fault}"
    if line.choice is None:
        return [Line(lead, hang=4), Line("    left: it adds less than it costs", "dim")]
    lines = [Line(lead, hang=4), Line(f"    {_choice_words(line)}", hang=6)]
    if line.next_best is not None:
        lines.append(Line(f"    {_next_best(plan, line)}", "dim", hang=6))
    return lines


def _choice_words(line: PlanLine) -> str:
    choice = line.choice
    if choice is None:
        return ""
    bought = listed(f"{_offer_words(o)} from {o.offer.supplier}" for o in line.offers)
    time = minutes(choice.option.minutes) if choice.option.minutes else ""
    if choice.verdict is None:
        does = (choice.route.do or choice.route.route.value) if choice.route else ""
        return "; ".join(word for word in (does, bought, time) if word)
    number = choice.verdict.part.part
    itself = any(o.line.offer.number == number for o in line.offers)
    lead = bought if itself else f"{tied(number)}: {bought}" if bought else tied(number)
    verdict = f"{WORDS[choice.verdict.word]}: {summary(choice.verdict, name=False)}"
    return "; ".join(word for word in (lead, time, verdict) if word)


def _next_best(plan: Plan, line: PlanLine) -> str:
    runner = line.next_best
    if runner is None:
        return ""
    if runner.dearer is None:
        return "nothing else would do"
    if runner.option is None:
        return f"next best: leave it, {said(runner.dearer, plan.home)} dearer"
    return f"next best: {option_words(plan, runner.option)}, {said(runner.dearer, plan.home)} dearer"


def option_words(plan: Plan, option: str) -> str:
    """An option by what is done: the part's number, or the route in the job's words."""
    choice = plan.assembled.choices.get(option)
    if choice is None:
        return option
    if choice.verdict is not None:
        return choice.verdict.part.part
    return choice.route.do or choice.route.route.value if choice.route else option


def _clash(plan: Plan) -> list[Line]:
    lines = [Line("not possible as it stands", "danger")]
    if plan.clash is None:
        return lines
    head = (
        "these clash; leave any one out and the others can hold:"
        if plan.clash.irreducible
        else "among these is the clash:"
    )
    lines.append(Line(head, "head"))
    lines += [Line(f"  {_group(plan, group)}", hang=4) for group in plan.clash.members]
    ways = [row for row in plan.clash.relaxations if row.group.kind != "banned"]
    if ways:
        lines.append(Line("any one of these makes it possible:", "head"))
        lines += [Line(f"  {_eased(plan, row)}", hang=4) for row in ways]
    return lines


def _group(plan: Plan, group: Group) -> str:
    limits = plan.assembled.problem.limits
    match group.kind:
        case "need":
            fault = next((need.note for need in plan.assembled.problem.needs if need.id == group.id), "")
            return f"need: {group.id}{f' ({fault})' if fault else ''}"
        case "minutes":
            return f"limit: {minutes(limits.minutes or 0)} of hands"
        case "cash":
            return f"limit: {said(limits.cash or 0, plan.home)} to spend now"
        case "days":
            return f"limit: in hand by {day_of(plan, limits.days or 0)}"
        case "suppliers":
            return f"limit: {_suppliers(limits.suppliers or 0)} at most"
        case "without supplier":
            return f"limit: not buying from {group.id}"
        case "banned":
            return f"rule: {group.offer} is not taken for {group.id}"
        case _:
            return f"limit: {group.kind} {group.id}".rstrip()


def _eased(plan: Plan, row: Relaxation) -> str:
    value = row.value or 0
    match row.group.kind:
        case "need":
            return f"leaving {row.group.id}"
        case "minutes":
            return f"{minutes(value)} of hands"
        case "cash":
            return f"{said(value, plan.home)} to spend now"
        case "days":
            return f"waiting till {day_of(plan, value)}"
        case "suppliers":
            return _suppliers(value)
        case "without supplier":
            return f"buying from {row.group.id}"
        case _:
            return f"doing without the limit: {row.group.kind} {row.group.id}".rstrip()


def _suppliers(count: int) -> str:
    return f"{count} supplier{'' if count == 1 else 's'}"


def day_of(plan: Plan, days: int) -> str:
    """Days from the day of planning as a date with its weekday."""
    return f"{plan.assembled.today + timedelta(days=days):%a %-d %b}"
