"""`why not`: every reason, its lines and what would change it; of a line, and asked straight."""

from __future__ import annotations

import re

from tests.demo.shop import Shop


def test_every_reason_of_a_no_is_numbered_with_a_way_out(asked: Shop) -> None:
    """The wheel cylinder that the book lists: its bore, and that the axle on this car is another."""
    said = asked.call("why", "not", "KT 53 0190", "in", "rear wheel cylinder", COLUMNS="200")
    assert (said.code, said.err) == (0, "")
    assert re.findall(r"(?m)^ (\d)  (\w+)", said.out) == [("1", "bore"), ("2", "the")]
    assert said.out.count("\n    -> ") == 2
    assert "shop/parts-brakes.yaml:" in said.out
    assert "links in the chain" not in said.out


def test_a_line_and_the_straight_question_say_the_same(asked: Shop) -> None:
    """`fits`, then `why N`, against `why PART in PLACE`: the same reasons and the same proof."""
    rows = asked.call("fits", "rear", "wheel", "cylinder", "--json").json["answers"][0]["candidates"]
    row = next(row for row in rows if row["part"] == "KT 53 0190")
    line = asked.call("why", str(row["number"]), "--json").json
    straight = asked.call("why", "KT 53 0190", "in", "rear wheel cylinder", "--json").json["answers"][0]
    assert line["against"] == straight["against"]
    assert line["other-ways"] == straight["other-ways"]
    assert straight["verdict"] == "does-not-fit"


def test_the_straight_question_numbers_its_lines(asked: Shop) -> None:
    """`why 1` afterwards has the whole proof; `--in` is the twin of `in`."""
    assert asked.call("why", "not", "KT 53 0190", "--in", "rear wheel cylinder").code == 0
    proof = asked.call("why", "1")
    assert "the whole proof:" in proof.out
    assert proof.out.splitlines()[1].startswith("line 1 of: why not KT 53 0190")


def test_a_plain_yes_has_nothing_against_it(asked: Shop) -> None:
    """And its proof stands as it stood."""
    assert "nothing stands against it" in asked.call("why", "not", "KT 21 0440", "in", "radiator").out
    assert asked.call("fits", "radiator").code == 0
    said = asked.call("why", "1")
    assert "what stands" not in said.out
    assert "the whole proof:" not in said.out


def test_the_work_of_a_yes_is_told_once(asked: Shop) -> None:
    """The radiator that wants brackets: the hose besides and the work, not the mounting that the work takes care of."""
    found = asked.call("why", "not", "TC 330 118", "in", "radiator", "--json").json["answers"][0]["against"]
    assert [row["because"]["code"] for row in found] == ["with", "takes-work"]


def test_a_line_of_a_plan_is_no_question_of_fit(asked: Shop) -> None:
    """`why not` of it says so."""
    assert asked.call("plan").code == 0
    said = asked.call("why", "not", "1")
    assert said.code == 2
    assert "says nothing of whether a part goes" in said.err
