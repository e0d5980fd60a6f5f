"""`fits` of many places and of a part alone: dangers first and whole, one line per place, and what else does the job."""

from __future__ import annotations

import re

import pytest

from tests.cli.shapes import Keys, differences, read_page
from tests.demo.shop import REPO, Shop


@pytest.mark.parametrize("words", ["rear brakes", "whole car", "lighting", "tarn-corva"])
def test_the_dangers_of_all_places_come_first_and_whole(words: str, asked: Shop) -> None:
    """At every width no danger stands below a candidate, and each says how to tell on the bench where it can be told."""
    for width in ("40", "80", "120"):
        lines = asked.call("fits", *words.split(), COLUMNS=width).out.splitlines()
        dangers = [n for n, line in enumerate(lines) if line.startswith("! ")]
        first = next(n for n, line in enumerate(lines) if re.match(r" ?\d+  ", line))
        assert dangers
        assert max(dangers) < first
        assert "…" not in " ".join(lines[: first - 1])


def test_every_trap_of_the_answer_is_among_the_dangers(asked: Shop) -> None:
    """Each part of which the JSON tells a danger is named in a danger line."""
    answers = asked.call("fits", "whole", "car", "--json").json["answers"]
    text = asked.call("fits", "whole", "car", COLUMNS="4000").out
    dangers = " ".join(line for line in text.splitlines() if line.startswith("! "))
    traps = {row["part"] for answer in answers for row in answer["candidates"] if row["danger"]}
    assert traps
    assert [part for part in traps if part not in dangers] == []


def test_a_whole_car_is_one_line_per_place(asked: Shop) -> None:
    """Every place of the car once (each side where left and right differ), its best candidate, numbered as in the JSON."""
    answers = asked.call("fits", "whole", "car", "--json").json["answers"]
    text = asked.call("fits", "whole", "car", COLUMNS="400").out
    numbers = [int(m[1]) for m in re.finditer(r"(?m)^ *(\d+)  ", text)]
    assert numbers == [answer["candidates"][0]["number"] for answer in answers if answer["candidates"]]
    for answer, line in zip(answers, re.findall(r"(?m)^ *\d+  .*$", text), strict=True):
        assert answer["candidates"][0]["part"] in line
    assert f"{len(answers)} places" in text


def test_a_car_or_platform_by_name_is_a_whole_car(asked: Shop) -> None:
    """The picked one by its words or its name; another one by name; a platform without a car."""
    mine = asked.call("fits", "whole", "car").out
    assert asked.call("fits", "everything").out == mine
    assert asked.call("fits", "green").out == mine
    assert asked.call("fits", "blue", "forty").out.startswith("the blue forty (ostra-40)\n")
    assert asked.call("fits", "velm-packet").out.startswith("no car picked; asked of any velm-packet\n")


def test_why_knows_a_line_of_a_whole_car(asked: Shop) -> None:
    """The last number shown has its proof."""
    answers = asked.call("fits", "whole", "car", "--json").json["answers"]
    last = answers[-1]["candidates"][0]
    assert asked.call("why", str(last["number"]), "--json").json["because"] == last["because"]


def test_a_part_alone_is_told_with_what_else_does_its_job(asked: Shop) -> None:
    """The part first, then what goes there; the exit code is that of the part, not of the others."""
    good = asked.call("fits", "TC 330 118")
    assert good.code == 0
    assert (
        good.out.index("TC 330 118")
        < good.out.index("what else does its job there")
        < good.out.index("KT 21 0440")
    )
    bad = asked.call("fits", "KT 53 0190")
    assert bad.code == 1
    assert bad.out.index("KT 53 0190") < bad.out.index("what goes there") < bad.out.index("VP 71 440")
    assert asked.call("fits", "KT 84 2210 R").code == 0


def test_without_a_car_a_part_is_asked_where_it_is_the_original(shop: Shop) -> None:
    """Or where one is that it stands in for."""
    assert shop.call("car", "--none").code == 0
    for number in ("KT 21 0440", "TC 330 118", "BR 34 12 40"):
        said = shop.call("fits", number)
        assert (said.code, said.err) == (0, "")
        assert number in said.out
    assert shop.call("fits", "whole", "car").code == 2


@pytest.mark.parametrize("words", ["whole car", "TC 330 118", "ostra-40"])
def test_the_json_is_that_of_the_page_and_the_same_twice(words: str, asked: Shop) -> None:
    """Of a whole car, a platform, a part alone."""
    said = asked.call("fits", *words.split(), "--json")
    page = read_page((REPO / "src" / "fitlore" / "cli" / "fits.md").read_text("utf-8"))
    shape = page.answers[0]
    assert isinstance(shape, Keys)
    assert differences(page, shape, said.json) == []
    assert asked.call("fits", *words.split(), "--json").out == said.out


@pytest.mark.parametrize("words", ["kestin-tolland/tailgate/strut", "tailgate/strut", "Tailgate/Strut@left"])
def test_a_path_as_the_books_write_it_means_that_place_alone(words: str, asked: Shop) -> None:
    """Though the words in it would read as another place too (the strut of the bonnet)."""
    answers = asked.call("fits", words, "--json").json["answers"]
    assert [answer["place"] for answer in answers] == ["kestin-tolland/tailgate/strut"]


def test_what_nobody_has_looked_at_stands_above_the_candidates(asked: Shop) -> None:
    """The matrix and the clutch of the green car are on its list of what was not looked at; the radiator is not."""
    for words in ("clutch", "heater matrix"):
        lines = asked.call("fits", *words.split()).out.splitlines()
        assert lines[2].startswith("  first look what is at"), words
    assert "first look" not in asked.call("fits", "radiator").out


def test_of_many_that_nobody_claims_a_dozen_is_shown_and_the_rest_counted(shop: Shop) -> None:
    """Fifteen headlamps like the original: twelve of them and `3 more` in words and in JSON; `--all` shows fifteen."""
    lamps = (shop.folder / "books" / "parts-lighting.yaml").read_text("utf-8")
    start = lamps.index("- part: KT 70 4100\n")
    record = lamps[start : lamps.index("\n- part: ", start)].rstrip("\n")
    more = [
        record.replace("KT 70 4100", f"BR 70 {n}").replace("maker: Kestin", "maker: Brede")
        for n in range(10, 25)
    ]
    (shop.folder / "books" / "parts-more-lamps.yaml").write_text("\n\n".join(more) + "\n", "utf-8")
    (short,) = shop.call("fits", "headlamp", "--json").json["answers"]
    (every,) = shop.call("fits", "headlamp", "--json", "--all").json["answers"]
    mine = [row["part"] for row in short["candidates"] if row["maker"] == "Brede"]
    assert mine == [f"BR 70 {n}" for n in range(10, 22)]
    assert (short["more-by-measure"], short["more-traps"]) == (3, 0)
    assert (every["more-by-measure"], every["more-traps"]) == (0, 0)
    assert len([row for row in every["candidates"] if row["maker"] == "Brede"]) == 15
    assert "  and up to 3 more by measure; --all shows them\n" in shop.call("fits", "headlamp").out
    assert "--all" not in shop.call("fits", "headlamp", "--all").out
