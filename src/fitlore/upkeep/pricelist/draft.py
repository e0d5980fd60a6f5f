"""A price list against the books: what is new, what changed, what nobody knows, and what can hardly be. Nothing is written."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING, Final, NamedTuple

import msgspec

from fitlore.books.faults import fault
from fitlore.model.amounts import Money
from fitlore.model.choices import State
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.numbers import number_key
from fitlore.model.origin import Origin
from fitlore.model.part import Part
from fitlore.model.placed import OfferFrom
from fitlore.model.supply import Offer, PriceList, Supplier
from fitlore.upkeep.pricelist.faults import Unclear
from fitlore.upkeep.pricelist.layout import Columns, chosen, tax_differs
from fitlore.upkeep.pricelist.lines import Priced, Read, lines_of
from fitlore.upkeep.pricelist.numbers import Numbers
from fitlore.upkeep.pricelist.table import Table, tables

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

TIMES: Final = 10
"""A price so many times the former one, or so small a part of it, is looked at first (own judgement: a slipped decimal)."""
_TIMES_ELSEWHERE: Final = 20
"""The same against the price of other suppliers, which differ more."""
_PIECE: Final = 2000
"""Numbers that are looked up at one go."""

Told = Callable[[str], None]


class Taken(NamedTuple):
    """A line that can be taken into the supplier's book."""

    row: Priced
    number: str
    """As a new offer says it: with the maker where the bare number is several parts'."""
    offer: Offer | None = None
    """His present offer of it; None where there is none."""

    @property
    def before(self) -> Money | None:
        """What he asked for it so far."""
        return self.offer.price if self.offer else None


class Draft(NamedTuple):
    """What a list would change. Every row is in one of the five groups, or one of several equal ones (`repeated`)."""

    supplier: Supplier
    table: Table
    layout: PriceList
    """As it is kept with the supplier once something is taken."""
    days: int
    new: tuple[Taken, ...]
    changed: tuple[Taken, ...]
    same: tuple[Taken, ...]
    unknown: tuple[Priced, ...]
    """No part of the books has that number."""
    held: tuple[Diagnostic, ...]
    """Lines that are not taken, each with why."""
    repeated: int = 0
    """Lines that say once more what another one says."""
    not_listed: tuple[Offer, ...] = ()
    """His offers by number that the list does not have; they stay."""


def _silent(text: str) -> None:
    """Tells nobody."""


class Wanted(NamedTuple):
    """What is asked for: the layout as far as it is known, days, and whether prices that can hardly be are taken too."""

    layout: PriceList
    days: int | None = None
    even_so: bool = False


def drafted(
    graph: Graph, supplier: Supplier, shown: str, data: bytes, wanted: Wanted, told: Told = _silent
) -> Draft:
    """Works a list out against the books. Raises Unclear where nothing may be guessed."""
    table, columns = chosen(tables(shown, data, wanted.layout), wanted.layout)
    differs = tax_differs(table, columns, supplier)
    if differs is not None:
        raise differs
    told(f"{shown}: {len(table.rows)} rows")
    read = lines_of(table, columns, graph.shop.currency)
    offers = [one for one in graph.offers_by(supplier.supplier) if one.offer.number is not None]
    days = _days(supplier, offers, wanted)
    start = Draft(
        supplier, table, _kept(table, columns, wanted, read.decimals_after), days, (), (), (), (), ()
    )
    return _sorted(graph, start, read, offers, wanted, told)


def _sorted(
    graph: Graph, draft: Draft, read: Read, offers: Sequence[OfferFrom], wanted: Wanted, told: Told
) -> Draft:
    """Every row into its group."""
    numbers = Numbers(graph)
    held = list(read.held)
    matched, unknown = _matched(numbers, read.rows, held, lambda count: told(_so_far(draft, count, read)))
    once, repeated = _once(matched, held)
    by_part = _by_part(numbers, offers)
    others = _elsewhere(graph, [part for _, part in once], str(draft.supplier.supplier))
    groups: dict[str, list[Taken]] = {"new": [], "changed": [], "same": []}
    for row, part in once:
        taken = _taken(row, numbers.said(part), by_part.get(_key(part), ()), held)
        doubt = "" if taken is None else _doubt(taken, others.get(_key(part)), even_so=wanted.even_so)
        if doubt:
            held.append(
                fault("P22-nonsense-price", row.origin, number=row.number, price=str(row.price), why=doubt)
            )
        elif taken is not None:
            same = taken.offer is not None and taken.before == row.price
            groups["new" if taken.offer is None else "same" if same else "changed"].append(taken)
    seen = {_key(part) for _, part in matched}
    held.sort(key=lambda one: (one.origin.line, one.code))
    return draft._replace(
        new=tuple(groups["new"]),
        changed=tuple(groups["changed"]),
        same=tuple(groups["same"]),
        unknown=tuple(unknown),
        held=tuple(held),
        repeated=repeated,
        not_listed=tuple(one.offer for key, row in by_part.items() if key not in seen for one in row),
    )


def _so_far(draft: Draft, count: int, read: Read) -> str:
    return f"{draft.table.shown}: {count} of {len(read.rows)} lines looked up"


def _matched(
    numbers: Numbers, rows: Sequence[Priced], held: list[Diagnostic], told: Callable[[int], None]
) -> tuple[list[tuple[Priced, Part]], list[Priced]]:
    """Rows with the part each means, and rows that mean none; what keeps a row from meaning one is told in `held`."""
    matched: list[tuple[Priced, Part]] = []
    unknown: list[Priced] = []
    for start in range(0, len(rows), _PIECE):
        piece = rows[start : start + _PIECE]
        numbers.ask(piece)
        for row in piece:
            part = numbers.part(row)
            if part is None:
                unknown.append(row)
            elif isinstance(part, Part):
                matched.append((row, part))
            else:
                held.append(part)
        told(start + len(piece))
    return matched, unknown


def _once(
    matched: Sequence[tuple[Priced, Part]], held: list[Diagnostic]
) -> tuple[list[tuple[Priced, Part]], int]:
    """Each part and pack once, and how many rows say one again; where their prices differ all of them are held."""
    groups: dict[tuple[str, int], list[tuple[Priced, Part]]] = {}
    for row, part in matched:
        groups.setdefault((_key(part), row.pack), []).append((row, part))
    once: list[tuple[Priced, Part]] = []
    for group in groups.values():
        first = group[0][0]
        prices = list(dict.fromkeys(str(row.price) for row, _ in group))
        if len(prices) == 1:
            once.append(group[0])
            continue
        lines = ", ".join(str(row.origin.line) for row, _ in group)
        said = ", ".join(prices)
        held.append(fault("P23-given-twice", first.origin, number=first.number, lines=lines, prices=said))
    return once, sum(len(group) - 1 for group in groups.values() if len({row.price for row, _ in group}) == 1)


def _by_part(numbers: Numbers, offers: Iterable[OfferFrom]) -> dict[str, list[OfferFrom]]:
    """His offers of new parts by number, by the part they are of; kits and used ones are no matter of a price list."""
    plain = [
        one for one in offers if one.offer.state is State.NEW and not one.offer.brings and not one.offer.said
    ]
    numbers.ask_for([str(one.offer.number) for one in plain])
    found: dict[str, list[OfferFrom]] = {}
    for one in plain:
        part = numbers.of_offer(one.offer)
        key = _key(part) if part else number_key(str(one.offer.number))
        found.setdefault(key, []).append(one)
    return found


def _taken(row: Priced, number: str, offers: Sequence[OfferFrom], held: list[Diagnostic]) -> Taken | None:
    """A row with the offer it renews; None where that may be several (told in `held`)."""
    fitting = [one for one in offers if one.offer.pack == row.pack]
    if not row.pack_said and offers and not fitting:
        packs = " and ".join(str(one.offer.pack) for one in offers)
        book, line = offers[0].origin.book, str(offers[0].origin.line)
        price = str(row.price)
        held.append(
            fault(
                "P29-pack-unsaid",
                row.origin,
                number=row.number,
                packs=packs,
                price=price,
                book=book,
                line=line,
            )
        )
        return None
    if len(fitting) > 1:
        lines = ", ".join(str(one.origin.line) for one in fitting)
        count, book = str(len(fitting)), fitting[0].origin.book
        held.append(
            fault("P25-several-offers", row.origin, count=count, number=row.number, book=book, lines=lines)
        )
        return None
    return Taken(row, number, fitting[0].offer if fitting else None)


def _doubt(taken: Taken, elsewhere: Decimal | None, *, even_so: bool) -> str:
    """Why a price can hardly be; empty where it may. `even_so`: only what is none at all is doubted."""
    price, before = taken.row.price, taken.before
    if price.amount <= 0:
        return "an amount above nothing is a price"
    if even_so:
        return ""
    if before is not None and before.currency == price.currency and before.amount > 0:
        return f"it was {before} before" if _far(price.amount, before.amount, TIMES) else ""
    each = price.amount / taken.row.pack
    if elsewhere is not None and _far(each, elsewhere, _TIMES_ELSEWHERE):
        return f"others ask {elsewhere:.2f} {price.currency} for one"
    return ""


def _far(one: Decimal, other: Decimal, times: int) -> bool:
    return one >= times * other or one * times <= other


def _elsewhere(graph: Graph, parts: Sequence[Part], supplier: str) -> dict[str, Decimal]:
    """The least price of a new one at other suppliers in the shop's currency, by part."""
    keys = {key for part in parts for key in _keys(part)}
    if not keys:
        return {}
    by_number: dict[str, Decimal] = {}
    for one in graph.offers(sorted(keys)):
        offer = one.offer
        plain = offer.number is not None and offer.price is not None and offer.state is State.NEW
        if not plain or offer.brings or str(one.supplier) == supplier:
            continue
        assert offer.price is not None
        if offer.price.currency != graph.shop.currency or offer.price.amount <= 0:
            continue
        each = offer.price.amount / offer.pack
        key = number_key(str(offer.number))
        by_number[key] = min(each, by_number.get(key, each))
    found = {}
    for part in parts:
        prices = [by_number[key] for key in _keys(part) if key in by_number]
        if prices:
            found[_key(part)] = min(prices)
    return found


def _keys(part: Part) -> tuple[str, str]:
    return number_key(part.part), number_key(f"{part.issuer} {part.part}")


def _key(part: Part) -> str:
    return number_key(f"{part.issuer} {part.part}")


def _days(supplier: Supplier, offers: Sequence[OfferFrom], wanted: Wanted) -> int:
    """The days of new offers: as said, as kept, or as most of his new ones take. Raises Unclear where nobody knows."""
    for said in (wanted.days, wanted.layout.days):
        if said is not None:
            return said
    usual = Counter(one.offer.days for one in offers if one.offer.state is State.NEW and not one.offer.said)
    if not usual:
        name = supplier.name or str(supplier.supplier)
        raise Unclear(fault("P07-no-days", supplier.origin or Origin(""), supplier=name), "days")
    return min(usual, key=lambda days: (-usual[days], -days))


def _kept(table: Table, columns: Columns, wanted: Wanted, mark: object) -> PriceList:
    """The layout with what was found out; the days only where they were said."""
    said = wanted.days if wanted.days is not None else wanted.layout.days
    return msgspec.structs.replace(
        columns.layout,
        divided_by=table.divided_by,
        sheet=table.sheet,
        encoding=table.encoding,
        decimals_after=columns.layout.decimals_after or mark,
        days=said,
    )
