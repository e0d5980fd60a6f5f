"""The built-in books: read without a fault, complete, in one hierarchy per vehicle system, and only tightened downwards."""

from __future__ import annotations

import re

import pytest

from fitlore.fitting.interface import read_tolerance
from fitlore.model.amounts import read_quantity
from fitlore.model.category import Category, Feature
from fitlore.model.choices import Role, Rule, SafetyClass, UsedOnes
from fitlore.trade.family import FAMILIES
from tests.kb.knowledge import known, readings

LANGUAGES = {"en-gb", "en-us", "de", "fr", "es"}
SYSTEMS = {
    "body-and-glass", "brake-hydraulics", "brakes", "bumpers-and-trim", "charging-and-starting", "consumables",
    "cooling", "electrics", "electronics", "engine", "fasteners-and-bearings", "fluids", "fuel", "heating",
    "ignition", "instruments", "intake-and-exhaust", "interior", "lighting", "locks-and-fittings", "lubrication",
    "restraints", "seals-and-gaskets", "springs-and-dampers", "steering", "suspension", "transmission",
    "valve-gear-and-timing", "wheels-and-tyres", "wipers-and-washers", "wiring",
}  # fmt: skip
BASE = {
    "length": "mm", "angle": "deg", "current": "A", "voltage": "V", "power": "W", "resistance": "ohm",
    "pressure": "bar", "temperature": "degC", "force": "N", "mass": "g", "count": "1",
}  # fmt: skip
"""The base unit of each dimension a feature may have, after `fitlore.model.units`."""
SHARED_WORK = {
    "arms-off",
    "belt-off",
    "bleed",
    "coolant-out",
    "dash-out",
    "gearbox-out",
    "oil-out",
    "tracking",
}
"""Work done once on a car; a shop describes those it wants reckoned with."""
FORBIDDEN = re.compile(r"\b(safe|safely|legal|legally|approved|guarantee[ds]?|will pass)\b", re.IGNORECASE)
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


@pytest.mark.parametrize("name", ALL)
def test_broader_exists_and_is_at_most_five_deep(name: str) -> None:
    """The chain upwards is known all the way, ends, and has at most five categories."""
    chain = known().chain(name)
    assert chain[-1].broader is None, "an unknown broader category, or a cycle"
    assert len(chain) <= 5


@pytest.mark.parametrize("name", ALL)
def test_names_in_all_languages(name: str) -> None:
    """Each category has its trade name in five languages, and no synonym repeats it."""
    category = known().categories[name]
    assert set(category.names) == LANGUAGES
    assert set(category.also) <= LANGUAGES
    for language, words in category.also.items():
        assert category.names[language] not in words
    assert category.source


@pytest.mark.parametrize("name", LEAVES)
def test_leaf_is_complete(name: str) -> None:
    """Interface, safety, sides, what to look at first, how to buy, faults with a free test: all said or inherited."""
    interface, chain = known().interface(name), known().chain(name)
    assert any(c.safety is not None for c in chain)
    assert any(c.sides is not None for c in chain)
    assert any(c.renew is not None for c in chain)
    assert any(c.always_new is not None for c in chain)
    assert interface.look_first
    assert set(interface.look_first) <= set(interface.features)
    hard = [f for f in interface.features.values() if f.role in (Role.MATES, Role.WORKS)]
    assert len(hard) >= 3 or interface.category.few_features_because
    assert any(c.inspect for c in chain)
    faults = interface.category.faults
    assert faults
    assert all(f.test and 0 < f.minutes <= 30 for f in faults)


@pytest.mark.parametrize("name", LEAVES)
def test_always_new_means_never_used(name: str) -> None:
    """What is always bought new is never taken used, and the other way round."""
    interface = known().interface(name)
    assert interface.always_new == (interface.used is UsedOnes.NEVER)


@pytest.mark.parametrize("name", ALL)
def test_references_are_known(name: str) -> None:
    """What is renewed with it is a category, what it shares is a known work, and nothing is renewed with itself."""
    category = known().categories[name]
    assert set(category.shares) <= SHARED_WORK
    for row in category.renew_with:
        assert row.is_ in known().categories
        assert row.is_ != name


@pytest.mark.parametrize("name", ALL)
def test_cautions_are_few_and_none_on_trim(name: str) -> None:
    """Two lines at most; trim has none; nothing claims what only law and a qualified person decide."""
    interface = known().interface(name)
    assert len(interface.cautions) <= 2
    if interface.names[-1] == "interior-part":
        assert not interface.cautions


def test_forbidden_words_are_not_used() -> None:
    """No text of a built-in book says safe, legal, approved, guaranteed, will pass; the role `safe` is a word of the schema."""
    for reading in readings().values():
        text = reading.source.text if hasattr(reading.source, "text") else ""
        assert text
        assert not FORBIDDEN.findall(re.sub(r"role: safe\b", "", text)), reading.shown


def features() -> list[tuple[str, str, Feature]]:
    """Every feature as it is written: category, name, definition."""
    return [(c, n, f) for c, row in known().categories.items() for n, f in row.features.items()]


@pytest.mark.parametrize(
    ("category", "name", "feature"), features(), ids=lambda v: v if isinstance(v, str) else ""
)
def test_feature_is_well_formed(category: str, name: str, feature: Feature) -> None:
    """A kind that can be compared, a tolerance and a wear of its dimension, choices that differ, work wherever it joins."""
    assert feature.kind in {*BASE, *FAMILIES, "choice", "text"}
    assert (feature.kind == "choice") == bool(feature.choices)
    assert len({c.casefold() for c in feature.choices}) == len(feature.choices) != 1
    assert (feature.role is Role.JOINS) == (feature.work is not None)
    if feature.work is not None:
        assert feature.work.do
        assert feature.work.minutes > 0
    assert (feature.rule is Rule.WITHIN) == bool(feature.tolerance)
    if feature.tolerance:
        limits = read_tolerance(feature.tolerance)
        assert limits is not None
        assert limits[2] == BASE[feature.kind]
        assert max(limits[:2]) > 0
    if feature.wears:
        direction, _, size = feature.wears.partition(" ")
        amount = read_quantity(size)
        assert direction in ("up", "down")
        assert amount is not None
        assert amount.unit == BASE[feature.kind]
    if feature.rule in (Rule.AT_LEAST, Rule.AT_MOST, Rule.RANGE_HOLDS):
        assert feature.kind in BASE


@pytest.mark.parametrize("name", LEAVES)
def test_thread_of_a_leaf_says_which_half(name: str) -> None:
    """Every thread says whether the part has the male or the female half: the direction of a trap follows from it."""
    for feature in known().interface(name).features.values():
        assert feature.kind != "thread" or feature.end is not None


@pytest.mark.parametrize("name", ALL)
def test_inheritance_only_tightens(name: str) -> None:
    """A narrower category keeps kind, role and rule, and loosens neither tolerance, choices, necessity nor safety class."""
    category = known().categories[name]
    if category.broader is None:
        return
    above = known().interface(category.broader)
    order = list(SafetyClass)
    if category.safety is not None:
        assert order.index(category.safety) <= order.index(above.safety)
    for feature_name, feature in category.features.items():
        was = above.features.get(feature_name)
        if was is None:
            continue
        assert (feature.kind, feature.role, feature.rule) == (was.kind, was.role, was.rule)
        assert not (feature.optional and not was.optional)
        assert set(feature.choices) <= set(was.choices) or not was.choices
        assert was.end in (None, feature.end)
        if was.tolerance:
            new, old = read_tolerance(feature.tolerance), read_tolerance(was.tolerance)
            assert new is not None
            assert old is not None
            assert new[0] <= old[0]
            assert new[1] <= old[1]
