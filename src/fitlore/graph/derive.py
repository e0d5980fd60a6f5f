"""What the program concludes from one book alone: one node per citable record, with its kind, look-up keys and references.

The node also keeps the record itself, as JSON. Nothing here reads a second book: what needs two is joined when asked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, Any, Final, NamedTuple, cast

import msgspec

from fitlore.graph.forms import Forms
from fitlore.model.category import Category
from fitlore.model.choices import Goes
from fitlore.model.job import Issuer, Job, Policy, Shop
from fitlore.model.numbers import number_key
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import OfferFrom, PlaceOn
from fitlore.model.platform import Car, Contained, Platform, SharedWork
from fitlore.model.record import Rec
from fitlore.model.supply import Supplier

if TYPE_CHECKING:
    from fitlore.graph.open_terms import Open

DERIVED: Final = "#derived"
"""A book's derived graph is named after the book's own graph, with this behind it."""

KINDS: Final[dict[str, type[Rec]]] = {
    "category": Category,
    "platform": Platform,
    "place": PlaceOn,
    "part": Part,
    "crossfit": CrossFit,
    "supplier": Supplier,
    "offer": OfferFrom,
    "car": Car,
    "job": Job,
    "shared-work": SharedWork,
    "shop": Shop,
    "policy": Policy,
    "issuer": Issuer,
}
"""Every kind of citable record, and its Struct."""

TERMS: Final[dict[str, str]] = {
    "as-kind": "the kind of record a derived node stands for",
    "as-read": "the record itself, as JSON",
    "as-shown": "where the record stands, as people are shown it: book:line:column",
    "as-named": "kind and name of a named record, with a blank between",
    "part-key": "look-up key of a part: of its number, and of its maker and number",
    "part-tail": "a part's key without the letters it starts with: for numbers half remembered",
    "part-category": "the category of a part",
    "place-category": "the category of a place",
    "has-feature": "category, feature and one normal form of its value, with | between",
    "under-category": "the broader category of a category",
    "renews-category": "a category renewed together with this one",
    "claim-from-key": "key of a part that a claim starts at (both ends where it goes both ways)",
    "claim-to-key": "key of the part a claim ends at",
    "claim-at": "platform/assembly/place a claim is made for",
    "claim-on": "a platform a claim reaches",
    "beside-key": "key of a companion, a forbidden neighbour or an extra of a claim or replacement",
    "beside-at": "place, as written, of a companion or forbidden neighbour",
    "original-key": "key of an original of a place",
    "place-on": "the platform of a place",
    "place-path": "platform/assembly/place of a place",
    "place-name": "the name of a place by itself",
    "place-in": "the assembly of a place",
    "succeeds-by-key": "key of a part that replaces this one, or is the same by another issuer",
    "contains-key": "key of something a part contains",
    "donor-platform": "the platform a part without a number comes off",
    "sells-key": "key of what an offer sells, or brings along",
    "sells-category": "a category an offer sells any part of, or brings",
    "sells-service": "a service an offer sells, or brings",
    "sold-by": "the supplier of an offer",
    "on-platform": "the platform of a car",
    "really-on-key": "key of a part that is really on a car",
    "really-from": "a platform an assembly of a car really comes from",
    "for-car": "the car of a job",
    "found-at": "place, as written, of a finding or a weak point",
    "wants-key": "key of something a route or a shared work uses up",
    "has-evidence-for": "a piece of evidence for a claim, with who knows it, how and since when",
    "has-evidence-against": "a piece of evidence against a claim",
    "has-measured": "a measurement of a part",
    "known-how": "how somebody knows, in the words of `how`",
}
"""Every term of a derived graph and what it says."""


class Node(NamedTuple):
    """A citable record as the store keeps it: subject IRI, its graph, and what is said about it."""

    iri: str
    graph: str
    facts: tuple[tuple[str, str], ...]
    openly: tuple[Open, ...] = ()
    """The same in open vocabularies."""


_Facts = Iterator[tuple[str, str]]
_encode: Final = msgspec.json.Encoder().encode


def derive(graph: str, records: Iterable[Rec], forms: Forms | None = None) -> Iterator[Node]:
    """The derived nodes of one book. `graph` is the IRI of the book's own graph; the nodes belong to `<graph>#derived`.

    `forms` reads features' values; without it by no tables of standards.
    """
    from fitlore.graph.open_terms import open_statements

    forms = forms or Forms(None)
    for order, record in enumerate(citable(records)):
        kind = kind_of(record)
        facts = [
            ("as-kind", kind),
            ("as-shown", str(record.origin)),
            ("as-read", _encode(record).decode()),
            *_KEYS[type(record)](record, forms),
        ]
        node = f"{graph}#{kind}.{order}"
        yield Node(node, f"{graph}{DERIVED}", tuple(dict.fromkeys(facts)), open_statements(record, node))


def citable(records: Iterable[Rec]) -> Iterator[Rec]:
    """Each record that can be asked for by itself: places and offers stand apart from their platform and supplier."""
    for record in records:
        if isinstance(record, Platform):
            bare = {n: msgspec.structs.replace(a, places={}) for n, a in record.assemblies.items()}
            yield msgspec.structs.replace(record, assemblies=bare)
            yield from places_of(record)
        elif isinstance(record, Supplier):
            yield msgspec.structs.replace(record, offers=())
            for offer in record.offers:
                origin = offer.origin if offer.origin.book else record.origin
                trade = record.trade.value
                yield OfferFrom(origin=origin, supplier=record.supplier, trade=trade, offer=offer)
        else:
            yield record


def places_of(platform: Platform) -> Iterator[PlaceOn]:
    """The places of a platform, in the order of its book."""
    for name, assembly in platform.assemblies.items():
        for at, place in assembly.places.items():
            yield PlaceOn(
                origin=_first(place.origin, assembly.origin, platform.origin),
                on=platform.platform,
                assembly=name,
                name=at,
                sides=assembly.sides if place.sides is None else place.sides,
                called=assembly.called,
                maker=platform.maker,
                place=place,
            )


def kind_of(record: Rec) -> str:
    """The kind word of a citable record."""
    return _WORD[type(record)]


def name_of(record: Rec) -> str:
    """The name a record goes by in its kind: a part's number, a place's full path, an offer's id."""
    if isinstance(record, PlaceOn):
        return record.full_path
    if isinstance(record, OfferFrom):
        return record.id
    return cast(str, getattr(record, kind_of(record).replace("-", "_")))


def base_path(path: str) -> str:
    """A place's path without its side."""
    return path.partition("@")[0]


def _first(*origins: Origin) -> Origin:
    return next((origin for origin in origins if origin.book), origins[0])


def _named(record: Rec) -> _Facts:
    yield "as-named", f"{kind_of(record)} {name_of(record)}"


def _category(record: Category) -> _Facts:
    yield from _named(record)
    if record.broader:
        yield "under-category", record.broader
    for beside in record.renew_with:
        if beside.is_:
            yield "renews-category", beside.is_
        if beside.number:
            yield "beside-key", number_key(beside.number)


def _platform(record: Platform) -> _Facts:
    yield from _named(record)
    for point in record.weak_points:
        yield "found-at", point.at


def _place(record: PlaceOn) -> _Facts:
    yield "place-on", record.on
    yield "place-path", record.full_path
    yield "place-name", record.name
    yield "place-in", record.assembly
    yield "place-category", record.place.is_
    for original in record.place.original:
        yield "original-key", number_key(original.number)
        if record.maker:
            yield "original-key", number_key(f"{record.maker} {original.number}")


def _part(record: Part, forms: Forms) -> _Facts:
    key = number_key(record.part)
    yield "part-key", key
    if record.maker:
        yield "part-key", number_key(f"{record.maker} {record.part}")
    tail = key.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    if tail:
        yield "part-tail", tail
    yield "part-category", record.is_
    stated = [(name, value) for name, values in record.features.items() for value in values]
    stated += [(name, measured.value) for name, measured in record.measured.items()]
    for name, value in stated:
        for form in forms.of(value):
            yield "has-feature", f"{record.is_}|{name}|{form}"
    for newer in record.replaced_by:
        yield "succeeds-by-key", number_key(newer.number)
        for beside in newer.with_:
            yield "beside-at", beside.at
            yield from (("beside-key", number_key(number)) for number in beside.use)
    yield from (("succeeds-by-key", number_key(number)) for number in record.same_as)
    yield from _contained("contains-key", record.contains)
    if record.taken_from:
        yield "donor-platform", record.taken_from.from_
        yield "found-at", record.taken_from.at


def _crossfit(record: CrossFit) -> _Facts:
    yield from _named(record)
    if record.instead_of:
        yield "claim-from-key", number_key(record.instead_of)
        if record.goes is Goes.BOTH_WAYS:
            yield "claim-from-key", number_key(record.use)
    yield "claim-to-key", number_key(record.use)
    if record.at:
        yield "claim-at", base_path(record.at)
    yield from (("claim-on", platform) for platform in record.reaches)
    for companion in record.with_:
        yield "beside-at", companion.at
        yield from (("beside-key", number_key(number)) for number in companion.use)
    for never in record.never_with:
        if never.at:
            yield "beside-at", never.at
        yield from (("beside-key", number_key(number)) for number in never.use)
    yield from _contained("beside-key", record.extras)


def _offer(record: OfferFrom) -> _Facts:
    yield "sold-by", record.supplier
    offer = record.offer
    itself = Contained(number=offer.number, is_=offer.any_, service=offer.service)
    yield from _contained("sells-key", (itself, *offer.brings))
    for brought in (itself, *offer.brings):
        if brought.is_:
            yield "sells-category", brought.is_
        if brought.service:
            yield "sells-service", brought.service


def _car(record: Car) -> _Facts:
    yield from _named(record)
    yield "on-platform", record.is_
    for really in record.really_on_it.values():
        if really.number:
            yield "really-on-key", number_key(really.number)
        if really.from_:
            yield "really-from", really.from_


def _job(record: Job) -> _Facts:
    yield from _named(record)
    yield "for-car", record.for_
    for finding in record.findings:
        yield "found-at", finding.at
        for route in finding.routes:
            yield from _contained("wants-key", route.use)


def _shared_work(record: SharedWork) -> _Facts:
    yield from _named(record)
    yield from _contained("wants-key", record.wants)


def _contained(term: str, things: Iterable[Contained]) -> _Facts:
    return ((term, number_key(thing.number)) for thing in things if thing.number)


def _alone(keys: Callable[[Any], _Facts]) -> Callable[[Any, Forms], _Facts]:
    return lambda record, forms: keys(record)


_WORD: Final = {struct: kind for kind, struct in KINDS.items()}
_KEYS: Final[dict[type[Rec], Callable[[Any, Forms], _Facts]]] = {
    **dict.fromkeys(KINDS.values(), _alone(_named)),
    Category: _alone(_category),
    Platform: _alone(_platform),
    PlaceOn: _alone(_place),
    Part: _part,
    CrossFit: _alone(_crossfit),
    OfferFrom: _alone(_offer),
    Car: _alone(_car),
    Job: _alone(_job),
    SharedWork: _alone(_shared_work),
}
