"""`check` at the counter: profiles, rules told, the mode for a checking machine, shapes, and the schema for editors."""

from __future__ import annotations

import os
import pty
import re
import subprocess
import sys
from pathlib import Path

from fitlore.upkeep.check import every
from tests.demo.shop import REPO, Shop

LINE = re.compile(r"(.+?):(\d+):(\d+): (error|warning|note) ([A-Za-z][\w-]*): \S.*")
UNKNOWN = "- supplier: newcomer\n  trade: factor\n  offers:\n    - {number: KT 0, price: 1.00 GBP}\n"
TURTLE = '@prefix fl: <https://fitlore.example/terms#> .\n[] fl:shared-work "w" ;\n  fl:minutes "30" .\n'


def test_rules_are_listed_with_their_severity(asked: Shop) -> None:
    """Each rule in a line: name, severity, problem; the profile that is asked for says how bad."""
    rows = [line.split(maxsplit=2) for line in asked.call("check", "--rules").out.splitlines()]
    named = {row[0]: row for row in rows if re.match(r"[QS]\d\d-", row[0])}
    assert set(named) == {row.code for row in every()}
    assert named["Q18-stale-price"] == ["Q18-stale-price", "note", "A price that is out of date"]
    assert named["Q40-no-interface"][1] == "ignore"
    built_in = asked.call("check", "--rules", "--profile", "built-in").out
    assert "Q40-no-interface                   error" in built_in


def test_a_rule_is_explained(asked: Shop) -> None:
    """Its problem, what is wanted, the remedy, its smallest example; the beginning of its name is enough."""
    said = asked.call("check", "--rule", "Q18-stale-price")
    assert said.code == 0
    for text in ("problem:", "wanted:", "remedy:", "written in Python", "stale-after: {breaker: 30}"):
        assert text in said.out
    assert asked.call("check", "--rule", "Q18").out == said.out
    assert "written in SPARQL" in asked.call("check", "--rule", "Q02").out


def test_names_that_there_are_not_have_near_ones(asked: Shop) -> None:
    """A rule and a profile misspelt: exit 2 and what was perhaps meant."""
    rule = asked.call("check", "--rule", "Q18-stale-prise")
    assert (rule.code, rule.out) == (2, "")
    assert "did you mean Q18-stale-price" in rule.err
    profile = asked.call("check", "--profile", "strickt")
    assert (profile.code, profile.out) == (2, "")
    assert "did you mean strict" in profile.err


def test_for_a_machine_each_fault_is_one_line_of_a_file_that_is_there(shop: Shop) -> None:
    """Nothing but such lines, twice the same; the file and the line exist as seen from the working folder; exit 1."""
    (shop.folder / "books" / "new.yaml").write_text(UNKNOWN, "utf-8")
    said = shop.call("check", "--ci")
    assert (said.code, said.err) == (1, "")
    rows = [LINE.fullmatch(line) for line in said.out.splitlines()]
    for row in rows:
        assert row is not None
        lines = (shop.folder / row[1]).read_text("utf-8").splitlines()
        assert 1 <= int(row[2]) <= len(lines)
        assert 1 <= int(row[3]) <= len(lines[int(row[2]) - 1]) + 1
    assert (
        "books/new.yaml:4:7: warning Q02-unknown-part-in-offer: newcomer offers KT 0, and no book lists such a part"
        in (said.out.splitlines())
    )
    assert shop.call("check", "--ci").out == said.out


def test_faults_are_told_at_files_as_seen_from_where_one_stands(shop: Shop) -> None:
    """From the shop's folder and from below it, with --ci and without: each of its books' places is a file that is there."""
    (shop.folder / "books" / "new.yaml").write_text(UNKNOWN, "utf-8")
    head = re.compile(r"(?m)^(\S+?):\d+:\d+: (?:error|warning|note)")
    for at, name in ((shop.folder, "books/new.yaml"), (shop.folder / "books", "new.yaml")):
        for words in (("check",), ("check", "--ci")):
            said = Shop(at).call(*words)
            named = {file for file in head.findall(said.out) if not file.startswith("kb/")}
            assert name in named
            assert len(named) > 1
            assert [file for file in named if not (at / file).is_file()] == []
            assert "shop/crossfits.yaml" not in said.out


def test_warnings_stop_a_machine_and_no_person(tmp_path: Path) -> None:
    """With one warning in the books: exit 1 with --ci, 0 without; without any fault 0 and not a word."""
    shop = Shop(tmp_path / "small")
    (shop.folder / "books").mkdir(parents=True)
    settings = "shop: small\nshelves:\n  - {shelf: shop, folder: books}\n"
    (shop.folder / "fitlore.yaml").write_text(settings, "utf-8")
    clean = shop.call("check", "--ci")
    assert (clean.code, clean.out, clean.err) == (0, "", "")
    (shop.folder / "books" / "new.yaml").write_text(UNKNOWN, "utf-8")
    assert (shop.call("check").code, shop.call("check", "--ci").code) == (0, 1)
    (shop.folder / "rules").mkdir()
    (shop.folder / "rules" / "profile.yaml").write_text("Q02-unknown-part-in-offer: error\n", "utf-8")
    assert (shop.call("check").code, shop.call("check", "--ci").code) == (1, 1)
    (shop.folder / "rules" / "profile.yaml").write_text("Q02-unknown-part-in-offer: ignore\n", "utf-8")
    assert shop.call("check", "--ci", "--profile", "rules/profile.yaml").code == 0


def test_books_of_turtle_are_held_against_the_shapes(shop: Shop) -> None:
    """A count written as a text goes against its shape, and is told with file and line; YAML books are not asked."""
    (shop.folder / "books" / "w.ttl").write_text(TURTLE, "utf-8")
    found = [row for row in shop.call("check", "--json").json["faults"] if row["code"][0] == "S"]
    assert [(row["code"], row["book"], row["line"], row["column"]) for row in found] == [
        ("S01-against-a-shape", "shop/w.ttl", 2, 1)
    ]


def test_the_library_of_shapes_is_left_alone_without_need(asked: Shop) -> None:
    """A check of YAML books alone imports neither rdflib nor pySHACL."""
    run = (
        "import sys\nfrom fitlore.cli.root import run\nsys.argv = ['fitlore', 'check']\nrun()\n"
        "print('late', sorted({'rdflib', 'pyshacl'} & set(sys.modules)), file=sys.stderr)"
    )
    env = {**os.environ, "PYTHONPATH": str(REPO / "src"), "FITLORE_CACHE": str(asked.folder.parent / "cache")}
    done = subprocess.run(
        [sys.executable, "-c", run], cwd=asked.folder, env=env, capture_output=True, text=True, check=True
    )
    assert done.stderr.endswith("late []\n")


def test_a_wait_is_told_on_a_terminal_only(asked: Shop) -> None:
    """On a terminal's standard error it says what it does, never with --ci; the answer is the same."""
    env = {**os.environ, "PYTHONPATH": str(REPO / "src"), "FITLORE_CACHE": str(asked.folder.parent / "cache")}
    for words, told in ((("check", "--json"), True), (("check", "--ci"), False)):
        ours, theirs = pty.openpty()
        done = subprocess.run(
            [sys.executable, "-m", "fitlore", *words],
            cwd=asked.folder, env=env, stdout=subprocess.PIPE, stderr=theirs, check=False, timeout=120,
        )  # fmt: skip
        os.close(theirs)
        os.set_blocking(ours, False)
        try:
            seen = os.read(ours, 10000)
        except (BlockingIOError, OSError):
            seen = b""
        os.close(ours)
        assert done.stdout.decode() == asked.call(*words).out
        assert (b"asking the rules" in seen, bool(seen)) == (told, told)


def test_books_are_named_for_tidying_only(asked: Shop) -> None:
    """A check looks at all books; a name beside it is a slip."""
    said = asked.call("check", "shop/cars.yaml")
    assert (said.code, said.out) == (2, "")
    assert "--tidy or --schema" in said.err


def test_the_schema_is_put_where_an_editor_finds_it(shop: Shop) -> None:
    """Without a book the line is said; with one it is written on top, and `undo` takes it out again."""
    book = shop.folder / "books" / "cars.yaml"
    before = book.read_bytes()
    said = shop.call("check", "--schema")
    line = "# yaml-language-server: $schema=../.fitlore/book.schema.json"
    assert (said.code, line in said.out) == (0, True)
    assert (shop.folder / ".fitlore" / "book.schema.json").read_bytes() == (
        REPO / "kb" / "book.schema.json"
    ).read_bytes()
    assert book.read_bytes() == before
    assert shop.call("check", "--schema", "shop/cars.yaml").code == 0
    assert book.read_bytes() == line.encode() + b"\n" + before
    assert shop.call("undo").code == 0
    assert book.read_bytes() == before
