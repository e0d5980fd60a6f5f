"""OR-Library's uncapacitated facility location instances as jobs: `python tests/speed/orlib.py FOLDER [NAME...]`.

Each customer is a need, each site a supplier with its fixed charge, each cost of serving a customer from a site an offer.
The files come from OR-Library (J. E. Beasley, "OR-Library: distributing test problems by electronic mail", Journal of the
Operational Research Society 41 (1990) 1069-1072; files cap71 to cap134 and capa to capc) and are not kept here: FOLDER has
them as `cap71.txt` and so on. The capacities in them count for nothing (uncapacitated), as its page says.

The optima are those the library publishes (`uncapopt`). Money in a file has up to five decimals: a coin is 0.00001.
"""

# ruff: noqa: E402  (this file is run as a script: it has to say where the packages are)
from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from decimal import Decimal
from math import gcd
from pathlib import Path
from typing import Final, NamedTuple

_REPO = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(_REPO / "src"), str(_REPO)]

from fitlore.sourcing.problem import Bring, Mode, Need, Offer, Option, Problem, Supplier, Want
from fitlore.sourcing.solve import solve

COINS: Final = 100_000
"""Coins in one unit of the files' money."""
OPTIMA: Final = {
    "cap71": Decimal("932615.750"),
    "cap72": Decimal("977799.400"),
    "cap73": Decimal("1010641.450"),
    "cap74": Decimal("1034976.975"),
    "cap101": Decimal("796648.4375"),
    "cap102": Decimal("854704.200"),
    "cap103": Decimal("893782.1125"),
    "cap104": Decimal("928941.750"),
    "cap131": Decimal("793439.5625"),
    "cap132": Decimal("851495.325"),
    "cap133": Decimal("893076.7125"),
    "cap134": Decimal("928941.750"),
    "capa": Decimal("17156454.4783"),
    "capb": Decimal("12979071.58143"),
    "capc": Decimal("11505594.32878"),
}
"""Name to the published optimum."""


class Instance(NamedTuple):
    """One file: what opening each site costs, and what serving each customer from each site costs, in coins."""

    charges: tuple[int, ...]
    costs: tuple[tuple[int, ...], ...]
    """By customer, then by site."""


def read(text: str) -> Instance:
    """The numbers of a file: sites and customers, then capacity and charge by site, then demand and costs by customer.

    Raises ValueError where there are too few or too many numbers, or one is no multiple of a coin.
    """
    numbers = iter(text.split())
    sites, customers = int(next(numbers)), int(next(numbers))
    charges = tuple(_second(numbers) for _ in range(sites))
    costs = tuple(_costs(numbers, sites) for _ in range(customers))
    if next(numbers, None) is not None or len(costs[-1]) != sites:
        raise ValueError("the file has another count of numbers than its first line says")
    return Instance(charges, costs)


def _second(numbers: Iterator[str]) -> int:
    next(numbers)
    return _coins(next(numbers))


def _costs(numbers: Iterator[str], sites: int) -> tuple[int, ...]:
    next(numbers)
    return tuple(_coins(next(numbers, "nothing")) for _ in range(sites))


def _coins(text: str) -> int:
    if text == "nothing":
        raise ValueError("the file ends too early")
    whole = Decimal(text) * COINS
    if whole != whole.to_integral_value():
        raise ValueError(f"{text} has more decimals than a coin")
    return int(whole)


def job(instance: Instance) -> tuple[Problem, int]:
    """The instance as a job in the largest coin that divides every figure, and how many of its coins one of those is."""
    figures = [*instance.charges, *(cost for row in instance.costs for cost in row)]
    size = gcd(*figures) or 1
    sites = [f"site {number:04}" for number in range(len(instance.charges))]
    customers = [f"customer {number:04}" for number in range(len(instance.costs))]
    return Problem(
        needs=tuple(Need(name) for name in customers),
        options=tuple(Option(f"serve {name}", name, wants=(Want((name,)),)) for name in customers),
        offers=tuple(
            Offer(f"{customer} from {site}", site, cost // size, brings=(Bring(customer),), most=1)
            for customer, row in zip(customers, instance.costs, strict=True)
            for site, cost in zip(sites, row, strict=True)
        ),
        suppliers=tuple(
            Supplier(site, modes=(Mode("open", fee=charge // size),))
            for site, charge in zip(sites, instance.charges, strict=True)
        ),
    ), size


def money(cost: int, size: int) -> Decimal:
    """A plan's cost in the money of the files."""
    return Decimal(cost * size) / COINS


def main(folder: Path, names: list[str]) -> None:
    """Solve each and print size, published optimum, what was found, its status and the time."""
    print(
        f"{'file':8} {'sites':>5} {'needs':>5} {'published':>17} {'found':>17} {'status':10} {'seconds':>8}"
    )
    for name in names or list(OPTIMA):
        instance = read((folder / f"{name}.txt").read_text())
        problem, size = job(instance)
        begun = time.perf_counter()
        found = solve(problem, settle=False)
        seconds = time.perf_counter() - begun
        cost = "-" if found.cost is None else str(money(found.cost, size))
        print(
            f"{name:8} {len(instance.charges):5} {len(instance.costs):5} {OPTIMA[name]:17} {cost:>17} "
            f"{found.status:10} {seconds:8.2f}",
            flush=True,
        )


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2:])
