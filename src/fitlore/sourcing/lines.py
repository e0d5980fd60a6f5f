"""What each line of a plan costs, for the solver: `problem` states the rules, `audit` works them out again on its own."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from fitlore.sourcing.problem import (
    CERTAIN,
    MINUTE,
    Mode,
    Offer,
    Option,
    Otherwise,
    SharedWork,
    Supplier,
    Totals,
    Trip,
)


class Line(msgspec.Struct, frozen=True):
    """One line's share of the totals, in coins; hands in ten-thousandths of a minute. `worst_*`: what the worst adds."""

    goods: int = 0
    surcharges: int = 0
    surcharges_lost: int = 0
    later: int = 0
    back: int = 0
    carriage: int = 0
    trips: int = 0
    materials: int = 0
    failures: int = 0
    hands: int = 0
    hands_worth: int = 0
    adds: int = 0
    worst_cash: int = 0
    worst_hands: int = 0

    @property
    def money_end(self) -> int:
        """Its share of the money at the end."""
        paid = self.goods + self.surcharges_lost + self.later + self.carriage + self.trips + self.materials
        return paid + self.failures - self.back

    @property
    def cost(self) -> int:
        """Its share of the cost, the sum that is made least."""
        return self.money_end + self.hands_worth - self.adds

    @property
    def cash_now(self) -> int:
        """Its share of the cash needed now."""
        return self.goods + self.surcharges + self.carriage + self.trips + self.materials


def half_up(numerator: int, denominator: int) -> int:
    """The nearest whole number to a ratio that is not negative, a half upwards."""
    return (2 * numerator + denominator) // (2 * denominator)


def worth(hands: int, hour_worth: int) -> int:
    """The worth in coins of hands (ten-thousandths of a minute)."""
    return half_up(hands * hour_worth, 60 * MINUTE)


def option_line(option: Option, hour_worth: int) -> Line:
    """Taking an option: materials, hands, what it adds, and the expected failure."""
    fails = CERTAIN - option.succeeds
    hands = option.minutes * MINUTE + fails * option.otherwise.minutes
    return Line(
        materials=option.money,
        failures=half_up(fails * option.otherwise.money, CERTAIN),
        hands=hands,
        hands_worth=worth(hands, hour_worth),
        adds=option.adds,
        worst_cash=option.otherwise.money if fails else 0,
        worst_hands=option.succeeds * option.otherwise.minutes if fails else 0,
    )


def pack_line(offer: Offer, hour_worth: int) -> Line:
    """Buying one pack."""
    return Line(
        goods=offer.price,
        surcharges=offer.surcharge,
        surcharges_lost=half_up((CERTAIN - offer.returned) * offer.surcharge, CERTAIN),
        later=offer.later,
        back=offer.back,
        hands=offer.minutes * MINUTE,
        hands_worth=worth(offer.minutes * MINUTE, hour_worth),
        worst_cash=offer.later,
    )


def unit_line(works: int, fits: int, otherwise: Otherwise, hour_worth: int) -> Line:
    """Assigning one unit: the expected cost of its being wrong for this want or unsound."""
    wrong = CERTAIN * CERTAIN - works * fits
    hands = half_up(wrong * otherwise.minutes * MINUTE, CERTAIN * CERTAIN)
    return Line(
        failures=half_up(wrong * otherwise.money, CERTAIN * CERTAIN),
        hands=hands,
        hands_worth=worth(hands, hour_worth),
        worst_cash=otherwise.money if wrong else 0,
        worst_hands=otherwise.minutes * MINUTE - hands if wrong else 0,
    )


def mode_line(mode: Mode) -> Line:
    """Having a basket delivered."""
    return Line(carriage=mode.fee, back=mode.back)


def joining_line(supplier: Supplier) -> Line:
    """Buying anything from a supplier whom the shop has to join first."""
    return Line(carriage=supplier.joining)


def trip_line(trip: Trip, hour_worth: int) -> Line:
    """Making a journey."""
    hands = trip.minutes * MINUTE
    return Line(trips=trip.money, hands=hands, hands_worth=worth(hands, hour_worth))


def shared_line(work: SharedWork, hour_worth: int) -> Line:
    """Doing a shared work."""
    hands = work.minutes * MINUTE
    return Line(materials=work.money, hands=hands, hands_worth=worth(hands, hour_worth))


def added(lines: Iterable[tuple[int, Line]], packs: int, suppliers: int, last_day: int) -> Totals:
    """The totals of a plan from (how many, line)."""
    names = Line.__struct_fields__
    sums = dict.fromkeys(names, 0)
    for count, line in lines:
        for name in names if count else ():
            sums[name] += count * getattr(line, name)
    whole = Line(**sums)
    return Totals(
        goods=whole.goods,
        surcharges=whole.surcharges,
        surcharges_lost=whole.surcharges_lost,
        later=whole.later,
        back=whole.back,
        carriage=whole.carriage,
        trips=whole.trips,
        materials=whole.materials,
        failures=whole.failures,
        money_end=whole.money_end,
        hands=whole.hands,
        hands_worth=whole.hands_worth,
        adds=whole.adds,
        cost=whole.cost,
        cash_now=whole.cash_now,
        worst_cash=whole.cash_now + whole.worst_cash,
        worst_hands=whole.hands + whole.worst_hands,
        packs=packs,
        suppliers=suppliers,
        last_day=last_day,
    )
