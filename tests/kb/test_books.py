"""The built-in books: read without a fault, in one hierarchy per vehicle system, and whole by their own strict check."""

from __future__ import annotations

import re
from datetime import date
from functools import cache

import pytest

from fitlore.graph.open import Graph
from fitlore.model.category import Category
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.upkeep import profile
from fitlore.upkeep.catalogue_shelf import PROMISES
from fitlore.upkeep.check import judged, profile_of
from tests.kb.knowledge import known, readings
from tests.trade.loading import load_every

SYSTEMS = {
    "body-and-glass", "brake-hydraulics", "brakes", "bumpers-and-trim", "charging-and-starting", "clutch",
    "consumables", "cooling", "electrics", "electronics", "engine", "fasteners-and-bearings", "fluids", "fuel",
    "heating", "ignition", "instruments", "intake-and-exhaust", "interior", "lighting", "locks-and-fittings",
    "lubrication", "restraints", "seals-and-gaskets", "shafts-and-axles", "springs-and-dampers", "steering",
    "suspension", "transmission", "valve-gear-and-timing", "wheels-and-tyres", "wipers-and-washers", "wiring",
}  # fmt: skip
LEAVES = known().leaves
ALL = list(known().categories)


def test_no_book_has_a_fault() -> None:
    """Neither an error nor a note in any built-in book."""
    found = [f"{d.origin} {d.message}" for reading in readings().values() for d in reading.diagnostics]
    assert not found


def test_there_is_a_book_for_each_vehicle_system_with_one_root() -> None:
    """Each system has its book; one category in it is the broadest, alone or below one of another book, and holds the rest."""
    for system in SYSTEMS:
        rows = [r for r in readings()[f"{system}.yaml"].records if isinstance(r, Category)]
        here = {row.category for row in rows}
        roots = [row.category for row in rows if row.broader not in here]
        assert len(roots) == 1, (system, roots)
        assert all(roots[0] in [above.category for above in known().chain(row.category)] for row in rows)
    assert {name.removesuffix(".yaml") for name in readings()} == SYSTEMS | {"policy"}


def test_there_are_enough_categories() -> None:
    """At least 80 categories, and at least 60 that no other is narrower than."""
    assert len(ALL) >= 80
    assert len(LEAVES) >= 60


@cache
def judgements() -> tuple[Diagnostic, ...]:
    """What every rule finds in the built-in books, as bad as the profile for shelves that others build on has it."""
    records = [record for reading in readings().values() for record in reading.records]
    strictly = profile_of(None, profile.find("built-in", None))
    graph = Graph.from_records(records, load_every()[0])
    return tuple(strictly.applied(judged(graph, date(2026, 12, 3))))


@pytest.mark.parametrize("rule", sorted(profile_of(None, profile.find("built-in", None)).severities))
def test_the_shelf_passes_its_own_strict_check(rule: str) -> None:
    """What `check --profile built-in` asks of a shelf that others build on: nothing is found but notes.

    Names in five languages, an interface, safety, sides, how to buy, what to look at first, usual faults with a cheap test,
    features that decide and are only tightened downwards, halves of threads, known works, short cautions, the whole policy.
    """
    found = [one for one in judgements() if one.code == rule and one.severity is not Severity.NOTE]
    assert [f"{one.origin} {one.message}" for one in found] == []


def test_no_other_rule_finds_anything() -> None:
    """Those that are about parts, claims and offers have nothing to look at, and say so."""
    assert {one.code for one in judgements() if one.severity is not Severity.NOTE} == set()


def test_trim_has_no_cautions() -> None:
    """Nobody is hurt by a carpet."""
    trim = [
        interface for leaf in LEAVES if (interface := known().interface(leaf)).names[-1] == "interior-part"
    ]
    assert len(trim) >= 10
    assert [interface.names[0] for interface in trim if interface.cautions] == []


def test_forbidden_words_are_not_used_in_comments_either() -> None:
    """No text of a built-in book promises what others decide; the role `safe` is a word of the schema."""
    for reading in readings().values():
        text = reading.source.text if hasattr(reading.source, "text") else ""
        assert text
        assert not PROMISES.findall(re.sub(r"role: safe\b", "", text)), reading.shown


def test_no_further_name_repeats_the_name() -> None:
    """A synonym is another word."""
    for name, category in known().categories.items():
        for language, words in category.also.items():
            assert category.names[language] not in words, name
