"""Verdict cases from practice and from the standards: each is a tiny set of books, a question, and what must come out."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from fitlore.books.reading import read_book
from tests.trade.loading import STANDARDS
from fitlore.fitting import Question, Verdict, answer
from fitlore.graph.open import Graph
from fitlore.model.job import Shop
from fitlore.model.numbers import number_key
from fitlore.model.record import Name, Rec

HERE = Path(__file__).parent
CASES: list[dict[str, Any]] = yaml.load((HERE / "manifest.yaml").read_text("utf-8"), yaml.BaseLoader)


def records(text: str, shown: str) -> tuple[Rec, ...]:
    reading = read_book(shown, text.encode(), f"https://fitlore.example/{shown}")
    assert not reading.diagnostics, [f"{d.origin} {d.message}" for d in reading.diagnostics]
    return reading.records


def graph_of(case: dict[str, Any], repo: Path) -> Graph:
    base = records((HERE / "cases" / "base.yaml").read_text("utf-8"), "shop/base.yaml")
    more = records(yaml.safe_dump(case["add"], allow_unicode=True), "shop/more.yaml") if "add" in case else ()
    return Graph.from_records([*base, *more], STANDARDS, Shop(shop=Name("lowbarn"), person="shop"))


def verdict_of(case: dict[str, Any], repo: Path) -> Verdict:
    graph, ask = graph_of(case, repo), case["ask"]
    car = graph.car(ask["car"])
    assert car is not None
    place = graph.place(car.is_, ask["place"])
    assert place is not None
    (part,) = graph.parts([number_key(ask["part"])])
    reply = answer(graph, Question(place, car, ask.get("side", ""), only=(part,)))
    (verdict,) = reply.verdicts
    return verdict


@pytest.mark.parametrize("case", CASES, ids=[case["case"] for case in CASES])
def test_case_comes_out_right(case: dict[str, Any], repo: Path) -> None:
    """The verdict, the questions, what is missing and the minutes are the stated ones, and the proof holds the steps."""
    verdict = verdict_of(case, repo)
    assert verdict.word.value == case["verdict"], [step.code for _, step in verdict.because.walk()]
    codes = {step.code for _, step in verdict.because.walk()}
    assert set(case.get("codes", ())) <= codes
    assert set(case.get("asks", ())) <= {ask.name for ask in verdict.asks}
    if "missing" in case:
        assert set(case["missing"]) <= set(verdict.missing)
    if "minutes" in case:
        assert verdict.minutes == int(case["minutes"])


def test_every_verdict_word_is_reached() -> None:
    """The manifest holds at least one case of each verdict."""
    assert {case["verdict"] for case in CASES} == {
        "fits", "fits-with-work", "by-measure", "depends", "unproven", "disputed", "does-not-fit",
    }  # fmt: skip


def test_every_proof_ends_in_lines_or_tables(repo: Path) -> None:
    """Each verdict's proof names at least one line of a book; a trap's also a published standard."""
    for case in CASES:
        verdict = verdict_of(case, repo)
        steps = [step for _, step in verdict.because.walk()]
        assert any(origin.line for step in steps for origin in step.origins), case["case"]
        if verdict.danger:
            assert any(step.sources for step in steps), case["case"]
