"""The card of a kind: what it inherits, and in which order it is told."""

from __future__ import annotations

import pytest

from fitlore.fitting.kind import kind_of
from fitlore.graph.open import Graph, open_graph
from fitlore.report.kinds import kind_json, kind_lines
from fitlore.report.text import plain


@pytest.fixture(scope="module")
def graph() -> Graph:
    """The built-in knowledge alone; opened by the tests and not while they are collected, since others fork."""
    return open_graph(None)


def test_every_kind_has_a_card_that_says_all_it_has(graph: Graph) -> None:
    """Every fault with its test, every way of mending, every feature and every further name of every kind is printed."""
    for category in graph.categories():
        kind = kind_of(graph, category.category, None, "")
        assert kind is not None
        text = " ".join(plain(kind_lines(kind), 10**6).split())
        own = [fault.fault for fault in category.faults] + [fault.test for fault in category.faults]
        own += [way.do for way in category.refurbish] + [friend.word for friend in category.false_friends]
        own += [*category.features, *category.cautions, *category.also.get("en-gb", ())]
        own += list(category.also.get("de", ())) if category.names.get("de") else []
        assert [said for said in own if " ".join(said.split()) not in text] == []


def test_what_is_inherited_is_told_of_the_narrower_kind(graph: Graph) -> None:
    """A wheel cylinder says what its fluid is, though only the kind above asks; its own faults come before those above."""
    kind = kind_of(graph, "wheel-cylinder", None, "")
    assert kind is not None
    assert "seals-for" in kind_json(kind)["look-first"] or "seals-for" in kind.interface.features
    assert kind.category.faults
    assert kind.faults[: len(kind.category.faults)] == kind.category.faults


def test_the_cheapest_test_comes_first(graph: Graph) -> None:
    """Faults without a test stand last; the others by the minutes of their test."""
    for name in ("alternator", "wheel-cylinder", "radiator"):
        kind = kind_of(graph, name, None, "")
        assert kind is not None
        text = plain(kind_lines(kind), 10**6)
        order = sorted(kind.faults, key=lambda fault: (not fault.test, fault.minutes))
        places = [text.index(f"  {fault.fault}") for fault in order]
        assert places == sorted(places)


def test_a_name_that_is_none_has_no_card(graph: Graph) -> None:
    """None, not an empty card."""
    assert kind_of(graph, "flux-compensator", None, "") is None
