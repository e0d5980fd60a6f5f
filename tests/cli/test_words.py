"""Free words: order, sides, sloppy numbers, other tongues; small words and their option twins; readings where it is open."""

from __future__ import annotations

from typing import Any

import pytest

from tests.demo.shop import Shop

SAME = [
    (("fits", "rear", "left", "wheel", "cylinder"), ("fits", "left rear wheel cylinder")),
    (("fits", "rear", "left", "wheel", "cylinder"), ("fits", "WHEEL CYLINDER", "rear", "l/h")),
    (("fits", "rear wheel cylinder"), ("fits", "wheel cylinder")),
    (("fits", "rear wheel cylinder"), ("fits", "rear-axle/wheel-cylinder")),
    (("fits", "rear wheel cylinder"), ("fits", "radbremszylinder", "hinten")),
    (("fits", "rear wheel cylinder"), ("fits", "both rear wheel cylinders")),
    (("fits", "radiator"), ("fits", "K\u00fchler")),
    (("fits", "radiator"), ("fits", "kuehler")),
    (("fits", "track rod end left"), ("fits", "nearside track rod end")),
    (("fits", "track rod end left"), ("fits", "spurstangenkopf links")),
    (("fits", "track rod end left"), ("fits", "track rod end", "--side", "left")),
    (("fits", "window winder right"), ("fits", "driver's side window winder")),
    (("fits", "reversing switch"), ("fits", "backup", "light", "switch")),
    (("fits", "KT 71 3300"), ("fits", "kt713300")),
    (("fits", "KT 71 3300"), ("fits", "kt-71.3300")),
    (("fits", "KT 71 3300"), ("fits", "kestin", "kt", "71", "3300")),
    (("fits", "OS 7133 04 in stop lamp switch"), ("fits", "os 713304", "--in", "stop lamp switch")),
    (("fits", "OS 7133 04 in stop lamp switch"), ("fits", "OS 7133 04 for stop lamp switch")),
    (("fits", "OS 7133 04 in stop lamp switch"), ("fits", "OS 7133 04", "into", "stop lamp switch")),
    (("fits", "OS 7133 04 in stop lamp switch"), ("fits", "--for", "brakes/stop-lamp-switch", "OS 7133 04")),
    (("where", "TC 330 118 for radiator"), ("where", "TC 330 118", "--for", "radiator")),
    (("where", "TC 330 118 for radiator"), ("where", "tc330118", "in", "radiator")),
    (("plan", "by friday"), ("plan", "--by", "friday")),
    (("plan", "by friday"), ("plan", "till", "2026-12-04")),
    (("plan", "green-estate"), ("plan", "green")),
]


@pytest.mark.parametrize(("one", "other"), SAME, ids=[" ".join(other) for _, other in SAME])
def test_two_ways_to_say_the_same(one: tuple[str, ...], other: tuple[str, ...], asked: Shop) -> None:
    """Byte for byte the same JSON; never from two calls that both could not answer."""
    first, second = asked.call(*one, "--json"), asked.call(*other, "--json")
    assert first.code < 2
    assert (second.code, second.out) == (first.code, first.out)


def places(answer: Any) -> list[tuple[str, str]]:
    """Place and side of each answer."""
    return [(row["place"], row["side"]) for row in answer["answers"]]


def test_a_side_said_is_the_only_one_answered(asked: Shop) -> None:
    """A place with left and right parts is asked for both, unless one side is said."""
    both = asked.call("fits", "window winder", "--json").json
    right = asked.call("fits", "right window winder", "--json").json
    path = "kestin-tolland/doors/window-winder"
    assert places(both) == [(path, "left"), (path, "right")]
    assert places(right) == [(path, "right")]
    assert right["answers"][0]["candidates"][0]["part"] == "KT 84 2210 R"


def test_where_asks_each_side_for_its_own_part(asked: Shop) -> None:
    """One left winder and one right one, not two of either."""
    answers = asked.call("where", "window winder", "--on", "2026-12-03", "--json").json["answers"]
    assert [{row["part"][-1] for row in answer["sources"]} for answer in answers] == [{"L"}, {"R"}]
    assert {row["packs"] for answer in answers for row in answer["sources"]} == {1}


def test_a_side_that_does_not_matter_is_said_to_be_left_aside(asked: Shop) -> None:
    """There is one stop-lamp switch."""
    said = asked.call("fits", "left stop lamp switch", "--json")
    assert (said.code, places(said.json)) == (0, [("kestin-tolland/brakes/stop-lamp-switch", "")])
    assert "`left` was left aside" in said.err


def test_an_assembly_is_every_place_of_it(asked: Shop) -> None:
    """`rear brakes` is what the platform's book also calls its rear axle; on this car that axle is a Packet's."""
    said = asked.call("fits", "rear brakes", "--json")
    names = ["brake-drum", "brake-shoes", "wheel-bearing", "wheel-cylinder", "wheel-nut", "wheel-stud"]
    assert places(said.json) == [(f"velm-packet/rear-axle/{name}", "") for name in names]
    assert said.code == 1


def test_a_part_at_an_assembly_is_asked_where_its_kind_goes(asked: Shop) -> None:
    """Not at the drum and the bearing too."""
    said = asked.call("fits", "KT 53 0190 in rear brakes", "--json")
    assert places(said.json) == [("velm-packet/rear-axle/wheel-cylinder", "")]


def test_a_part_alone_is_asked_wherever_the_car_takes_one_of_its_kind(asked: Shop) -> None:
    """The switch from the Ostra meets the one place for such a switch, and its trap is told."""
    said = asked.call("fits", "os713304", "--json")
    (answer,) = said.json["answers"]
    assert (answer["place"], answer["asked-about"]) == (
        "kestin-tolland/brakes/stop-lamp-switch",
        ["OS 7133 04"],
    )
    assert answer["candidates"][0]["danger"]
    assert said.code == 1


@pytest.mark.parametrize(
    ("words", "readings"),
    [
        ("wheel stud", ["kestin-tolland/front-hubs/wheel-stud", "kestin-tolland/rear-axle/wheel-stud"]),
        ("ks 71 3300", ["KT 71 3300 (part)"]),
        ("stop lamp swich", ["kestin-tolland/brakes/stop-lamp-switch (place)"]),
        ("turn signal left", ["kestin-tolland/lighting/front-indicator (place)"]),
    ],
)
def test_open_words_list_their_readings(words: str, readings: list[str], asked: Shop) -> None:
    """Nothing is guessed: exit 2 and what was perhaps meant."""
    said = asked.call("fits", words)
    assert (said.code, said.out) == (2, "")
    assert [reading for reading in readings if reading not in said.err] == []


def test_a_car_that_may_be_steered_on_either_side_does_not_tell_the_drivers_side(shop: Shop) -> None:
    """Two values of a fact mean that it is not known which: the first of them is no answer."""
    book = shop.folder / "books" / "cars.yaml"
    text = book.read_text("utf-8").replace("steering: {value: right,", "steering: {value: [left, right],", 1)
    book.write_text(text, "utf-8")
    said = shop.call("fits", "drivers side window winder")
    assert said.code == 2
    assert "say left or right" in said.err
