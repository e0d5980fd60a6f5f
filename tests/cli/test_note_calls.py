"""`note` in trade words: parts by whose they are, off a donor, without a number; what is asked back; what it changes."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from fitlore.cli.failure import CouldNot
from fitlore.cli.root import root
from tests.cli.restoring import put_back, saved
from tests.cli.shapes import Keys, differences, read_page
from tests.cli.test_note import BOOK, books
from tests.demo.shop import REPO, Said, Shop, copy_of_the_demo

DAY = {"FITLORE_TODAY": "2026-12-03"}


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Shop:
    """The demo shop with the green estate picked, its books read once."""
    made = copy_of_the_demo(tmp_path_factory.mktemp("noting"))
    assert made.call("car", "green").code == 0
    return made


@pytest.fixture
def shop(whole: Shop) -> Iterator[Shop]:
    """The same, put back as it was after each test."""
    files = saved(whole)
    yield whole
    put_back(whole, files)


def words(line: str) -> list[str]:
    """A line as a shell hands it over."""
    return line.split()


def here(shop: Shop, *typed: str) -> Said:
    """The same call in this very process, which is quicker: for lines that write nothing."""
    env = {**DAY, "FITLORE_CACHE": str(shop.folder.parent / "cache"), "COLUMNS": "100", "NO_COLOR": "1"}
    done = CliRunner().invoke(
        root, ["--kb", str(shop.folder), "note", *typed, "--dry-run"], env=env, standalone_mode=False
    )
    if done.exception is not None:
        assert isinstance(done.exception, CouldNot), done
        return Said(2, done.stdout, f"fitlore: {done.exception}\n")
    return Said(done.return_value, done.stdout, done.stderr)


def dry(shop: Shop, line: str, *more: str) -> Any:
    """What a line would do, as JSON."""
    said = here(shop, *line.split(), *more, "--json")
    assert said.code in (0, 1), said
    return said.json


def test_the_winder_call_does_what_it_says(shop: Shop) -> None:
    """`note Corva winder for window winder right, works`: one more word on the claim there is; one undo and all is as before."""
    before = books(shop)
    said = shop.call(*words("note Corva winder for window winder right, works"), **DAY)
    assert said.code == 0
    assert "one more word on claim tolland-winder-from-corva" in " ".join(said.out.split())
    new = (shop.folder / BOOK).read_text("utf-8")
    assert "- {how: fitted, by: shop, date: 2026-12-03, on-car: green}" in new
    old = before[str(BOOK)].decode()
    assert [row for row in old.splitlines() if row not in new.splitlines()] == []
    assert len(new.splitlines()) == len(old.splitlines()) + 1
    assert shop.call("undo").code == 0
    assert books(shop) == before


def test_the_damper_call_does_what_it_says(shop: Shop) -> None:
    """`note not Corva rear damper, 12 mm too long closed`: the place follows from the words, on the axle that is said."""
    before = books(shop)
    said = shop.call(*words("note not Corva rear damper, 12 mm too long closed"), "--json", **DAY).json
    assert said["written"]
    told = said["understood"]
    assert (told["use"], told["instead-of"], told["claim"]) == (
        "TC 560 118", "KT 56 0200", "tolland-rear-damper-from-corva",
    )  # fmt: skip
    assert (told["against"], told["how"], told["note"]) == (True, "offered-up", "12 mm too long closed")
    assert shop.call("undo").code == 0
    assert books(shop) == before


READINGS = [
    ("Tarn winder for window winder right, works", "TC 842 114 R", "KT 84 2210 R", "fitted"),
    ("Corva winder left, measured", "TC 842 114 L", "KT 84 2210 L", "measured"),
    ("winder off field-corva for window winder right, works", "TC 842 114 R", "KT 84 2210 R", "fitted"),
    ("TC842114R for kt 84 2210 r, offered up", "TC 842 114 R", "KT 84 2210 R", "offered-up"),
    ("tolland-winder-from-corva, heard from Pell", "TC 842 114 R", "KT 84 2210 R", "told"),
    ("KT 84 2210 R for Corva window winder right, fitted", "TC 842 114 R", "KT 84 2210 R", "fitted"),
    ("Corva thermostat for Ostra thermostat, measured", "TC 330 500", "OS 2151 0", "measured"),
    ("VP 71 442 for rear wheel cylinder, fitted", "VP 71 442", None, "fitted"),
    ("TC 330 118 with TC 330 207 at bottom hose for radiator, fitted", "TC 330 118", "KT 21 0440", "fitted"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "use", "instead", "how"), READINGS, ids=[row[0] for row in READINGS])
def test_parts_are_named_as_people_name_them(
    line: str, use: str, instead: str, how: str, whole: Shop
) -> None:
    """By maker or model with the kind, by number with any spaces, off a described donor, by the claim's own name."""
    said = dry(whole, line)
    told = said["understood"]
    assert (told["use"], told["instead-of"], told["how"], told["new"]) == (use, instead, how, False)
    assert said["book"] == "shop/crossfits.yaml"


ASKED_BACK = [
    ("Corva winder for window winder, works", ["doors/window-winder@left", "doors/window-winder@right"]),
    ("winder for window winder right, works", ["Tarn TC 842 114 R", "Velm VP 84 310 R", "write the number"]),
    ("Corva damper for strut, works, not so sure", ["note not"]),
    ("TC 560 118, measured", ["front-suspension/strut-insert", "rear-suspension/damper"]),
    ("blower motor off field-corva for blower motor, fitted", ["Tarn TC 664 100", "`no number`"]),
    ("blower motor off someone for blower motor, fitted", ["no donor, platform or supplier", "field-corva"]),
    ("OS 4810 316 for track rod, fitted", []),
    ("take back Packet winder right for window winder right, other car", ["nothing to take back"]),
    ("TC 330 118 for radiator, fitted on 3 dec 2030", ["still to come"]),
    ("TC 330 118 for radiator, fitted by Hale --by Pell", ["'hale'", "'pell'"]),
]


@pytest.mark.parametrize(("line", "says"), ASKED_BACK, ids=[row[0] for row in ASKED_BACK])
def test_what_is_open_is_listed_and_nothing_guessed(line: str, says: list[str], whole: Shop) -> None:
    """Exit 2 with the readings on standard error, unless the picked car settles it (its rods are 340 mm)."""
    said = here(whole, *line.split())
    if not says:
        assert said.code == 0
        assert "the job of KT 48 0340" in said.out
        return
    assert (said.code, said.out) == (2, "")
    assert [word for word in says if word not in said.err] == []


def test_without_a_car_the_words_may_say_enough(shop: Shop) -> None:
    """With the platform named the claim is about that one; without, the readings are listed (exit 2) and nothing is written."""
    before = books(shop)
    shop.call("car", "--none")
    said = shop.call(*words("note Corva winder for window winder right, works"), **DAY)
    assert (said.code, said.out) == (2, "")
    assert "kestin-tolland/doors/window-winder@right, ostra-40/doors/window-winder@right" in said.err
    assert books(shop) == before
    told = dry(shop, "Corva winder for Tolland window winder right, works")
    assert told["understood"]["claim"] == "tolland-winder-from-corva"
    assert "on-car" not in told["text"][0]


def test_a_part_without_a_number_gets_one_and_is_undone_with_its_claim(shop: Shop) -> None:
    """It goes among its like with the next of the shop's own numbers (LB 014 is the last); both writes come back."""
    before = books(shop)
    line = "note blower motor off field-forty, no number, marked green, offered up"
    said = shop.call(*line.split(), "--json", **DAY).json
    assert said["written"]
    assert said["new-part"] == {
        "number": "LB 015", "name": "heater blower motor off field-forty",
        "from": "ostra-40", "at": "heating/blower-motor",
    }  # fmt: skip
    assert [row["book"] for row in said["writes"]] == ["shop/parts-heating.yaml", "shop/crossfits.yaml"]
    fits = shop.call("fits", "blower", "motor", "--json").json
    (found,) = [c for c in fits["answers"][0]["candidates"] if c["part"] == "LB 015"]
    assert found["verdict"] == "fits"
    again = dry(shop, "blower motor off field-forty, no number, marked green, fitted 3 weeks")
    assert (again["new-part"], again["understood"]["new"]) == (None, False)
    assert again["understood"]["use"] == "LB 015"
    assert shop.call("undo", "--count", "2").code == 0
    assert books(shop) == before


def test_undo_of_several_writes_stops_before_what_somebody_edited(shop: Shop) -> None:
    """Three writes, an edit in the lines of the second: the third comes back, the others and the edit stay."""
    for line in ("not VP 66 120 for blower resistor, hot", "VP 84 310 R for window winder right, measured"):
        assert shop.call("note", *line.split(), **DAY).code == 0
    book = shop.folder / BOOK
    edited = book.read_bytes().replace(b"use: VP 84 310 R\n", b"use: VP 84 310 R   # mine\n")
    book.write_bytes(edited)
    assert shop.call(*words("note TC 842 114 R for window winder right, works"), **DAY).code == 0
    assert shop.call("undo", "--count", "3").code == 2
    assert book.read_bytes() == edited


def test_taking_back_ends_what_was_said(shop: Shop) -> None:
    """The shop's own word falls, so the winder is unproven and the plan dearer; no warning, since it is his own word."""
    said = shop.call(
        *words("note take back Corva winder for window winder right, other car"), "--json", **DAY
    )
    answer = said.json
    assert (said.code, answer["written"], answer["objections"]) == (0, True, [])
    assert answer["understood"]["taken-back"]
    assert {(row["before"], row["after"]) for row in answer["changes"]} == {("fits", "unproven")}
    assert answer["plans"] == [{"job": "green-estate", "before": "538.30 GBP", "after": "542.30 GBP"}]
    assert shop.call("plan", "--json").json["cost"] == "542.30 GBP"


CHECKS = [
    ("Ostra stop lamp switch for stop lamp switch, fitted", "U03-trap", 1),
    ("tolland-radiator-from-corva, fitted by friend Hale in 2025-09, 14 months, on his own Tolland", "U01-known-already", 1),
    ("Packet blower resistor, measured", "U05-contradicted", 0),
    ("Corva rear lamp right for rear lamp right, offered up", "U04-measures-say-no", 0),
    ("VP 84 310 R for window winder right, measured, both ways", "U06-not-both-ways", 0),
    ("MW 9021 for MW 9021, fitted", "B76-points-at-itself", 1),
]  # fmt: skip


@pytest.mark.parametrize(("line", "code", "exit_"), CHECKS, ids=[row[0] for row in CHECKS])
def test_what_speaks_against_it_is_said_first(line: str, code: str, exit_: int, whole: Shop) -> None:
    """Trap, known already, contradiction, measures, direction: each is said, an error keeps it from being written."""
    said = here(whole, *line.split(), "--json")
    assert said.code == exit_, said
    assert code in [row["code"] for row in said.json["objections"]]


def test_a_doubtful_line_is_not_written_without_yes(shop: Shop) -> None:
    """A warning, and nobody there to ask: exit 1, no byte changes; with --yes it is written."""
    before = books(shop)
    line = words("note Packet blower resistor, measured")
    assert shop.call(*line, **DAY).code == 1
    assert books(shop) == before
    assert shop.call(*line, "--yes", **DAY).code == 0
    assert books(shop) != before


def test_a_dry_run_shows_the_difference_that_is_then_made(shop: Shop) -> None:
    """The difference, put onto the book by a plain reader of `diff -u`, is the book as it is then written."""
    old = (shop.folder / BOOK).read_text("utf-8").splitlines()
    line = words("note VP 84 310 R for window winder right, measured")
    shown = here(shop, *line[1:]).out.splitlines()
    start = shown.index("--- shop/crossfits.yaml")
    end = next(at for at, row in enumerate(shown) if row.startswith("changes "))
    made = patched(old, shown[start:end])
    assert shop.call(*line, **DAY).code == 0
    assert made == (shop.folder / BOOK).read_text("utf-8").splitlines()


def patched(old: list[str], difference: list[str]) -> list[str]:
    """The lines after a unified difference with one hunk (the form of POSIX `diff -u`)."""
    first = int(difference[2].split()[1].lstrip("-").partition(",")[0]) - 1
    taken = [row[1:] for row in difference[3:] if row[:1] in (" ", "-") or not row]
    put = [row[1:] for row in difference[3:] if row[:1] in (" ", "+") or not row]
    assert old[first : first + len(taken)] == taken
    return [*old[:first], *put, *old[first + len(taken) :]]


def test_hints_name_other_cars_and_what_to_measure(whole: Shop) -> None:
    """Pell's Corva wants a winder like it: its own agrees in everything compared, and the joint is to be measured first."""
    (hint,) = dry(whole, "VP 84 310 R for window winder right, measured")["hints"]
    assert hint == {
        "place": "tarn-corva/doors/window-winder", "cars": ["pell-corva"], "original": "TC 842 114 R",
        "same-number": False, "now": "unproven", "measure": ["glass-joint"],
    }  # fmt: skip


def test_the_json_has_exactly_the_keys_of_the_page(shop: Shop) -> None:
    """Of a new claim with hints, of one with a new part, and of one that is refused."""
    pages = REPO / "src" / "fitlore" / "cli"
    page = read_page((pages / "note.md").read_text("utf-8"))
    fault = read_page((pages / "check.md").read_text("utf-8")).answers[0].named["faults"].of
    page = page._replace(named={**page.named, "FAULT": fault})
    (shape,) = page.answers
    assert isinstance(shape, Keys)
    for line in (
        "VP 84 310 R for window winder right, measured",
        "blower motor off field-forty, no number, offered up",
        "Ostra stop lamp switch for stop lamp switch, fitted",
    ):
        assert differences(page, shape, dry(shop, line)) == []


TWINS = [
    ("not Corva rear damper, 12 mm too long closed", ("Corva rear damper", "--not", "--note", "12 mm too long closed")),
    (
        "TC 842 114 R for window winder right, fitted by Hale in may 2024, 7 months, source letter 9",
        (
            "TC 842 114 R", "--for", "window winder right", "--how", "fitted", "--by", "Hale", "--date", "may 2024",
            "--lasted", "7 months", "--source", "letter 9",
        ),
    ),
    (
        "VP 84 310 R for window winder right, measured, both ways, 25 min: drill",
        ("VP 84 310 R", "--for", "window winder right", "--how", "measured", "--both", "--work", "25 min: drill"),
    ),
    (
        "VP 66 120 with VP 66 100 at blower motor for blower resistor, measured",
        ("VP 66 120", "--for", "blower resistor", "--how", "measured", "--with", "VP 66 100 at blower motor"),
    ),
    (
        "take back Corva winder for window winder right, other car",
        ("Corva winder", "--take-back", "--at", "window winder right", "--note", "other car"),
    ),
    (
        "blower motor off field-forty, no number, marked green, offered up",
        ("blower motor", "--off", "field-forty", "--no-number", "--marks", "green", "--how", "offered up"),
    ),
]  # fmt: skip


@pytest.mark.parametrize(("line", "options"), TWINS, ids=[row[0] for row in TWINS])
def test_every_word_has_its_option(line: str, options: tuple[str, ...], whole: Shop) -> None:
    """The same text would be written, to the byte."""
    free = dry(whole, line)
    twin = here(whole, *options, "--json").json
    assert free["writes"] == twin["writes"]
    assert free["writes"]


def at_a_terminal(shop: Shop, *words: str, types: str) -> tuple[int, str, str]:
    """A call whose input and standard error are a terminal on which somebody types these lines; code, output, what it asked."""
    env = {
        **os.environ, **DAY, "COLUMNS": "100", "NO_COLOR": "1", "PYTHONPATH": str(REPO / "src"),
        "FITLORE_CACHE": str(shop.folder.parent / "cache"),
    }  # fmt: skip
    ours, theirs = pty.openpty()
    os.write(ours, types.encode())
    done = subprocess.run(
        [sys.executable, "-m", "fitlore", "note", *words],
        cwd=shop.folder, env=env, stdin=theirs, stdout=subprocess.PIPE, stderr=theirs, check=False, timeout=120,
    )  # fmt: skip
    os.close(theirs)
    os.set_blocking(ours, False)
    seen = os.read(ours, 10000).decode()
    os.close(ours)
    return done.returncode, done.stdout.decode(), seen


def test_on_a_terminal_one_question_is_asked(shop: Shop) -> None:
    """The readings are numbered; a number or other words answer; a second open point is listed as ever (exit 2)."""
    code, out, seen = at_a_terminal(shop, "Corva", "winder,", "works", "--dry-run", types="2\n")
    assert code == 0
    assert " 2  tarn-corva/doors/window-winder@right" in seen
    assert "Tarn TC 842 114 R (window winder of the Corva right) does the job of KT 84 2210 R" in " ".join(
        out.split()
    )
    code, out, seen = at_a_terminal(
        shop, "Corva", "winder", "right", "--dry-run", types="fitted, two years\n"
    )
    assert (code, "lasted 2 years" in " ".join(out.split())) == (0, True)
    code, out, seen = at_a_terminal(shop, "Corva", "winder", "--dry-run", types="2\n")
    assert (code, out) == (2, "")
    assert "say how it is known" in seen
    assert seen.count("which: ") == 1


def test_without_words_the_line_itself_is_asked_for(shop: Shop) -> None:
    """One prompt on a terminal; elsewhere exit 2 with the form of a line."""
    before = books(shop)
    code, out, seen = at_a_terminal(shop, types="Corva winder for window winder right, works\n")
    assert (code, "what goes where" in seen) == (0, True)
    assert "written: shop/crossfits.yaml" in out
    assert books(shop) != before
    said = shop.call("note")
    assert (said.code, said.out) == (2, "")
    assert "note PART for NUMBER-or-PLACE, HOW" in said.err


@pytest.mark.parametrize(
    "typed", [("\udcff for radiator, fitted",), ("KT 1 for KT 2, fitted", "--note", "\udcff")]
)
def test_bytes_that_are_no_text_are_said(typed: tuple[str, ...], whole: Shop) -> None:
    """Half a surrogate pair is how Python hands over a byte that is not UTF-8: exit 2 and a sentence."""
    said = here(whole, *typed)
    assert (said.code, said.out) == (2, "")
    assert "is no text" in said.err


def test_a_supplier_behind_from_is_whose_version_it_was(whole: Shop) -> None:
    """`from postbag`: the word is kept against that supplier's version, not the part as such."""
    said = dry(whole, "not TC 330 660 from postbag for fan switch, never closed")
    assert "from: postbag" in " ".join(said["text"])


def test_jobs_that_take_long_are_left_to_money(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Beyond the time there is, a job is named and not counted; with `--money` it is."""
    from datetime import date

    from fitlore.cli import note_money
    from fitlore.cli.counter import open_counter
    from fitlore.cli.noting import Extras, understood
    from fitlore.upkeep.draft import draft

    monkeypatch.setenv("FITLORE_TODAY", "2026-12-03")
    monkeypatch.setattr(note_money, "PATIENCE", -1.0)
    counter = open_counter(str(shop.folder), "green")
    line = understood(counter, "VP 84 310 R for window winder right, measured", Extras())
    assert counter.folder is not None
    made = draft(counter.graph, line.additions[0], counter.folder, today=date(2026, 12, 3))
    (left,) = note_money.priced(counter.graph, (made,), whole=False)
    assert (left.job, left.counted) == ("green-estate", False)
    (whole,) = note_money.priced(counter.graph, (made,), whole=True)
    assert (whole.before, whole.after, whole.counted) == (53830, 53130, True)


def test_the_car_a_word_is_about_is_said_only_where_it_is_known(whole: Shop) -> None:
    """What the shop tried itself was on the picked car; what somebody told, or what is about another platform, was not."""
    lines = {
        "VP 84 310 R for window winder right, fitted": True,
        "VP 84 310 R for window winder right, heard from Hale": False,
        "VP 84 310 R for window winder right, fitted by Hale": False,
        "VP 84 310 R for Corva window winder right, fitted": False,
    }
    found = {line: "on-car: green" in " ".join(dry(whole, line)["text"]) for line in lines}
    assert found == lines


def test_books_stay_in_order_after_a_note(shop: Shop) -> None:
    """What is written is as `tidy` would have it: nothing is left to change."""
    for line in (
        "VP 84 310 R for window winder right, fitted 7 months, 25 min: drill",
        "blower motor off field-forty, no number, marked green, offered up",
        "not Corva rear damper, 12 mm too long closed",
    ):
        assert shop.call("note", *line.split(), "--yes", **DAY).code == 0
    said = shop.call("tidy", "shop/crossfits.yaml", "shop/parts-heating.yaml", "--dry-run")
    assert said.out.startswith("0 ") or "0 changed" in said.out or "0 would" in said.out, said


def test_where_nobody_picked_a_car_the_one_due_first_is_meant_and_said(tmp_path: Path) -> None:
    """As when asking: its platform says where; on which car it was seen is not written, since nobody said so."""
    shop = copy_of_the_demo(tmp_path)
    for line in (
        "Corva winder for window winder right, works",
        "not Corva rear damper, 12 mm too long closed",
    ):
        before = {path: path.read_bytes() for path in (shop.folder / "books").rglob("*.yaml")}
        said = shop.call("note", *line.split(), FITLORE_TODAY="2026-12-03")
        assert (said.code, said.err) == (0, "")
        assert said.out.startswith(
            "the green estate (kestin-tolland): no car picked; due first (Wed 9 Dec)\n"
        )
        changed = [path for path, data in before.items() if path.read_bytes() != data]
        assert [path.name for path in changed] == ["crossfits.yaml"]
        added = set(changed[0].read_text("utf-8").splitlines()) - set(
            before[changed[0]].decode().splitlines()
        )
        assert added
        assert not [row for row in added if "on-car" in row or "tried-on" in row]
        assert shop.call("undo").code == 0
