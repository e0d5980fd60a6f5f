"""The orders of a plan as text to paste into a letter: one for each supplier, with nothing that is not his business."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from fitlore.report.days import long_day
from fitlore.report.money import said
from fitlore.sourcing.inhand import OWN

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fitlore.model.shop import Shop
    from fitlore.model.supply import Supplier
    from fitlore.sourcing.plan import Order, OrderLine, Plan


def orders_text(plan: Plan, shop: Shop, suppliers: Mapping[str, Supplier]) -> str:
    """All orders, a line of dashes between two; what the shop has already is not ordered. Above each, when it has to go."""
    bought = [order for order in plan.orders if order.supplier not in OWN]
    return "\n----\n\n".join(_order(plan, order, shop, suppliers.get(order.supplier)) for order in bought)


def _order(plan: Plan, order: Order, shop: Shop, supplier: Supplier | None) -> str:
    name = supplier.name if supplier and supplier.name else order.supplier
    fetched = bool(order.way.trip)
    rows = [(f"{line.packs} x", what(line), *_price(plan, line)) for line in order.lines]
    wide = [max(len(row[at]) for row in rows) for at in range(4)]
    lines = []
    if order.last_day is not None:
        last = long_day(plan.assembled.today + timedelta(days=order.last_day))
        hour = f", {order.cut_off}" if order.cut_off else ""
        lines += [f"[send this by {last}{hour} at the latest]", ""]
    done = all(line.line.offer.service for line in order.lines)
    asks = "Please do for us:" if done else "We would like to fetch:" if fetched else "Please send:"
    lines += [f"To: {name}", f"From: {shop.name or shop.shop}", "", asks, ""]
    lines += [
        f"  {count:>{wide[0]}}  {thing:<{wide[1]}}  {each:>{wide[2]}}  {both:>{wide[3]}}".rstrip()
        for count, thing, each, both in rows
    ]
    home = plan.home
    total = [f"goods {said(order.goods, home)}"]
    if order.surcharges:
        total.append(f"surcharges {said(order.surcharges, home)}, which come back with the old units")
    if not fetched:
        total.append(f"carriage {said(order.fee, home)}" if order.fee else "carriage free")
        total.append(f"in all {said(order.goods + order.surcharges + order.fee, home)}")
    lines += ["", f"By your prices as we know them: {'; '.join(total)}."]
    return "\n".join(lines) + "\n"


def what(line: OrderLine) -> str:
    """What is ordered, as its seller names it, and its state where it is not new."""
    offer = line.line.offer
    named = offer.number or offer.whole_car or offer.service or f"any {offer.any_}"
    state = "" if offer.state.value == "new" else f", {offer.state.value}"
    maker = f", {offer.maker}" if offer.maker else ""
    side = f", {offer.side.value}" if offer.side else ""
    pack = f", pack of {offer.pack}" if offer.pack > 1 else ""
    return f"{named}{maker}{side}{state}{pack}"


def _price(plan: Plan, line: OrderLine) -> tuple[str, str]:
    each = said(line.offer.price, plan.home)
    return (f"{each} each", said(line.offer.price * line.packs, plan.home)) if line.packs > 1 else ("", each)
