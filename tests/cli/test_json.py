"""`--json` prints what the help page documents: exactly its keys, at every depth."""

from __future__ import annotations

import pytest

from tests.cli.shapes import Keys, differences, read_page
from tests.demo.shop import REPO, Shop

CALLS = [
    ("car", (), 0),
    ("fits", ("rear", "wheel", "cylinder"), 0),
    ("fits", ("OS", "7133", "04", "in", "stop", "lamp", "switch"), 1),
    ("fits", ("rear", "brakes"), 1),
    ("fits", ("front", "seat", "right"), 0),
    ("where", ("radiator", "--on", "2026-12-03"), 0),
    ("where", ("track", "rod", "end", "left", "--on", "2026-12-03"), 0),
    ("where", ("rear", "lamp", "--on", "2026-12-03"), 0),
    ("plan", (), 0),
    ("plan", ("by", "2026-12-04"), 1),
    ("plan", ("--prices",), 0),
    ("plan", ("--trade-offs",), 0),
    ("why", ("1",), 0),
    ("why", ("not", "KT 53 0190", "in", "rear wheel cylinder"), 0),
    ("why", (), 0),
    ("check", (), 0),
    ("what", ("9.5 outside, 24 to the inch",), 0),
    ("what", ("wheel cylinder 22.2 bore",), 0),
    ("what", ("thread 10.2 outside, pitch 1",), 1),
    ("what", ("wheel cylinder",), 0),
    ("what", ("alternator",), 0),
    ("compare", ("M10x1", "with", "3/8-24 UNF"), 1),
    ("compare", ("KT 21 0440", "with", "TC 330 118"), 1),
    ("books_policy", (), 0),
    ("books_policy", ("braking",), 0),
    ("books_count", (), 0),
    ("books_count", ("--built-in",), 0),
    ("books_query", (), 0),
    ("books_shelf", (), 0),
]
"""A command of a group has its group in front, as its page has."""


@pytest.mark.parametrize(("name", "words", "code"), CALLS, ids=[f"{n} {' '.join(w)}" for n, w, _ in CALLS])
def test_the_json_has_exactly_the_keys_of_the_page(
    name: str, words: tuple[str, ...], code: int, asked: Shop
) -> None:
    """It parses, nothing else is on standard output, and no key is missing, undocumented or of another kind."""
    if name == "why":
        asked.call("fits", "rear", "wheel", "cylinder")
    said = asked.call(*name.split("_"), *words, "--json")
    assert (said.code, said.err) == (code, "")
    page = read_page((REPO / "src" / "fitlore" / "cli" / f"{name}.md").read_text("utf-8"))
    measured = any(sign.isdigit() for sign in "".join(words))
    last = (name == "why" and not words) or "--trade-offs" in words or (name == "what" and not measured)
    shape = page.answers[-1 if last else 1 if name == "why" and words[0] == "not" else 0]
    assert isinstance(shape, Keys)
    assert differences(page, shape, said.json) == []


def test_a_shape_is_read_as_it_is_meant() -> None:
    """The reader of pages itself: lists, maps, named shapes, and each kind of difference."""
    page = read_page(
        'x\n\nJSON: {"a", "b": [{"c"}], "d": {WORD: [VALUES]},\n"p": PROOF}\nPROOF: {"e", "under": [PROOF]}\n'
    )
    good = {"a": 1, "b": [{"c": 2}], "d": {"x": ["y"]}, "p": {"e": 1, "under": [{"e": 2, "under": []}]}}
    assert differences(page, page.answers[0], good) == []
    bad = {
        "a": 1,
        "b": [{}],
        "d": {"x": "y"},
        "p": {"e": 1, "under": [{"e": 2, "under": [], "f": 3}]},
        "z": 0,
    }
    assert sorted(differences(page, page.answers[0], bad)) == [
        ".b[].c: on the page, not printed",
        ".d.x: no list",
        ".p.under[].f: printed, not on the page",
        ".z: printed, not on the page",
    ]


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-8"])
def test_the_json_is_json_whatever_the_output_can_hold(encoding: str, shop: Shop) -> None:
    """A degree sign and an e with an accent come through an output that is not UTF-8."""
    (shop.folder / "books" / "signs.yaml").write_text(
        "- part: KT 21 0999\n  maker: Kestin\n  is: thermostat\n  name: caf\u00e9 82 \u00b0C \u2264 90\n",
        "utf-8",
    )
    said = shop.call("fits", "KT 21 0999 in thermostat", "--json", PYTHONIOENCODING=encoding)
    assert said.json["answers"][0]["candidates"][0]["name"] == "caf\u00e9 82 \u00b0C \u2264 90"


def test_numbers_count_through_all_places_and_why_knows_them(asked: Shop) -> None:
    """Where several places are answered the numbers go on, and `why` of the last one tells of the last place."""
    answers = asked.call("where", "window", "winder", "--on", "2026-12-03", "--json").json["answers"]
    numbers = [row["number"] for answer in answers for row in answer["sources"]]
    assert len(answers) == 2
    assert numbers == list(range(1, len(numbers) + 1))
    last = answers[-1]["sources"][-1]
    proof = asked.call("why", str(numbers[-1]), "--json").json
    assert last["line"] in proof["because"]["lines"]
