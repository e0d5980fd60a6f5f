"""Parts of the books and places of a car by measurements: wear, designations read out, no yes for what is unknown."""

from __future__ import annotations

from fitlore.fitting.by_size import serving, sized_parts
from fitlore.fitting.shape import State
from fitlore.graph.open import Graph
from fitlore.model.category import Category, Feature
from fitlore.model.choices import Role, SafetyClass
from fitlore.model.job import Shop
from fitlore.model.origin import Origin
from fitlore.model.part import Measured as PartMeasured
from fitlore.model.part import Part
from fitlore.model.platform import Assembly, Car, Original, Place, Platform
from fitlore.model.record import Name, Number
from fitlore.trade.identify import identify
from fitlore.trade.measuring import Measured, read_measured
from tests.trade.loading import load_every

STANDARDS, _ = load_every()
LINE = Origin("parts.yaml", 1, 1)
SHOP = Shop(shop=Name("lowbarn"))
DISC = Category(
    category=Name("disc"),
    safety=SafetyClass.BRAKING,
    features={
        "diameter": Feature(kind="length", role=Role.MATES),
        "thickness": Feature(kind="length", role=Role.WORKS, wears="down 2 mm"),
    },
)
BEARING = Category(category=Name("roller"), features={"number": Feature(kind="bearing", role=Role.MATES)})
NUT = Category(category=Name("nipple"), features={"thread": Feature(kind="thread", role=Role.MATES)})
DISCS = [
    Part(
        part=Number(number),
        maker="Tarn",
        is_=Name("disc"),
        features={"diameter": (f"{across} mm",), "thickness": (f"{thick} mm",)},
        origin=LINE,
    )
    for number, across, thick in (("TC 252", 252, 10), ("TC 252 V", 252, 20), ("TC 256", 256, 10))
]


def hows(text: str, categories: list[str], graph: Graph) -> dict[str, str]:
    """Each candidate among the parts, and how it agrees."""
    measured = read_measured(text)
    assert isinstance(measured, Measured)
    rows = [row.sized for row in sized_parts(graph, categories, measured.said)]
    return {one.sized.designation: one.how for one in identify(measured.said, rows) if one.how != "off"}


def test_a_worn_disc_is_found_by_its_diameter_and_what_is_left_of_it() -> None:
    """It is as wide across as new, and thinner by no more than the category allows; the thicker one would be too worn."""
    graph = Graph.from_records([DISC, *DISCS], STANDARDS, SHOP)
    assert hows("252 across", ["disc"], graph) == {"Tarn TC 252": "agrees", "Tarn TC 252 V": "agrees"}
    assert hows("252 across, 8.4 thick", ["disc"], graph) == {"Tarn TC 252": "worn"}
    assert hows("252 across, 10.4 thick", ["disc"], graph) == {}
    assert hows("252", ["disc"], graph) == {"Tarn TC 252": "agrees", "Tarn TC 252 V": "agrees"}


def test_parts_are_looked_up_by_every_measurement() -> None:
    """Not by the first alone: 6 mm off in that, a disc is still the nearest by the second; a measured size counts as one."""
    seen = Part(
        part=Number("TC 400"),
        maker="Tarn",
        is_=Name("disc"),
        features={"diameter": ("400 mm",)},
        measured={"thickness": PartMeasured(value="12.1 mm", error="0.1 mm")},
        origin=LINE,
    )
    graph = Graph.from_records([DISC, seen, *DISCS], STANDARDS, SHOP)
    measured = read_measured("406 across, 12 thick")
    assert isinstance(measured, Measured)
    rows = [row.sized for row in sized_parts(graph, ["disc"], measured.said)]
    assert [(one.sized.designation, one.how) for one in identify(measured.said, rows)] == [
        ("Tarn TC 400", "off")
    ]
    assert hows("400 across, 12 thick", ["disc"], graph) == {"Tarn TC 400": "agrees"}


def test_the_sizes_in_a_designation_count_as_the_parts_sizes() -> None:
    """Bore, outside and width of 6203 after ISO 15."""
    part = Part(
        part=Number("BR 1"),
        maker="Brede",
        is_=Name("roller"),
        features={"number": ("6203-2RS",)},
        origin=LINE,
    )
    graph = Graph.from_records([BEARING, part], STANDARDS, SHOP)
    assert hows("17 x 40 x 12", ["roller"], graph) == {"Brede BR 1": "agrees"}
    assert hows("17 x 47 x 14", ["roller"], graph) == {}


def car_with(thread: str) -> tuple[Graph, Car]:
    """A car with one place, whose only original has this thread (none: nothing is known of it)."""
    features = {"thread": (thread,)} if thread else {}
    part = Part(part=Number("KT 1"), maker="Kestin", is_=Name("nipple"), features=features, origin=LINE)
    place = Place(is_=Name("nipple"), original=(Original(number=Number("KT 1")),))
    platform = Platform(
        platform=Name("kestin-tolland"),
        maker="Kestin",
        assemblies={"axle": Assembly(places={"nipple": place})},
        origin=LINE,
    )
    car = Car(car=Name("green"), is_=Name("kestin-tolland"))
    return Graph.from_records([NUT, part, platform, car], STANDARDS, SHOP), car


def test_a_designation_is_placed_where_a_feature_asks_for_it_and_nowhere_else() -> None:
    """In whatever spelling; a near miss is not named."""
    graph, car = car_with("m10 x 1,0")
    (found,) = serving(graph, car, "thread", "M10x1")
    assert (found.place.path, found.feature, found.state) == ("axle/nipple", "thread", State.OK)
    assert serving(graph, car, "thread", "3/8-24 UNF") == ()
    assert serving(graph, car, "bearing", "6203") == ()


def test_where_nothing_is_known_of_the_need_nothing_is_named() -> None:
    """Unknown is no yes."""
    graph, car = car_with("")
    assert serving(graph, car, "thread", "M10x1") == ()
