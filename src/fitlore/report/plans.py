"""A plan in words: what it costs, what is bought where, how each finding is met, and what would change it."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from fitlore.model.choices import State
from fitlore.report.days import long_day
from fitlore.report.money import bare, said
from fitlore.report.plans_besides import (
    besides_lines,
    filler_words,
    finding_besides,
    hindrance_lines,
)
from fitlore.report.plans_impossible import clash_lines, day_of, suppliers_words
from fitlore.report.plans_open import open_side_lines
from fitlore.report.sentences import say
from fitlore.report.sources import BY
from fitlore.report.text import BLANK, Line, Tone, columns, listed, minutes, tied
from fitlore.report.verdicts import WORDS, danger_words, named, summary
from fitlore.sourcing.coins import coins
from fitlore.sourcing.inhand import OWN
from fitlore.sourcing.proof import price_proofs

if TYPE_CHECKING:
    from fitlore.sourcing.eased import Eased
    from fitlore.sourcing.plan import Order, OrderLine, Plan, PlanLine


def plan_lines(plan: Plan) -> list[Line]:
    """The whole plan, read in ten seconds: what must never go in and the sum first, then orders, then findings."""
    if plan.solution.status == "infeasible":
        return [*title_lines(plan), *clash_lines(plan), *hindrance_lines(plan), *open_side_lines(plan)]
    if plan.solution.cost is None:
        return [*title_lines(plan), Line("stopped before any plan was found; one may exist", "danger")]
    lines = [*title_lines(plan), *_dangers(plan), *_sums(plan), BLANK, *_orders(plan), *besides_lines(plan)]
    if not plan.lines:
        what = "is left to do" if plan.assembled.done else "was found that needs doing"
        return [*lines, BLANK, Line(f"nothing {what}", "head")]
    lines += [BLANK, Line("findings", "head")]
    for line in plan.lines:
        lines += _finding(plan, line)
    return lines


def title_lines(plan: Plan) -> list[Line]:
    """The job, the day it is planned from, and what it has to keep to."""
    job, limits = plan.assembled.job, plan.assembled.problem.limits
    now = f", {plan.wishes.now:%H:%M}" if plan.wishes.now else ""
    words = [f"planned from {long_day(plan.assembled.today)}{now}"]
    if limits.days is not None:
        last = plan.assembled.today + timedelta(days=limits.days)
        words.append(f"all in hand by {long_day(last)}")
    if limits.suppliers is not None:
        words.append(f"{suppliers_words(limits.suppliers)} at most")
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
    rows.append((said(totals.money_end, home), f"  money that is gone at the end{_good_and_bad(plan)}"))
    if totals.hands:
        there = f", of {minutes(limits.minutes)}" if limits.minutes is not None else ""
        hands = minutes(-(-totals.hands // MINUTE))
        rows.append((f"+ {said(totals.hands_worth, home)}", f"  {hands} of hands{there}"))
    if totals.adds:
        rows.append((f"- {said(totals.adds, home)}", "  what the extras add to the sale"))
    there = f", of {bare(limits.cash, home)} to spend" if limits.cash is not None else ""
    rows.append((said(totals.cash_now, home), f"cash needed now{there}{_lent(plan)}"))
    if plan.profit is not None:
        rows.append((said(plan.profit, home), _profit(plan, plan.profit)))
    elif plan.most_to_pay is not None:
        rows.append((said(plan.most_to_pay, home), "most to pay for such a car"))
    rows += [(said(row.saves, home), _saves(plan, row)) for row in plan.eased if row.saves]
    tones: list[Tone] = ["plain"] * len(rows)
    tones[0] = "good"
    return columns(rows, tones, "r")


def _good_and_bad(plan: Plan) -> str:
    """What the money can come to; nothing where nothing can go wrong."""
    how = plan.outcome
    if how is None or how.good == how.bad:
        return ""
    good, bad = bare(how.good, plan.home), bare(how.bad, plan.home)
    return f"; {good} if all goes well, {bad} if all goes wrong"


def _profit(plan: Plan, profit: int) -> str:
    """The profit, and whether it is what was wanted."""
    job = plan.assembled.job
    lead = "profit, hands paid" if profit >= 0 else "LOSS, hands paid"
    words = f"{lead}: {job.expected_sale} sale less {job.bought} bought"
    words += f", {job.selling_costs} selling and this plan" if job.selling_costs else " and this plan"
    short = coins(job.profit_wanted, plan.home) - profit
    return (
        f"{words}; {said(short, plan.home)} short of what is wanted"
        if job.profit_wanted and short > 0
        else words
    )


def _saves(plan: Plan, row: Eased) -> str:
    """What letting a limit out by a step saves."""
    match row.bound:
        case "minutes":
            return f"an hour more of hands would save ({minutes(row.value)})"
        case "cash":
            return f"{bare(row.more, plan.home)} more to spend would save"
        case "days":
            return f"a day more would save (till {day_of(plan, row.value)})"
    return f"one supplier more would save ({suppliers_words(row.value)})"


def _lent(plan: Plan) -> str:
    totals, home = plan.solution.totals, plan.home
    words = ""
    if totals.surcharges:
        back = totals.surcharges - totals.surcharges_lost
        words = (
            f"; {bare(totals.surcharges, home)} of it lent as surcharges, {bare(back, home)} expected back"
        )
    own = sum(row.offer.later * row.packs for o in plan.orders if o.supplier in OWN for row in o.lines)
    if totals.later > own:
        words += f"; {bare(totals.later - own, home)} to pay later"
    return f"{words}; {bare(totals.back, home)} comes back later" if totals.back else words


def _orders(plan: Plan) -> list[Line]:
    """Each order with its lines; the columns are those of all orders, so that figures stand under figures."""
    home = plan.home
    cells = [
        (
            f"{row.packs} x",
            f"{offer_words(row)}{_said_there(plan, row)}{filler_words(plan, row)}",
            bare(row.offer.price * row.packs, home),
            _arrives(plan, row),
        )
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
    if order.supplier in OWN:
        worth = sum(row.offer.later * row.packs for row in order.lines)
        kept = f"; {bare(worth, home)} counted, which it would bring elsewhere" if worth else ""
        look = "; look whether the size is right" if any(row.line.offer.any_ for row in order.lines) else ""
        return Line(f"{order.supplier}: nothing to pay any more{kept}{look}", "head", hang=2)
    lent = f", surcharges {bare(order.surcharges, home)}" if order.surcharges else ""
    carried = f"carriage {bare(order.fee, home)}" if order.fee else ""
    by = carried or _fetched(plan, way.trip) or BY.get(way.mode, way.mode) or "handed over"
    joined = f", joining {bare(order.joining, home)}" if order.joining else ""
    last = f"; order by {_order_by(plan, order)}" if order.last_day is not None else ""
    return Line(f"{order.supplier}: {bare(order.goods, home)}{lent}{joined}, {by}{last}", "head", hang=2)


def _said_there(plan: Plan, row: OrderLine) -> str:
    """The price as the seller says it, where tax, border or another currency make it another one here."""
    price = row.line.offer.price
    if price is None or (price.currency == plan.home and coins(price, plan.home) == row.offer.price):
        return ""
    return tied(f" ({price} there)")


def _order_by(plan: Plan, order: Order) -> str:
    """The last day, and the hour where the supplier has one."""
    return tied(f"{day_of(plan, order.last_day or 0)} {order.cut_off}".strip())


def _arrives(plan: Plan, row: OrderLine) -> str:
    return tied(day_of(plan, row.offer.days)) if row.offer.days else "now"


def _fetched(plan: Plan, name: str) -> str:
    trip = next((trip for trip in plan.assembled.problem.trips if trip.id == name), None)
    return f"fetched for {bare(trip.money, plan.home)} and {minutes(trip.minutes)}" if trip else ""


def offer_words(row: OrderLine) -> str:
    """What is bought, and its state where it is not new."""
    offer = row.line.offer
    what = offer.number or offer.service or offer.whole_car or offer.any_ or ""
    state = f" {offer.state.value}" if offer.state is not State.NEW else ""
    return tied(f"{what}{state}")


def _finding(plan: Plan, line: PlanLine) -> list[Line]:
    need = line.need
    must = need.finding.must.value if need.finding.must else _if_it_pays(plan, line)
    lead = f"{line.number:>2}  {need.id} ({must}): {need.finding.fault}"
    if line.choice is None:
        unsaid = need.finding.adds is None
        why = (
            "nobody said that it must be (`must:`) or what it adds (`adds:`)"
            if unsaid
            else "it adds less than it costs"
        )
        return [Line(lead, hang=4), Line(f"    left: {why}", "dim", hang=6)]
    lines = [Line(lead, hang=4), Line(f"    {_choice_words(line)}", hang=6)]
    lines += [Line(f"    {text}", hang=6) for text in finding_besides(plan, line)]
    if line.next_best is not None:
        lines.append(Line(f"    {_next_best(plan, line)}", "dim", hang=6))
    lines += [Line(f"    {say(step)}", "dim", hang=6) for step in price_proofs(plan, line)]
    return lines


def _if_it_pays(plan: Plan, line: PlanLine) -> str:
    adds = line.choice.option.adds if line.choice else 0
    return f"if it pays: adds {bare(adds, plan.home)}" if adds else "if it pays"


def _choice_words(line: PlanLine) -> str:
    choice = line.choice
    if choice is None:
        return ""
    bought = listed(f"{offer_words(o)} from {o.offer.supplier}" for o in line.offers)
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
        return "no other part or way would do" if runner.exact else "no other part or way near by would do"
    most = "" if runner.exact else "at most "
    return f"next best: {plan.words(runner.option or '')}, {most}{said(runner.dearer, plan.home)} dearer"
