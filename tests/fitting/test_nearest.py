"""Of many parts that nobody claims the nearest are shown, the others counted: on random books, against all of them.

How far apart parts are is worked out here anew, part by part, from the values alone; nothing in these books is a fact.
"""

from __future__ import annotations

from typing import NamedTuple

import msgspec
import pytest
from hypothesis import event, given
from hypothesis import strategies as st

from fitlore.fitting import Answer, Question, Verdict, answer
from fitlore.fitting.interface import compare
from fitlore.fitting.nearest import NEAREST
from fitlore.fitting.shape import State
from fitlore.graph.open import Graph, open_graph
from fitlore.model.part import Part
from fitlore.model.record import Name, Number
from tests.demo.shop import REPO
from tests.fitting.random_books import HERE, POOLS, Book, graph_of, measured_books
from tests.fitting.test_laws import LAW
from tests.trade.loading import STANDARDS


class Case(NamedTuple):
    """A book with many parts that nobody claims, and how many of them are to be shown."""

    book: Book
    most: int
    twins: bool
    """Some of them are the very same part as another one."""


@st.composite
def cases(draw: st.DrawFn) -> Case:
    """Up to thirty parts more, most of which agree in most with the original of the place."""
    book, model = draw(measured_books())
    twins = draw(st.booleans())
    rows = []
    for number in range(draw(st.integers(0, 30))):
        features = dict(model.features)
        for name in draw(st.lists(st.sampled_from(sorted(POOLS)), max_size=2)):
            features[name] = (draw(st.sampled_from(POOLS[name])),)
        if draw(st.integers(0, 3)) == 0:
            features.pop(draw(st.sampled_from(sorted(POOLS))), None)
        if draw(st.integers(0, 3)) == 0:
            features["thread"] = (draw(st.sampled_from(POOLS["thread"][-2:])),)
        same = (Number(f"BR {100 + number // 2}"),) if twins and number and draw(st.booleans()) else ()
        maker = draw(st.sampled_from(["Brede", "Kestin", "Merrow"]))
        part = Part(
            part=Number(f"BR {100 + number}"), maker=maker, is_=Name("lever"), features=features, same_as=same
        )
        rows.append(part)
    return Case(book._replace(parts=(*book.parts, *rows)), draw(st.integers(1, 4)), twins)


def asked(case: Case, nearest: int | None) -> Answer:
    """What the place takes."""
    graph = graph_of(case.book.records())
    place = graph.place(HERE, "arm/lever")
    assert place is not None
    return answer(graph, Question(place, case.book.car, nearest=nearest))


def far(verdict: Verdict, reply: Answer, book: Book) -> tuple[int, bool, int, str, str]:
    """The order that the help page of `fits` states, least first."""
    part = next(one for one in book.parts if one.part == verdict.part.part)
    needs: dict[str, set[str]] = {}
    for alternative in (*reply.requirement.alternatives, reply.requirement.otherwise or {}):
        for name, need in alternative.items():
            needs.setdefault(name, set()).update(need.values)
    stated = [name for name in needs if name in part.features]
    agree = [
        name
        for name in stated
        for have in part.features[name]
        if any(
            compare(book.category.features[name], want, have, STANDARDS).state in (State.OK, State.WORK)
            for want in needs[name]
        )
    ]
    number = part.part.replace(" ", "")
    return (
        len(needs) - len(agree),
        part.maker != "Kestin",
        len(needs) - len(stated),
        number,
        part.maker.casefold(),
    )


def unclaimed(reply: Answer) -> list[Verdict]:
    """What nothing leads to but its measures."""
    return [row for row in reply.verdicts if row.way.kind == "measure" and not row.others]


@given(cases())
@LAW
def test_what_is_shown_is_the_first_of_all_by_the_order(case: Case) -> None:
    """Each of those that go is one of the first so many of the full list, with the same verdict, and none is passed over."""
    full, short = asked(case, None), asked(case, case.most)
    every = sorted(unclaimed(full), key=lambda row: far(row, full, case.book))
    goes = [row for row in every if not row.danger]
    shown = {row.part.part: row for row in unclaimed(short) if not row.danger}
    assert shown == {row.part.part: row for row in goes[: case.most]}
    traps = {row.part.part: row for row in every if row.danger}
    warned = {row.part.part: row for row in unclaimed(short) if row.danger}
    assert warned.items() <= traps.items()
    if not case.twins:
        assert set(warned) == set(list(traps)[: case.most])
    event(f"left out: {bool(short.more)}, traps left out: {bool(short.more_traps)}")


@given(cases())
@LAW
def test_nothing_is_dropped_in_silence(case: Case) -> None:
    """What is not shown is in the counts; where they say nothing the short answer is the full one; other ways stay whole."""
    full, short = asked(case, None), asked(case, case.most)
    gone = {row.part.part for row in full.verdicts} - {row.part.part for row in short.verdicts}
    assert len(gone) <= short.more + short.more_traps
    assert (full.more, full.more_traps) == (0, 0)
    if not short.more and not short.more_traps:
        assert short == full
    known = [row for row in full.verdicts if row.way.kind != "measure" or row.others]
    assert [row for row in short.verdicts if row.way.kind != "measure" or row.others] == known


@given(cases())
@LAW
def test_more_may_be_shown_than_there_are(case: Case) -> None:
    """Asked for more than the book has, the short answer is the full one."""
    assert asked(case, len(case.book.parts)) == asked(case, None)


@pytest.fixture(scope="module")
def graph(tmp_path_factory: pytest.TempPathFactory) -> Graph:
    """The demo shop."""
    return open_graph(REPO / "demo" / "lowbarn", cache=tmp_path_factory.mktemp("cache"))


def test_at_every_place_of_the_demo_the_short_answer_is_the_full_one(graph: Graph) -> None:
    """No place of a small shop has more than a dozen parts that nobody claims."""
    for car in graph.cars():
        for place in graph.places(car.is_):
            question = Question(place, car)
            assert answer(graph, msgspec.structs.replace(question, nearest=NEAREST)) == answer(
                graph, question
            )
