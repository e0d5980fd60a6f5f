"""What the program concludes from one book alone: one node per citable record, with its kind, look-up keys and references.

The node also keeps the record itself, as JSON. Nothing here reads a second book: what needs two is joined when asked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, Any, Final, NamedTuple, cast

import msgspec

from fitlore.graph.forms import Forms, bands_of
from fitlore.graph.store import DERIVED
from fitlore.graph.terms import TERMS as TERMS
from fitlore.model.category import Category
from fitlore.model.choices import Goes
from fitlore.model.job import Issuer, Job, Policy, Shop
from fitlore.model.numbers import number_key
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Part, Quality
from fitlore.model.placed import OfferFrom, PlaceOn
from fitlore.model.platform import Car, Contained, Platform, SharedWork
from fitlore.model.record import Rec
from fitlore.model.supply import Donor, Stores, Supplier

if TYPE_CHECKING:
    from fitlore.graph.open_terms import Open

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
    "donor": Donor,
    "quality": Quality,
    "stores": Stores,
}
"""Every kind of citable record, and its Struct."""


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


def kind_in(node: str) -> str:
    """The kind word of the record that a derived node stands for, by the node's IRI."""
    return node.rpartition("#")[2].partition(".")[0]


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
    for word in (record.place.is_, record.name, record.assembly):
        yield "place-here", f"{record.on} {word}"
    yield "place-category", record.place.is_
    for original in record.place.original:
        yield "original-key", number_key(original.number)
        if record.maker:
            yield "original-key", number_key(f"{record.maker} {original.number}")


def _part(record: Part, forms: Forms) -> _Facts:
    key = number_key(record.part)
    yield "part-key", key
    for giver in (record.maker, record.issued_by):
        if giver:
            yield "part-key", number_key(f"{giver} {record.part}")
    tail = key.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    if tail:
        yield "part-tail", tail
    yield "part-category", record.is_
    stated = [(name, value, "") for name, values in record.features.items() for value in values]
    stated += [(name, measured.value, measured.error) for name, measured in record.measured.items()]
    for name, value, error in stated:
        for form in (*forms.of(value), *bands_of(value, error)):
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
            yield from _contained("wants-key", route.takes)


def _shared_work(record: SharedWork) -> _Facts:
    yield from _named(record)
    yield from _contained("wants-key", record.wants)


def _donor(record: Donor) -> _Facts:
    yield from _named(record)
    yield "donor-platform", record.is_
    yield from (("found-at", still.at) for still in record.still_has)


def _quality(record: Quality) -> _Facts:
    yield from _named(record)
    yield "doubts-key", number_key(record.number)


def _stores(record: Stores) -> _Facts:
    yield from _named(record)
    yield from (("has-in-stores", number_key(one.number)) for one in record.has if one.number)


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
    Donor: _alone(_donor),
    Quality: _alone(_quality),
    Stores: _alone(_stores),
}
