"""Small random books for the laws of the fitting room: one category, two platforms, a handful of parts and claims.

Everything is drawn from small pools, so that numbers, features and conditions meet often. Nothing here is a fact.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import msgspec
from hypothesis import strategies as st

from fitlore.fitting import Question, Verdict, answer
from fitlore.fitting.shape import Word
from fitlore.graph.open import Graph
from fitlore.model.category import Category, Feature, Work
from fitlore.model.choices import End, Goes, How, Reason, Role, Rule, SafetyClass, Side, Sides
from fitlore.model.dates import read_period
from fitlore.model.job import ClassPolicy, Policy, Shop
from fitlore.model.part import Companion, CrossFit, Evidence, Never, Part, Replacement
from fitlore.model.platform import (
    Assembly,
    Car,
    Cond,
    Condition,
    Established,
    FactRange,
    Original,
    Place,
    Platform,
    ReallyOn,
)
from fitlore.model.record import Name, Number, PlacePath, Rec
from tests.trade.loading import STANDARDS

ORIGINALS = ("KT 1", "KT 2")
OTHERS = ("TC 1", "TC 2", "TC 3")
HERE, ELSEWHERE = Name("kestin-tolland"), Name("velm-packet")
YES = (Word.FITS, Word.FITS_WITH_WORK, Word.BY_MEASURE)
LEVELS = [
    {Word.FITS},
    {Word.FITS_WITH_WORK},
    {Word.BY_MEASURE},
    {Word.DEPENDS},
    {Word.UNPROVEN, Word.DISPUTED},
    {Word.DOES_NOT_FIT},
]
"""From the nearest to a yes to the farthest; what nobody proved and what is in dispute are equally far."""
VAGUE = {"chassis": ("KT 60", "KT 300"), "engine": ("1.8", "2.0"), "built": ("1982", "1987")}
"""Facts that may be one of several."""
POOLS: dict[str, tuple[str, ...]] = {
    "reach": ("11.5 mm", "11.5 mm", "11.8 mm", "0.45 in", "13 mm"),
    "hook": ("open", "open", "open", "closed"),
    "limit": ("300 mm", "300 mm", "305 mm", "320 mm"),
    "thread": ("M10x1", "M10x1", "M10x1", "3/8-24 UNF", "M12x1.25"),
    "plug": ("blade", "blade", "pin"),
}
"""The usual value stands several times, so that most parts agree in most things."""


class Book(NamedTuple):
    """Records, and the car they are asked for."""

    policy: Policy
    category: Category
    platforms: tuple[Platform, ...]
    parts: tuple[Part, ...]
    claims: tuple[CrossFit, ...]
    car: Car

    def records(self) -> list[Rec]:
        """All of them, in the order of a careful writer."""
        return [self.policy, self.category, *self.platforms, *self.parts, *self.claims, self.car]


def graph_of(records: Iterable[Rec]) -> Graph:
    """A graph in memory."""
    return Graph.from_records(records, STANDARDS, Shop(shop=Name("lowbarn"), person="shop"))


def verdicts(book: Book, records: Sequence[Rec] | None = None, side: str = "") -> dict[str, Verdict]:
    """What comes out for every part of the book, asked for by number at the one place."""
    graph = graph_of(book.records() if records is None else records)
    place = graph.place(HERE, "arm/lever")
    assert place is not None
    reply = answer(graph, Question(place, book.car, side, only=book.parts))
    assert len(reply.verdicts) == len(book.parts)
    return {verdict.part.part: verdict for verdict in reply.verdicts}


def words(book: Book, records: Sequence[Rec] | None = None, side: str = "") -> dict[str, Word]:
    """The words only."""
    return {number: verdict.word for number, verdict in verdicts(book, records, side).items()}


def level(word: Word) -> int:
    """How far from a yes."""
    return next(number for number, row in enumerate(LEVELS) if word in row)


POLICY = Policy(
    policy=Name("test"),
    classes=(
        ClassPolicy(safety=SafetyClass.BRAKING, least=(How.FITTED,)),
        ClassPolicy(safety=SafetyClass.SUSPENSION, least=(How.FITTED, How.OFFERED_UP, How.MEASURED)),
        ClassPolicy(
            safety=SafetyClass.NONE,
            least=(How.FITTED, How.OFFERED_UP, How.MEASURED, How.PRINTED),
            trap_stands=False,
        ),
    ),
)


@st.composite
def categories(draw: st.DrawFn, sides: Sides = Sides.NONE) -> Category:
    """Five features, some of them optional."""
    optional = draw(st.booleans())
    work = Work(do="change the plug", minutes=10) if draw(st.booleans()) else None
    return Category(
        category=Name("lever"),
        safety=draw(st.sampled_from([SafetyClass.SUSPENSION, SafetyClass.BRAKING, SafetyClass.NONE])),
        sides=sides,
        look_first=draw(st.sampled_from([(), ("thread",)])),
        features={
            "reach": Feature(kind="length", role=Role.WORKS, rule=Rule.WITHIN, tolerance="0.5 mm"),
            "hook": Feature(kind="choice", role=Role.MATES, choices=("open", "closed"), optional=optional),
            "limit": Feature(kind="length", role=Role.SAFE, rule=Rule.AT_MOST),
            "thread": Feature(kind="thread", role=Role.MATES, end=End.MALE),
            "plug": Feature(kind="text", role=Role.JOINS, work=work),
        },
    )


@st.composite
def conditions(draw: st.DrawFn) -> Condition:
    """Nothing, or one or two facts of the car."""
    pool: dict[str, list[Cond]] = {
        "chassis": [Cond(series={"KT": text}) for text in ("../100", "101/..", "../200", "50/150")],
        "engine": [Cond(any_=("1.8",)), Cond(not_=("1.8",)), Cond(any_=("1.8", "2.0"))],
        "built": [Cond(any_=(text,)) for text in ("../1984-06", "1984-07/..", "1983/1986", "1985/")],
    }
    names = draw(st.sampled_from([[], [], [], *([name] for name in sorted(pool)), ["built", "engine"]]))
    return {name: draw(st.sampled_from(pool[name])) for name in names}


@st.composite
def features(draw: st.DrawFn, whole: bool = False) -> dict[str, tuple[str, ...]]:
    """Some of the features, or all of them."""
    some = st.lists(st.sampled_from(sorted(POOLS)), max_size=3, unique=True)
    names = sorted(POOLS) if whole else draw(st.one_of(st.just(list[str]()), some))
    return {name: (draw(st.sampled_from(POOLS[name])),) for name in names}


@st.composite
def evidences(draw: st.DrawFn) -> Evidence:
    """One piece of evidence by one of three people, dated roughly or not at all."""
    date = draw(st.sampled_from([None, "2025", "2026-01", "2026-05", "2026"]))
    return Evidence(
        how=draw(st.sampled_from([How.FITTED, How.FITTED, *How])),
        by=draw(st.sampled_from(["shop", "hale", "quill"])),
        source=draw(st.sampled_from(["", "", "letter 41"])),
        date=read_period(date) if date else None,
    )


@st.composite
def claims(draw: st.DrawFn, name: str, reaches: tuple[Name, ...] | None = None) -> CrossFit:
    """One cross-fit between two different parts: a plain good one, or one of any kind."""
    old = draw(st.sampled_from([*ORIGINALS[:1] * 3, *ORIGINALS, *OTHERS]))
    new = draw(st.sampled_from([number for number in (*OTHERS, *OTHERS, *ORIGINALS) if number != old]))
    if draw(st.booleans()):
        work = draw(st.sampled_from([None, Work(do="file it", minutes=5)]))
        return CrossFit(
            crossfit=Name(name),
            instead_of=Number(old),
            use=Number(new),
            reaches=(HERE,) if reaches is None else reaches,
            work=work,
            evidence=(Evidence(how=draw(st.sampled_from([How.FITTED, How.MEASURED])), by="hale"),),
        )
    both = draw(st.integers(0, 4)) == 0
    here = draw(st.sampled_from([(HERE,), (HERE,), (HERE,), (HERE, ELSEWHERE), (ELSEWHERE,), ()]))
    limits = conditions()
    return CrossFit(
        crossfit=Name(name),
        instead_of=Number(old),
        use=Number(new),
        goes=Goes.BOTH_WAYS if both else Goes.ONE_WAY,
        reaches=here if reaches is None else reaches,
        only_if={} if both else draw(limits),
        changed_at=draw(limits) if draw(st.integers(0, 3)) == 0 else {},
        seen_on=draw(limits) if draw(st.integers(0, 3)) == 0 else {},
        with_=draw(companions()) if not both else (),
        never_with=draw(nevers()),
        waives=tuple(draw(st.lists(st.sampled_from(sorted(POOLS)), max_size=2, unique=True))),
        work=Work(do="file it", minutes=5) if not both and draw(st.booleans()) else None,
        evidence=tuple(draw(st.lists(evidences(), min_size=1, max_size=3))),
        against=(draw(evidences()),) if draw(st.integers(0, 4)) == 0 else (),
    )


@st.composite
def companions(draw: st.DrawFn) -> tuple[Companion, ...]:
    """At most one piece that must change together with it."""
    one = Companion(at=PlacePath("arm/pin"), use=(Number(draw(st.sampled_from(["PN 1", "PN 2"]))),))
    return draw(st.sampled_from([(), (), (one,)]))


@st.composite
def nevers(draw: st.DrawFn) -> tuple[Never, ...]:
    """At most one piece that must not be there."""
    at = draw(st.sampled_from([None, PlacePath("arm/pin")]))
    return draw(st.sampled_from([(), (), (), (), (Never(use=(Number("PN 1"),), at=at),)]))


@st.composite
def parts(draw: st.DrawFn, number: str, others: Sequence[str], whole: bool, sided: bool) -> Part:
    """A part, perhaps replaced by another one or the same as another one."""
    newer = draw(st.sampled_from(others))
    replaced = Replacement(number=Number(newer), reason=draw(st.sampled_from(Reason)))
    return Part(
        part=Number(number),
        maker="Kestin" if number.startswith("KT") else "Tarn",
        is_=Name("lever"),
        side=draw(st.sampled_from([None, Side.LEFT, Side.RIGHT, Side.EITHER])) if sided else None,
        features=draw(features(whole)),
        replaced_by=(replaced,) if draw(st.integers(0, 4)) == 0 else (),
        same_as=(Number(newer),) if draw(st.integers(0, 7)) == 0 else (),
    )


@st.composite
def facts(draw: st.DrawFn) -> dict[str, Established]:
    """What is known of the car: everything, something or nothing, all within what the platform allows."""
    pool = {
        "chassis": [("KT 60",), ("KT 120",), ("KT 300",), VAGUE["chassis"]],
        "engine": [("1.8",), ("2.0",), VAGUE["engine"]],
        "built": [("1984",), ("1983-03",), ("1986-02-03",), VAGUE["built"]],
        "registered": [("1985",), ("1983-06",)],
    }
    names = draw(st.lists(st.sampled_from(sorted(pool)), unique=True))
    return {name: Established(value=draw(st.sampled_from(pool[name]))) for name in names}


@st.composite
def books(
    draw: st.DrawFn, *, whole: bool = False, mirror: bool = False, reaches: tuple[Name, ...] | None = None
) -> Book:
    """A whole small book. `whole`: every part states every feature. `mirror`: left and right ones differ."""
    numbers = [*ORIGINALS, *OTHERS]
    limits = conditions()
    must = draw(features()) if draw(st.integers(0, 3)) == 0 else {}
    originals = tuple(
        Original(number=Number(number), only_if=draw(limits) if draw(st.booleans()) else {})
        for number in draw(st.sampled_from([ORIGINALS, ORIGINALS[:1], ORIGINALS[:1], ()]))
    )
    lever = Place(
        is_=Name("lever"),
        original=originals,
        must_be=must,
        only_if=draw(limits) if draw(st.integers(0, 5)) == 0 else {},
    )
    arm = Assembly(
        sides=("left", "right") if mirror else (),
        places={Name("lever"): lever, Name("pin"): Place(is_=Name("pin"))},
    )
    platform = Platform(
        platform=HERE,
        maker="Kestin",
        built=read_period("1982/1988"),
        facts={"chassis": FactRange(series=("KT",)), "engine": FactRange(any_=("1.8", "2.0"))},
        assemblies={Name("arm"): arm},
    )
    on_it = draw(
        st.sampled_from(
            [
                {},
                {"arm/pin": ReallyOn(number=Number("PN 1"), how=How.MEASURED)},
                {"arm/pin": ReallyOn(number=Number("PN 2"), how=How.MEASURED)},
            ]
        )
    )
    return Book(
        policy=POLICY,
        category=draw(categories(Sides.MIRROR if mirror else Sides.NONE)),
        platforms=(platform, Platform(platform=ELSEWHERE, maker="Velm")),
        parts=tuple(draw(parts(n, [m for m in numbers if m != n], whole, mirror)) for n in numbers),
        claims=tuple(draw(claims(f"claim-{n}", reaches)) for n in range(draw(st.integers(1, 4)))),
        car=Car(car=Name("green"), is_=HERE, facts=draw(facts()), really_on_it=on_it),
    )


@st.composite
def measured_books(draw: st.DrawFn) -> tuple[Book, Part]:
    """A book with a part nobody claims that agrees in all with the original (unless two sources differ), and that part."""
    book = draw(books(whole=True))
    needed = book.parts[0]
    twin = Part(part=Number("BR 1"), maker="Brede", is_=Name("lever"), features=needed.features)
    platform = book.platforms[0]
    arm = platform.assemblies[Name("arm")]
    lever = Place(is_=Name("lever"), original=(Original(number=needed.part),))
    places = arm.places | {Name("lever"): lever}
    assemblies = {Name("arm"): msgspec.structs.replace(arm, places=places)}
    platforms = (msgspec.structs.replace(platform, assemblies=assemblies), *book.platforms[1:])
    return book._replace(platforms=platforms, parts=(*book.parts, twin)), twin


def with_claim(book: Book, index: int, **changes: object) -> Book:
    """The book with one claim changed."""
    rows = list(book.claims)
    rows[index] = msgspec.structs.replace(rows[index], **changes)
    return book._replace(claims=tuple(rows))


def with_part(book: Book, number: str, **changes: object) -> Book:
    """The book with one part changed."""
    rows = [msgspec.structs.replace(p, **changes) if p.part == number else p for p in book.parts]
    return book._replace(parts=tuple(rows))


def with_facts(book: Book, known: dict[str, Established]) -> Book:
    """The book with other facts about the car."""
    return book._replace(car=msgspec.structs.replace(book.car, facts=known))
