"""What is asked or worked out at one go gives the same as one by one: many questions, the early no, what is remembered."""

from __future__ import annotations

import gc
import weakref

import pytest
from hypothesis import given

from fitlore.fitting import Question, answer, answers
from fitlore.fitting.answer import _set
from fitlore.fitting.checks import plainly_not, table
from fitlore.fitting.once import once
from fitlore.fitting.shape import State
from fitlore.graph.open import Graph, open_graph
from fitlore.model.choices import Role
from tests.demo.shop import REPO
from tests.fitting.random_books import HERE, Book, books, graph_of
from tests.fitting.test_laws import LAW
from tests.trade.loading import STANDARDS


def test_many_questions_are_answered_as_each_alone(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Every place and side of a car, against a graph opened anew for each assembly: the same answers whole."""
    cache = tmp_path_factory.mktemp("cache")
    graph = open_graph(REPO / "demo" / "lowbarn", cache=cache)
    car = graph.car("green")
    assert car is not None
    asked = [Question(p, car, side) for p in graph.places(car.is_) for side in p.sides or ("",)]
    together = answers(graph, asked)
    fresh: dict[str, Graph] = {}
    for question, reply in zip(asked, together, strict=True):
        assembly = question.place.assembly
        alone = fresh.setdefault(assembly, open_graph(REPO / "demo" / "lowbarn", cache=cache))
        assert answer(alone, question) == reply


@given(books())
@LAW
def test_the_early_no_is_that_of_the_whole_table(book: Book) -> None:
    """Something is off, by another role than looks, and nothing is a trap."""
    graph = graph_of(book.records())
    place = graph.place(HERE, "arm/lever")
    assert place is not None
    setting = _set(graph, Question(place, book.car), book.car)
    for part in book.parts:
        rows = table(setting.interface, setting.requirement, part, STANDARDS)
        off = any(row.state is State.OFF and row.definition.role is not Role.LOOKS for row in rows)
        trap = any(row.state is State.TRAP for row in rows)
        early = plainly_not(setting.interface, setting.requirement, part, STANDARDS)
        assert early == (off and not trap), part.part


def test_what_is_remembered_is_of_one_graph_and_goes_with_it() -> None:
    """Worked out once for each graph and each way to ask, and no graph is kept for it."""
    asked: list[tuple[int, str, bool]] = []

    @once
    def twice(graph: Graph, word: str, *, loud: bool = False) -> str:
        asked.append((id(graph), word, loud))
        return word.upper() if loud else word * 2

    one, other = graph_of([]), graph_of([])
    assert [twice(one, "a"), twice(one, "a"), twice(one, "a", loud=True)] == ["aa", "aa", "A"]
    assert twice(other, "a") == "aa"
    assert asked == [(id(one), "a", False), (id(one), "a", True), (id(other), "a", False)]
    gone = weakref.ref(one)
    del one
    gc.collect()
    assert gone() is None
