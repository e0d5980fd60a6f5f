"""The demo shop in Turtle gives the same answers as in YAML, byte for byte but for the places.

Two shops are held against the one of YAML:

1. Each book exported to a book of Turtle of the same name, in the order of its text. What `--json` prints is equal, byte for
   byte, once the places are taken out of both. Taken out is, by `PLACE` and nothing else: the ending of a book's name, and
   line and column behind it, in the one form in which people are shown them (`shop/cars.yaml:12:3`) and in the three members
   of a diagnostic (`"book"`, `"line"`, `"column"`). They cannot be the same: the same fact stands on another line there. That
   they point to the same fact is tested by itself.
2. All books as one sorted document. There the order of the texts is gone, as after a round through any other program. The
   order in which candidates, pieces of evidence and values of a list are shown follows the text, so what is compared is what
   an answer says: every verdict with its reasons, every sum of a plan, every finding of a check.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from click.testing import CliRunner

from fitlore.books.alike import said
from fitlore.books.layout import books_of
from fitlore.books.reading import read_book
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import root
from fitlore.graph.open import open_graph
from fitlore.model.record import Rec
from fitlore.upkeep.export import export, export_shelf

DEMO = Path(__file__).parents[2] / "demo" / "lowbarn"
PLACE = re.compile(r'(shop/[\w./-]+?)\.(?:yaml|ttl)(?:(?::\d+){1,2}|",\n +"line": \d+,\n +"column": \d+)?')
WHERE = (
    "radiator", "rear wheel cylinder", "alternator", "stop lamp switch", "window winder right", "battery", "water pump",
    "thermostat", "front tyre", "head gasket",
)  # fmt: skip


class Reply(NamedTuple):
    """The exit code and what was printed."""

    code: int
    text: str


class Shops(NamedTuple):
    """The demo shop three times."""

    yaml: Path
    turtle: Path
    sorted: Path


@pytest.fixture(scope="module")
def shops(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shops]:
    """The demo shop in YAML, book by book in Turtle, and as one sorted document; with the green car picked in each."""
    place = tmp_path_factory.mktemp("shops")
    made = Shops(place / "yaml", place / "turtle", place / "sorted")
    shutil.copytree(DEMO, made.yaml, ignore=shutil.ignore_patterns(".fitlore"))
    export_shelf(DEMO / "books", made.turtle / "books", "turtle")
    (made.sorted / "books").mkdir(parents=True)
    (made.sorted / "books" / "all.ttl").write_bytes(export(DEMO, "turtle"))
    for folder in (made.turtle, made.sorted):
        shutil.copy(DEMO / "fitlore.yaml", folder)
    assert not [path for folder in (made.turtle, made.sorted) for path in folder.rglob("books/*.yaml")]
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("FITLORE_CACHE", str(place / "cache"))
        patch.setenv("NO_COLOR", "1")
        patch.delenv("FITLORE_KB", raising=False)
        for folder in made:
            assert ask(folder, ("car", "green")).code == 0
        yield made


def ask(folder: Path, words: Iterable[str]) -> Reply:
    """Asks the command line in this process; a fault of the program is raised, a question that cannot be answered is exit 2."""
    done = CliRunner().invoke(root, ["--kb", str(folder), *words], standalone_mode=False)
    if isinstance(done.exception, CouldNot):
        return Reply(2, str(done.exception))
    if done.exception is not None:
        raise done.exception
    return Reply(int(done.return_value or 0), done.stdout)


@pytest.fixture(scope="module")
def places(shops: Shops) -> list[str]:
    """Every place of the platform of the green car."""
    graph = open_graph(shops.yaml)
    (car,) = (car for car in graph.cars() if "green" in car.name)
    return [place.full_path for place in graph.places(car.is_)]


@pytest.fixture(scope="module")
def questions(places: list[str]) -> list[tuple[str, ...]]:
    """What fits at every place, where ten things are to be had, the plan, the plan with an hour less, the check, the car."""
    asked = [("fits", path, "--json") for path in places]
    asked += [("where", words, "--json") for words in WHERE]
    return [
        *asked,
        ("plan", "--json"),
        ("plan", "--hours", "17", "--json"),
        ("check", "--json"),
        ("car", "green", "--json"),
    ]


@pytest.fixture(scope="module")
def replies(shops: Shops, questions: list[tuple[str, ...]]) -> dict[tuple[str, ...], tuple[Reply, ...]]:
    """The replies of the three shops to every question."""
    return {words: tuple(ask(folder, words) for folder in shops) for words in questions}


def test_there_are_enough_questions(
    questions: list[tuple[str, ...]], replies: dict[tuple[str, ...], tuple[Reply, ...]]
) -> None:
    """Many more than forty, none asked twice, nearly all with an answer."""
    assert len(set(questions)) == len(questions)
    assert sum(yaml.code < 2 for yaml, *_ in replies.values()) >= 90


def test_the_answers_are_the_same_byte_for_byte(replies: dict[tuple[str, ...], tuple[Reply, ...]]) -> None:
    """Each question, once the places are taken out: the same exit code and the same text."""
    for words, (yaml, turtle, _) in replies.items():
        assert turtle.code == yaml.code, words
        assert PLACE.sub(r"\1", turtle.text) == PLACE.sub(r"\1", yaml.text), words


def test_what_is_taken_out_are_the_places_and_no_more(
    replies: dict[tuple[str, ...], tuple[Reply, ...]],
) -> None:
    """Without the one regular expression the answers differ; the answers in Turtle name no book of YAML of the shop."""
    assert PLACE.sub(r"\1", '"shop/a-b.yaml:1:2", "n": 3') == '"shop/a-b", "n": 3'
    assert (
        PLACE.sub(r"\1", '"book": "shop/a.ttl",\n  "line": 3,\n  "column": 4,\n "x"')
        == '"book": "shop/a,\n "x"'
    )
    assert PLACE.sub(r"\1", "kb/a.yaml:1:2") == "kb/a.yaml:1:2"
    assert sum(yaml.text != turtle.text for yaml, turtle, _ in replies.values()) > 80
    assert not any(re.search(r"shop/[\w./-]+\.yaml", turtle.text) for _, turtle, _ in replies.values())


def sayings(folder: Path) -> dict[str, set[str]]:
    """What stands at each place of the shop's books: every record and piece of one, in words that both forms share."""
    found: dict[str, set[str]] = {}
    for book in books_of(folder):
        todo: list[object] = list(read_book(book.shown, book.path.read_bytes(), book.graph_name).records)
        while todo:
            one = todo.pop()
            if isinstance(one, Rec):
                found.setdefault(str(one.origin), set()).add(repr(said(one)))
                todo += [getattr(one, name) for name in one.__struct_fields__]
            elif isinstance(one, dict):
                todo += one.values()
            elif isinstance(one, tuple):
                todo += one
    return found


def test_the_places_point_to_the_same_facts(
    shops: Shops, replies: dict[tuple[str, ...], tuple[Reply, ...]]
) -> None:
    """Place by place in the order of the answers: what stands there in Turtle is what stands there in YAML."""
    in_yaml, in_turtle = sayings(shops.yaml), sayings(shops.turtle)
    pairs = 0
    for words, (yaml, turtle, _) in replies.items():
        if words[0] == "check":
            continue  # its places are of keys as well as of records
        ours, theirs = ([match[0] for match in PLACE.finditer(reply.text)] for reply in (yaml, turtle))
        for one, other in zip(ours, theirs, strict=True):
            pairs += 1
            assert in_yaml[one] & in_turtle[other], (words, one, other)
    assert pairs > 2500


def substance(words: tuple[str, ...], reply: Reply) -> Any:
    """What an answer says, without the order in which it is shown."""
    if reply.code == 2:
        return reply
    data = json.loads(reply.text)
    if words[0] == "fits":
        return reply.code, sorted((one["place"], one["side"], _candidates(one)) for one in data["answers"])
    if words[0] == "where":
        rows = [(a["place"], a["side"], _rows(a["sources"])) for a in data["answers"]]
        return reply.code, sorted(rows)
    if words[0] == "check":
        return reply.code, sorted((f["code"], f["severity"], f["message"]) for f in data["faults"])
    if words[0] == "car":
        cars = [{key: one[key] for key in one if key != "line"} for one in data["cars"]]
        for car in cars:
            car["not-looked-at"].sort()
            car["facts"] = {fact: sorted(values) for fact, values in car["facts"].items()}
        return reply.code, data["picked"], sorted(cars, key=lambda car: str(car["car"]))
    money = [
        data[key] for key in ("status", "cost", "cash-now", "most-to-pay", "minutes", "money-at-the-end")
    ]
    lines = [(row["need"], row["option"], row["part"], str(row["runner-up"])) for row in data["lines"]]
    orders = [
        (
            o["supplier"],
            o["goods"],
            o["carriage"],
            sorted((r["price"], r["packs"], sorted(r["for"])) for r in o["lines"]),
        )
        for o in data["orders"]
    ]
    return reply.code, money, sorted(lines, key=str), sorted(orders)


def _candidates(answer: Any) -> list[str]:
    return sorted(
        json.dumps(
            {
                **{key: one[key] for key in ("part", "maker", "verdict", "way", "minutes", "missing")},
                **{key: sorted(one[key]) for key in ("claims", "work", "keep", "tell-buyer")},
                "features": sorted((row["feature"], row["state"]) for row in one["features"]),
                "asks": sorted(ask["about"] for ask in one["asks"]),
            },
            sort_keys=True,
        )
        for one in answer["candidates"]
    )


def _rows(sources: Any) -> list[str]:
    left_out = ("number", "line", "also")
    return sorted(
        json.dumps({k: v for k, v in s.items() if k not in left_out}, sort_keys=True) for s in sources
    )


def test_no_answer_hangs_on_the_order_of_the_text(replies: dict[tuple[str, ...], tuple[Reply, ...]]) -> None:
    """In one document, sorted by what it says, every answer says the same."""
    for words, (yaml, _, in_one) in replies.items():
        assert substance(words, in_one) == substance(words, yaml), words
