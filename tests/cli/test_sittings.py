"""What new users stumbled over and must not stumble over again: slips that gave a yes, lost a word, or led nowhere."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from openpyxl import Workbook

from tests.demo.shop import Shop

DAY = {"FITLORE_TODAY": "2026-12-03"}


def books(shop: Shop) -> dict[Path, bytes]:
    """Every book as it is."""
    return {path: path.read_bytes() for path in sorted((shop.folder / "books").rglob("*.yaml"))}


def test_a_slip_in_what_is_really_on_the_car_answers_nothing(shop: Shop) -> None:
    """With `rear-axel` the Packet's axle would be forgotten, and the book's cylinder would fit: there is no answer instead."""
    book = shop.folder / "books" / "cars.yaml"
    book.write_text(book.read_text("utf-8").replace("rear-axle:", "rear-axel:", 1), "utf-8")
    for words in (("fits", "rear wheel cylinder"), ("plan",), ("where", "rear wheel cylinder")):
        said = shop.call(*words, **DAY)
        assert (said.code, said.out) == (2, "")
        assert "did you mean `rear-axle`?" in said.err
        assert "cars.yaml:" in said.err


def test_a_slip_in_a_place_that_is_really_on_the_car_answers_nothing(shop: Shop) -> None:
    """The same of one place: a number that stands nowhere says nothing of what is there."""
    book = shop.folder / "books" / "cars.yaml"
    text = book.read_text("utf-8")
    at = text.index("rear-axle:")
    indent = " " * (at - text.rindex("\n", 0, at) - 1)
    book.write_text(f"{text[:at]}brakes/stop-lamp-swich: KT 71 3300\n{indent}{text[at:]}", "utf-8")
    said = shop.call("fits", "stop lamp switch", **DAY)
    assert (said.code, said.out) == (2, "")
    assert "did you mean `brakes/stop-lamp-switch`?" in said.err


@pytest.mark.parametrize(
    "line",
    [
        "Packet winder left for window winder right, fitted",
        "Corva front seat left for front seat right, works",
        "Corva winder left for window winder right, works",
        "TC 330 118 for thermostat, works",
        "MW 21 for KT 48 0070, fitted",
        "oil pressure switch off hale-packet, no number, works",
        "oil pressure switch off hale-packet, no number, for KT 31 0700, works",
        "TC 842 114 L for KT 84 2210 R, works",
        "Packet winder right, fitted on the blue forty",
        "Packet winder right, fitted, useless",
        "Packet winder right, fitted, boiled over",
        "Ostra 40 washer pump, fitted, wouldnt go in",
        "Packet winder right, fitted, snapped off on the motorway",
    ],
)
def test_what_can_hardly_be_meant_is_not_noted(shop: Shop, line: str) -> None:
    """The other side, another kind of thing, a trap without a number, a car of another platform, words of a no."""
    before = books(shop)
    said = shop.call("note", *line.split(), "--yes", **DAY)
    assert said.code == 2, said
    assert books(shop) == before


def test_who_is_heard_from_is_a_name(shop: Shop) -> None:
    """What he says is the remark, not a part of his name."""
    line = "OS 6640 02 for KT 66 4002, heard from Hale it goes straight in"
    said = shop.call("note", *line.split(), "--dry-run", "--json", **DAY).json
    assert "Hale it" not in str(said)
    assert "Hale" in str(said)


def test_a_job_is_found_by_its_car(shop: Shop) -> None:
    """By some of its name, with or without `the`."""
    for words in ("for blue", "for the blue forty", "blue forty"):
        said = shop.call("plan", *words.split(), **DAY)
        assert said.out.startswith("the blue forty"), said


def test_an_extra_of_unknown_worth_is_not_called_too_dear(shop: Shop) -> None:
    """A finding with neither `must` nor `adds` says so where it is left."""
    book = shop.folder / "books" / "jobs.yaml"
    text = book.read_text("utf-8")
    at = text.index("  findings:\n") + len("  findings:\n")
    book.write_text(f"{text[:at]}    - {{at: front-wipers/washer-pump, fault: weak}}\n{text[at:]}", "utf-8")
    said = shop.call("plan", "green-estate", **DAY)
    assert "nobody said that it must be (`must:`) or what it adds (`adds:`)" in " ".join(said.out.split()), (
        said
    )


LIST = "Part No;Name;{heading};Pair\n{rows}"


def imported(shop: Shop, text: str | bytes, *words: str, name: str = "prices.csv") -> tuple[int, str]:
    """A list of Castle Street, looked at: the exit code and all that was said."""
    (shop.folder / name).write_bytes(text.encode() if isinstance(text, str) else text)
    said = shop.call("books", "import", name, "from", "castle-street", *words, **DAY)
    return said.code, " ".join(f"{said.out} {said.err}".split())


@pytest.mark.parametrize(
    "heading", ["Price excl. VAT", "Price exc VAT", "Price + VAT", "Net", "Preis zzgl. MwSt."]
)
def test_net_prices_are_not_taken_for_gross(shop: Shop, heading: str) -> None:
    """However the heading says it; also where the column is named by its number, and where a line above says it."""
    text = LIST.format(heading=heading, rows="KT 48 0090;end;7,42;\n")
    code, said = imported(shop, text, "--price-in", "3", "--number-in", "1")
    assert (code, "P08-tax-differs" in said) == (2, True)
    above = "All prices exclude VAT;;;\n" + LIST.format(heading="Price", rows="KT 48 0090;end;7,42;\n")
    assert "P08-tax-differs" in imported(shop, above)[1]


def test_a_line_with_a_cell_too_many_is_held(shop: Shop) -> None:
    """A divider in an unquoted text moves the price by a column."""
    text = LIST.format(heading="Price", rows="KT 56 0200;damper; rear;18,00;30,00\nKT 48 0090;end;8,60;\n")
    code, said = imported(shop, text)
    assert (code, "P28-torn-line" in said) == (1, True)
    assert "8.90 GBP -> 8.60 GBP" in said


def test_an_empty_workbook_is_no_table(shop: Shop) -> None:
    """Told, with a remedy."""
    data = io.BytesIO()
    Workbook().save(data)
    code, said = imported(shop, data.getvalue(), name="empty.xlsx")
    assert (code, "P01-no-table" in said) == (2, True)


def test_a_list_that_changes_nothing_writes_nothing(shop: Shop) -> None:
    """So that `undo` takes back the one before it, and no other."""
    text = LIST.format(heading="Price", rows="KT 48 0090;end;8,60;\n")
    before = books(shop)
    assert "1 changed" in imported(shop, text, "--write")[1]
    assert "nothing was written" in imported(shop, text, "--write")[1]
    assert shop.call("undo").code == 0
    assert books(shop) == before


def test_a_list_of_another_dress_is_read_after_all(shop: Shop) -> None:
    """How the last list was divided is kept, and is no law for the next one."""
    semicolons = LIST.format(heading="Price", rows="KT 48 0090;end;8,60;\n")
    assert imported(shop, semicolons, "--write")[0] == 0
    assert "8.60 GBP -> 8.50 GBP" in imported(shop, semicolons.replace("8,60", "8,50").replace(";", "\t"))[1]


def test_a_place_that_two_shelves_describe_is_as_our_own_has_it(shop: Shop) -> None:
    """Another shop's copy of our platform, on a shelf that counts as told, takes nothing from ours."""
    alone = shop.call("fits", "track rod end", "--json", **DAY).json
    theirs = shop.folder / "theirs"
    theirs.mkdir()
    for path in (shop.folder / "books").glob("platforms-*.yaml"):
        (theirs / path.name).write_bytes(path.read_bytes())
    layout = shop.folder / "fitlore.yaml"
    layout.write_text(
        layout.read_text("utf-8") + "  - {shelf: highfield, folder: theirs, trust: told}\n", "utf-8"
    )
    both = shop.call("fits", "track rod end", "--json", **DAY).json
    assert [(row["part"], row["verdict"]) for row in both["answers"][0]["candidates"]] == [
        (row["part"], row["verdict"]) for row in alone["answers"][0]["candidates"]
    ]
