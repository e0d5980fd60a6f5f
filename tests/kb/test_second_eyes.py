"""What a second reader of the built-in books found and had mended: each finding told so that it fails without the mending."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from fitlore.books.reading import read_book
from fitlore.fitting import Answer, Question, Verdict, Word, answer
from fitlore.fitting.shape import State
from fitlore.graph.open import Graph
from fitlore.model.job import Shop
from fitlore.model.record import Name
from tests.kb.knowledge import known, readings
from tests.kb.test_rules import STANDARDS, samples
from tests.kb.test_words import MEANINGS

ROWS: dict[str, list[dict[str, Any]]] = {
    "parts": [],
    "cautions": [],
    "companions": [],
    "faults": [],
    "words": [],
}
for path in sorted(Path(__file__).parent.glob("second_eyes_*.yaml")):
    for part, rows in yaml.load(path.read_text("utf-8"), yaml.BaseLoader).items():
        ROWS[part] += rows
YES = (Word.FITS, Word.FITS_WITH_WORK, Word.BY_MEASURE)


def features(kind: str, changes: dict[str, str]) -> dict[str, str]:
    """A value for each feature of the kind that must be known, with these instead; a dash takes one away."""
    wanted = {n: f for n, f in known().interface(kind).features.items() if not f.optional}
    values = {name: samples(feature)[0] for name, feature in wanted.items()} | changes
    return {name: value for name, value in values.items() if value != "-"}


def asked(kind: str, needed: dict[str, str], offered: dict[str, str]) -> Answer:
    """The answer for one place of that kind, its original, and one other part."""
    handed = known().interface(kind).sides.value in ("mirror", "other-length")
    side = {"side": "left"} if handed else {}
    assembly: dict[str, Any] = {"places": {"place": {"is": kind, "original": "KT 1"}}}
    assembly |= {"sides": ["left", "right"]} if handed else {}
    rows: list[dict[str, Any]] = [
        {"platform": "kestin-tolland", "name": "Kestin Tolland", "maker": "Kestin", "assemblies": {"here": assembly}},
        {"part": "KT 1", "maker": "Kestin", "is": kind, "features": features(kind, needed)} | side,
        {"part": "TC 1", "maker": "Tarn", "is": kind, "features": features(kind, offered)} | side,
        {"car": "green", "is": "kestin-tolland", "country": "GB"},
    ]  # fmt: skip
    text = yaml.safe_dump(rows, allow_unicode=True)
    reading = read_book("shop/book.yaml", text.encode(), "https://fitlore.example/shop/book.yaml")
    assert not reading.diagnostics, [f"{d.origin} {d.message}" for d in reading.diagnostics]
    records = (*readings()["policy.yaml"].records, *known().chain(kind), *reading.records)
    graph = Graph.from_records(records, STANDARDS, Shop(shop=Name("lowbarn"), person="shop"))
    place, car = graph.place("kestin-tolland", "here/place"), graph.car("green")
    assert place is not None
    return answer(graph, Question(place, car, side.get("side", ""), both=True, only=graph.parts(["TC1"])))


def verdict(kind: str, needed: dict[str, str], offered: dict[str, str]) -> Verdict:
    """The verdict on the other part."""
    (found,) = asked(kind, needed, offered).verdicts
    return found


def named(rows: list[dict[str, Any]]) -> list[str]:
    """Each row's finding, for the name of its test."""
    return [row["finding"] for row in rows]


def test_each_finding_is_told_once() -> None:
    """No two rows have one name, and there are at least ten of parts that would go in and fail."""
    names = [name for rows in ROWS.values() for name in named(rows)]
    assert len(set(names)) == len(names)
    assert len(ROWS["parts"]) >= 10


@pytest.mark.parametrize("row", ROWS["parts"], ids=named(ROWS["parts"]))
def test_a_part_alike_in_all_but_this_does_not_fit(row: dict[str, str]) -> None:
    """Alike in all: by measure. Other in this alone: no. Where it must be known and nobody looked: never a yes."""
    kind, name, needed = row["kind"], row["feature"], {row["feature"]: row["needed"]}
    assert verdict(kind, needed, needed).word is Word.BY_MEASURE
    other = verdict(kind, needed, {name: row["offered"]})
    assert other.word is Word.DOES_NOT_FIT
    assert {check.feature for check in other.checks if check.state in (State.OFF, State.TRAP)} == {name}
    must_be_known = row.get("must-be-known") == "yes"
    assert known().interface(kind).features[name].optional is not must_be_known
    if must_be_known:
        for half in ((needed, {name: "-"}), ({name: "-"}, needed)):
            forgotten = verdict(kind, *half)
            assert forgotten.word not in YES
            assert name in forgotten.missing


@pytest.mark.parametrize("row", ROWS["cautions"], ids=named(ROWS["cautions"]))
def test_the_caution_that_matters_is_among_the_two(row: dict[str, str]) -> None:
    """What the kind and its safety class say together: the line is there, and what is beside the point is not."""
    lines = asked(row["kind"], {}, {}).cautions
    assert any(row["says"] in line for line in lines), lines
    assert "not" not in row or not any(row["not"] in line for line in lines), lines


@pytest.mark.parametrize("row", ROWS["companions"], ids=named(ROWS["companions"]))
def test_what_is_renewed_with_it(row: dict[str, str]) -> None:
    """The companion stands with the kind, used once or not."""
    found = {str(with_.is_): with_.one_use for with_ in known().interface(row["kind"]).renew_with}
    assert found.get(row["with"]) is (row["one-use"] == "yes")


@pytest.mark.parametrize("row", ROWS["faults"], ids=named(ROWS["faults"]))
def test_how_a_fault_is_found(row: dict[str, str]) -> None:
    """The test of the fault has the word that makes it tell something, or keeps somebody from harm."""
    tests = {fault.fault: fault.test for fault in known().categories[row["kind"]].faults}
    assert row["says"] in tests[row["fault"]]


@pytest.mark.parametrize("row", ROWS["words"], ids=named(ROWS["words"]))
def test_a_word_is_the_trades(row: dict[str, str]) -> None:
    """The word means this kind and no other, or, where no kind stands beside it, is nobody's."""
    kinds = {row["kind"]} if "kind" in row else set()
    assert MEANINGS.get((row["language"], row["word"].casefold()), set()) == kinds
