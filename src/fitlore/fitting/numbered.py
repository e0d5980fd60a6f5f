"""Numbers read by their issuer's rules: other spellings of one number, and the side that a number says."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from fitlore.fitting.interface import HANDED, interface_of
from fitlore.fitting.once import once
from fitlore.model.choices import Side, Sides
from fitlore.model.issuer import Issuer
from fitlore.model.numbering import has_look, has_rules, normal, same_number, says_sides, side_said, spellings
from fitlore.model.numbers import number_key
from fitlore.model.part import Part

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

_SIDED = HANDED | {Sides.CHANGEABLE}
"""Kinds of which a left and a right one are told apart at all."""


def by_rules(graph: Graph, number: str, maker: str = "") -> tuple[Part, ...]:
    """Parts whose issuer's rules say that this number is theirs, however it is written; of this maker only, where one is named.

    An issuer whose numbers look otherwise is not asked.
    """
    found: list[Part] = []
    for issuer in graph.issuers():
        if not has_rules(issuer) or (maker and issuer.issuer.casefold() != maker.casefold()):
            continue
        bare = _bare(issuer, number)
        if has_look(issuer, bare) is not False:
            rows = graph.parts(sorted(spellings(issuer, bare)))
            found += [part for part in rows if _issued(part, issuer) and _same(issuer, bare, part)]
    return tuple(found)


def also_written(graph: Graph, part: Part) -> tuple[str, ...]:
    """Look-up keys under which the issuer's rules let the part's number be written, with and without the issuer's name."""
    return _written(graph, part.issuer, part.part, part.is_)


@once
def _written(graph: Graph, name: str, number: str, kind: str) -> tuple[str, ...]:
    issuer = graph.issuer(name) if name else None
    if issuer is None or not has_rules(issuer):
        return ()
    own = normal(issuer, number, kind)
    keys = sorted(key for key in spellings(issuer, number) if normal(issuer, key, kind) == own)
    return (*keys, *(number_key(issuer.issuer) + key for key in keys))


def siblings(graph: Graph, part: Part) -> tuple[Part, ...]:
    """Records of the very same part under another spelling of its number (another colour behind it, a star for a blank)."""
    issuer = _issuer_of(graph, part)
    keys = also_written(graph, part)
    own = number_key(part.part)
    rows = graph.parts(keys) if issuer is not None and keys else ()
    return tuple(row for row in rows if issuer and _issued(row, issuer) and number_key(row.part) != own)


def reads_as(graph: Graph, number: str, part: Part) -> bool:
    """Whether a number, as somebody wrote it, is this part's by the rules of its issuer."""
    issuer = _issuer_of(graph, part)
    return issuer is not None and has_rules(issuer) and _same(issuer, _bare(issuer, number), part)


def number_side(graph: Graph, part: Part, *, named: bool = False) -> Side | None:
    """The side the part's number says by its issuer's rules; `named`: by a rule that is made for this kind of part."""
    return _side(graph, part.issuer, part.part, part.is_, named)


@once
def _side(graph: Graph, name: str, number: str, kind: str, named: bool) -> Side | None:
    issuer = graph.issuer(name) if name else None
    if issuer is None or not says_sides(issuer):
        return None
    interface = interface_of(graph, kind)
    return side_said(issuer, number, interface.names if interface else (kind,), named=named)


def with_side(graph: Graph, part: Part) -> Part:
    """The part with the side its number says, where its kind has sides and its record says none."""
    if part.side is not None:
        return part
    interface = interface_of(graph, part.is_)
    sided = interface is not None and interface.sides in _SIDED
    side = number_side(graph, part, named=not sided)
    return msgspec.structs.replace(part, side=side) if side else part


def _issuer_of(graph: Graph, part: Part) -> Issuer | None:
    return graph.issuer(part.issuer) if part.issuer else None


def _issued(part: Part, issuer: Issuer) -> bool:
    return part.issuer.casefold() == issuer.issuer.casefold()


def _same(issuer: Issuer, number: str, part: Part) -> bool:
    return same_number(issuer, number, part.part, part.is_)


def _bare(issuer: Issuer, number: str) -> str:
    key = number_key(number)
    return key.removeprefix(number_key(issuer.issuer)) or key
