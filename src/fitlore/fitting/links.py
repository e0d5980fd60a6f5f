"""Single steps from a part that goes to one that is said to do its job, each in its own direction."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.conditions import holds
from fitlore.fitting.evidence import attributed, weigh
from fitlore.fitting.numbered import siblings
from fitlore.fitting.parts import (
    Identity,
    every_key,
    identity,
    keys_of,
    means,
    parts_meant,
    unsure,
    whole,
)
from fitlore.model.choices import Goes, Reason
from fitlore.model.kleene import Tri
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Part, Replacement

if TYPE_CHECKING:
    from fitlore.fitting.ways import Setting


class Link(NamedTuple):
    """One step from a part that goes to one that is said to do its job."""

    to: Part
    claim: CrossFit | None
    replacement: Replacement | None
    said_by: Part | None = None
    """The part whose record says so, where no claim does."""
    ambiguous: bool = False
    """A number in it may mean several parts."""
    reverse: bool = False
    """A claim that goes both ways, followed backwards."""
    dead: bool = False
    """A change point, or the shop's own trial, says no: nothing may be chained on it."""

    @property
    def key(self) -> Identity:
        """Which part it leads to."""
        return identity(self.to)

    @property
    def says(self) -> CrossFit | Replacement | None:
        """The record that makes the link; none where two numbers are one part."""
        return self.claim or self.replacement

    @property
    def mark(self) -> str:
        """Which link it is: the record that makes it, the direction, and where it leads."""
        record = self.says or self.said_by or self.to
        name = self.claim.crossfit if self.claim else self.said_by.part if self.said_by else self.to.part
        return f"{name} {record.origin} {'back' if self.reverse else 'forth'} {' '.join(self.key)}"

    @property
    def same(self) -> bool:
        """Whether both ends are one part, under two numbers or renumbered without a change."""
        return self.claim is None and (
            self.replacement is None or self.replacement.reason is Reason.IDENTICAL
        )

    @property
    def hint(self) -> bool:
        """Whether it proves nothing by itself.

        A replacement for reasons of supply, or unknown ones; a kit of which nobody says that it contains the part; and
        whatever may be about another part of the same number.
        """
        if self.ambiguous:
            return True
        if self.replacement is None or self.said_by is None:
            return False
        if self.replacement.reason is Reason.KIT_ONLY:
            inside = {number_key(content.number) for content in self.to.contains if content.number}
            return not inside & set(keys_of(self.said_by))
        return self.replacement.reason in (Reason.SUPPLIER, Reason.UNKNOWN)


def links_from(setting: Setting, part: Part) -> Iterator[Link]:
    """Every link that starts at a part: claims, replacements, and other numbers of the very same part."""
    graph = setting.graph
    for claim in graph.claims_from(every_key(graph, part)):
        if claim.instead_of is None:
            continue
        if means(graph, claim.instead_of, part):
            yield from _links(setting, claim, claim.use, unsure(graph, claim.instead_of))
        elif claim.goes is Goes.BOTH_WAYS and means(graph, claim.use, part):
            yield from _links(setting, claim, claim.instead_of, unsure(graph, claim.use), reverse=True)
    for replacement in part.replaced_by:
        newer = parts_meant(graph, replacement.number, part.issuer)
        yield from (Link(to, None, replacement, part, len(newer) > 1) for to in newer)
    for number in part.same_as:
        same = parts_meant(graph, number)
        yield from (Link(to, None, None, part, len(same) > 1) for to in same)
    yield from (Link(whole(graph, to), None, None, part) for to in siblings(graph, part))
    yield from _backwards(setting, part)


def place_links(setting: Setting) -> Iterator[Link]:
    """The links of claims made for this place."""
    place = setting.resolved.place
    for claim in setting.graph.claims_at(place.on, place.path):
        yield from _links(setting, claim, claim.use, False)


def _links(
    setting: Setting, claim: CrossFit, number: str, ambiguous: bool, *, reverse: bool = False
) -> Iterator[Link]:
    """The links a claim makes to one number: one where it names one part, unsure ones where it may be several."""
    claim = attributed(claim, setting.graph)
    found = parts_meant(setting.graph, number)
    changed = holds(claim.changed_at, setting.resolved.facts)
    weighed = weigh(claim, setting.rules, setting.graph.shop.person)
    dead = changed.value is Tri.FALSE or weighed.against == "shop"
    for to in found:
        yield Link(to, claim, None, None, ambiguous or len(found) > 1, reverse, dead)


def _backwards(setting: Setting, part: Part) -> Iterator[Link]:
    """Older numbers of the very same part, and other issuers' numbers whose record says that they are this part."""
    graph = setting.graph
    for record in graph.replaces(every_key(graph, part)):
        older = whole(graph, record)
        for replacement in record.replaced_by:
            if replacement.reason is Reason.IDENTICAL and means(
                graph, replacement.number, part, record.issuer
            ):
                several = len(parts_meant(graph, replacement.number, record.issuer)) > 1
                yield Link(older, None, replacement, record, several, reverse=True)
        for number in record.same_as:
            if means(graph, number, part):
                yield Link(older, None, None, record, unsure(graph, number), reverse=True)
