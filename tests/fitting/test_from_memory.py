"""A row that was recalled and never looked up proves nothing where somebody may come to harm; elsewhere it is marked."""

from __future__ import annotations

import msgspec
import pytest

from fitlore.fitting.checks import table
from fitlore.fitting.interface import compare, interface_of
from fitlore.fitting.shape import Check, Needed, Requirement, State
from fitlore.fitting.side_by_side import side_by_side
from fitlore.graph.open import Graph
from fitlore.model.because import Because
from fitlore.model.category import Category, Feature
from fitlore.model.choices import Role, SafetyClass
from fitlore.model.job import Shop
from fitlore.model.origin import Origin
from fitlore.model.part import Part
from fitlore.model.record import Name, Number
from tests.trade.loading import load_every

STANDARDS, _ = load_every()
LINE = Origin("parts.yaml", 1, 1)
RECALLED = ("brake-fluid", "DOT 4", "DOT 4 class 6")
"""A pair that only a recalled row calls a yes."""
LOOKED_UP = ("bearing", "6203", "6203")


def checked(kind: str, needed: str, offered: str, safety: SafetyClass, role: Role = Role.MATES) -> Check:
    """The one row of the interface table."""
    category = Category(category=Name("thing"), safety=safety, features={"it": Feature(kind=kind, role=role)})
    graph = Graph.from_records([category], STANDARDS, Shop(shop=Name("lowbarn")))
    interface = interface_of(graph, "thing")
    assert interface is not None
    need = {"it": Needed((needed,), LINE, any_will_do=False)}
    requirement = Requirement((need,), (), (), (), Because("requirement"))
    part = Part(
        part=Number("TC 1"), maker="Tarn", is_=Name("thing"), features={"it": (offered,)}, origin=LINE
    )
    (check,) = table(interface, requirement, part, STANDARDS)
    return check


def test_the_pair_of_this_test_does_rest_on_a_recalled_row() -> None:
    """Else the tests below would show nothing: take another pair when the row has been looked up."""
    result = compare(Feature(kind=RECALLED[0], role=Role.MATES), *RECALLED[1:], STANDARDS)
    assert result.memory
    assert result.state in (State.OK, State.WORK)


@pytest.mark.parametrize("safety", [one for one in SafetyClass if one is not SafetyClass.NONE])
def test_a_recalled_row_alone_is_a_question_for_a_part_that_protects(safety: SafetyClass) -> None:
    """In every class of safety."""
    check = checked(*RECALLED, safety)
    assert check.state is State.UNKNOWN
    assert "memory-alone" in [step.code for _, step in check.because.walk()]


def test_a_recalled_row_alone_is_a_question_for_a_feature_that_protects() -> None:
    """Whatever the class of its category."""
    assert checked(*RECALLED, SafetyClass.NONE, Role.SAFE).state is State.UNKNOWN


def test_elsewhere_a_recalled_row_counts_and_is_marked() -> None:
    """The proof says so."""
    check = checked(*RECALLED, SafetyClass.NONE)
    assert check.state in (State.OK, State.WORK)
    assert "row-from-memory" in [step.code for _, step in check.because.walk()]


def test_a_row_that_was_looked_up_counts_everywhere() -> None:
    """As do two equal designations, which rest on no row."""
    assert checked(*LOOKED_UP, SafetyClass.BRAKING).state is State.OK


def test_a_no_from_memory_stays_a_no() -> None:
    """It costs a look and no more."""
    assert checked("fuse", "mini blade 40 A", "torpedo 8 A", SafetyClass.BRAKING).state in (
        State.OFF,
        State.TRAP,
    )


def test_two_parts_side_by_side_follow_the_same_rule() -> None:
    """A part is a yes for itself, and a question where only a recalled row speaks for another."""
    for safety, state in ((SafetyClass.NONE, {State.OK, State.WORK}), (SafetyClass.BRAKING, {State.UNKNOWN})):
        category = Category(
            category=Name("thing"), safety=safety, features={"it": Feature(kind=RECALLED[0], role=Role.MATES)}
        )
        one = Part(
            part=Number("TC 1"), maker="Tarn", is_=Name("thing"), features={"it": (RECALLED[1],)}, origin=LINE
        )
        other = msgspec.structs.replace(one, part=Number("TC 2"), features={"it": (RECALLED[2],)})
        graph = Graph.from_records([category, one, other], STANDARDS, Shop(shop=Name("lowbarn")))
        assert side_by_side(graph, one, one).state is State.OK
        assert side_by_side(graph, one, other).state in state


def test_parts_without_a_common_category_are_a_question() -> None:
    """Nothing was compared, so nothing is said."""
    categories = [Category(category=Name(name), safety=SafetyClass.NONE) for name in ("hinge", "pump")]
    one = Part(part=Number("TC 1"), maker="Tarn", is_=Name("hinge"), origin=LINE)
    other = Part(part=Number("TC 2"), maker="Tarn", is_=Name("pump"), origin=LINE)
    graph = Graph.from_records([*categories, one, other], STANDARDS, Shop(shop=Name("lowbarn")))
    pair = side_by_side(graph, one, other)
    assert (pair.category, pair.state, pair.checks) == ("", State.UNKNOWN, ())
