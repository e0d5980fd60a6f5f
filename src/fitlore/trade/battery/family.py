"""Batteries as a family: into the tray, under the clamp, with the leads as long as they are, and strong enough."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.battery.reading import Battery, read
from fitlore.trade.family import About
from fitlore.trade.held import Held
from fitlore.trade.pieces import PRACTICE, question
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

ROOM: Final = Decimal(2)
"""By how many mm a case may be over the needed one; trays have that much room. Common practice."""
LOOSE: Final = Decimal(10)
"""From how many mm under the needed size on a case has to be packed so that it cannot slide. Common practice."""
_LOOK: Final = "the label"


class BatteryFamily:
    """The family of kind `battery`. Needed: what the tray, the leads and the engine ask for. Offered: the battery."""

    about = About(
        title="starter batteries",
        standards=("EN 50342-1", "EN 50342-2", "IEC 60095-2", "JIS D 5301", "DIN 72311", "SAE J537"),
        spellings=(
            "L2 60 Ah 540 A EN positive right",
            "LB3",
            "LN2 layout 0 B13",
            "battery H5 60Ah",
            "46B24L",
            "55B24R(S)",
            "80d26l",
            "ETN 544 059 036",
            "ETN 595901085",
            "DIN 560 49",
            "BCI 94R 800 CCA",
            "group 24",
            "battery 242 x 175 x 190 mm 60 Ah 540A (EN) left positive thin posts B01",
        ),
        not_said=(
            "what a type number stands for in sizes and layout: its middle three figures are a list",
            "whether the box gives off its gas through a hose",
            "how old it is",
        ),
        gaps=(
            "lorry cases",
            "most case numbers of North America",
            "batteries of motorcycles",
            "six-volt cases",
        ),
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The battery in one spelling; its length and width in mm to look by."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        sizes = {"length": found.length, "width": found.width, "height": found.height}
        return Reading(found.name, keys={name: size for name, size in sizes.items() if size is not None})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each case by its length, width and height with the posts."""
        for row in standards.table("battery-cases").rows:
            if row.word("system") == "JIS":
                continue
            name = row.word("case") if row.word("system") == "EN" else f"BCI {row.word('case')}"
            bands = {
                measure: Band(row.number(measure) - 3, row.number(measure) + 1)
                for measure in ("length", "width", "height")
            }
            values = {"battery": name, "certainty": row.certainty.value}
            yield Sized("battery", name, bands, Because("battery-size", values, (row.origin,), (row.source,)))

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Volts, size, layout, posts, ledges, then what it gives."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        held = Held("battery", wanted.name, had.name)
        if held.asks("volts", wanted.volts, had.volts, _LOOK) and wanted.volts != had.volts:
            values = {"needed-volts": f"{wanted.volts} V", "offered-volts": f"{had.volts} V"}
            held.add("volts", FamilyState.OFF, "battery-volts", values)
        _sizes(held, wanted, had)
        if held.asks("layout", wanted.layout, had.layout, "posts towards you: on which side is plus"):
            _layout(held, wanted, had)
        elif not wanted.layout:
            held.unsaid("layout", "posts towards you: on which side is plus")
        if held.asks("posts", wanted.posts, had.posts, "caliper across the top of the plus post"):
            _posts(held, wanted, had, standards)
        elif not wanted.posts and had.posts == "thin":
            held.unsaid("posts", "caliper across the top of the plus post")
        _ledges(held, wanted, had)
        _capacity(held, wanted, had)
        _cold(held, wanted, had, standards)
        return held.result()


def _rows(*batteries: Battery) -> tuple[TableRow, ...]:
    return tuple(battery.case for battery in batteries if battery.case is not None)


def _sizes(held: Held, wanted: Battery, had: Battery) -> None:
    """Never longer, wider or higher than the tray and the clamp take; much less has to be packed."""
    if wanted.length is None or had.length is None:
        held.unsaid("size", "a rule over the case: length, width, height with the posts")
    for what in ("length", "width", "height"):
        need, have = getattr(wanted, what), getattr(had, what)
        if not held.asks(what, need, have, "a rule over the case, height with the posts"):
            continue
        values = {"needed-size": f"{plain(need)} mm", "offered-size": f"{plain(have)} mm"}
        if have > need + ROOM:
            held.add(what, FamilyState.OFF, "battery-too-big", values, _rows(wanted, had))
        elif have < need - LOOSE:
            code = "battery-low" if what == "height" else "battery-small"
            held.add(what, FamilyState.OK_WITH_WORK, code, values, _rows(wanted, had), (PRACTICE,))
        else:
            held.agrees(what, values["offered-size"], _rows(wanted, had))


def _layout(held: Held, wanted: Battery, had: Battery) -> None:
    if wanted.layout == had.layout:
        held.agrees("layout", f"positive {had.layout}", _rows(had))
        return
    values = {"needed-side": wanted.layout, "offered-side": had.layout}
    tells = (Because("battery-tell-layout", values, sources=("EN 50342-2",)),)
    held.add(
        "layout", FamilyState.TRAP, "battery-layout", values, _rows(had), ("EN 50342-2", PRACTICE), tells
    )


def _posts(held: Held, wanted: Battery, had: Battery, standards: Standards) -> None:
    table = standards.table("battery-posts")
    rows = (*table.find(posts=wanted.posts), *table.find(posts=had.posts))
    if wanted.posts == had.posts:
        held.agrees("posts", f"{had.posts} posts")
        return
    values = {"needed-posts": wanted.posts, "offered-posts": had.posts}
    values["tops"] = ", ".join(
        f"{row.word('posts')} {row.cell('plus')} and {row.cell('minus')} mm" for row in rows
    )
    if had.posts == "thin":
        tells = (
            Because(
                "battery-tell-posts", values, tuple(r.origin for r in rows), tuple(r.source for r in rows)
            ),
        )
        held.add("posts", FamilyState.TRAP, "battery-posts-thin", values, rows, under=tells)
    else:
        held.add("posts", FamilyState.OFF, "battery-posts-thick", values, rows)


def _ledges(held: Held, wanted: Battery, had: Battery) -> None:
    """Every ledge that the clamp takes hold of has to be there, as high as it is."""
    if not held.asks("ledges", wanted.ledge, had.ledge, "the foot of the case, long and short sides"):
        return
    if wanted.ledge is None or had.ledge is None:
        return
    need, have = wanted.ledge, had.ledge
    sides = [
        side for side in ("long", "short") if need.number(side) and need.number(side) != have.number(side)
    ]
    values = {
        "needed-ledge": need.word("ledge"),
        "offered-ledge": have.word("ledge"),
        "sides": ", ".join(sides),
    }
    if sides:
        held.add("ledges", FamilyState.OFF, "battery-ledge-off", values, (need, have))
    elif need.word("notches") not in ("none", have.word("notches")):
        held.add("ledges", FamilyState.OFF, "battery-notches", values, (need, have))
    else:
        held.agrees("ledges", have.word("ledge"), (need, have))


def _capacity(held: Held, wanted: Battery, had: Battery) -> None:
    for what, need, have, unit in (
        ("capacity", wanted.capacity, had.capacity, " Ah"),
        ("rank", wanted.rank, had.rank if wanted.rank else None, ""),
    ):
        if held.asks(what, need, have, _LOOK) and need is not None and have is not None:
            values = {"needed-figure": f"{need}{unit}", "offered-figure": f"{have}{unit}"}
            if have >= need:
                held.agrees(what, values["offered-figure"])
            else:
                held.add(what, FamilyState.OFF, "battery-weak", values)


def _cold(held: Held, wanted: Battery, had: Battery, standards: Standards) -> None:
    """Amps of one norm compare; of two only roughly, and what falls between the two opinions stays a question."""
    if not held.asks("cold start", wanted.cold, had.cold, _LOOK) or wanted.cold is None or had.cold is None:
        return
    values = {
        "needed-figure": f"{wanted.cold} A {wanted.norm}".strip(),
        "offered-figure": f"{had.cold} A {had.norm}".strip(),
    }
    if wanted.norm == had.norm:
        if had.cold >= wanted.cold:
            held.agrees("cold start", values["offered-figure"])
        else:
            held.add("cold start", FamilyState.OFF, "battery-weak", values)
        return
    need, have = (as_sae(one.cold or 0, one.norm, standards) for one in (wanted, had))
    if need is None or have is None:
        held.unsaid("norm of the cold start", "letters behind the amps: EN, SAE, DIN, IEC")
        return
    rows = (*need[2], *have[2])
    values["in-sae"] = f"{have[0]:.0f} to {have[1]:.0f} A against {need[0]:.0f} to {need[1]:.0f} A SAE"
    if have[0] >= need[1]:
        held.add("cold start", FamilyState.OK, "battery-norms-enough", values, rows)
    elif have[1] < need[0]:
        held.add("cold start", FamilyState.OFF, "battery-norms-weak", values, rows)
    else:
        held.add("cold start", FamilyState.UNREADABLE, "battery-norms-near", values, rows)


def as_sae(
    amps: int, norm: str, standards: Standards
) -> tuple[Decimal, Decimal, tuple[TableRow, ...]] | None:
    """What a cold-start figure is in amps after SAE J537, by the lowest and the highest opinion; None for no norm."""
    rows = standards.table("battery-norms").find(norm=norm)
    figures = [row.number("factor") * amps + row.number("add") for row in rows]
    return (min(figures), max(figures), rows) if figures else None


def jis_rank(cold: Decimal, reserve: Decimal) -> Decimal:
    """JIS D 5301: the performance figure, from cold start in A and reserve in minutes: sqrt(cold x reserve) / 2.8."""
    return (cold * reserve).sqrt() / Decimal("2.8")


FAMILIES: Final = {"battery": BatteryFamily()}
