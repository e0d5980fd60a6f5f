"""`what` and `compare` at the counter: traps come first, every family answers, and the books are looked through."""

from __future__ import annotations

import re

import pytest

from fitlore.trade.family import FAMILIES
from tests.demo.shop import Shop

KINDS = sorted(FAMILIES)


def test_a_trap_is_the_first_thing_said_with_its_bench_test(asked: Shop) -> None:
    """Thread depths and pitches as ISO 724 and ASME B1.1 give them."""
    said = asked.call("compare", "M10x1 with 3/8-24 UNF")
    lines = said.out.splitlines()
    assert lines[0].startswith("! ")
    assert any(line.startswith(" 1  A TRAP: 3/8-24 UNF where M10x1 is needed") for line in lines)
    assert "On the bench:" in said.out
    assert "threads.yaml" in said.out
    assert "it does not say:" in said.out


@pytest.mark.parametrize("kind", KINDS)
def test_every_family_answers_to_its_own_spellings(kind: str, asked: Shop) -> None:
    """A designation serves for itself, or the answer says what is left unsaid; never a no."""
    text = FAMILIES[kind].about.spellings[0]
    said = asked.call("compare", f"{text} with {text}", "--as", kind, "--json")
    (row,) = said.json["compared"]
    assert row["kind"] == kind
    assert row["state"] in ("ok", "unknown")
    assert said.code == (0 if row["state"] == "ok" else 1)


def test_a_yes_from_memory_is_a_question_where_the_family_protects_someone(asked: Shop) -> None:
    """A class of ISO 4925 for a DOT grade is recalled, and brake fluid stops cars; French words for a side are marked only."""
    brakes = asked.call("compare", "DOT 4 with ISO 4925 class 6", "--json")
    (row,) = brakes.json["compared"]
    assert (brakes.code, row["state"], row["from-memory"]) == (1, "unknown", True)
    words = "côté conducteur, volant à gauche"
    side = asked.call("compare", f"{words} with {words}", "--as", "hand", "--json")
    (row,) = side.json["compared"]
    assert (side.code, row["state"], row["from-memory"]) == (0, "ok", True)


def test_the_verdict_on_a_part_that_was_measured_has_its_proof(asked: Shop) -> None:
    """`why` of its line goes down to the verdict for each place."""
    asked.call("what", "wheel cylinder 22.2 bore")
    proof = asked.call("why", "1").out
    assert "rear-axle/wheel-cylinder: depends" in proof


def test_two_parts_are_held_against_each_other_feature_by_feature(asked: Shop) -> None:
    """The radiator of the demo: its lower outlet differs, and that decides."""
    said = asked.call("compare", "KT 21 0440 with TC 330 118", "--json")
    states = {row["feature"]: row["state"] for row in said.json["parts"]["features"]}
    assert states["bottom-outlet"] == "off"
    assert states["core-width"] == "ok"
    assert said.json["parts"]["state"] == "off"
    why = asked.call("why", "1")
    assert "bottom-outlet: 35 mm, needed 38 mm" in why.out


def test_a_measured_bore_finds_the_parts_of_the_books_that_have_it(asked: Shop) -> None:
    """The wheel cylinder that is really on the green estate measures 22.2."""
    said = asked.call("what", "wheel cylinder 22.2 bore", "--json")
    assert {row["kind"] for row in said.json["candidates"]} == {"wheel-cylinder"}
    assert {row["measures"][0]["measure"] for row in said.json["candidates"]} == {"bore"}
    assert all(row["verdicts"] for row in said.json["candidates"])


def test_a_measured_thread_is_found_where_the_car_asks_for_it(asked: Shop) -> None:
    """And the line says that it is one feature and no verdict on a part."""
    said = asked.call("what", "thread 9.9 outside, pitch 1, 60 degrees")
    assert "M10x1 (thread)" in said.out
    assert "rear-axle/wheel-cylinder" in said.out
    assert "`fits`" in said.out


def test_two_holes_of_five_give_the_circles_they_may_be_and_the_measure_that_decides(asked: Shop) -> None:
    """From edge to edge of two holes many circles are possible; from centre to centre they part."""
    said = asked.call("what", "52 mm across two holes of five", "--json")
    names = [row["designation"] for row in said.json["candidates"]]
    assert "5x112" in names
    assert said.json["next"]["measure"] in ("hole-centres", "diameter")
    centres = asked.call("what", "five holes, 65.8 centre to centre", "--json")
    assert centres.json["bolt-circle"] == "111.95"
    assert centres.json["candidates"][0]["designation"] == "5x112"


def test_the_near_names_are_offered_for_a_thing_that_is_not_known(asked: Shop) -> None:
    """Nothing is searched that was not meant."""
    said = asked.call("what", "brake dsc 252")
    assert said.code == 2
    assert "brake-disc" in said.err


def test_what_cannot_be_compared_names_five_near_ones_at_most(asked: Shop) -> None:
    """Three of the books and two of the standards, the ones most like the text first."""
    said = asked.call("compare", "brake with M10")
    assert said.code == 2
    assert 1 <= len(re.findall(r"\((?:place|part|category)\)", said.err)) <= 3
    assert 1 <= len(re.findall(rf"\((?:{'|'.join(KINDS)})\)", said.err)) <= 2
    assert "M10x1 (thread)" in asked.call("compare", "M10x with brake").err


def test_figures_from_memory_are_marked(asked: Shop) -> None:
    """In the list of candidates, where the row was never looked up."""
    said = asked.call("what", "thread 9.7 outside, 28 to the inch, 55 degrees")
    rows = {row.split(" (thread)")[0].split()[-1]: row for row in re.split(r"\n(?=[ \d]\d  )", said.out)}
    assert "from memory" in " ".join(rows["R1/8"].split())
    assert "from memory" not in " ".join(rows["G1/8"].split())
