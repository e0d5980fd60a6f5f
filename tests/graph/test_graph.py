"""What the graph hands out, held against a plain search through all records."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from fitlore.graph.derive import citable
from fitlore.graph.open import Graph
from fitlore.model.category import Category
from fitlore.model.choices import Goes
from fitlore.model.numbers import number_key
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import OfferFrom, PlaceOn
from fitlore.model.record import Name, Number, Rec
from tests.graph import small

EVERY = list(citable(small.records()))
NUMBERS = sorted({str(r.part) for r in EVERY if isinstance(r, Part)} | {"KT 99 0001", "KT 53 0300", "none"})


def named(text: str | None, part: str) -> bool:
    """Whether a reference means this number, by itself or with the maker of the one part that has it."""
    makers = {r.maker for r in EVERY if isinstance(r, Part) and number_key(r.part) == number_key(part)}
    keys = {number_key(part), *(number_key(f"{maker} {part}") for maker in makers if len(makers) == 1)}
    return text is not None and number_key(text) in keys


def sells(offer: OfferFrom, part: str) -> bool:
    """Whether an offer is of this number or brings it."""
    return any(named(n, part) for n in (offer.offer.number, *(b.number for b in offer.offer.brings)))


SEARCHES: dict[str, tuple[Callable[[Graph, str], tuple[Rec, ...]], Callable[[Rec, str], bool]]] = {
    "claims_from": (
        lambda graph, part: graph.claims_from([number_key(part)]),
        lambda r, part: (
            isinstance(r, CrossFit)
            and (named(r.instead_of, part) or (r.goes is Goes.BOTH_WAYS and named(r.use, part)))
        ),
    ),
    "claims_to": (
        lambda graph, part: graph.claims_to([number_key(part)]),
        lambda r, part: isinstance(r, CrossFit) and named(r.use, part),
    ),
    "replaces": (
        lambda graph, part: graph.replaces([number_key(part)]),
        lambda r, part: (
            isinstance(r, Part)
            and any(named(n, part) for n in (*r.same_as, *(x.number for x in r.replaced_by)))
        ),
    ),
    "containers": (
        lambda graph, part: graph.containers([number_key(part)]),
        lambda r, part: isinstance(r, Part) and any(named(c.number, part) for c in r.contains),
    ),
    "offers": (
        lambda graph, part: graph.offers([number_key(part)]),
        lambda r, part: isinstance(r, OfferFrom) and sells(r, part),
    ),
    "places_of_originals": (
        lambda graph, part: graph.places_of_originals([number_key(part)]),
        lambda r, part: isinstance(r, PlaceOn) and any(named(o.number, part) for o in r.place.original),
    ),
}


@pytest.mark.parametrize("part", NUMBERS)
@pytest.mark.parametrize("method", SEARCHES)
def test_a_method_finds_what_a_search_through_everything_finds(
    small_graph: Graph, method: str, part: str
) -> None:
    """Keys, index and joins find neither more nor less than reading every record does."""
    ask, right = SEARCHES[method]
    expected = [record for record in EVERY if right(record, part)]
    found = ask(small_graph, part)
    assert sorted(found, key=str) == sorted(expected, key=str)
    assert small_graph.parts([number_key(part)]) == tuple(
        r for r in EVERY if isinstance(r, Part) and number_key(r.part) == number_key(part)
    )


def test_some_search_finds_something() -> None:
    """The comparison above is not one of empty lists."""
    for _, right in SEARCHES.values():
        assert any(right(record, part) for record in EVERY for part in NUMBERS)


def test_records_come_by_shelf_and_line(small_graph: Graph) -> None:
    """The order is that of the shelves and of the lines in the books, however often it is asked."""
    parts = small_graph.parts_of(["test-wheel-cylinder"])
    assert [p.part for p in parts] == ["KT 53 0190", "KT 53 0206", "KT 53 0222 SET", "TC 611 047"]
    assert [p.part for p in small_graph.parts_of(["test-stop-switch", "test-winder"])] == [
        "KT 71 3300",
        "7713300",
        "KT 84 2210 R",
        "TC 842 114 R",
    ]
    assert small_graph.places(small.PLATFORM)[0].path == "rear-axle/wheel-cylinder"


def test_a_place_is_found_with_or_without_its_side_and_platform(small_graph: Graph) -> None:
    """`@left` and the platform in front are ignored; another platform's place is not this one's."""
    place = small_graph.place(small.PLATFORM, "rear-axle/wheel-cylinder")
    assert place is not None
    assert place.maker == "Kestin"
    assert small_graph.place(small.PLATFORM, "rear-axle/wheel-cylinder@left") == place
    assert small_graph.place(small.PLATFORM, f"{small.PLATFORM}/rear-axle/wheel-cylinder") == place
    assert small_graph.place(small.PLATFORM, "clutch/slave-cylinder") is None
    assert small_graph.claims_at(small.PLATFORM, "brakes/stop-lamp-switch@2") == (
        small_graph.crossfit("tolland-stop-switch"),
    )


def test_a_platform_comes_without_places_and_a_supplier_without_offers(small_graph: Graph) -> None:
    """They are asked for by themselves, so that a large one costs nothing."""
    platform, supplier = small_graph.platform(small.PLATFORM), small_graph.supplier("castle-street")
    assert platform is not None
    assert supplier is not None
    assert platform.assemblies["rear-axle"].sides == ("left", "right")
    assert all(assembly.places == {} for assembly in platform.assemblies.values())
    assert supplier.offers == ()
    assert len(small_graph.offers_by("castle-street")) == 3


def test_narrower_is_the_category_and_all_below(small_graph: Graph) -> None:
    """By broader, over any depth; a name nobody knows is only itself."""
    assert small_graph.narrower("test-plunger-switch") == {
        "test-plunger-switch",
        "test-stop-switch",
        "test-reversing-switch",
    }
    assert small_graph.narrower("no-such") == {"no-such"}


def test_categories_in_a_ring_end(small_graph: Graph) -> None:
    """A fault in the books makes no endless question."""
    ring = [
        Category(category=Name(a), broader=Name(b), origin=Origin("kb/c.yaml", i))
        for i, (a, b) in enumerate([("a", "b"), ("b", "c"), ("c", "a")])
    ]
    assert Graph.from_records(ring).narrower("a") == {"a", "b", "c"}


def test_the_nearest_shelf_says_what_a_name_means() -> None:
    """A shop's own category of a built-in name counts, also for what stands under it; `kb:name` is the built-in one."""
    own = Category(category=Name("lamp"), broader=Name("ours"), origin=Origin("shop/c.yaml", 3, 1))
    built_in = Category(
        category=Name("lamp"), broader=Name("theirs"), origin=Origin("kb/categories/c.yaml", 9, 1)
    )
    graph = Graph.from_records([built_in, own])
    assert graph.category("lamp") == own
    assert graph.category("kb:lamp") == built_in
    assert graph.category("club:lamp") is None
    assert graph.narrower("ours") == {"ours", "lamp"}
    assert graph.narrower("theirs") == {"theirs"}
    assert graph.categories() == (own,)


def test_claims_of_one_name_on_two_shelves_are_two_claims(small_graph: Graph) -> None:
    """A name is local to its shelf; nothing is lost because somebody else used it too."""
    found = [c.origin.book for c in small_graph.claims_from(["KT842210R"])]
    assert found == ["club/newsletter.yaml", "shop/crossfits.yaml"]
    of_club = small_graph.crossfit("club:tolland-winder-from-corva")
    assert of_club is not None
    assert of_club.origin.book == "club/newsletter.yaml"
    assert len(small_graph.crossfits()) == 4


def test_a_feature_is_found_by_its_value_however_it_is_written(small_graph: Graph) -> None:
    """Units, case and blanks do not matter, a value measured counts as one stated, all features asked for have to agree."""

    def found(**having: str) -> list[str]:
        wanted = {name.replace("_", "-"): value for name, value in having.items()}
        return [str(p.part) for p in small_graph.parts_of(["test-wheel-cylinder"], wanted)]

    assert found(bore="1.905 cm") == ["KT 53 0190", "KT 53 0206", "TC 611 047"]
    assert found(peg="CENTRE") == ["KT 53 0190", "KT 53 0206", "TC 611 047"]
    assert found(peg="off  centre") == ["TC 611 047"]
    assert found(bore="19.05 mm", pipe_thread="M10x1") == ["KT 53 0190"]
    assert found(bore="20 mm") == found(colour="red") == []


def test_a_number_of_two_makers_never_brings_in_the_other_makers_things() -> None:
    """An offer of `Brede 7713300` is found by that key, and by the bare number only where no other maker has it."""
    brede, merrow = (
        Part(part=Number("7713300"), maker=maker, is_=Name("x"), origin=Origin("shop/p.yaml", line))
        for line, maker in enumerate(("Brede", "Merrow"), 1)
    )
    claim = CrossFit(crossfit=Name("c"), instead_of=Number("Brede 7713300"), use=Number("KT 1"))
    alone, both = Graph.from_records([brede, claim]), Graph.from_records([brede, merrow, claim])
    assert alone.claims_from(["7713300"]) == alone.claims_from(["BREDE7713300"]) == (claim,)
    assert both.claims_from(["7713300"]) == both.claims_from(["MERROW7713300"]) == ()
    assert both.claims_from(["BREDE7713300"]) == (claim,)


def test_an_offer_of_a_kind_or_a_service_is_found_by_it(small_graph: Graph) -> None:
    """Also where a car or set brings it along."""
    assert [o.offer.any_ for o in small_graph.offers_any(["test-alternator"])] == ["test-alternator"]
    assert [o.offer.whole_car for o in small_graph.offers_any(["test-starter"])] == ["Tarn Corva estate 1985"]
    assert [o.supplier for o in small_graph.services(["wheel-tracking"])] == ["castle-street"]


def test_any_select_query_runs_over_all_graphs(small_graph: Graph) -> None:
    """For rules: plain text out, None where nothing is bound; what is no SELECT is refused."""
    query = """PREFIX fl: <https://fitlore.example/terms#>
        SELECT ?shown ?none WHERE { GRAPH ?g { ?n fl:part-key "VP9210" ; fl:as-shown ?shown OPTIONAL { ?n fl:no ?none } } }"""
    (row,) = small_graph.facts.select(query)
    assert row == ("shop/parts.yaml:32:3", None)
    with pytest.raises(ValueError, match="not a SELECT"):
        list(small_graph.facts.select("ASK { ?s ?p ?o }"))
    with pytest.raises(SyntaxError):
        list(small_graph.facts.select("SELECT nonsense"))
