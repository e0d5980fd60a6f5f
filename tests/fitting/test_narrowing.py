"""Only parts of about the size are compared where nobody claims anything: it must lose no answer, and no trap of such a size."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

import pytest

from fitlore.fitting import Answer, Question, Word, answer, narrowing, ways
from fitlore.fitting.ways import Setting
from fitlore.graph.open import Graph, open_graph
from fitlore.model.part import Part
from tests.demo.shop import REPO


@pytest.fixture(scope="module")
def graph(tmp_path_factory: pytest.TempPathFactory) -> Graph:
    """The demo shop."""
    return open_graph(REPO / "demo" / "lowbarn", cache=tmp_path_factory.mktemp("cache"))


def everything(setting: Setting) -> tuple[Part, ...]:
    """The whole category, as if there were no index."""
    return setting.graph.parts_of(sorted(setting.graph.narrower(setting.interface.category.category)))


def questions(graph: Graph) -> Iterator[Question]:
    """Every place of every car."""
    for car in graph.cars():
        for place in graph.places(car.is_):
            yield Question(place, car)


def shown(reply: Answer) -> dict[str, Word]:
    """The numbers and their words, but those that only do not fit."""
    return {row.part.part: row.word for row in reply.verdicts if row.word is not Word.DOES_NOT_FIT}


def test_no_answer_is_lost(graph: Graph, monkeypatch: pytest.MonkeyPatch) -> None:
    """At every place of the demo: the same words as by comparing all of the category, and no trap that it has not."""
    asked = list(questions(graph))
    narrow = [answer(graph, question) for question in asked]
    monkeypatch.setattr(ways, "worth_comparing", everything)
    wide = [answer(graph, question) for question in asked]
    assert any(Word.BY_MEASURE in shown(reply).values() for reply in wide)
    for one, other in zip(narrow, wide, strict=True):
        assert shown(one) == shown(other)
        known = {row.part.part for row in other.verdicts}
        assert {row.part.part for row in one.verdicts} <= known


def test_only_a_trap_of_quite_another_size_is_not_told_of(
    graph: Graph, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The stud of 12.20 mm is told of where 13.00 mm is needed; it is not where only the very size counts as near."""
    car = graph.car("green")
    assert car is not None
    place = graph.place(car.is_, "rear-axle/wheel-stud")
    assert place is not None
    traps = {row.part.part for row in answer(graph, Question(place, car)).verdicts if row.danger}
    assert {"KT 42 1110", "TC 423 050"} <= traps
    monkeypatch.setattr(narrowing, "NEAR", Decimal(0))
    monkeypatch.setattr(narrowing, "_already", lambda graph: {})
    monkeypatch.setattr(narrowing, "_compared", lambda graph: {})
    traps = {row.part.part for row in answer(graph, Question(place, car)).verdicts if row.danger}
    assert "TC 423 050" not in traps
