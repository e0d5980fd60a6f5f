"""Parts found by the rules of their number's issuer, where nobody wrote the number quite as it was typed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from fitlore.model.numbering import has_rules, same_number, spellings
from fitlore.model.numbers import number_key
from fitlore.model.part import Part

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


def by_rules(graph: Graph, text: str, known: Iterable[Part]) -> Iterator[Part]:
    """Parts whose issuer says that this number, with or without the issuer's name in front, is theirs.

    `known` are those with the very number: their issuers are not asked again, so that a grey one typed in full is not
    answered with a black one beside it.
    """
    key, done = number_key(text), {number_key(part.issuer) for part in known}
    for issuer in graph.issuers():
        own = number_key(issuer.issuer)
        if own in done or not has_rules(issuer):
            continue
        bare = key.removeprefix(own) or key
        for part in graph.parts(spellings(issuer, bare)):
            if number_key(part.issuer) == own and same_number(issuer, bare, part.part, part.is_):
                yield part
