"""Every reason against a yes is told, with its lines and with what would change it: over the demo and random small books.

The rule is the issue's: "why not: every reason, not only the first". Nothing here is a fact.
"""

from __future__ import annotations

from collections.abc import Iterator

import msgspec
import pytest
from hypothesis import given

from fitlore.fitting import Question, Verdict, Word, answer
from fitlore.fitting.reasons import Against, against, with_claims_elsewhere
from fitlore.fitting.shape import State
from fitlore.graph.open import Graph, open_graph
from fitlore.model.because import Because
from fitlore.model.category import Category, Feature
from fitlore.model.choices import End, How, Role, SafetyClass
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Evidence, Part
from fitlore.model.record import Name, Number
from fitlore.report.sentences import SENTENCES
from tests.demo.shop import REPO
from tests.fitting.random_books import HERE, Book, books, graph_of, verdicts
from tests.fitting.test_laws import LAW, _from_original, _plain

STOPS = {Role.MATES, Role.WORKS, Role.SAFE, Role.JOINS}


@pytest.fixture(scope="module")
def graph(tmp_path_factory: pytest.TempPathFactory) -> Graph:
    """The demo shop."""
    return open_graph(REPO / "demo" / "lowbarn", cache=tmp_path_factory.mktemp("cache"))


def every_verdict(graph: Graph) -> Iterator[Verdict]:
    """Of every place of every car."""
    for car in graph.cars():
        for place in graph.places(car.is_):
            for side in place.sides or ("",):
                yield from answer(graph, Question(place, car, side)).verdicts


def lacking(verdict: Verdict, found: Against) -> list[str]:
    """What the verdict says against a yes and no reason names."""
    steps = [reason.because for reason in found.reasons]
    features = {step.values["feature"] for step in steps if "feature" in step.values}
    names = features | {step.values[key] for step in steps for key in ("fact", "name") if key in step.values}
    names |= {name for step in steps for name in step.values.get("missing", "").split(", ")}
    waived = verdict.way.waives
    off = {c.feature for c in verdict.checks if c.state is State.OFF and c.definition.role in STOPS} - waived
    gaps = off | {c.feature for c in verdict.checks if c.state is State.TRAP}
    gaps |= {ask.name for ask in verdict.asks} | set(verdict.missing)
    return sorted(gaps - names)


def test_every_reason_of_the_demo_has_lines_and_a_way_out(graph: Graph) -> None:
    """Each verdict that is no plain yes: a reason at least, each with a book's line under it and what would change it."""
    words = set()
    for verdict in every_verdict(graph):
        found = against(verdict.because)
        words.add(verdict.word)
        assert found.word is verdict.word
        assert len(found.others) == len(verdict.others)
        assert tuple(way.word for way in found.others) == verdict.other_words
        if verdict.word is Word.FITS:
            continue
        assert found.reasons, verdict.part.part
        for reason in found.reasons:
            steps = [step for _, step in reason.because.walk()]
            asked = reason.because.code.startswith(("open-", "takes-work", "row-"))
            assert asked or any(step.origins or step.sources for step in steps), reason.because
            assert reason.changes, reason.because
            assert {change.code for change in reason.changes} <= SENTENCES.keys()
        assert verdict.way.kind == "asked" or lacking(verdict, found) == [], verdict.part.part
    assert {Word.FITS_WITH_WORK, Word.DEPENDS, Word.DOES_NOT_FIT} <= words


@given(books())
@LAW
def test_no_reason_is_left_out_in_any_book(book: Book) -> None:
    """What is off, a trap, missing or asked is named, whichever row of the table decided."""
    for number, verdict in verdicts(book).items():
        found = against(verdict.because)
        assert lacking(verdict, found) == [] or verdict.word is Word.FITS, number
        told = [(r.because.code, tuple(sorted(r.because.values.items()))) for r in found.reasons]
        assert len(told) == len(set(told)), number
        if verdict.word not in (Word.FITS, Word.BY_MEASURE):
            assert found.reasons, number


def test_a_trap_is_never_to_be_tried(graph: Graph) -> None:
    """No reason of what does not go says to try it: it is measured again, or the car is another."""
    for verdict in every_verdict(graph):
        if verdict.danger and verdict.word is Word.DOES_NOT_FIT:
            codes = {c.code for r in against(verdict.because).reasons for c in r.changes}
            assert "change-trap" in codes
            assert not codes & {"change-claim", "change-other-kind", "change-work"}


def test_what_is_said_for_a_trap_is_told_and_counts_for_nothing() -> None:
    """ "Claims are shown under it and count for nothing": with each word for it, beside the reason that it does not go."""
    fitted = (Evidence(how=How.FITTED, by="hale"), Evidence(how=How.TOLD, source="letter 41"))
    claim = CrossFit(
        crossfit=Name("one"), instead_of=Number("KT 1"), use=Number("TC 1"), reaches=(HERE,), evidence=fitted
    )
    threads = {"KT 1": "M10x1", "TC 1": "3/8-24 UNF"}
    parts = tuple(
        Part(part=Number(n), maker="Kestin", is_=Name("lever"), features={"thread": (t,)})
        for n, t in threads.items()
    )
    category = Category(
        category=Name("lever"),
        safety=SafetyClass.BRAKING,
        features={"thread": Feature(kind="thread", role=Role.MATES, end=End.MALE)},
    )
    book = _from_original(_plain()._replace(category=category, parts=parts, claims=(claim,)), "KT 1")
    found = against(verdicts(book)["TC 1"].because)
    assert found.word is Word.DOES_NOT_FIT
    assert [step.values["claim"] for step in found.said_for] == ["one"]
    assert [step.code for step in found.said_for[0].under] == ["evidence-for", "evidence-for"]
    assert found.reasons[0].because.code == "feature-trap"


def test_another_proof_has_no_reasons() -> None:
    """Only of a verdict is asked why not."""
    with pytest.raises(ValueError, match="no proof of a verdict"):
        against(Because("plan-line"))


def test_a_claim_elsewhere_that_cures_it_is_named(graph: Graph) -> None:
    """With its work and extras, and only where it waives the very feature that is off."""
    line = Origin("shop/a.yaml", 7, 3)
    cure = CrossFit(
        origin=line, crossfit=Name("cure"), instead_of=Number("ZZ 9"), use=Number("TC 1"), waives=(Name("bore"),),
        reaches=(Name("elsewhere"),), evidence=(Evidence(how=How.FITTED, by="hale"),),
    )  # fmt: skip
    part = Part(part=Number("TC 1"), maker="Tarn", is_=Name("lever"))
    row = Because("row-off", {"off": "bore", "way": "measure", "class": SafetyClass.NONE.value})
    off = Because("feature-off", {"feature": "bore", "offered": "2 mm", "needed": "3 mm"}, (line,))
    values = {"part": "TC 1", "place": "a/b/c", "word": "does-not-fit"}
    proof = Because("verdict", values, (line,), under=(row, off))
    small = graph_of([part, cure])
    changes = with_claims_elsewhere(against(proof), small, part).reasons[0].changes
    assert [(c.values["claim"], c.origins) for c in changes if c.code == "change-as-elsewhere"] == [
        ("cure", (line,))
    ]
    other = graph_of([part, msgspec.structs.replace(cure, waives=(Name("reach"),))])
    codes = {c.code for c in with_claims_elsewhere(against(proof), other, part).reasons[0].changes}
    assert codes == {"change-measure-again", "change-work"}
