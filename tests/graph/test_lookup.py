"""Free words to places, parts and names: phrases as people type them in workshops, most of them with something amiss."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlore.graph.lookup import ALL, Found, find
from fitlore.graph.open import Graph
from fitlore.model.category import Category
from fitlore.model.origin import Origin
from fitlore.model.platform import Assembly, Place, Platform
from fitlore.model.record import Name
from tests.graph.small import PLATFORM

PLACE = frozenset({"place"})
CYLINDER = f"{PLATFORM}/rear-axle/wheel-cylinder"
STOP = f"{PLATFORM}/brakes/stop-lamp-switch"
LAMP = f"{PLATFORM}/tail/rear-lamp"
DISC = f"{PLATFORM}/front-axle/brake-disc"
PADS = f"{PLATFORM}/front-axle/brake-pads"
ROD = f"{PLATFORM}/front-axle/track-rod-end"
LINK = f"{PLATFORM}/front-axle/anti-roll-bar-link"
WINDER = f"{PLATFORM}/doors/window-winder"
ALTERNATOR = f"{PLATFORM}/engine-bay/alternator"
BOX = f"{PLATFORM}/exhaust/back-box"
HOSE = f"{PLATFORM}/engine-bay/top-hose"

# typed, the places it means, the side it says, how it was reached
PLACES = [
    # British
    ("wheel cylinder", [CYLINDER], "", "name"),
    ("Wheel-Cylinder", [CYLINDER], "", "name"),
    ("wheelcylinder", [CYLINDER], "", "name"),
    ("wheel cylinders", [CYLINDER], "", "plural"),
    ("cylinder wheel", [CYLINDER], "", "name"),
    ("brake cylinder", [CYLINDER], "", "name"),
    ("left rear wheel cylinder", [CYLINDER], "left", "name"),
    ("rear left wheel cylinder", [CYLINDER], "left", "name"),
    ("wheel cylinder rear right", [CYLINDER], "right", "name"),
    ("rear axle wheel cylinder", [CYLINDER], "", "name"),
    ("wheel cylinder of the back axle", [CYLINDER], "", "name"),
    ("tolland wheel cylinder", [CYLINDER], "", "name"),
    ("nearside wheel cylinder", [CYLINDER], "left", "name"),
    ("n/s wheel cylinder", [CYLINDER], "left", "name"),
    ("o/s/r wheel cylinder", [CYLINDER], "right", "name"),
    ("nsr wheel cylinder", [CYLINDER], "left", "name"),
    ("off side wheel cylinder", [CYLINDER], "right", "name"),
    ("l/h wheel cylinder", [CYLINDER], "left", "name"),
    ("right-hand wheel cylinder", [CYLINDER], "right", "name"),
    ("both wheel cylinders", [CYLINDER], "both", "plural"),
    ("stop lamp switch", [STOP], "", "name"),
    ("stop-lamp switches", [STOP], "", "plural"),
    ("front brake disc", [DISC], "", "name"),
    ("brake discs front", [DISC], "", "plural"),
    ("front brake pads", [PADS], "", "name"),
    ("front brake pad", [PADS], "", "plural"),
    ("track rod end left", [ROD], "left", "name"),
    ("drop links", [LINK], "", "plural"),
    ("anti roll bar link", [LINK], "", "name"),
    ("rear lamp cluster offside", [LAMP], "right", "name"),
    ("window winder", [WINDER], "", "name"),
    ("driver's door window winder", [WINDER], "right", "plural"),
    ("passenger's window winder", [WINDER], "left", "name"),
    ("Fensterheber Fahrertür", [WINDER], "right", "name"),
    ("passenger side window winder", [WINDER], "left", "name"),
    ("alternator", [ALTERNATOR], "", "name"),
    ("back box", [BOX], "", "name"),
    ("front bush", [f"{PLATFORM}/front-axle/damper-bush"], "", "name"),
    ("top hose", [HOSE], "", "name"),
    # American
    ("brake light switch", [STOP], "", "name"),
    ("brake rotors", [DISC], "", "plural"),
    ("tie rod end", [ROD], "", "name"),
    ("tie-rod ends", [ROD], "", "plural"),
    ("sway bar link", [LINK], "", "name"),
    ("taillight", [LAMP], "", "name"),
    ("tail light", [LAMP], "", "name"),
    ("tail lights", [LAMP], "", "plural"),
    ("window regulator", [WINDER], "", "name"),
    ("muffler", [BOX], "", "name"),
    ("upper radiator hose", [HOSE], "", "name"),
    # German
    ("Radbremszylinder", [CYLINDER], "", "name"),
    ("Radbremszylinder hinten links", [CYLINDER], "left", "name"),
    ("Radzylinder Hinterachse rechts", [CYLINDER], "right", "name"),
    ("rechter Radbremszylinder", [CYLINDER], "right", "name"),
    ("Bremslichtschalter", [STOP], "", "name"),
    ("Bremsscheiben vorne", [DISC], "", "plural"),
    ("Bremsbeläge vorn", [PADS], "", "name"),
    ("Bremsbelaege", [PADS], "", "name"),
    ("Bremsbelage", [PADS], "", "accent"),
    ("Bremsbelag", [PADS], "", "plural"),
    ("Bremsklotze", [PADS], "", "accent"),
    ("Spurstangenkopf links", [ROD], "left", "name"),
    ("Koppelstangen", [LINK], "", "plural"),
    ("Rückleuchte Fahrerseite", [LAMP], "right", "name"),
    ("Ruckleuchten Beifahrerseite", [LAMP], "left", "plural"),
    ("Fensterheber rechts", [WINDER], "right", "name"),
    ("Endtopf", [BOX], "", "name"),
    ("Kühlerschlauch oben", [HOSE], "", "name"),
    # French and Spanish
    ("cylindre de roue arrière gauche", [CYLINDER], "left", "name"),
    ("contacteur feu stop", [STOP], "", "name"),
    ("interruptor de luz de freno", [STOP], "", "name"),
    ("bombin de freno", [CYLINDER], "", "name"),
]

# typed, what is offered first, how
NEAR = [
    ("wheel cilinder", CYLINDER, "typing"),
    ("wheelcilinder", CYLINDER, "typing"),
    ("stop lmap switch", STOP, "typing"),
    ("altenator", ALTERNATOR, "typing"),
    ("Radbremszilinder", CYLINDER, "typing"),
    ("Bremslichtshalter", STOP, "typing"),
    ("window widner", WINDER, "typing"),
    ("trak rod end", ROD, "typing"),
    ("hydraulic brake piece rear axle", CYLINDER, "broader"),
    ("plunger switch", STOP, "broader"),
    ("rear lamp lens", LAMP, "some-words"),
    ("bronze wheel cylinder", CYLINDER, "some-words"),
    ("winder", WINDER, "some-words"),
]


def asked(graph: Graph, words: str, kinds: frozenset[str] = PLACE) -> Found:
    """The words asked about the one platform, of a right-hand-drive car in Britain."""
    return find(graph, words, platforms=[PLATFORM], kinds=kinds, steering="right")


@pytest.mark.parametrize(("typed", "places", "side", "how"), PLACES, ids=[row[0] for row in PLACES])
def test_a_phrase_means_these_places_and_this_side(
    small_graph: Graph, typed: str, places: list[str], side: str, how: str
) -> None:
    """A phrase of the trade, in any of four languages, reads exactly as these places; nothing near is offered beside."""
    found = asked(small_graph, typed)
    assert [match.name for match in found.exact] == places
    assert (found.side, found.asks, found.near) == (side, "", ())
    assert {match.how for match in found.exact} == {how}


@pytest.mark.parametrize(("typed", "place", "how"), NEAR, ids=[row[0] for row in NEAR])
def test_what_reads_as_nothing_is_offered_with_what_is_near(
    small_graph: Graph, typed: str, place: str, how: str
) -> None:
    """A slip, a wider kind or half a name is never taken as the thing; the likeliest is offered first."""
    found = asked(small_graph, typed)
    assert found.exact == ()
    assert (found.near[0].name, found.near[0].how) == (place, how)


def test_what_reads_equally_well_is_all_handed_out(small_graph: Graph) -> None:
    """Two pipes of one kind, two platforms with one place: every reading is told, none is guessed."""
    pipes = asked(small_graph, "brake pipe")
    assert [m.name for m in pipes.exact] == [f"{PLATFORM}/brakes/front-pipe", f"{PLATFORM}/brakes/rear-pipe"]
    assert [m.name for m in asked(small_graph, "rear brake pipe").exact] == [f"{PLATFORM}/brakes/rear-pipe"]
    everywhere = find(small_graph, "wheel cylinder", kinds=PLACE)
    assert [m.name for m in everywhere.exact] == [CYLINDER, "tarn-corva/rear-axle/wheel-cylinder"]
    assert [m.name for m in find(small_graph, "corva wheel cylinder", kinds=PLACE).exact] == [
        "tarn-corva/rear-axle/wheel-cylinder"
    ]


def test_false_friends_are_both_handed_out(small_graph: Graph) -> None:
    """A British driveshaft goes to a wheel, an American one to the rear axle: the word alone does not say which."""
    found = find(small_graph, "driveshaft", platforms=["tarn-corva"], kinds=PLACE)
    assert {(m.name, m.language) for m in found.exact} == {
        ("tarn-corva/driveline/driveshaft", "en-gb"),
        ("tarn-corva/driveline/propshaft", "en-us"),
    }


def test_a_slave_cylinder_is_no_wheel_cylinder(small_graph: Graph) -> None:
    """A shared word is not enough to be the thing."""
    assert asked(small_graph, "clutch slave cylinder").exact == ()
    assert [m.name for m in find(small_graph, "slave cylinder", kinds=PLACE).exact] == [
        "tarn-corva/clutch/slave-cylinder"
    ]
    assert asked(small_graph, "cylinder").exact == ()


@pytest.mark.parametrize(
    ("typed", "places", "side"),
    [
        ("engine mounting", ["left-engine-mounting", "right-engine-mounting"], ""),
        ("left engine mounting", ["left-engine-mounting"], ""),
        ("motor mount right", ["right-engine-mounting"], "right"),
        ("nearside engine mounting", ["left-engine-mounting"], "left"),
        ("Motorlager links", ["left-engine-mounting"], "left"),
    ],
)
def test_a_side_in_the_name_of_a_place(small_graph: Graph, typed: str, places: list[str], side: str) -> None:
    """The place of the other side is no reading; a word that the name found needs is no side beside it."""
    found = asked(small_graph, typed)
    assert [m.name.rpartition("/")[2] for m in found.exact] == places
    assert found.side == side


def test_a_word_for_a_joint_is_not_taken_for_a_side(small_graph: Graph) -> None:
    """`links` is left in German, and the plural of link: where it makes up the name it says no side."""
    links = asked(small_graph, "drop links")
    assert (links.side, links.sides) == ("", ())


@pytest.mark.parametrize(
    "typed", ["front wheel cylinder", "Radbremszylinder vorne", "rear brake disc", "lower hose"]
)
def test_the_other_end_is_never_meant(small_graph: Graph, typed: str) -> None:
    """What is only in the rear axle is not what somebody means who says front; it may be offered as near."""
    assert asked(small_graph, typed).exact == ()
    assert asked(small_graph, typed).near


def test_a_kind_named_after_its_end_is_not_found_at_the_other(small_graph: Graph) -> None:
    """`rear brake pad` as a name of the kind does not make the pads of the front axle rear ones."""
    named = Category(
        category=Name("test-pads"), also={"en-gb": ("rear brake pads",)}, origin=Origin("shop/c.yaml", 1)
    )
    platform = Platform(
        platform=Name("p"),
        assemblies={
            Name(axle): Assembly(places={Name("pads"): Place(is_=Name("test-pads"))})
            for axle in ("front-axle", "rear-axle")
        },
        origin=Origin("shop/p.yaml", 1),
    )
    found = find(Graph.from_records([named, platform]), "rear brake pads", kinds=PLACE)
    assert [m.name for m in found.exact] == ["p/rear-axle/pads"]


@pytest.mark.parametrize(
    ("typed", "country", "steering", "side", "asks"),
    [
        ("nearside wheel cylinder", "GB", "", "left", ""),
        ("nearside wheel cylinder", "uk", "", "left", ""),
        ("nearside wheel cylinder", "DE", "", "right", ""),
        ("offside wheel cylinder", "de", "", "left", ""),
        ("offside wheel cylinder", "XX", "", "", "country"),
        ("driver's side wheel cylinder", "GB", "", "", "steering"),
        ("driver's side wheel cylinder", "GB", "left", "left", ""),
        ("Beifahrerseite Radbremszylinder", "DE", "left", "right", ""),
        ("left and right wheel cylinder", "GB", "", "both", ""),
        ("links und rechts Radbremszylinder", "DE", "", "both", ""),
    ],
)
def test_a_side_is_told_by_country_and_steering_or_asked_back(
    small_graph: Graph, typed: str, country: str, steering: str, side: str, asks: str
) -> None:
    """The nearside is at the kerb (common practice in Britain): which that is depends on the side of the road."""
    found = find(small_graph, typed, platforms=[PLATFORM], kinds=PLACE, country=country, steering=steering)
    assert [m.name for m in found.exact] == [CYLINDER]
    assert (found.side, found.asks) == (side, asks)


@pytest.mark.parametrize(
    "typed", ["KT 53 0190", "kt530190", "kt-53.0190", "KT53/0190", "Kestin KT 53 0190", "kestin kt530190"]
)
def test_a_number_is_read_with_any_separators(small_graph: Graph, typed: str) -> None:
    """Separators and case are ignored, and the maker may stand in front."""
    found = asked(small_graph, typed, ALL)
    assert [(m.kind, m.name, m.how) for m in found.exact] == [("part", "KT 53 0190", "number")]
    assert found.side == ""


@pytest.mark.parametrize(
    "typed",
    [
        "KT 53 O19O",
        "KT 53 019",
        "KT 53 01990",
        "KT 53 0910",
        "KT 54 0190",
        "53 0190",
        "TC 53 0190",
        "Kt 53 0l90",
    ],
)
def test_a_number_with_a_slip_is_never_taken_and_the_right_one_is_offered(
    small_graph: Graph, typed: str
) -> None:
    """Letters read for figures, one sign wrong, missing, too many or changed round, or other letters in front."""
    found = asked(small_graph, typed, ALL)
    assert found.exact == ()
    assert "KT 53 0190" in [m.name for m in found.near if m.kind == "part"]
    assert {m.how for m in found.near} == {"number-typing"}


def test_a_number_of_two_makers_means_both_parts(small_graph: Graph) -> None:
    """A number belongs to its issuer: without one every part of that number is told."""
    found = asked(small_graph, "771.3300", ALL)
    assert [(m.by, m.how) for m in found.exact] == [("Brede 7713300", "number"), ("Merrow 7713300", "number")]
    assert [m.by for m in asked(small_graph, "merrow 7713300", ALL).exact] == ["Merrow 7713300"]


@pytest.mark.parametrize(
    ("typed", "kind", "name", "how"),
    [
        ("corva-green", "car", "corva-green", "name"),
        ("green corva", "car", "corva-green", "name"),
        ("blue", "car", "tolland-blue", "short"),
        ("castle street factors", "supplier", "castle-street", "name"),
        ("castle street", "supplier", "castle-street", "name"),
        ("Northgate", "supplier", "northgate", "name"),
        ("breakers", "supplier", "northgate", "short"),
        ("tarn corva", "platform", "tarn-corva", "name"),
        ("tolland", "platform", "kestin-tolland", "short"),
        ("reversing lamp switches", "category", "test-reversing-switch", "plural"),
        ("backup light switch", "category", "test-reversing-switch", "name"),
        ("Ruckfahrschalter", "category", "test-reversing-switch", "accent"),
    ],
)
def test_cars_suppliers_platforms_and_categories_go_by_their_names(
    small_graph: Graph, typed: str, kind: str, name: str, how: str
) -> None:
    """A proper name may be begun only, where no other has the word."""
    found = find(small_graph, typed, kinds=frozenset({kind}))
    assert [(m.kind, m.name, m.how) for m in found.exact] == [(kind, name, how)]


def test_a_word_of_two_names_is_taken_for_neither(small_graph: Graph) -> None:
    """`estate` is in both platforms' names, so both are near and none is exact."""
    found = find(small_graph, "estate", kinds=frozenset({"platform"}))
    assert found.exact == ()
    assert sorted(m.name for m in found.near) == ["kestin-tolland", "tarn-corva"]


@pytest.mark.parametrize(
    "typed", ["", "  ", "left", "???", "der die das", "flux capacitor", "µ" * 300, "0" * 40]
)
def test_nothing_comes_of_nothing(small_graph: Graph, typed: str) -> None:
    """Empty, senseless or endless text raises nothing and means nothing."""
    found = asked(small_graph, typed, ALL)
    assert found.exact == ()
    assert all(match.how in ("some-words", "typing") for match in found.near)


@settings(max_examples=60)
@given(text=st.text(max_size=50), country=st.sampled_from(["", "GB", "DE"]))
def test_no_text_raises(small_graph: Graph, text: str, country: str) -> None:
    """Whatever is typed, an answer comes, and what is exact is never also near."""
    found = find(small_graph, text, country=country)
    assert not found.exact or not found.near
    assert found.side in ("", "left", "right", "both")


ONE_BY_ONE = [row for row in PLACES if not re.search(r"side|hand|'|/|\bnsr\b|tail light", row[0])]


@given(row=st.sampled_from(ONE_BY_ONE), data=st.data())
def test_order_case_and_blanks_do_not_matter(
    small_graph: Graph, row: tuple[str, list[str], str, str], data: st.DataObject
) -> None:
    """`left rear` is `rear left`, in capitals as well, with blanks, hyphens or commas between.

    Words of one name that is written together (`tail light`) have to keep their order.
    """
    typed, places, side, _ = row
    shuffled = data.draw(st.permutations(re.split(r"[ -]", typed)))
    found = asked(small_graph, data.draw(st.sampled_from(["  ", " - ", ", "])).join(shuffled).upper())
    assert ([m.name for m in found.exact], found.side) == (places, side)
