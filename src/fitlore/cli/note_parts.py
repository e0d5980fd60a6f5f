"""Which part and which place the words of `note` mean: by number, by whose it is and what it is, or off a described donor."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, NamedTuple

from fitlore.cli.asking import parts_named, places_named
from fitlore.cli.counter import Counter
from fitlore.cli.failure import CouldNot
from fitlore.cli.gap import Gap
from fitlore.fitting.conditions import holds
from fitlore.fitting.donors_on import Vehicle, standing, vehicle_of
from fitlore.fitting.interface import HANDED, interface_of
from fitlore.fitting.parts import identity, parts_or_stub
from fitlore.fitting.requirement import other_side
from fitlore.graph.lookup import Found, find, speaks_of
from fitlore.graph.words import words as folded
from fitlore.model.kleene import Tri
from fitlore.model.part import Part
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Established

MOST_PLATFORMS: Final = 40
"""So many platforms are gone through for words that name none."""
_PARTS: Final = frozenset({"part"})
_PLACES: Final = frozenset({"place"})


class Meant(NamedTuple):
    """A part as the line means it."""

    part: Part | None
    """None: one without a number, off a vehicle; `at` says which place of it."""
    at: PlaceOn | None = None
    """Where it stands on its own vehicle, if it was named so."""
    side: str = ""
    plain: str = ""
    """Its words without whose it is: `rear damper`."""
    vehicle: Vehicle | None = None


class Where(NamedTuple):
    """What it is to stand in for: a part by number, or a place."""

    part: Part | None = None
    place: PlaceOn | None = None
    side: str = ""


def part_meant(counter: Counter, text: str, side: str, vehicle: Vehicle | None, *, numberless: bool) -> Meant:
    """The part; `side` is the one of the place it goes to. Raises Gap with the readings, CouldNot where there is none."""
    if vehicle is None or _has_figures(text):
        parts = _numbered(counter, text)
        if parts:
            return Meant(_one_of(parts, text))
    platforms = [vehicle.platform] if vehicle else platforms_in(counter, text)
    found = [(place, said) for name in platforms for place, said in places_on(counter, text, name)]
    if len(found) == 1:
        place, said = found[0]
        side = said or side
        plain = _without(counter, text, place.on)
        if numberless:
            if side not in ("left", "right") and handed(counter, place):
                raise _which_side(place)
            return Meant(None, place, side, plain, vehicle)
        return _at(counter, text, place, side, vehicle)._replace(plain=plain)
    if found:
        raise Gap(f"{text!r} may be", "part", (place.full_path for place, _ in found))
    if vehicle is not None:
        raise CouldNot(f"{text!r} reads as no place of {vehicle.platform}; name the place as its book does")
    parts = _on_side(_of_any_maker(counter, text, side), side)
    if not parts:
        raise CouldNot(
            f"the books know no {side} one that {text!r} means; write the number of the one that is meant"
        )
    return Meant(_one_of(parts, text))


def _of_any_maker(counter: Counter, text: str, side: str) -> tuple[Part, ...]:
    """The parts that words without a maker may mean: of a kind named in full, else what stands at places named by some words."""
    try:
        return parts_named(counter, text)
    except CouldNot:
        platforms = counter.graph.platforms()
        places = [
            place
            for platform in (platforms if len(platforms) <= MOST_PLATFORMS else ())
            for place, _ in places_on(counter, text, platform.platform)
        ]
        found = {
            identity(part): part
            for place in places
            for part in _on_side(originals_at(counter, place, side), side)
        }
        if not found:
            raise
        return tuple(found.values())


def platforms_in(counter: Counter, text: str) -> list[str]:
    """The platforms that some of the words name, by maker or model; one named by more of them goes before the others."""
    covers: dict[str, set[int]] = {}
    typed = folded(text)
    for hit in counter.graph.vocabulary.hits(typed):
        if hit.entry.kind == "platform":
            covers.setdefault(hit.entry.key, set()).update(hit.cover)
    for platform in counter.graph.platforms():
        own = folded(platform.maker)
        at = {n for n, word in enumerate(typed) if word in own}
        if own and len(at) == len(own):
            covers.setdefault(platform.platform, set()).update(at)
    most = max(map(len, covers.values()), default=0)
    return sorted(name for name, cover in covers.items() if len(cover) == most)


def places_on(counter: Counter, text: str, platform: str) -> list[tuple[PlaceOn, str]]:
    """The places of a platform that the words mean, with the side they say: named in full, else by some of their words.

    Every word has to be one of the place's own, of its kind, assembly or platform.
    """
    found = _asked(counter, text, (platform,))
    exact = [match.record for match in found.exact if isinstance(match.record, PlaceOn)]
    if exact:
        return [(place, found.side) for place in exact]
    typed = folded(text)
    aside = {at for side in found.sides for at in side.at}
    maker = {at for at, word in enumerate(typed) if word in folded(_maker(counter, platform))}
    hits = counter.graph.vocabulary.hits(typed)
    rows = []
    for place in counter.graph.places(platform):
        about = [hit for hit in hits if speaks_of(hit, place)]
        own = {at for hit in about if hit.entry.kind in ("category", "place") for at in hit.cover}
        if own - maker and set(range(len(typed))) - aside - maker <= {
            at for hit in about for at in hit.cover
        }:
            rows.append((place, found.side))
    return rows


def target_meant(counter: Counter, text: str) -> Where:
    """What the words behind `for` mean; raises Gap with the readings, CouldNot where there is none."""
    numbers = _numbered(counter, text)
    if numbers:
        part = _one_of(numbers, text, "target")
        return Where(part, None, part.side.value if part.side else "")
    named = platforms_in(counter, text)
    platforms = tuple(named) if named and not set(named) & set(counter.platforms) else counter.platforms
    found = _asked(counter, text, platforms)
    places = {m.record.full_path: m.record for m in found.exact if isinstance(m.record, PlaceOn)}
    side = found.side
    if not places:
        rows = [row for name in platforms for row in places_on(counter, text, name)]
        places, side = {place.full_path: place for place, _ in rows}, next((said for _, said in rows), "")
    if not places:
        whole, side = places_named(counter, text)
        places = {place.full_path: place for place in whole}
    if len(places) > 1:
        which = "no car is picked, and that may be" if counter.car is None else f"{text!r} may be"
        behind = f"@{side}" if side in ("left", "right") else ""
        raise Gap(
            which,
            "target",
            (f"{path}{behind}" for path in sorted(places)),
            "say which, or pick a car (`fitlore car`)" if counter.car is None else "say which",
        )
    return Where(None, next(iter(places.values())), "" if side == "both" else side)


def where_it_goes(counter: Counter, meant: Meant) -> Where:
    """The place of the picked car that follows from what the part is; raises Gap with the readings."""
    kind = meant.part.is_ if meant.part else meant.at.place.is_ if meant.at else ""
    if counter.car is None:
        raise CouldNot(
            "say what it goes in place of: `note PART for NUMBER-or-PLACE, HOW`; or pick a car (`fitlore car`)"
        )
    places = [place for place, _ in places_on(counter, meant.plain, counter.car.is_)] if meant.plain else []
    if not places:
        every = counter.graph.places(counter.car.is_)
        places = [place for place in every if kind in counter.graph.narrower(place.place.is_)]
    if not places:
        raise CouldNot(f"no place on a {counter.car.is_} takes a {kind}; say where: `for NUMBER-or-PLACE`")
    if len(places) > 1:
        raise Gap("it may go in place of", "target", (place.path for place in places))
    side = meant.side or (meant.part.side.value if meant.part and meant.part.side else "")
    return Where(None, places[0], side)


def handed(counter: Counter, place: PlaceOn) -> bool:
    """Whether left and right ones differ there."""
    interface = interface_of(counter.graph, place.place.is_)
    return bool(place.sides) and interface is not None and interface.sides in HANDED


def vehicle_meant(counter: Counter, text: str) -> Vehicle | None:
    """The described donor or the platform of this name; None where there is neither. Raises Gap where there are several."""
    typed = set(folded(text))
    donors = counter.graph.donors()
    found = [one for one in donors if text.casefold() in (one.donor, one.name.casefold())]
    found = found or [one for one in donors if typed and typed <= set(folded(f"{one.donor} {one.name}"))]
    if len(found) > 1:
        raise Gap(f"{text!r} may be", "off", (one.donor for one in found))
    if found:
        return vehicle_of(counter.graph, found[0])
    platforms = platforms_in(counter, text)
    if len(platforms) > 1:
        raise Gap(f"{text!r} may be", "off", platforms)
    return Vehicle(platforms[0]) if platforms else None


def _at(counter: Counter, text: str, place: PlaceOn, side: str, vehicle: Vehicle | None) -> Meant:
    """The part that stands at a place of its vehicle: what was read on it, else the original that its facts leave."""
    if side not in ("left", "right") and handed(counter, place):
        raise _which_side(place)
    donor = vehicle is not None and vehicle.donor is not None
    parts = _read_on_it(counter, place, vehicle) if donor and vehicle else originals_at(counter, place, side)
    if parts and not (parts := _on_side(parts, side)):
        raise CouldNot(
            f"the books know no {side} one at {place.full_path}; write the number of the one that is meant"
        )
    if not parts:
        raise CouldNot(
            f"nobody has written down the number of what stands at {place.full_path}; write the number, or name the donor"
            " and say `no number`: `note PART off DONOR for PLACE, no number, HOW`"
        )
    return Meant(_one_of(parts, text), place, side, vehicle=vehicle)


def _read_on_it(counter: Counter, place: PlaceOn, vehicle: Vehicle) -> list[Part]:
    """The parts whose number was read at a place of a donor; raises Gap where only the book of its platform tells one."""
    graph = counter.graph
    rows = standing(graph, vehicle, graph.narrower(place.place.is_), ())
    here = [row for row in rows if row.at.partition("@")[0] == place.path and not row.gone]
    read = [row.part for row in here if row.because.code == "donor-seen"]
    if here and not read:
        raise Gap(
            f"nobody has noted a number read at {place.path} of {vehicle.key}; by the book it is",
            "part",
            (f"{row.part.issuer} {row.part.part}".strip() for row in here),
            "write that number if it is on it, else `no number`",
        )
    return read


def _which_side(place: PlaceOn) -> Gap:
    sides = (f"{place.full_path}@{side}" for side in place.sides)
    return Gap("left and right ones differ:", "part", sides, "say which it was")


def originals_at(counter: Counter, place: PlaceOn, side: str) -> list[Part]:
    """The originals of a place on any car of its platform."""
    facts = {"side": Established(value=(side,))} if side else {}
    return [
        part
        for original in place.place.original
        if holds(original.only_if, facts).value is not Tri.FALSE
        for part in parts_or_stub(counter.graph, original.number, place.maker, place.place.is_)
    ]


def _on_side(parts: Iterable[Part], side: str) -> list[Part]:
    return [part for part in parts if not other_side(part, side)]


def _one_of(parts: list[Part], text: str, piece: str = "part") -> Part:
    parts = list({identity(part): part for part in reversed(parts)}.values())[
        ::-1
    ]  # the nearest shelf's record of each
    if len(parts) > 1:
        raise Gap(
            f"{text!r} may be",
            piece,
            (f"{part.issuer} {part.part}".strip() for part in parts),
            "write the number",
        )
    return parts[0]


def _asked(counter: Counter, text: str, platforms: tuple[str, ...]) -> Found:
    car = counter.car
    known = car.facts["steering"].value if car and "steering" in car.facts else ()
    found = find(
        counter.graph,
        text,
        platforms=platforms,
        kinds=_PLACES,
        country=(car.country if car else "") or counter.graph.shop.country,
        steering=known[0] if len(known) == 1 else "",
    )
    if found.asks:
        raise CouldNot(f"{text!r}: which side that is depends on the car's {found.asks}; say left or right")
    return found


def _maker(counter: Counter, name: str) -> str:
    platform = counter.graph.platform(name)
    return platform.maker if platform else ""


def _without(counter: Counter, text: str, platform: str) -> str:
    """The words without those that name the platform or its maker."""
    typed = folded(text)
    named = folded(f"{_maker(counter, platform)} {platform}")
    hits = counter.graph.vocabulary.hits(typed)
    cover = {
        at for hit in hits if hit.entry.kind == "platform" and hit.entry.key == platform for at in hit.cover
    }
    return " ".join(word for at, word in enumerate(typed) if at not in cover and word not in named)


def _numbered(counter: Counter, text: str) -> list[Part]:
    """The parts with this number; without figures a text is none."""
    if not _has_figures(text):
        return []
    return [m.record for m in find(counter.graph, text, kinds=_PARTS).exact if isinstance(m.record, Part)]


def _has_figures(text: str) -> bool:
    return any(character.isdigit() for character in text)
