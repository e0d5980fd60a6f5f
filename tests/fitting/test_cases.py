"""Verdict cases from practice and from the standards: each is a tiny set of books, a question, and what must come out."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from fitlore.books.reading import read_book
from fitlore.fitting import Question, Verdict, answer
from fitlore.graph.open import Graph
from fitlore.model.job import Shop
from fitlore.model.numbers import number_key
from fitlore.model.part import Part
from fitlore.model.record import Name, Rec
from tests.trade.loading import STANDARDS

HERE = Path(__file__).parent
CASES: list[dict[str, Any]] = [
    case
    for manifest in sorted(HERE.glob("manifest*.yaml"))
    for case in yaml.load(manifest.read_text("utf-8"), yaml.BaseLoader)
]


def records(text: str, shown: str) -> tuple[Rec, ...]:
    """The records of a book that has to be without fault."""
    reading = read_book(shown, text.encode(), f"https://fitlore.example/{shown}")
    assert not reading.diagnostics, [f"{d.origin} {d.message}" for d in reading.diagnostics]
    return reading.records


def graph_of(case: dict[str, Any]) -> Graph:
    """The base books, less what the case takes away, with what it adds, in one book or in two."""
    without = set(case.get("base-without", ()))
    base = records((HERE / "cases" / "base.yaml").read_text("utf-8"), "shop/base.yaml")
    kept = [record for record in base if not (isinstance(record, Part) and record.part in without)]
    for key, shown in (("add", "shop/more.yaml"), ("add-elsewhere", "other/parts.yaml")):
        if key in case:
            kept += records(yaml.safe_dump(case[key], allow_unicode=True), shown)
    return Graph.from_records(kept, STANDARDS, Shop(shop=Name("lowbarn"), person="shop"))


def verdict_of(case: dict[str, Any]) -> Verdict:
    """The answer to the case's question; without a car it is asked of the platform."""
    graph, ask = graph_of(case), case["ask"]
    car = graph.car(ask["car"]) if "car" in ask else None
    platform = ask.get("platform") or (car.is_ if car else "")
    place = graph.place(platform, ask["place"])
    assert place is not None
    part = graph.parts([number_key(ask["part"])])[0]
    both = ask.get("both") == "yes"
    reply = answer(graph, Question(place, car, ask.get("side", ""), both, only=(part,)))
    (verdict,) = reply.verdicts
    return verdict


def test_case_names_are_used_once() -> None:
    """A case is known by its name."""
    assert len({case["case"] for case in CASES}) == len(CASES)


@pytest.mark.parametrize("case", CASES, ids=[case["case"] for case in CASES])
def test_case_comes_out_right(case: dict[str, Any]) -> None:
    """The verdict, the questions, what is missing and the minutes are the stated ones, and the proof holds the steps."""
    verdict = verdict_of(case)
    assert verdict.word.value == case["verdict"], [step.code for _, step in verdict.because.walk()]
    codes = {step.code for _, step in verdict.because.walk()}
    assert set(case.get("codes", ())) <= codes
    assert set(case.get("asks", ())) <= {ask.name for ask in verdict.asks}
    if "missing" in case:
        assert set(case["missing"]) <= set(verdict.missing)
    if "minutes" in case:
        assert verdict.minutes == int(case["minutes"])


def test_every_verdict_word_is_reached() -> None:
    """The manifests hold at least one case of each verdict."""
    assert {case["verdict"] for case in CASES} == {
        "fits", "fits-with-work", "by-measure", "depends", "unproven", "disputed", "does-not-fit",
    }  # fmt: skip


def test_a_depends_always_says_what_to_ask() -> None:
    """No case leaves the asker with a bare `depends`."""
    for case in CASES:
        if case["verdict"] == "depends":
            assert verdict_of(case).asks, case["case"]


def test_every_proof_ends_in_lines_or_tables() -> None:
    """Each verdict's proof names at least one line of a book; a trap's also a published standard."""
    for case in CASES:
        verdict = verdict_of(case)
        steps = [step for _, step in verdict.because.walk()]
        assert any(origin.line for step in steps for origin in step.origins), case["case"]
        if verdict.danger:
            assert any(step.sources for step in steps), case["case"]
