"""All that a graph can be asked, as one value: two graphs with the same value give the same answers."""

from __future__ import annotations

from fitlore.graph.derive import citable, name_of
from fitlore.graph.lookup import find
from fitlore.graph.open import Graph
from fitlore.model.numbers import number_key
from tests.graph import small

KEYS = sorted(
    {
        "KT530190",
        "KT530206",
        "KT530222SET",
        "KT713300",
        "TC611047",
        "TC941377",
        "OS4021905B",
        "VP9210",
        "7713300",
    }
    | {"BREDE7713300", "MERROW7713300", "KT842210R", "TC842114R", "KT990001", "TARNTC941377", "NOSUCH"}
)
PHRASES = ["wheel cylinder", "stop lmap switch", "KT 53 0190", "corva", "Radbremszylinder links", "switch"]


def answers(graph: Graph) -> list[object]:
    """The records and matches that every method hands out, for every name and number of the small shop and some others."""
    platforms, categories = graph.platforms(), graph.categories()
    every: list[object] = [
        graph.shop,
        graph.policy,
        graph.diagnostics,
        graph.standards,
        platforms,
        categories,
    ]
    every += [graph.cars(), graph.jobs(), graph.suppliers(), graph.crossfits()]
    for key in KEYS:
        every += [graph.parts([key]), graph.claims_from([key]), graph.claims_to([key]), graph.replaces([key])]
        every += [graph.containers([key]), graph.offers([key]), graph.places_of_originals([key])]
    for platform in platforms:
        every += [graph.places(platform.platform), graph.platform(platform.platform)]
        for place in graph.places(platform.platform):
            every += [graph.place(place.on, place.path), graph.claims_at(place.on, place.path)]
    for name in sorted({str(category.category) for category in categories}):
        every += [
            sorted(graph.narrower(name)),
            graph.parts_of([name]),
            graph.offers_any([name]),
            graph.category(name),
        ]
    for having in ({"bore": "1.905 cm"}, {"pipe-thread": "M10x1"}, {"peg": "CENTRE", "bore": "19.05 mm"}):
        every.append(graph.parts_of(["test-wheel-cylinder"], having))
    every += [graph.services(["wheel-tracking"]), graph.jobs_of("tolland-blue"), graph.shared_work("bleed")]
    every += [find(graph, phrase) for phrase in PHRASES]
    return every


def numbers_of(graph: Graph) -> set[str]:
    """The keys of every part of the graph's small shop that is still known."""
    return {number_key(name_of(r)) for r in citable(small.records()) if graph.parts([number_key(name_of(r))])}
