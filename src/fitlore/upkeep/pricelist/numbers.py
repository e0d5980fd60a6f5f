"""Whose number a price list means: by maker and number, or by a number that one part alone has. Unknown is not a match."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Final

from fitlore.books.faults import fault
from fitlore.graph.numbering import by_rules
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.numbering import has_rules, spellings
from fitlore.model.numbers import number_key
from fitlore.model.part import Part
from fitlore.model.supply import Offer
from fitlore.upkeep.pricelist.lines import Priced

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

SHORTEST: Final = 5
"""Signs from which a number without its maker is taken for the part that has it (own judgement)."""


class Numbers:
    """Numbers looked up many at a time; the graph keeps what it was asked once."""

    def __init__(self, graph: Graph) -> None:
        self._graph = graph
        self._issuers = [one for one in graph.issuers() if has_rules(one)]

    def ask(self, rows: Iterable[Priced]) -> None:
        """Looks these rows' numbers up at one go, as they are and as their issuers let them be written."""
        rows = list(rows)
        self.ask_for([one for row in rows for one in _spelled(row)])
        missing = [row for row in rows if not any(map(self._having, _spelled(row)))]
        self.ask_for(
            [
                form
                for row in missing
                for issuer in self._issuers
                for form in spellings(issuer, number_key(row.number).removeprefix(number_key(issuer.issuer)))
            ]
        )

    def ask_for(self, numbers: Iterable[str]) -> None:
        """Looks numbers up at one go."""
        self._graph.parts({number_key(number) for number in numbers})

    def of_offer(self, offer: Offer) -> Part | None:
        """The part an offer's number means, where it is one."""
        found = self._having(str(offer.number))
        return found[0] if len(found) == 1 else None

    def part(self, row: Priced) -> Part | Diagnostic | None:
        """The part a row means, what keeps it from being one, or None where no part has the number (of that maker)."""
        found = _of_maker(row, [part for one in _spelled(row) for part in self._having(one)])
        found = found or _of_maker(row, by_rules(self._graph, row.number, ()) if self._issuers else ())
        if len(found) > 1:
            choices = ", ".join(f"{part.issuer} {part.part}" for part in found)
            return fault("P24-several-parts", row.origin, number=row.number, choices=choices)
        if not found:
            return None
        part, alone = found[0], number_key(row.number)
        if not row.maker and len(alone) < SHORTEST and alone == number_key(part.part):
            whose = f"{part.issuer} {part.part}"
            return fault("P26-short-number", row.origin, number=row.number, part=whose)
        return part

    def said(self, part: Part) -> str:
        """The number as a book says it: with the maker where the bare one is several parts'."""
        return part.part if len(self._having(part.part)) == 1 else f"{part.issuer} {part.part}"

    def _having(self, number: str) -> tuple[Part, ...]:
        return self._graph.parts([number_key(number)])


def _of_maker(row: Priced, parts: Iterable[Part]) -> list[Part]:
    """Each part once, and only those of the row's maker where it names one."""
    maker = row.maker.casefold()
    kept = {
        (part.issuer, part.part): part
        for part in parts
        if not maker or maker in (part.issuer.casefold(), part.maker.casefold())
    }
    return list(kept.values())


def _spelled(row: Priced) -> tuple[str, ...]:
    return (row.number, f"{row.maker} {row.number}") if row.maker else (row.number,)
