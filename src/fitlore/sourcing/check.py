"""Is a problem sound? What is asked before anything is solved."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

import msgspec

from fitlore.sourcing.lines import pack_line
from fitlore.sourcing.problem import CERTAIN, Offer, Problem, ProblemError


def check(problem: Problem) -> None:
    """Raise `ProblemError` naming every contradiction: unknown or repeated ids, amounts out of range, free money."""
    faults = [*_repeated(problem), *_unknown(problem), *_out_of_range(problem)]
    if faults:
        raise ProblemError("; ".join(faults))


def _ids(problem: Problem) -> dict[str, list[str]]:
    return {
        "need": [row.id for row in problem.needs],
        "option": [row.id for row in problem.options],
        "offer": [row.id for row in problem.offers],
        "supplier": [row.id for row in problem.suppliers],
        "shared work": [row.id for row in problem.shared],
        "trip": [row.id for row in problem.trips],
        "pool": [row.id for row in problem.pools],
    }


def _repeated(problem: Problem) -> Iterable[str]:
    for kind, names in _ids(problem).items():
        for name, count in Counter(names).items():
            if count > 1:
                yield f"{kind} {name} is given {count} times"
    for supplier in problem.suppliers:
        if any(mode.back > mode.fee for mode in supplier.modes):
            yield f"supplier {supplier.id}: more comes back of a fee than is paid"
        if len({mode.id for mode in supplier.modes} - {""}) < len(supplier.modes):
            yield f"supplier {supplier.id} names its modes of delivery not at all or twice"


def _unknown(problem: Problem) -> Iterable[str]:
    limits = problem.limits
    known = {kind: set(names) for kind, names in _ids(problem).items()}
    named: list[tuple[str, str]] = [("need", option.need) for option in problem.options]
    named += [("shared work", name) for option in problem.options for name in option.shared]
    named += [("supplier", offer.supplier) for offer in problem.offers]
    named += [("trip", name) for supplier in problem.suppliers for name in supplier.trips]
    named += [("pool", take.pool) for row in problem.options + problem.offers for take in row.takes]
    named += [("option", name) for row in problem.companions for name in (row.option, *row.one_of)]
    named += [("option", name) for row in problem.never for name in (row.one, row.other)]
    named += [("option", name) for row in problem.pairs for name in (row.left, row.right)]
    named += [("option", name) for name in (*limits.without_options, *limits.with_options)]
    named += [("offer", name) for name in (*limits.without_offers, *limits.with_offers)]
    named += [("supplier", name) for name in limits.without_suppliers]
    named += [
        (kind, name) for row in limits.banned for kind, name in (("need", row.need), ("offer", row.offer))
    ]
    for kind, name in dict.fromkeys(named):
        if name not in known[kind]:
            yield f"there is no {kind} {name}"


def _out_of_range(problem: Problem) -> Iterable[str]:
    wants = [(row.id, want) for row in problem.options + problem.shared for want in row.wants]
    for name, want in wants:
        if want.amount < 1 or not want.items or len(set(want.items)) < len(want.items):
            yield f"{name} wants nothing, or an item twice in one want"
        if not 0 <= want.fits <= CERTAIN:
            yield f"{name}: a chance is out of range"
    for option in problem.options:
        if not 0 <= option.succeeds <= CERTAIN or len(set(option.shared)) < len(option.shared):
            yield f"option {option.id}: a chance is out of range or a shared work is named twice"
    for offer in problem.offers:
        if not (0 <= offer.returned <= CERTAIN and 0 <= offer.works <= CERTAIN):
            yield f"offer {offer.id}: a chance is out of range"
        items = [bring.item for bring in offer.brings]
        if len(set(items)) < len(items) or any(bring.units < 1 for bring in offer.brings):
            yield f"offer {offer.id} brings an item twice or not at all"
        if pack_line(offer, problem.hour_worth).cost < 0 and packs_there_are(offer) is None:
            yield f"offer {offer.id} earns money with every pack and has no bound"
    yield from _negative(problem)


def _negative(problem: Problem) -> Iterable[str]:
    rows: list[tuple[str, msgspec.Struct]] = [("limits", problem.limits), ("the job", problem)]
    rows += [(row.id, row) for row in problem.options + problem.offers]
    rows += [(row.id, row.otherwise) for row in problem.options + problem.offers]
    rows += [(row.id, take) for row in problem.options + problem.offers for take in row.takes]
    rows += [(row.id, row) for row in problem.shared + problem.trips + problem.pools]
    rows += [(row.id, row) for row in problem.needs]
    rows += [(row.id, row) for row in problem.suppliers]
    rows += [(supplier.id, mode) for supplier in problem.suppliers for mode in supplier.modes]
    for name, row in rows:
        for field in row.__struct_fields__:
            value = getattr(row, field)
            if isinstance(value, int) and value < 0:
                yield f"{name}: {field} is negative"


def packs_there_are(offer: Offer) -> int | None:
    """How many packs can be had at most (None: no bound)."""
    bounds = [bound for bound in (offer.stock, offer.most) if bound is not None]
    return min(bounds) if bounds else None
