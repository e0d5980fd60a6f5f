"""What is renewed together with a part: the one-use pieces, seals and clips its category names.

A piece is wanted by the option where it is known which part it is: the category names a number, the car has just one place of
that kind in the same assembly (then what fits there may be bought), or somebody sells or holds the kind by itself. A piece that
nobody offers does not stop the plan: it is said to be needed too, at a price nobody knows, and counts nothing (common
practice: it is bought on the day). What another finding that must be met renews anyway, and what a shared work of the option
brings along, is not wanted twice. A route that somebody wrote himself says itself what it takes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.fitting import Question, answer
from fitlore.model.category import RenewWith
from fitlore.model.choices import State
from fitlore.model.numbers import number_key
from fitlore.model.platform import Car
from fitlore.sourcing import problem as p
from fitlore.sourcing.needs import NeedAt, item, kind_item
from fitlore.sourcing.offers import Market
from fitlore.sourcing.options import Choice, may_be_bought

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Piece(NamedTuple):
    """Something renewed with the part of a need."""

    need: str
    renewed: RenewWith
    quantity: int
    items: tuple[str, ...]
    """What serves it, of equal standing; the last of several may be its kind by itself."""
    kinds: frozenset[str] = frozenset()
    """The categories of a part that is one."""

    @property
    def name(self) -> str:
        """The number or the category."""
        return self.renewed.number or self.renewed.is_ or ""


def pieces_of(graph: Graph, car: Car, needs: Iterable[NeedAt]) -> dict[str, tuple[Piece, ...]]:
    """For each need what is renewed with its part, whichever is taken."""
    rows = list(needs)
    musts = {need.answer.place.path for need in rows if need.must}
    return {
        need.id: tuple(_pieces(graph, car, need, musts, need.answer.interface.renew_with)) for need in rows
    }


def materials_of(
    graph: Graph, car: Car, choices: Iterable[Choice], needs: Iterable[NeedAt]
) -> dict[str, tuple[Piece, ...]]:
    """For each option that makes the old one good again what it takes, by the option's id."""
    musts = {need.answer.place.path for need in needs if need.must}
    return {
        row.option.id: tuple(_pieces(graph, car, row.need, musts, row.mends.materials))
        for row in choices
        if row.mends is not None
    }


def _pieces(
    graph: Graph, car: Car, need: NeedAt, musts: set[str], renewed: Iterable[RenewWith]
) -> Iterator[Piece]:
    for row in renewed:
        quantity = row.quantity * need.quantity
        if row.number is not None:
            yield Piece(need.id, row, quantity, (item(row.number),))
        elif row.is_ is not None:
            kinds = graph.narrower(row.is_)
            here = [
                place
                for place in graph.places(need.answer.place.on)
                if place.assembly == need.answer.place.assembly and place.place.is_ in kinds
            ]
            if any(place.path in musts for place in here):
                continue
            keys: tuple[str, ...] = ()
            if len(here) == 1:
                side = need.answer.side if here[0].sides else ""
                reply = answer(graph, Question(here[0], car, side, both=bool(here[0].sides) and not side))
                keys = tuple(sorted({v.key for v in reply.verdicts if may_be_bought(graph, reply, v)}))
            yield Piece(need.id, row, quantity, (*keys, kind_item(row.is_)), kinds)


class Unpriced(NamedTuple):
    """What is needed too, at a price nobody knows."""

    of_option: Mapping[str, tuple[Piece, ...]] = {}
    kind_of: Mapping[str, str] = {}
    """Item to category, of everything that is on offer for the job."""


class Beside(NamedTuple):
    """The options with the pieces they can get, and what is needed too for each."""

    choices: dict[str, Choice]
    unpriced: Unpriced


def with_pieces(
    graph: Graph,
    choices: Mapping[str, Choice],
    pieces: Mapping[str, tuple[Piece, ...]],
    market: Market,
    days: int | None,
    without: Collection[str] = (),
) -> Beside:
    """Each option that buys a part wants the pieces that come new and in time, and of which there are surely enough.

    The rest is said, and stops nothing.
    """
    enough = _enough(choices, pieces, market, days, without)
    rows: dict[str, Choice] = {}
    unpriced: dict[str, tuple[Piece, ...]] = {}
    for name, choice in choices.items():
        rows[name] = choice
        if choice.verdict is None and choice.mends is None:
            continue
        wants: list[p.Want] = []
        left: list[Piece] = []
        for piece in pieces.get(name if choice.mends else choice.need.id, ()):
            if _shared(graph, choice, piece):
                continue
            if not enough.isdisjoint(piece.items):
                wants.append(p.Want(piece.items, piece.quantity))
            else:
                left.append(piece)
        if wants:
            option = msgspec.structs.replace(choice.option, wants=(*choice.option.wants, *wants))
            rows[name] = choice._replace(option=option)
        unpriced[name] = tuple(left)
    items = sorted({bring.item for offer in market.offers for bring in offer.brings if " " not in bring.item})
    kind_of = {number_key(part.part): part.is_ for part in graph.parts(items)}
    return Beside(rows, Unpriced(unpriced, kind_of))


def _enough(
    choices: Mapping[str, Choice],
    pieces: Mapping[str, tuple[Piece, ...]],
    market: Market,
    days: int | None,
    without: Collection[str],
) -> frozenset[str]:
    """Items that come new and in time, without end or at least as many as everything together could ask for."""
    offers = [
        offer
        for offer in market.offers
        if (days is None or offer.days <= days)
        and offer.supplier not in without
        and market.lines[offer.id].offer.state is State.NEW
    ]
    plenty = {b.item for o in offers if o.stock is None for b in o.brings}
    held: Counter[str] = Counter()
    for offer in offers:
        for bring in offer.brings:
            held[bring.item] += bring.units * (offer.stock or 0)
    asked: Counter[str] = Counter()
    for piece in (piece for found in pieces.values() for piece in found):
        asked.update(dict.fromkeys(piece.items, piece.quantity))
    for choice in choices.values():
        asked.update({i: want.amount for want in choice.option.wants for i in want.items})
    return frozenset(plenty | {name for name, count in held.items() if count >= asked[name]})


def _shared(graph: Graph, choice: Choice, piece: Piece) -> bool:
    """Whether a shared work of the option, or the way itself, brings the piece along."""
    numbers = [i for want in choice.option.wants[1:] for i in want.items if " " not in i]
    for name in choice.option.shared:
        work = graph.shared_work(name)
        for content in work.wants if work is not None else ():
            if content.is_ in piece.kinds:
                return True
            numbers += [number_key(content.number)] if content.number else []
    if piece.renewed.number is not None:
        return number_key(piece.renewed.number) in numbers
    return any(part.is_ in piece.kinds for part in graph.parts(numbers))


def unpriced_in(unpriced: Unpriced, solution: p.Solution, problem: p.Problem) -> tuple[Piece, ...]:
    """What the chosen options need too at a price nobody knows, less what comes in the packs that are bought anyway."""
    brings = {row.id: row.brings for row in problem.offers}
    spare: Counter[str] = Counter()
    for bought in solution.bought:
        for bring in brings[bought.offer]:
            spare[bring.item] += bring.units * bought.packs
    for use in solution.assigned:
        spare[use.item] -= use.units
    rows: list[Piece] = []
    for chosen in solution.chosen:
        for piece in unpriced.of_option.get(chosen.option, ()):
            short = piece.quantity
            for key in sorted(spare):
                if unpriced.kind_of.get(key) in piece.kinds or key in piece.items:
                    used = min(short, max(spare[key], 0))
                    spare[key] -= used
                    short -= used
            if short:
                rows.append(piece._replace(quantity=short))
    return tuple(rows)
