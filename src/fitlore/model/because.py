"""The proof of an answer, as data: words are made from it in `report.sentences` and nowhere else."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from fitlore.model.origin import Origin


class Because(msgspec.Struct, frozen=True, omit_defaults=True):
    """One step of a proof: what was concluded, from which lines and tables, and the steps it rests on.

    `code` names the sentence (`thread-trap`, `feature-off` ...); `values` are the named words and figures of it, already
    rounded for people; `origins` are lines of books; `sources` are published tables ("ISO 724"); `under` are the premises.
    """

    code: str
    values: dict[str, str] = {}
    origins: tuple[Origin, ...] = ()
    sources: tuple[str, ...] = ()
    under: tuple[Because, ...] = ()

    def walk(self, depth: int = 0) -> Iterator[tuple[int, Because]]:
        """Every step with its depth, the conclusion first."""
        yield depth, self
        for step in self.under:
            yield from step.walk(depth + 1)
