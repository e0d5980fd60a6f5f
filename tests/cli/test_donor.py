"""`donor`: what a donor gives, as it is asked at the counter."""

from __future__ import annotations

import re

import pytest

from tests.cli.shapes import Keys, differences, read_page
from tests.demo.shop import REPO, Shop


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("donor", 0),
        ("donor Corva at 165", 0),
        ("donor field-corva --at 165.00", 0),
        ("donor tarn-corva", 0),
        ("donor Corva for green-estate", 0),
        ("donor Corva --for blue-forty", 1),
        ("donor velm-packet", 1),
        ("donor ghost", 2),
        ("donor at 165", 2),
        ("donor Corva at", 2),
        ("donor Corva at lots", 2),
        ("donor Corva at -3", 2),
        ("donor Corva at 165.001", 2),
        ("donor Corva for nobody", 2),
        ("donor Corva --from someday", 2),
    ],
)
def test_exit_codes_and_streams(words: str, code: int, asked: Shop) -> None:
    """0 there is something to take, 1 there is nothing, 2 could not; an answer is on standard output alone."""
    said = asked.call(*words.split())
    assert said.code == code, said
    assert (said.out == "") == (code == 2)
    assert (said.err == "") == (code < 2)


@pytest.mark.parametrize("words", ["donor", "donor Corva at 165", "donor forty", "donor velm-packet"])
def test_the_json_has_exactly_the_keys_of_the_page(words: str, asked: Shop) -> None:
    """Of the list and of one vehicle; the exit code is that of the words."""
    said = asked.call(*words.split(), "--json")
    assert said.err == ""
    page = read_page((REPO / "src" / "fitlore" / "cli" / "donor.md").read_text("utf-8"))
    shape = page.answers[0]
    assert isinstance(shape, Keys)
    assert differences(page, shape, said.json) == []
    assert said.code == asked.call(*words.split()).code


def test_the_json_is_the_same_twice(asked: Shop) -> None:
    """Word for word, and so are the lists."""
    for words in ("donor", "donor Corva"):
        assert asked.call(*words.split(), "--json").out == asked.call(*words.split(), "--json").out


def test_worth_and_price_asked(asked: Shop) -> None:
    """538.30 without it, 381.26 with it for nothing: worth 157.04 at most, and 7.96 too dear at 165."""
    (vehicle,) = asked.call("donor", "Corva", "at", "165", "--json").json["vehicles"]
    worth = vehicle["jobs"][0]["worth"]
    assert (worth["at-most"], worth["without"], worth["for-nothing"]) == (
        "157.04 GBP",
        "538.30 GBP",
        "381.26 GBP",
    )
    assert (worth["asked"], worth["with-it-at-that"]) == ("165.00 GBP", "546.26 GBP")
    said = asked.call("donor", "Corva", "at", "165").out
    assert "at 165.00 the plan gets 7.96 dearer" in said
    assert "at 190.00" in asked.call("donor", "Corva").out


def test_every_number_has_its_proof(asked: Shop) -> None:
    """Numbers run through take, look, leave and keep, and `why` knows each, down to lines of books."""
    (vehicle,) = asked.call("donor", "forty", "--json").json["vehicles"]
    rows = [row for job in vehicle["jobs"] for kind in ("take", "look", "leave") for row in job[kind]]
    assert [row["number"] for row in rows] == list(range(1, len(rows) + 1))
    shown = asked.call("donor", "forty").out
    for row in (rows[0], rows[len(rows) // 2], rows[-1]):
        proof = asked.call("why", str(row["number"]), "--json").json["because"]
        assert proof == row["because"]
        assert row["part"] is None or row["part"] in proof["says"]
        assert re.search(rf"(?m)^ ?{row['number']}  {re.escape(row['part'] or row['need'])}", shown)


def test_a_trap_is_said_before_anything_is_numbered(asked: Shop) -> None:
    """The switch of the Ostra goes in by hand and lets go: loud, in full, and among what stays."""
    lines = asked.call("donor", "forty").out.splitlines()
    danger = next(n for n, line in enumerate(lines) if line.startswith("! Ostra OS 7133 04"))
    first = next(n for n, line in enumerate(lines) if re.match(r" ?\d+  ", line))
    assert danger < first
    assert any("OS 7133 04" in line and n > first for n, line in enumerate(lines))


def test_used_brake_parts_are_never_among_what_is_taken(asked: Shop) -> None:
    """Of any vehicle in the list: nothing for wheel cylinders, joints, dampers, belts."""
    for vehicle in asked.call("donor", "--json").json["vehicles"]:
        needs = {row["need"].partition("@")[0] for row in (*vehicle["serves"], *vehicle["may-serve"])}
        assert not needs & {"rear-axle/wheel-cylinder", "steering/track-rod-end", "rear-suspension/damper"}


def test_a_name_that_means_several_is_asked_back(shop: Shop) -> None:
    """A second Corva in the books: both are named, and nothing is guessed; the platform by its own name still answers."""
    book = shop.folder / "books" / "more.yaml"
    book.write_text("- {donor: barn-corva, is: tarn-corva, name: Tarn Corva in the barn}\n", "utf-8")
    said = shop.call("donor", "Corva")
    assert said.code == 2
    assert "field-corva" in said.err
    assert "barn-corva" in said.err
    assert shop.call("donor", "tarn-corva").code == 0
    assert shop.call("donor", "barn").code == 1


def test_without_a_picked_car_all_jobs_are_asked(asked: Shop) -> None:
    """The list serves both jobs of the shop, whichever car is picked."""
    jobs = {
        row["job"]
        for vehicle in asked.call("donor", "--json", "--car", "blue-forty").json["vehicles"]
        for row in vehicle["serves"]
    }
    assert jobs == {"green-estate", "blue-forty-tidy"}
