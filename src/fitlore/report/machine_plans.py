"""The JSON of `plan`; its shape is on the command's help page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitlore.report.machine import Json, because_json
from fitlore.report.plans_besides import besides_json
from fitlore.report.sentences import say
from fitlore.sourcing.problem import MINUTE
from fitlore.sourcing.proof import clash_proofs

if TYPE_CHECKING:
    from fitlore.sourcing.clash import Clash, Group, Relaxation
    from fitlore.sourcing.eased import Eased
    from fitlore.sourcing.frontier import Frontier
    from fitlore.sourcing.plan import Order, Plan, PlanLine


def plan_json(plan: Plan) -> Json:
    """A plan: status, sums, lines with their runner-up, orders, or what clashes."""
    totals, money, how = plan.solution.totals, plan.money, plan.outcome

    def known(coins: int | None) -> object:
        return money(coins) if coins is not None else None

    def planned(coins: int) -> object:
        return money(coins) if plan.solution.cost is not None else None

    return {
        "job": plan.assembled.job.job,
        "car": plan.assembled.car.car,
        "status": plan.solution.status,
        "cost": known(plan.solution.cost),
        "bound": known(plan.solution.bound),
        "money-at-the-end": planned(totals.money_end),
        "if-all-goes-well": known(how.good if how else None),
        "if-all-goes-wrong": known(how.bad if how else None),
        "chance-all-right": float(how.chance) if how else None,
        "minutes": totals.hands / MINUTE if plan.solution.cost is not None else None,
        "hands-worth": planned(totals.hands_worth),
        "adds": planned(totals.adds),
        "cash-now": planned(totals.cash_now),
        "surcharges-lent": planned(totals.surcharges),
        "most-to-pay": known(plan.most_to_pay),
        "profit": known(plan.profit),
        "lines": [_line_json(plan, line) for line in plan.lines],
        "orders": [_order_json(plan, order) for order in plan.orders],
        "besides": besides_json(plan),
        "limits": [_eased_json(plan, row) for row in plan.eased],
        "never": [
            {
                "need": row.need.id,
                "part": row.verdict.part.part,
                "danger": [say(step) for step in row.verdict.danger],
            }
            for row in plan.assembled.refused
            if row.verdict.danger
        ],
        "clash": _clash_json(plan, plan.clash) if plan.clash else None,
    }


def frontier_json(plan: Plan, found: Frontier) -> Json:
    """The plans worth choosing between, the cheapest first."""
    return {
        "job": plan.assembled.job.job,
        "car": plan.assembled.car.car,
        "whole": found.whole,
        "points": [
            {
                "number": number,
                "cost": plan.money(point.cost),
                "days": point.days,
                "chance-all-right": float(point.chance),
                "options": [row.option for row in point.plan.chosen],
                "offers": [{"offer": row.offer, "packs": row.packs} for row in point.plan.bought],
            }
            for number, point in enumerate(found.points, 1)
        ],
    }


def _line_json(plan: Plan, line: PlanLine) -> Json:
    """One need and how it is met."""
    choice, runner, must = line.choice, line.next_best, line.need.finding.must
    next_best: Json | None = None
    if runner is not None:
        dearer = plan.money(runner.dearer) if runner.dearer is not None else None
        next_best = {"option": runner.option, "dearer": dearer, "exact": runner.exact}
    offers = {row.id: row for row in plan.assembled.problem.offers}

    def price(offer: str, coins: int | None) -> object:
        return plan.money(offers[offer].price + coins) if coins is not None else None

    return {
        "number": line.number,
        "need": line.need.id,
        "fault": line.need.finding.fault,
        "must": must.value if must else None,
        "option": choice.option.id if choice else None,
        "part": choice.verdict.part.part if choice and choice.verdict else None,
        "offers": [{"offer": o.offer.id, "line": str(o.line.origin)} for o in line.offers],
        "runner-up": next_best,
        "not-chosen": [
            {"option": row.option, "dearer": plan.money(row.dearer) if row.dearer is not None else None}
            for row in line.others
        ],
        "stays-up-to": [
            {"offer": row.offer, "price": price(row.offer, row.coins), "steady": row.steady}
            for row in line.rises
        ],
        "comes-in-below": [
            {
                "offer": row.offer,
                "price": price(row.offer, -row.coins if row.coins is not None else None),
                "steady": row.steady,
            }
            for row in line.cuts
        ],
    }


def _order_json(plan: Plan, order: Order) -> Json:
    """What is bought from one supplier, and how it comes."""
    return {
        "supplier": order.supplier,
        "goods": plan.money(order.goods),
        "surcharges": plan.money(order.surcharges),
        "carriage": plan.money(order.fee),
        "joining": plan.money(order.joining),
        "by": order.way.mode or order.way.trip or "handed over",
        "order-within-days": order.last_day,
        "cut-off": order.cut_off or None,
        "lines": [
            {
                "offer": row.offer.id,
                "packs": row.packs,
                "price": plan.money(row.offer.price),
                "days": row.offer.days,
                "for": list(row.serves),
                "line": str(row.line.origin),
            }
            for row in order.lines
        ],
    }


def _eased_json(plan: Plan, row: Eased) -> Json:
    """A limit let out by one step."""
    cash = row.bound == "cash"
    return {
        "limit": row.bound,
        "more": plan.money(row.more) if cash else row.more,
        "value": plan.money(row.value) if cash else row.value,
        "saves": plan.money(row.saves) if row.saves is not None else None,
    }


def _clash_json(plan: Plan, clash: Clash) -> Json:
    """What cannot all hold, and each single change that makes a plan possible; cash is money, minutes and days are counted."""

    def group(row: Group) -> Json:
        return {"kind": row.kind, "id": row.id, "offer": row.offer}

    def value(row: Relaxation) -> object:
        return plan.money(row.value) if row.value is not None and row.group.kind == "cash" else row.value

    return {
        "members": [
            {**group(row), "because": because_json(proof)}
            for row, proof in zip(clash.members, clash_proofs(plan), strict=True)
        ],
        "irreducible": clash.irreducible,
        "relaxations": [{**group(row.group), "value": value(row)} for row in clash.relaxations],
        "give-up": list(clash.give_up) if clash.give_up is not None else None,
    }
