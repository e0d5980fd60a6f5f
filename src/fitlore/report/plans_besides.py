"""What a plan says besides its orders: what is in hand, what is met, what fills up, what is needed at a price nobody knows."""

from __future__ import annotations

from collections import Counter
from datetime import timedelta
from typing import TYPE_CHECKING, Any, Final

from fitlore.model.choices import Progress, Renew
from fitlore.report.days import short_day
from fitlore.report.money import said
from fitlore.report.plans_open import could_be_mended, open_json, open_side_lines
from fitlore.report.sources import thing_words
from fitlore.report.text import Line, listed, minutes, tied
from fitlore.sourcing.inhand import OWN

if TYPE_CHECKING:
    from fitlore.model.job import Cause, Purchase, Symptom
    from fitlore.sourcing.besides import Piece
    from fitlore.sourcing.options import Choice
    from fitlore.sourcing.planned import OrderLine, Plan, PlanLine


Json = dict[str, Any]
_NOT_RECKONED: Final = frozenset({"other-currency", "tax-not-known", "border-not-known"})


def besides_lines(plan: Plan) -> list[Line]:
    """One line each, and nothing where there is nothing to say."""
    lines = []
    done = [f"{need.id} ({need.finding.fault})" for need in plan.assembled.done]
    if done:
        lines.append(Line(f"done already: {listed(done)}", hang=2))
    idle = [f"{count} x {tied(_called(row))} ({_how_far(row)})" for row, count in idle_purchases(plan)]
    if idle:
        lines.append(Line(f"bought, and no use in this plan: {listed(idle)}", "ask", hang=2))
    lines += hindrance_lines(plan)
    for symptom in plan.assembled.job.symptoms:
        tests = [
            f"{cause.test or cause.fault or 'look'} ({minutes(cause.minutes) if cause.minutes else 'at once'}; {cause.at})"
            for cause in cheapest_tests(symptom)
        ]
        lines.append(Line(f"look first, {symptom.symptom}: {', then '.join(tests)}", "ask", hang=2))
    lines += open_side_lines(plan)
    pieces = pieces_needed_too(plan)
    if pieces:
        text = listed(_piece(name, rows) for name, rows in _by_name(pieces).items())
        lines.append(Line(f"needed too, at a price nobody has said (not in the sum): {text}", "ask", hang=2))
    return lines


def hindrance_lines(plan: Plan) -> list[Line]:
    """What the plan could not count on, whether or not there is one."""
    lines = []
    lost = [f"{row.quantity} x {tied(_called(row))}" for row in undated_purchases(plan)]
    if lost:
        lines.append(Line(f"on order with no day said, so not counted on: {listed(lost)}", "ask", hang=2))
    late = [
        f"{row.quantity} x {tied(_called(row))} (due {tied(short_day(row.due))})"
        for row in overdue_purchases(plan)
        if row.due is not None
    ]
    if late:
        lines.append(
            Line(f"on order and not here though due, so not counted on: {listed(late)}", "ask", hang=2)
        )
    lines += [
        Line(f"not reckoned with: {thing_words(row.offer, row.code, row.values)}", "ask", hang=2)
        for row in plan.assembled.market.left_out
        if row.code in _NOT_RECKONED
    ]
    lines += [
        Line(
            f"not possible in time: {_route(row)}; if it failed, what follows could not be in hand",
            "ask",
            hang=2,
        )
        for row in plan.assembled.too_late
    ]
    return lines


def cheapest_tests(symptom: Symptom) -> list[Cause]:
    """The tests that tell what is behind a symptom, the free one first; of equally short ones the likelier cause."""
    return sorted(symptom.could_be, key=lambda c: (c.minutes, -(c.odds.percent if c.odds else 0), c.at))


def filler_words(plan: Plan, row: OrderLine) -> str:
    """What is said behind a line of which not all packs serve something."""
    spare = spare_packs(plan, row)
    if not spare or row.offer.supplier in OWN:
        return ""
    why = "for what comes back" if row.offer.back > row.offer.price else "to fill up"
    return f" {why}" if spare == row.packs else f", {spare} of them {why}"


def spare_packs(plan: Plan, row: OrderLine) -> int:
    """Packs of which nothing is used."""
    used: Counter[str] = Counter()
    for use in plan.solution.assigned:
        if use.offer == row.offer.id:
            used[use.item] += use.units
    return row.packs - max((-(-used[bring.item] // bring.units) for bring in row.offer.brings), default=0)


def finding_besides(plan: Plan, line: PlanLine) -> list[str]:
    """What is said under a finding: that both on an axle are renewed, and what follows if the chosen route fails."""
    rows = []
    if line.need.fitted:
        counted = "; of this kind never one alone, so all are counted" if _mixed_never(line) else ""
        rows.append(f"{line.need.fitted} fitted already{counted}")
    if line.need.across:
        rows.append("both on the axle, though one was found: of this kind never one alone")
    if line.choice is not None and line.choice.verdict is not None and line.need.apart:
        rows.append(f"goes with what is taken for {tied(line.need.twin)}: both sides have to agree")
    rows += could_be_mended(plan, line)
    choice = line.choice
    then = choice.then if choice is not None else None
    if choice is not None and then is not None:
        from fitlore.sourcing.problem import CERTAIN

        fails = f"{(CERTAIN - choice.option.succeeds) / (CERTAIN / 100):g} %"
        lines = plan.assembled.market.lines
        offers = [lines[name] for name in then.offers]
        what = listed(
            f"{tied(f'{o.offer.number or o.offer.any_} {o.offer.state.value}')} from {o.supplier}"
            for o in offers
        )
        work = f" and {minutes(then.minutes)}" if then.minutes else ""
        rows.append(
            f"if that fails ({fails}): {what or then.option}, {said(then.money, plan.home)}{work} more, "
            f"in hand {then.days} days after the look{_look_by(plan, then.days)}"
        )
    return rows


def _look_by(plan: Plan, days: int) -> str:
    """The last day for the look, where everything has to be in hand by a day."""
    last = plan.assembled.problem.limits.days
    if last is None:
        return ""
    return f"; so look by {tied(short_day(plan.assembled.today + timedelta(days=last - days)))}"


def besides_json(plan: Plan) -> Json:
    """The same as data."""
    return {
        "done": [need.id for need in plan.assembled.done],
        "bought-and-idle": [_purchase_json(row, count) for row, count in idle_purchases(plan)],
        "on-order-without-a-day": [_purchase_json(row) for row in undated_purchases(plan)],
        "overdue": [_purchase_json(row) for row in overdue_purchases(plan)],
        "needed-too": [
            {
                "need": piece.need,
                "what": piece.name,
                "quantity": piece.quantity,
                "one-use": piece.renewed.one_use,
                "note": piece.renewed.note,
                "line": str(piece.renewed.origin),
            }
            for piece in pieces_needed_too(plan)
        ],
        "not-in-time": [row.option.id for row in plan.assembled.too_late],
        "branches": [_branch_json(plan, line) for line in plan.lines if line.choice and line.choice.then],
        "look-first": [
            {"symptom": row.symptom, "tests": [_test_json(cause) for cause in cheapest_tests(row)]}
            for row in plan.assembled.job.symptoms
        ],
        **open_json(plan),
        "fillers": sorted(
            row.offer.id for order in plan.orders for row in order.lines if filler_words(plan, row)
        ),
    }


def pieces_needed_too(plan: Plan) -> tuple[Piece, ...]:
    """What is renewed with the chosen parts and has no price."""
    from fitlore.sourcing.besides import unpriced_in

    return unpriced_in(plan.assembled.unpriced, plan.solution, plan.assembled.problem)


def idle_purchases(plan: Plan) -> list[tuple[Purchase, int]]:
    """What was bought for the job, is here or on its way, and how many of it the plan, if there is one, does not use."""
    if plan.solution.cost is None:
        return []
    lines = plan.assembled.market.lines
    used = Counter({lines[row.offer].origin: row.packs for row in plan.solution.bought})
    coming = (Progress.HERE, Progress.ON_ORDER)
    named = [*undated_purchases(plan), *overdue_purchases(plan)]
    return [
        (row, row.quantity - used[row.origin])
        for row in plan.assembled.job.purchases
        if row.now in coming and row.quantity > used[row.origin] and row not in named
    ]


def undated_purchases(plan: Plan) -> list[Purchase]:
    """What is on order, and nobody said when it comes."""
    rows = plan.assembled.job.purchases
    return [row for row in rows if row.now is Progress.ON_ORDER and row.due is None]


def overdue_purchases(plan: Plan) -> list[Purchase]:
    """What is on order, and should be here by now."""
    rows, today = plan.assembled.job.purchases, plan.assembled.today
    return [row for row in rows if row.now is Progress.ON_ORDER and row.due is not None and row.due < today]


def _mixed_never(line: PlanLine) -> bool:
    return line.need.answer.interface.renew is Renew.ACROSS_AXLE


def _route(choice: Choice) -> str:
    route = choice.route
    return f"{choice.need.id}: {route.do or route.route.value}" if route is not None else choice.option.id


def _called(row: Purchase) -> str:
    return row.number or row.service or row.is_ or "?"


def _how_far(row: Purchase) -> str:
    due = f", due {tied(short_day(row.due))}" if row.now is Progress.ON_ORDER and row.due is not None else ""
    return f"{row.now.value}{due}"


def _purchase_json(row: Purchase, count: int | None = None) -> Json:
    return {
        "what": _called(row),
        "quantity": row.quantity if count is None else count,
        "now": row.now.value,
        "line": str(row.origin),
    }


def _test_json(cause: Cause) -> Json:
    odds = float(cause.odds.percent) if cause.odds else None
    return {
        "at": cause.at,
        "test": cause.test,
        "minutes": cause.minutes,
        "odds": odds,
        "line": str(cause.origin),
    }


def _branch_json(plan: Plan, line: PlanLine) -> Json:
    choice = line.choice
    then = choice.then if choice is not None else None
    if choice is None or then is None:
        return {}
    return {
        "need": line.need.id,
        "succeeds": choice.option.succeeds / 100,
        "else": then.option,
        "offers": list(then.offers),
        "money": plan.money(then.money),
        "minutes": then.minutes,
        "days-after-the-look": then.days,
    }


def _by_name(pieces: tuple[Piece, ...]) -> dict[str, list[Piece]]:
    found: dict[str, list[Piece]] = {}
    for piece in pieces:
        found.setdefault(piece.name, []).append(piece)
    return dict(sorted(found.items()))


def _piece(name: str, rows: list[Piece]) -> str:
    notes = [row.renewed.note for row in rows if row.renewed.note]
    words = ", ".join(dict.fromkeys([*notes, *(row.need for row in rows)]))
    return f"{sum(row.quantity for row in rows)} x {tied(name)} ({words})"
