"""Tiny random jobs that use every part of a problem, the same on every machine."""

from __future__ import annotations

from typing import TypeVar

import msgspec

from fitlore.sourcing.problem import (
    CERTAIN,
    Banned,
    Bring,
    Companion,
    Limits,
    Mode,
    Need,
    Never,
    Offer,
    Option,
    Otherwise,
    Pair,
    Pool,
    Problem,
    SharedWork,
    Supplier,
    Take,
    Trip,
    Want,
)

T = TypeVar("T")
ITEMS = ("a", "b", "oil", "c")


class Dice:
    """Numbers by splitmix64 from a seed."""

    def __init__(self, seed: int) -> None:
        self.state = seed

    def number(self) -> int:
        """The next 64 bits."""
        self.state = (self.state + 0x9E3779B97F4A7C15) % 2**64
        mixed = self.state
        mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9 % 2**64
        mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB % 2**64
        return mixed ^ (mixed >> 31)

    def upto(self, most: int) -> int:
        """0 .. most."""
        return self.number() % (most + 1)

    def pick(self, *rows: T) -> T:
        """One of them."""
        return rows[self.upto(len(rows) - 1)]

    def once_in(self, times: int) -> bool:
        """True once in so many times."""
        return self.upto(times - 1) == 0

    def maybe(self, times: int, value: T) -> T | None:
        """The value once in so many times, else None."""
        return value if self.once_in(times) else None


def job(seed: int) -> Problem:
    """A job of two or three needs, four to six offers, two or three suppliers."""
    return _besides(Dice(seed + 10**9), _plain(Dice(seed)))


def _besides(dice: Dice, problem: Problem) -> Problem:
    """What came later than the rest, thrown apart so that the rest stays as it was: own stores, tax, branches."""
    replace = msgspec.structs.replace
    offers, suppliers, options = problem.offers, problem.suppliers, problem.options
    if dice.once_in(3):
        owned = dice.pick(*offers).id
        store = replace(
            next(row for row in offers if row.id == owned), supplier="own", price=0, surcharge=0, back=0
        )
        store = replace(store, stock=1 + dice.upto(1), minutes=0, days=dice.upto(2), counts=None, takes=())
        offers = tuple(store if row.id == owned else row for row in offers)
        suppliers = (*suppliers, Supplier("own", own=True))
    if dice.once_in(3):
        taxed = [
            tuple(replace(mode, back=mode.fee // dice.pick(1, 6)) for mode in row.modes) for row in suppliers
        ]
        suppliers = tuple(replace(row, modes=modes) for row, modes in zip(suppliers, taxed, strict=True))
    if dice.once_in(3):
        options = tuple(replace(row, ahead=dice.upto(3)) for row in options)
    if dice.once_in(3):
        joined = [row if row.own else replace(row, joining=dice.pick(0, 6, 25)) for row in suppliers]
        suppliers = tuple(joined)
    return replace(problem, offers=offers, suppliers=suppliers, options=options)


def _plain(dice: Dice) -> Problem:
    needs = tuple(
        Need(f"n{k}", not dice.once_in(2), latest=dice.maybe(8, 3)) for k in range(2 + dice.upto(1))
    )
    options = tuple(_option(dice, need.id, k) for need in needs for k in range(1 + dice.upto(2)))
    suppliers = tuple(_supplier(dice, k) for k in range(2 + dice.upto(1)))
    offers = tuple(_offer(dice, k, dice.pick(*suppliers).id) for k in range(5 + dice.upto(2)))
    if dice.once_in(2):
        offers = (*offers[:-1], _dear_twin(dice, offers[-1], dice.pick(*offers[:-1])))
    names = [row.id for row in options]
    first = [row.id for row in options if row.need == "n0"]
    second = [row.id for row in options if row.need == "n1"]
    return Problem(
        needs=needs,
        options=options,
        offers=offers,
        suppliers=suppliers,
        shared=(
            SharedWork("bleed", 7, 11, (Want(("oil",)),), dice.maybe(6, 2)),
            SharedWork("arms-off", dice.upto(20)),
        ),
        trips=(Trip("t0", dice.upto(30), dice.upto(30)), Trip("t1", dice.upto(40), dice.upto(10))),
        pools=(Pool("old-unit", dice.upto(2)),),
        companions=(Companion(dice.pick(*first), (dice.pick(*names), dice.pick(*second))),)
        if dice.once_in(5)
        else (),
        never=(Never(dice.pick(*names), dice.pick(*second)),) if dice.once_in(5) else (),
        pairs=(Pair(dice.pick(*first), dice.pick(*second)),) if dice.once_in(4) else (),
        limits=_limits(dice, names, [row.id for row in offers], [row.id for row in suppliers]),
        hour_worth=dice.pick(0, 60, 100, 1234),
    )


def _otherwise(dice: Dice) -> Otherwise:
    return Otherwise(dice.upto(40), dice.upto(30))


def _option(dice: Dice, need: str, number: int) -> Option:
    wants = tuple(
        Want(
            (item, dice.pick(*(other for other in ITEMS if other != item))) if dice.once_in(4) else (item,),
            amount,
            fits,
        )
        for item, amount, fits in (
            (dice.pick("a", "a", "b", "b", "c"), dice.pick(1, 1, 2), dice.pick(CERTAIN, CERTAIN, 7777))
            for _ in range(dice.pick(0, 1, 1, 1, 2))
        )
    )
    return Option(
        f"{need}/o{number}",
        need,
        money=dice.pick(0, 5),
        minutes=dice.upto(40),
        adds=dice.pick(0, 60, 120),
        wants=wants,
        shared=dice.pick((), (), ("bleed",), ("arms-off",), ("bleed", "arms-off")),
        succeeds=dice.pick(CERTAIN, CERTAIN, 8000, 3333),
        otherwise=_otherwise(dice),
        takes=(Take("old-unit"),) if dice.once_in(5) else (),
    )


def _offer(dice: Dice, number: int, supplier: str) -> Offer:
    first = ITEMS[number % len(ITEMS)]
    brings = [Bring(first, dice.pick(1, 1, 1, 2, 3))]
    if dice.once_in(3):
        brings.append(Bring(dice.pick(*(item for item in ITEMS if item != first)), dice.pick(1, 2)))
    if dice.once_in(12):
        brings = []
    price = 10 + dice.upto(50)
    earns = dice.once_in(12)
    return Offer(
        f"f{number}",
        supplier,
        price,
        tuple(brings),
        stock=1 + dice.upto(1) if earns else dice.pick(None, None, 1, 2),
        most=dice.maybe(8, 2),
        days=dice.upto(4),
        minutes=dice.pick(0, 0, 10),
        surcharge=dice.pick(0, 0, 25),
        returned=dice.pick(CERTAIN, 9000, 6543),
        later=dice.pick(0, 0, 4),
        back=price + 15 if earns else dice.pick(0, 0, 0, 8),
        counts=dice.maybe(8, dice.upto(30)),
        weight=dice.upto(3) * 100,
        works=dice.pick(CERTAIN, CERTAIN, 8500, 5555),
        otherwise=_otherwise(dice),
        takes=(Take("old-unit", dice.pick(1, 2)),) if dice.once_in(6) else (),
    )


def _dear_twin(dice: Dice, last: Offer, offer: Offer) -> Offer:
    """The last offer's place taken by the same goods as another offer's, dearer, often by more than any carriage."""
    price = offer.price + 5 + dice.upto(60)
    supplier = dice.pick(last.supplier, offer.supplier)
    return msgspec.structs.replace(offer, id=last.id, supplier=supplier, price=price, back=min(offer.back, 8))


def _supplier(dice: Dice, number: int) -> Supplier:
    minimum = dice.pick(0, 0, 30, 45)
    fee = dice.upto(30)
    modes = {
        "flat": (Mode("post", fee, minimum=minimum),),
        "free-from": (
            Mode("post", fee, minimum=minimum),
            Mode("free", 0, 40 + dice.upto(60), minimum=minimum),
        ),
        "weight": (
            Mode("light", fee, most_weight=200),
            Mode("heavy", fee + 12, most_weight=400 + 100 * dice.upto(2)),
        ),
        "none": (),
    }[dice.pick("flat", "free-from", "free-from", "weight", "none")]
    trips = dice.pick((), (), ("t0",), ("t1",), ("t0", "t1"))
    return Supplier(f"s{number}", modes, trips)


def _limits(dice: Dice, options: list[str], offers: list[str], suppliers: list[str]) -> Limits:
    return Limits(
        minutes=dice.maybe(5, 40 + dice.upto(120)),
        cash=dice.maybe(5, 60 + dice.upto(200)),
        days=dice.maybe(6, 2 + dice.upto(2)),
        suppliers=dice.maybe(6, 1 + dice.upto(1)),
        worst_minutes=dice.maybe(9, 80 + dice.upto(120)),
        worst_cash=dice.maybe(9, 100 + dice.upto(200)),
        without_options=(dice.pick(*options),) if dice.once_in(10) else (),
        without_offers=(dice.pick(*offers),) if dice.once_in(8) else (),
        without_suppliers=(dice.pick(*suppliers),) if dice.once_in(12) else (),
        banned=(Banned("n0", dice.pick(*offers)),) if dice.once_in(6) else (),
        with_options=(dice.pick(*options),) if dice.once_in(10) else (),
        with_offers=(dice.pick(*offers),) if dice.once_in(10) else (),
    )
