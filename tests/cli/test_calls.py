"""Ten calls typed exactly so in the demo shop as it comes, where nobody has picked a car yet; and words like theirs.

What they have to say is worked out by hand from the demo's books, or stands in the published tables that are named.
"""

from __future__ import annotations

import pytest

from tests.demo.shop import Said, Shop, copy_of_the_demo

NOW = {"FITLORE_TODAY": "2026-12-03"}
TAKEN = "the green estate (kestin-tolland): no car picked; due first (Wed 9 Dec)"


@pytest.fixture(scope="module")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Shop:
    """The demo shop as it comes; only asked."""
    return copy_of_the_demo(tmp_path_factory.mktemp("fresh"))


def ask(shop: Shop, line: str) -> Said:
    """The line as it is typed, with the story's day for today; an answer says loudly first whose car it takes."""
    said = shop.call(*line.split(), **NOW)
    assert said.err == ""
    return said


def test_fits_window_winder_right(fresh: Shop) -> None:
    """The right one only; original first, then the Corva's, measured."""
    said = ask(fresh, "fits window winder right")
    rows = said.out.splitlines()
    assert (said.code, rows[0], rows[1]) == (0, TAKEN, "doors/window-winder, right")
    assert "KT 84 2210 R" in rows[2]
    assert "TC 842 114 R" in rows[3]
    assert "2210 L" not in said.out


def test_fits_ostra_stop_lamp_switch(fresh: Shop) -> None:
    """Theirs in the car in hand, with the trap first: 3/8-24 UNF (ASME B1.1: 9.525 mm, 24 to the inch) in M10x1 (ISO 261)."""
    said = ask(fresh, "fits Ostra stop lamp switch")
    rows = said.out.splitlines()
    assert (said.code, rows[0], rows[1]) == (1, TAKEN, "brakes/stop-lamp-switch")
    assert rows[2].startswith("! Ostra OS 7133 04: 3/8-24 UNF in M10x1 starts by hand")
    assert " 1  does not fit  Ostra OS 7133 04" in said.out
    assert fresh.call("fits", "OS 7133 04 in stop lamp switch", "--json", **NOW).json["answers"][0][
        "candidates"
    ][0]["danger"]


def test_fits_a_nut_on_a_stud(fresh: Shop) -> None:
    """As `compare` of the two threads; the danger first, the bench test in it, and `why` has the tables.

    7/16-20 UNF has a major diameter of 11.1125 mm (ASME B1.1), M12x1.25 a minor one of the nut of 10.647 mm (ISO 724): the
    stud goes in 0.888 mm loose, and 20 threads to the inch are a pitch of 1.27 mm.
    """
    said = ask(fresh, "fits M12x1.25 nut on 7/16-20 stud")
    rows = said.out.splitlines()
    assert (said.code, rows[0], rows[1]) == (1, TAKEN, "M12x1.25 nut on 7/16-20 stud")
    assert rows[2].startswith("! 7/16-20 UNF in M12x1.25 runs all the way on and never feels wrong")
    assert "On the bench" in said.out
    data = fresh.call("fits", *["M12x1.25", "nut", "on", "7/16-20", "stud", "--json"], **NOW).json
    other = fresh.call("compare", *["7/16-20", "with", "M12x1.25", "--end", "female", "--json"], **NOW).json
    assert data == other
    assert data["compared"][0]["state"] == "trap"
    proof = ask(fresh, "why 1").out
    assert "ASME B1.1" in proof
    assert "ISO 724" in proof


@pytest.mark.parametrize(
    ("line", "code", "state"),
    [
        ("fits 7/16-20 nut on 7/16-20 UNF stud", 0, "ok"),
        ("fits M12x1.25 bolt in M12x1.25 nut", 0, "ok"),
        ("fits 7/16-20 stud in M12x1.25 nut", 1, "trap"),
        ("fits the old M10x1 nut onto a M10 x 1.0 stud", 0, "ok"),
        ("fits M10x1 nut on M10x1.25 stud", 1, "off"),
    ],
)
def test_other_joints_read_the_same_way(line: str, code: int, state: str, fresh: Shop) -> None:
    """Which of the two has which half is in their names; it may be said of one alone."""
    said = fresh.call(*line.split(), "--json", **NOW)
    assert (said.code, [row["state"] for row in said.json["compared"]]) == (code, [state])


def test_two_nuts_are_no_joint(fresh: Shop) -> None:
    """Both have the same half."""
    said = fresh.call(*["fits", "M12x1.25", "nut", "on", "7/16-20", "nut"], **NOW)
    assert said.code == 2
    assert "same half" in said.err


def test_what_bush(fresh: Shop) -> None:
    """The front arm's bush has 34 x 12 x 40 by the demo's books, and three parts of that size are in them."""
    said = ask(fresh, "what bush 34 x 12 x 40")
    assert (said.code, said.out.splitlines()[0]) == (0, TAKEN)
    assert " 1  agrees  Brede BR 34 12 40" in said.out
    assert "1 fits at front-suspension/arm-bush" in said.out


def test_where_radiator(fresh: Shop) -> None:
    """Cheapest first: 71.00 and 6.95 carriage and 45 minutes at 12.00 an hour are 86.95."""
    said = ask(fresh, "where radiator")
    rows = said.out.splitlines()
    assert (said.code, rows[:2]) == (0, [TAKEN, "cooling/radiator"])
    assert rows[2].split()[:3] == ["1", "86.95", "GBP"]


def test_plan_by_friday_and_why_2(fresh: Shop) -> None:
    """By the day after, the resistor cannot be there: the yard is open on Saturday. `why 2` is the second that clashes."""
    said = ask(fresh, "plan by friday")
    assert (said.code, said.out.splitlines()[0]) == (1, TAKEN)
    assert "all in hand by Friday 4 December 2026" in said.out
    assert "waiting till Sat 5 Dec" in said.out
    proof = ask(fresh, "why 2")
    assert (proof.code, proof.out.splitlines()[1]) == (0, "line 2 of: plan by friday")
    assert "heating/blower-resistor" in proof.out


def test_donor_corva(fresh: Shop) -> None:
    """At 165.00 it costs 7.96 more than the 157.04 it is worth at most."""
    said = ask(fresh, "donor Corva at 165")
    assert (said.code, said.out.splitlines()[0]) == (0, TAKEN)
    assert "worth at most 157.04 GBP" in said.out
    assert "at 165.00 the plan gets 7.96 dearer: not worth it" in said.out
    assert ask(fresh, "why 2").code == 0


def test_check_and_undo(fresh: Shop) -> None:
    """The demo's books are sound, and nothing was written that could be taken back."""
    assert ask(fresh, "check").code == 0
    said = fresh.call("undo", **NOW)
    assert "nothing to take back" in said.out + said.err


@pytest.mark.parametrize(
    ("line", "twin"),
    [
        ("fits Corva winder in window winder right", "fits Corva winder --in window-winder --side right"),
        ("fits right window winder", "fits window winder --side right"),
        ("where TC 330 118 for radiator on friday", "where tc330118 --for radiator --on friday"),
        ("plan by friday", "plan --by friday"),
        ("plan for green by friday not northgate", "plan green --till friday --without northgate"),
        ("donor Corva at 165 for green-estate", "donor Corva --at 165 --for green-estate"),
        ("compare M10x1 with 3/8-24", "compare M10x1 --with 3/8-24"),
    ],
)
def test_every_small_word_has_an_option_twin(line: str, twin: str, fresh: Shop) -> None:
    """The same answer, byte for byte, for hands and for scripts."""
    one, other = (fresh.call(*text.split(), "--json", **NOW) for text in (line, twin))
    assert one.code < 2
    assert (one.code, one.out) == (other.code, other.out)


def test_a_car_is_named_by_its_words_in_the_option_too(fresh: Shop) -> None:
    """`--car` as `car` itself: a name that is or holds the words, or what was perhaps meant."""
    assert (
        fresh.call("fits", "radiator", "--car", "blue", **NOW).out.splitlines()[0]
        == "the blue forty (ostra-40)"
    )
    said = fresh.call("fits", "radiator", "--car", "blu-forty", **NOW)
    assert said.code == 2
    assert "did you mean blue-forty" in said.err


@pytest.mark.parametrize(
    ("verb", "meant"), [("fit", "fits"), ("wher", "where"), ("noet", "note"), ("plam", "plan")]
)
def test_a_mistyped_command_is_told_the_near_one(verb: str, meant: str, fresh: Shop) -> None:
    """Exit 2; nothing is run."""
    said = fresh.call(verb, "radiator")
    assert said.code == 2
    assert f"Did you mean {meant}" in said.err


def test_a_platform_is_asked_where_the_words_are_of_no_use_for_the_car_in_hand(fresh: Shop) -> None:
    """An Ostra has gaiters on its driveshafts and a Tolland none: the car that nobody picked is no reason to refuse."""
    said = fresh.call("fits", "ostra", "outer", "gaiter", **NOW)
    assert said.out.splitlines()[0] == "no car picked; asked of any ostra-40"
    assert fresh.call("fits", "ostra", "outer", "gaiter", "--car", "green", **NOW).code == 2
