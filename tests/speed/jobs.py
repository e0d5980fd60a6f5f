"""Whole jobs of any size for timing and comparing solvers: the same ones on every machine, all of it invented.

Four families. `plain`: a mixed market. `free-from`: nine suppliers in ten carry free from a basket on, half of them sell
nearly everything, carriage costs double. `minimum`: half of them take no order below a minimum. `weight`: nine in ten
charge by weight. About twenty offers a need; needs of one or two parts, pairs left and right, used ones that may be wrong,
exchange units, kits, packets, refurbishing with material, extras that add to the sale, journeys, shared works.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitlore.sourcing.problem import (
    CERTAIN,
    Bring,
    Limits,
    Mode,
    Need,
    Offer,
    Option,
    Otherwise,
    Pair,
    Problem,
    SharedWork,
    Supplier,
    Trip,
    Want,
)
from tests.sourcing.core.small_jobs import Dice

FAMILIES: Final = ("plain", "free-from", "minimum", "weight")
OFFERS: Final = 20
"""Offers a need, about."""


def whole_job(needs: int, suppliers: int, family: str, seed: int, limits: Limits | None = None) -> Problem:
    """A job of so many needs and suppliers; ValueError for a family there is none of."""
    if family not in FAMILIES:
        raise ValueError(f"no family {family!r}: {', '.join(FAMILIES)}")
    return _Maker(needs, suppliers, family, seed).problem(limits or Limits())


class _Maker:
    def __init__(self, needs: int, suppliers: int, family: str, seed: int) -> None:
        self.dice = Dice(seed * 1_000_003 + needs * 1009 + suppliers * 31 + FAMILIES.index(family))
        self.family = family
        self.trips = tuple(
            Trip(f"to town {n}", 300 + self.dice.upto(900), 20 + self.dice.upto(60))
            for n in range(max(1, suppliers // 6))
        )
        self.suppliers = tuple(self._supplier(n) for n in range(suppliers))
        self.breadth = {row.id: self._breadth() for row in self.suppliers}
        self.needs: list[Need] = []
        self.options: list[Option] = []
        self.offers: list[Offer] = []
        self.pairs: list[Pair] = []
        self.made = 0
        for number in range(needs):
            self._need(f"need {number:03}")

    def problem(self, limits: Limits) -> Problem:
        self.offers += list(self._kits(len(self.needs) // 5))
        return Problem(
            needs=tuple(self.needs),
            options=tuple(self.options),
            offers=tuple(self.offers),
            suppliers=self.suppliers,
            shared=(SharedWork("coolant-out", 40, 250), SharedWork("tracking", 0, 2800)),
            trips=self.trips,
            pairs=tuple(self.pairs),
            limits=limits,
            hour_worth=1200,
        )

    def _one_in_ten(self, often: int) -> bool:
        return self.dice.upto(9) < often

    def _breadth(self) -> int:
        """How many of ten items the supplier sells."""
        return 9 if self._one_in_ten(5 if self.family == "free-from" else 1) else 2 + self.dice.upto(4)

    def _supplier(self, number: int) -> Supplier:
        double = 2 if self.family in ("free-from", "minimum") else 1
        fee = double * (250 + self.dice.upto(650))
        minimum = 1500 + self.dice.upto(3000) if self._one_in_ten(5 if self.family == "minimum" else 1) else 0
        modes: tuple[Mode, ...] = (Mode("post", fee, minimum=minimum),)
        if self._one_in_ten(9 if self.family == "weight" else 1):
            modes = tuple(
                Mode(f"up to {kilos} kg", fee + 350 * step, most_weight=1000 * kilos, minimum=minimum)
                for step, kilos in enumerate((2, 5, 10, 30))
            )
        elif self._one_in_ten(9 if self.family == "free-from" else 4):
            limit = 4000 + 500 * self.dice.upto(12)
            modes = (*modes, Mode("free", 0, least_spend=limit, minimum=minimum))
        trips = (self.dice.pick(*self.trips).id,) if self._one_in_ten(2) else ()
        return Supplier(f"supplier {number:03}", modes, trips)

    def _need(self, name: str) -> None:
        twin = self._one_in_ten(1)
        must = self._one_in_ten(8) or twin
        base, weight = 800 + self.dice.upto(7000), 200 + 100 * self.dice.upto(40)
        amount = 1 if twin or not self._one_in_ten(3) else 2
        adds = 0 if must else base + self.dice.upto(4000)
        candidates = 2 + self.dice.upto(2)
        sides = (f"{name} left", f"{name} right") if twin else (name,)
        made = [self._option(sides[0], number, amount, adds, base) for number in range(candidates)]
        for side in sides:
            self.needs.append(Need(side, must))
        self.options += made
        if twin:
            others = [_for(option, sides[1]) for option in made]
            self.options += others
            self.pairs += [Pair(one.id, two.id) for one, two in zip(made, others, strict=True)]
        for number in range(candidates):
            item = f"{sides[0]} part {number}"
            for _ in range(OFFERS // candidates):
                self.offers.append(self._offer(item, base * (10 + number) // 10, weight))
        self._refurbish(sides, amount, adds, base)

    def _option(self, need: str, number: int, amount: int, adds: int, base: int) -> Option:
        wants = [Want((f"{need} part {number}",), amount, CERTAIN - 100 * self.dice.upto(15))]
        if self._one_in_ten(2):
            adapter = f"{need} adapter {number}"
            wants.append(Want((adapter,), amount))
            self.offers += [self._offer(adapter, base // 6, 100) for _ in range(3)]
        return Option(
            f"{need} = part {number}",
            need,
            minutes=10 * self.dice.upto(9),
            adds=adds,
            wants=tuple(wants),
            shared=("coolant-out",) if self._one_in_ten(1) else ("tracking",) if self._one_in_ten(1) else (),
        )

    def _refurbish(self, sides: tuple[str, ...], amount: int, adds: int, base: int) -> None:
        if not self._one_in_ten(3):
            return
        material = f"material {self.dice.upto(5)}"
        made = [
            Option(
                f"{side} refurbished",
                side,
                minutes=30 + 10 * self.dice.upto(6),
                adds=adds,
                wants=(Want((material,), amount),),
                succeeds=6000 + 500 * self.dice.upto(7),
                otherwise=Otherwise(base, 40),
            )
            for side in sides
        ]
        self.options += made
        if len(made) == 2:
            self.pairs.append(Pair(made[0].id, made[1].id))
        for _ in range(2):
            self.offers.append(self._offer(material, 700, 300, units=5))

    def _offer(self, item: str, price: int, weight: int, units: int = 1) -> Offer:
        dice, supplier = self.dice, self._seller()
        self.made += 1
        state = dice.pick("new", "new", "used", "exchange") if units == 1 else "new"
        price = price * (75 + dice.upto(55)) // 100 * (2 if units == 1 and dice.upto(19) == 0 else 1)
        doubled = units == 1 and state == "new" and dice.upto(19) == 0
        used, swap = state == "used", state == "exchange"
        return Offer(
            f"offer {self.made:05}",
            supplier,
            max(1, price * (4 if used else 10) // 10 * (19 if doubled else 10) // 10),
            (Bring(item, 2 if doubled else units),),
            stock=1 + dice.upto(2) if used else None,
            most=6,
            days=1 + dice.upto(13),
            minutes=10 + 5 * dice.upto(8) if used else 0,
            surcharge=price // 3 if swap else 0,
            returned=CERTAIN - 500 * dice.upto(6) if swap else CERTAIN,
            later=300 + dice.upto(900) if swap else 0,
            weight=weight,
            works=CERTAIN - 500 * dice.upto(5) if used else CERTAIN,
            otherwise=Otherwise(200 + dice.upto(800), 15) if used else Otherwise(),
        )

    def _seller(self) -> str:
        """Any supplier, the broad ones oftener."""
        while True:
            supplier = self.dice.pick(*self.suppliers).id
            if self._one_in_ten(self.breadth[supplier]):
                return supplier

    def _kits(self, count: int) -> Iterator[Offer]:
        """Several needs' first parts in one box, a little cheaper than singly."""
        for number in range(count):
            chosen = {
                self.dice.pick(*self.needs).id.removesuffix(" right").removesuffix(" left") for _ in range(3)
            }
            names = [row.id for row in self.needs if row.id.removesuffix(" left") in chosen]
            items = [f"{name} part 0" for name in sorted(names)]
            singly = [min(o.price for o in self.offers if o.brings[0].item == item) for item in items]
            yield Offer(
                f"kit {number:03}",
                self._seller(),
                sum(singly) * (85 + self.dice.upto(20)) // 100 + 1,
                tuple(Bring(item) for item in items),
                most=2,
                days=2 + self.dice.upto(8),
                weight=500 * len(items),
            )


def _for(option: Option, need: str) -> Option:
    """The same option for the other side."""
    return Option(
        option.id.replace(option.need, need, 1),
        need,
        option.money,
        option.minutes,
        option.adds,
        option.wants,
        option.shared,
    )
