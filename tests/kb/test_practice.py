"""Mistakes from practice told in the built-in categories: each a tiny book, a question, and the verdict that must come out."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from fitlore.books.reading import read_book
from fitlore.fitting import Question, Verdict, Word, answer
from fitlore.fitting.shape import State
from fitlore.graph.open import Graph
from fitlore.model.job import Shop
from fitlore.model.record import Name, Rec
from tests.kb.knowledge import known, readings
from tests.trade.loading import load_every

STANDARDS, _ = load_every()
MANIFEST: dict[str, Any] = yaml.load(
    (Path(__file__).parent / "practice.yaml").read_text("utf-8"), yaml.BaseLoader
)
KINDS: dict[str, dict[str, str]] = MANIFEST["kinds"]
CASES: list[dict[str, Any]] = MANIFEST["cases"]
YES = (Word.FITS, Word.FITS_WITH_WORK, Word.BY_MEASURE)


@cache
def built_in(kind: str) -> tuple[Rec, ...]:
    """The policy, and the category with all above it."""
    policy = readings()["policy.yaml"].records
    return (*policy, *known().chain(kind))


def features(kind: str, changes: dict[str, str]) -> dict[str, str]:
    """The usual features of a kind with these instead; a dash takes one away."""
    return {name: value for name, value in (KINDS[kind] | changes).items() if value != "-"}


def book_of(case: dict[str, Any]) -> list[dict[str, Any]]:
    """A platform with one place and its original, the offered part, and the claim for it if there is one."""
    kind, side = case["kind"], case.get("side", "")
    place = {"is": kind, "original": "KT 1"}
    assembly: dict[str, Any] = {"places": {"place": place}} | ({"sides": ["left", "right"]} if side else {})
    marked = case.get("marked", side)
    rows: list[dict[str, Any]] = [
        {"platform": "kestin-tolland", "name": "Kestin Tolland", "maker": "Kestin", "assemblies": {"here": assembly}},
        {"part": "KT 1", "maker": "Kestin", "is": kind, "features": features(kind, case.get("needed", {}))},
        {"part": "TC 1", "maker": "Tarn", "is": kind, "features": features(kind, case.get("offered", {}))},
        {"car": "green", "is": "kestin-tolland", "country": "GB"},
    ]  # fmt: skip
    for row in rows[1:3]:
        if not row["features"]:
            del row["features"]
    rows[1] |= {"side": side} if side else {}
    rows[2] |= {"side": marked} if marked else {}
    for row, newer, key in ((rows[1], "TC 1", "replaced"), (rows[2], "KT 1", "replaces")):
        row |= {"replaced-by": {"number": newer, "reason": case[key]}} if key in case else {}
    if "claim" in case:
        claim = {"crossfit": "one", "instead-of": "KT 1", "use": "TC 1", "reaches": "kestin-tolland"}
        rows.append(claim | {"evidence": case["claim"]})
    return rows


def verdict_of(case: dict[str, Any]) -> Verdict:
    """The verdict on the offered part."""
    text = yaml.safe_dump(book_of(case), allow_unicode=True)
    reading = read_book("shop/book.yaml", text.encode(), "https://fitlore.example/shop/book.yaml")
    assert not reading.diagnostics, [f"{d.origin} {d.message}" for d in reading.diagnostics]
    records = (*built_in(case["kind"]), *reading.records)
    graph = Graph.from_records(records, STANDARDS, Shop(shop=Name("lowbarn"), person="shop"))
    place, car = graph.place("kestin-tolland", "here/place"), graph.car("green")
    assert place is not None
    both = "side" not in case
    (found,) = answer(
        graph, Question(place, car, case.get("side", ""), both, only=graph.parts(["TC1"]))
    ).verdicts
    return found


def test_every_group_of_practice_is_there() -> None:
    """The groups whose cases are verdicts, each case named once, eighty at least."""
    names = [case["case"] for case in CASES]
    assert len(set(names)) == len(names) >= 80
    assert {name[0] for name in names} == set("ABCDEFGI")


@pytest.mark.parametrize("case", CASES, ids=[case["case"] for case in CASES])
def test_a_mistake_from_practice_gets_its_verdict(case: dict[str, Any]) -> None:
    """The word, what is off, missing, asked or a trap; the danger is told where there is one, and the proof has lines."""
    verdict = verdict_of(case)
    states = {check.feature: check.state for check in verdict.checks}
    assert verdict.word.value == case["verdict"], states
    assert all(states[name] is State.OFF for name in case.get("off", ())), states
    assert set(case.get("missing", ())) <= set(verdict.missing)
    assert set(case.get("asks", ())) <= {ask.name for ask in verdict.asks}
    if "trap" in case:
        assert states[case["trap"]] is State.TRAP
        assert verdict.danger
    assert any(origin.line for _, step in verdict.because.walk() for origin in step.origins)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_forgetting_any_required_feature_is_never_a_yes(kind: str) -> None:
    """On either side, one by one: what nobody has claimed and nobody has measured is no fit."""
    interface = known().interface(kind)
    side = {"side": "left"} if interface.sides.value == "mirror" else {}
    for name in KINDS[kind]:
        definition = interface.features[name]
        if definition.role.value in ("mates", "works", "safe") and not definition.optional:
            for half in ("needed", "offered"):
                case = {"kind": kind, half: {name: "-"}, **side}
                assert verdict_of(case).word not in YES, (name, half)
