"""A problem that contradicts itself is refused with every contradiction named."""

from __future__ import annotations

import msgspec
import pytest

from fitlore.sourcing.problem import (
    Bring,
    Companion,
    Mode,
    Need,
    Never,
    Offer,
    Option,
    Otherwise,
    Pair,
    Pool,
    Problem,
    ProblemError,
    SharedWork,
    Supplier,
    Take,
    Trip,
    Want,
)
from fitlore.sourcing.solve import feasible, least, solve
from tests.sourcing.core.green_estate import GREEN_ESTATE, with_limits

replace = msgspec.structs.replace
NEED, OPTION = GREEN_ESTATE.needs[0], GREEN_ESTATE.options[0]
OFFER, SHOP = GREEN_ESTATE.offers[0], GREEN_ESTATE.suppliers[0]


def _and(part: str, *rows: object) -> Problem:
    return replace(GREEN_ESTATE, **{part: (*getattr(GREEN_ESTATE, part), *rows)})


FAULTS: dict[str, tuple[Problem, str]] = {
    "a need twice": (_and("needs", NEED), "need wheel-cylinders is given 2 times"),
    "an option twice": (_and("options", OPTION), "option wheel-cylinders/renew-both is given 2 times"),
    "an offer twice": (_and("offers", OFFER), "offer F-axle-set is given 2 times"),
    "a supplier twice": (_and("suppliers", SHOP), "supplier agent is given 2 times"),
    "a shared work twice": (_and("shared", SharedWork("bleed")), "shared work bleed is given 2 times"),
    "a trip twice": (_and("trips", Trip("to-yard")), "trip to-yard is given 2 times"),
    "a pool twice": (_and("pools", Pool("p", 1), Pool("p", 1)), "pool p is given 2 times"),
    "a mode twice": (
        _and("suppliers", Supplier("s", (Mode("m"), Mode("m")))),
        "supplier s names its modes of delivery not at all or twice",
    ),
    "a mode without a name": (_and("suppliers", Supplier("s", (Mode(""),))), "supplier s names its modes"),
    "an option of no need": (_and("options", Option("x", "nowhere")), "there is no need nowhere"),
    "no such work": (_and("options", Option("x", NEED.id, shared=("wash",))), "there is no shared work wash"),
    "no such seller": (_and("offers", Offer("x", "nobody", 1)), "there is no supplier nobody"),
    "no such trip": (_and("suppliers", Supplier("s", trips=("to-sea",))), "there is no trip to-sea"),
    "no such pool": (_and("offers", Offer("x", "yard", 1, takes=(Take("p"),))), "there is no pool p"),
    "companion": (_and("companions", Companion(OPTION.id, ("y",))), "there is no option y"),
    "never": (_and("never", Never(OPTION.id, "y")), "there is no option y"),
    "pair": (_and("pairs", Pair("y", OPTION.id)), "there is no option y"),
    "limit on an option": (with_limits(without_options=("y",)), "there is no option y"),
    "limit on an offer": (with_limits(with_offers=("y",)), "there is no offer y"),
    "limit on a supplier": (with_limits(without_suppliers=("y",)), "there is no supplier y"),
    "a want of nothing": (_and("options", Option("x", NEED.id, wants=(Want(("a",), 0),))), "x wants nothing"),
    "an item twice": (
        _and("options", Option("x", NEED.id, wants=(Want(("a", "a")),))),
        "x wants nothing, or an item",
    ),
    "a chance over 1": (
        _and("options", Option("x", NEED.id, succeeds=10_001)),
        "option x: a chance is out of range",
    ),
    "a chance below 0": (
        _and("offers", Offer("x", "yard", 1, works=-1)),
        "offer x: a chance is out of range",
    ),
    "fits": (
        _and("options", Option("x", NEED.id, wants=(Want(("a",), 1, -1),))),
        "x: a chance is out of range",
    ),
    "no units": (
        _and("offers", Offer("x", "yard", 1, (Bring("a", 0),))),
        "offer x brings an item twice or not at all",
    ),
    "a negative price": (_and("offers", Offer("x", "yard", -1, stock=1)), "x: price is negative"),
    "negative minutes": (_and("options", Option("x", NEED.id, minutes=-1)), "x: minutes is negative"),
    "a negative otherwise": (
        _and("options", Option("x", NEED.id, otherwise=Otherwise(-1))),
        "x: money is negative",
    ),
    "a negative fee": (_and("suppliers", Supplier("s", (Mode("m", -1),))), "s: fee is negative"),
    "more back than a fee": (
        _and("suppliers", Supplier("s", (Mode("m", 100, back=101),))),
        "supplier s: more comes back of a fee than is paid",
    ),
    "a negative limit": (with_limits(cash=-1), "limits: cash is negative"),
    "a negative worth": (replace(GREEN_ESTATE, hour_worth=-1), "the job: hour_worth is negative"),
    "a negative day": (_and("needs", Need("x", latest=-1)), "x: latest is negative"),
    "money for nothing": (
        _and("offers", Offer("x", "yard", 1, back=2)),
        "offer x earns money with every pack",
    ),
}


@pytest.mark.parametrize("kind", FAULTS)
def test_a_contradiction_is_named(kind: str) -> None:
    """By every door: solving, the least of something, and whether anything is possible."""
    problem, message = FAULTS[kind]
    for door in (solve, feasible, lambda job: least(job, "cash")):
        with pytest.raises(ProblemError) as caught:
            door(problem)
        assert message in str(caught.value)


def test_all_contradictions_are_named_at_once() -> None:
    """Not only the first."""
    problem = replace(_and("offers", Offer("x", "nobody", -1)), hour_worth=-1)
    with pytest.raises(ProblemError) as caught:
        solve(problem)
    assert all(text in str(caught.value) for text in ("nobody", "price is negative", "hour_worth"))


def test_a_pack_that_earns_is_bought_as_often_as_there_is() -> None:
    """With a bound it is allowed: two donors sold on for 5.00 more than they cost."""
    problem = replace(
        _and("offers", Offer("x", "field", 100, back=600, stock=2)),
        limits=replace(GREEN_ESTATE.limits, cash=None),
    )
    solution = solve(problem)
    assert solution.cost == 53830 - 2 * 500
