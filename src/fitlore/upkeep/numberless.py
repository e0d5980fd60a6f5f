"""Parts that no maker's number is known of: they get a number of the shop's own, and say which vehicle they come off."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING, Final

import msgspec

from fitlore.books.layout import Shelf
from fitlore.model.choices import Side
from fitlore.model.numbers import number_key
from fitlore.model.part import Part, TakenFrom
from fitlore.model.placed import PlaceOn
from fitlore.model.record import Name, Number, PlacePath
from fitlore.upkeep.addition import book_for, is_own

if TYPE_CHECKING:
    from fitlore.fitting.donors_on import Vehicle
    from fitlore.graph.open import Graph

_OWN: Final = re.compile(r"(.*?)(\d+)")


def numberless(
    graph: Graph, vehicle: Vehicle, place: PlaceOn, *, side: str = "", marks: str = "", handed: bool = False
) -> Part:
    """What was taken off a place of a vehicle: the part of the books that says so already, else a new one.

    `side` is where it sat, if that is known; `handed`: left and right ones differ, so the part has that side.
    """
    path = f"{place.path}@{side}" if side and place.sides else place.path
    donor = vehicle.donor
    built = donor.facts["built"].value if donor and "built" in donor.facts else ()
    from fitlore.model.dates import read_period

    off = TakenFrom(
        from_=Name(vehicle.platform),
        at=PlacePath(path),
        built=read_period(built[0]) if len(built) == 1 else None,
        marks=marks,
    )
    whose = donor.donor if donor else vehicle.platform
    new = Part(
        part=own_number(graph),
        maker=_shop(graph),
        is_=place.place.is_,
        name=f"{_kind(graph, place.place.is_)} off {whose}",
        side=Side(side) if handed and side in ("left", "right") else None,
        taken_from=off,
    )
    known = [one for one in graph.taken_from([vehicle.platform]) if _same(one, new)]
    return known[0] if len(known) == 1 else new


def own_number(graph: Graph) -> Number:
    """The next free number of the shop's own: the letters it has used so far, or the first of its name, and a figure."""
    platforms = [platform.platform for platform in graph.platforms()]
    own = [part.part for part in graph.taken_from(platforms) if part.maker == _shop(graph)]
    known = [(match[1], match[2]) for number in own if (match := _OWN.fullmatch(number)) is not None]
    most = Counter(letters for letters, _ in known).most_common(1)
    letters = most[0][0] if most else f"{_initials(_shop(graph))} "
    figures = [figure for said, figure in known if said == letters]
    next_one, width = max(map(int, figures), default=0) + 1, max(map(len, figures), default=3)
    while graph.parts([number_key(f"{letters}{next_one:0{width}}")]):
        next_one += 1
    return Number(f"{letters}{next_one:0{width}}")


def book_of_parts(graph: Graph, folder: Path, shelf: Shelf, kind: str) -> str:
    """The shown name of the book on the shop's own shelf where most parts of this kind stand; else where parts go."""
    like = graph.parts_of(sorted(graph.narrower(kind)))
    books = Counter(part.origin.book for part in like if is_own(part, shelf))
    most = max(books.items(), key=lambda pair: (pair[1], pair[0]), default=None)
    return most[0] if most else book_for(graph, folder, shelf, "part")


def _same(known: Part, new: Part) -> bool:
    """Whether a part of the books is what is said to be new: the same name, off the same place of the same vehicle."""
    was, now = known.taken_from, new.taken_from
    if was is None or now is None or known.maker != new.maker or known.name != new.name:
        return False
    marks = was.marks if not now.marks else now.marks
    return msgspec.structs.replace(was, origin=now.origin) == msgspec.structs.replace(now, marks=marks)


def _shop(graph: Graph) -> str:
    return graph.shop.name or graph.shop.shop


def _initials(name: str) -> str:
    """Two letters of a name: those its words begin with, else its own first ones."""
    words = re.findall(r"[A-Z]+", re.sub(r"[^A-Z0-9 ]", " ", name.upper()))
    letters = "".join(word[0] for word in words) if len(words) > 1 else "".join(words)
    return (letters or "OWN")[:2]


def _kind(graph: Graph, category: str) -> str:
    found = graph.category(category)
    return (found.names.get("en-gb") if found else None) or category.replace("-", " ")
