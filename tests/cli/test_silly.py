"""Silly input, broken surroundings: a sentence and an exit code, never a traceback (`Shop.call` looks for one)."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.demo.shop import REPO, Shop, copy_of_the_demo

WORDS = [
    (("fits", ""), "nothing was asked"),
    (("fits", "   "), "nothing was asked"),
    (("fits", "???"), "reads as nothing"),
    (("fits", "in", "radiator"), "nothing was asked"),
    (("fits", "radiator", "in"), "nothing stands behind `in`"),
    (("fits", "quxzzy blorb"), "neither a place nor a part"),
    (("fits", "ZZ 99 9999"), "reads as nothing"),
    (("fits", "ZZ 99 9999", "in", "radiator"), "reads as nothing"),
    (("fits", "KT 21 0440", "in", "flux capacitor"), "reads as nothing"),
    (("fits", "KT 21 0440", "in", "rear brakes"), "takes a radiator"),
    (("fits", "radiator", "--car", "gren"), "did you mean green?"),
    (("fits", "left track rod end", "--side", "right"), "not the same"),
    (("fits", "wheel stud"), "front-hubs/wheel-stud, kestin-tolland/rear-axle/wheel-stud; say which"),
    (("fits",), "Missing argument"),
    (("fits", "radiator", "--nonsense"), "No such option"),
    (("fitz", "radiator"), "Did you mean fits?"),
    (("where", ""), "nothing was asked"),
    (("where", "radiator", "--on", "someday"), "'someday' is no day"),
    (("where", "radiator", "--quantity", "0"), "range"),
    (("where", "radiator", "--quantity", "9" * 30), "range"),
    (("plan", "no-such-job"), "there are: green-estate, blue-forty-tidy"),
    (("plan", "by"), "nothing stands behind `by`"),
    (("plan", "by", "30", "feb"), "'30 feb' is no day"),
    (("plan", "by", "2020-01-01"), "before Thursday 3 December 2026"),
    (("plan", "from", "2027-01-01"), "before Friday 1 January 2027"),
    (("plan", "--hours", "nan"), "no figure"),
    (("plan", "--hours", "inf"), "no figure"),
    (("plan", "--hours", "-1"), "range"),
    (("plan", "--cash", "NaN"), "no amount"),
    (("plan", "--cash", "-20"), "no amount"),
    (("plan", "--cash", "1e99"), "no amount"),
    (("plan", "--cash", "0.001"), "whole coins of GBP"),
    (("plan", "--cash", "520 EUR"), "whole coins of GBP"),
    (("plan", "--cash", "10"), "less than the 40.00 GBP to be kept back"),
    (("plan", "--suppliers", "0"), "range"),
    (("plan", "--without", "nobody"), "which supplier is 'nobody'?"),
    (("why", "0"), "numbered from 1"),
    (("why", "-1"), "No such option"),
    (("why", "one"), "'one' reads as nothing exactly"),
    (("why", "not"), "why not what?"),
    (("why", "not", "999"), "not 999"),
    (("why", "not", "rear wheel cylinder"), "is a place; why which part?"),
    (("car", ""), "no car was named"),
    (("car", "e"), "'e' may be green, blue-forty"),
    (("car", "purple"), "no car 'purple'"),
    (("car", "green", "--none"), "not both"),
    (("--kb", "nowhere", "car"), "nowhere: no fitlore.yaml there"),
    (("--kb", "books", "car"), "books: no fitlore.yaml there"),
]


@pytest.mark.parametrize(("words", "expected"), WORDS, ids=[" ".join(words) or "empty" for words, _ in WORDS])
def test_silly_words_get_a_sentence(words: tuple[str, ...], expected: str, asked: Shop) -> None:
    """Exit 2, nothing on standard output, and what is wrong on standard error."""
    said = asked.call(*words)
    assert (said.code, said.out) == (2, "")
    assert expected in said.err


def test_a_number_of_two_makers_is_answered_for_both(shop: Shop) -> None:
    """The answer tells them apart by maker; with the maker in front it is one."""
    (shop.folder / "books" / "two.yaml").write_text(
        "- {part: 99 1234, maker: Ostra, is: radiator}\n- {part: 99 1234, maker: Tarn, is: radiator}\n",
        "utf-8",
    )
    said = shop.call("fits", "99 1234 in radiator", "--json")
    rows = said.json["answers"][0]["candidates"]
    assert sorted((row["maker"], row["part"]) for row in rows) == [("Ostra", "99 1234"), ("Tarn", "99 1234")]
    assert {row["verdict"] for row in rows} == {"unproven"}
    rows = shop.call("fits", "tarn 991234 in radiator", "--json").json["answers"][0]["candidates"]
    assert [row["maker"] for row in rows] == ["Tarn"]


@pytest.mark.parametrize(
    "text",
    [
        b"\xff\xfe\x00broken",
        b"shop: [",
        b"",
        b"hello\n",
        b"- a\n- b\n",
        b"shop: x\nshelves: [{shelf: s, folder: no}]\n",
    ],
)
def test_an_unreadable_shop_file_is_a_fault_of_the_books(text: bytes, tmp_path: Path) -> None:
    """Nothing breaks in any command; a note says that there are faults, and `check` shows them in fitlore.yaml."""
    shop = copy_of_the_demo(tmp_path)
    (shop.folder / "fitlore.yaml").write_bytes(text)
    for words, code in (("car", 1), ("fits radiator", 2), ("plan", 2), ("where radiator", 2), ("check", 1)):
        said = shop.call(*words.split())
        assert said.code == code
        assert "note: 1 fault in the books; `fitlore check` shows them" in said.err
    assert said.out.startswith(("fitlore.yaml:1:", "fitlore.yaml:2:"))


def test_a_key_that_is_unknown_in_the_shop_file_costs_nothing_else(shop: Shop) -> None:
    """The shop's books still answer."""
    file = shop.folder / "fitlore.yaml"
    file.write_text(file.read_text("utf-8") + "colour: green\n", "utf-8")
    said = shop.call("fits", "radiator")
    assert said.code == 0
    assert said.err == "note: 1 fault in the books; `fitlore check` shows them\n"


def test_without_a_shop_only_the_built_in_knowledge_answers(tmp_path: Path) -> None:
    """In a folder that is no shop every command says so and ends in its own way."""
    folder = tmp_path / "lowbarn"
    folder.mkdir()
    shop = Shop(folder)
    codes = [("car", 1), ("fits radiator", 2), ("where radiator", 2), ("plan", 2), ("check", 0), ("why", 2)]
    for words, code in codes:
        said = shop.call(*words.split())
        assert said.code == code, (words, said)
        assert "no fitlore.yaml here or above" in said.err or words == "why"


def test_a_pick_that_cannot_be_kept_is_not_said_to_be_kept(tmp_path: Path) -> None:
    """A file stands where the folder should be (a read-only folder would be none to an administrator)."""
    shop = copy_of_the_demo(tmp_path)
    (shop.folder / ".fitlore").write_text("in the way", "utf-8")
    said = shop.call("car", "green")
    assert (said.code, said.out) == (2, "")
    assert "the pick cannot be kept" in said.err


def test_an_answer_that_cannot_be_remembered_is_still_given(tmp_path: Path) -> None:
    """The answer comes, with a note that `why` will not know it."""
    shop = copy_of_the_demo(tmp_path)
    (shop.folder / ".fitlore").write_text("in the way", "utf-8")
    said = shop.call("fits", "rear wheel cylinder", "--car", "green")
    assert (said.code, said.out.splitlines()[0]) == (0, "the green estate (kestin-tolland)")
    assert said.err.startswith("note: the numbers cannot be remembered for `why`: ")
    assert len(said.err.splitlines()) == 1


def test_a_session_that_cannot_be_read_is_a_new_one(shop: Shop) -> None:
    """Half a file is no reason to fail; the car is picked again."""
    (shop.folder / ".fitlore" / "session.json").write_text('{"car": "gre', "utf-8")
    assert shop.call("car").code == 1
    assert shop.call("car", "green").code == 0


def test_a_picked_car_that_is_gone_is_told(shop: Shop) -> None:
    """It is not silently as if none had been picked."""
    book = shop.folder / "books" / "cars.yaml"
    book.write_text(book.read_text("utf-8").replace("- car: green\n", "- car: verdant\n"), "utf-8")
    said = shop.call("car")
    assert said.code == 1
    assert "the picked car 'green' is no longer in the books" in said.err


ODD = [
    ({"COLUMNS": "40"}, ("plan",)),
    ({"COLUMNS": "40"}, ("fits", "rear brakes")),
    ({"COLUMNS": "40"}, ("where", "radiator", "--on", "2026-12-03")),
    ({"COLUMNS": "7"}, ("car",)),
    ({"COLUMNS": "wide"}, ("car",)),
    ({"TERM": "dumb"}, ("car",)),
]


@pytest.mark.parametrize(("environment", "words"), ODD)
def test_odd_terminals(environment: dict[str, str], words: tuple[str, ...], asked: Shop) -> None:
    """Narrow, nonsense or dumb: the same words are printed, without colour, nothing cut, hardly a line too long."""
    plain, odd = asked.call(*words), asked.call(*words, **environment)
    assert odd.code == plain.code
    assert odd.out.split() == plain.out.split()
    assert "\x1b" not in odd.out
    if environment.get("COLUMNS") in ("40", "7"):
        assert max(map(len, odd.out.splitlines())) <= 50


def test_an_output_that_is_not_utf_8_loses_nothing(shop: Shop) -> None:
    """Signs it cannot hold are written with the letters it has."""
    (shop.folder / "books" / "signs.yaml").write_text(
        "- {part: KT 21 0999, maker: Kestin, is: thermostat, name: caf\u00e9}\n", "utf-8"
    )
    said = shop.call("fits", "KT 21 0999 in thermostat", PYTHONIOENCODING="ascii")
    assert said.code == 1
    assert "; cafe\n" in said.out


def run_into(shop: Shop, words: tuple[str, ...], output: int) -> subprocess.CompletedProcess[bytes]:
    """A call whose standard output is this file descriptor."""
    env = {**os.environ, "FITLORE_CACHE": str(shop.folder.parent / "cache"), "PYTHONPATH": str(REPO / "src")}
    return subprocess.run(
        [sys.executable, "-m", "fitlore", *words],
        cwd=shop.folder, env=env, stdout=output, stderr=subprocess.PIPE, check=False, timeout=120,
    )  # fmt: skip


@pytest.mark.parametrize(
    "words", [("car",), ("plan",), ("fits", "rear brakes", "--json"), ("check",), ("fits", "--help")]
)
def test_a_reader_that_went_away_is_no_fault(words: tuple[str, ...], asked: Shop) -> None:
    """As behind `| head -1`: not a word on standard error, exit 2 since the answer was not delivered."""
    reading, writing = os.pipe()
    os.close(reading)
    done = run_into(asked, words, writing)
    os.close(writing)
    assert (done.returncode, done.stderr) == (2, b"")


def test_why_knows_an_answer_that_nobody_read_to_its_end(asked: Shop) -> None:
    """`plan | head -1`, then `why 2`: the numbers are those of the plan."""
    asked.call("fits", "stop lamp switch")
    reading, writing = os.pipe()
    os.close(reading)
    run_into(asked, ("plan",), writing)
    os.close(writing)
    assert asked.call("why").out.splitlines()[1] == "plan"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_a_full_disk_is_said(asked: Shop) -> None:
    """The answer could not be written."""
    full = os.open("/dev/full", os.O_WRONLY)
    done = run_into(asked, ("car",), full)
    os.close(full)
    assert done.returncode == 2
    assert done.stderr.startswith(b"fitlore: ")
    assert b"Traceback" not in done.stderr
