"""Each rule exists only with its smallest failing book, what is then said, and a row on the page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fitlore.books.layout import books_of
from fitlore.books.reading import read_book
from fitlore.graph.derive import TERMS
from fitlore.graph.open import Graph
from fitlore.model.diagnostic import Severity
from fitlore.upkeep import profile, rules
from fitlore.upkeep.check import check, judged, profile_of
from tests.upkeep import refusals
from tests.upkeep.right import CURES, FURTHER
from tests.upkeep.smallest import (
    FOLDER,
    PAGE,
    TODAY,
    diagnostics_of,
    found_in,
    graph_of,
    page_text,
    refused,
    rows,
    said_of,
)
from tests.upkeep.standards import tables


@pytest.mark.parametrize("code", [row.code for row in rows()])
def test_the_smallest_book_finds_its_fault_and_nothing_else(code: str) -> None:
    """The smallest failing book of a rule gives that code alone, and the golden text, byte for byte."""
    assert {d.code for d in diagnostics_of(code)} == {code}
    assert said_of(code) == (FOLDER / f"{code}.txt").read_text("utf-8")


@pytest.mark.parametrize("code", [row.code for row in rows()])
def test_the_neighbour_that_is_right_finds_nothing(code: str) -> None:
    """The smallest failing book with the one thing put right gives no finding at all: the rule fires on that alone."""
    text = (FOLDER / f"{code}.yaml").read_text("utf-8")
    for cures in (CURES, FURTHER):
        if code in cures:
            old, new = cures[code]
            assert old in text
            text = new.join(text.rsplit(old, 1))
    assert found_in(text, code) == []


def test_no_example_is_without_its_rule() -> None:
    """Every file in the folder belongs to a code, and no code is without one."""
    codes, tried = {row.code for row in rows()}, {row.code for row in refused()}
    assert {path.stem for path in FOLDER.glob("*.yaml")} == codes
    assert {path.stem for path in FOLDER.glob("*.txt")} == codes | tried
    assert set(refusals.ATTEMPTS) == tried
    assert set(CURES) == codes
    assert len(codes) >= 59
    assert sum(path.suffix == ".rq" for path in rules.QUERIES.iterdir()) >= 15


@pytest.mark.parametrize("code", [row.code for row in refused()])
def test_the_smallest_attempt_is_objected_to(code: str) -> None:
    """The smallest attempt gets the golden text, byte for byte, with a line, and names nothing it does not know."""
    (found,) = refusals.diagnostics_of(code)
    assert said_of(code) == (FOLDER / f"{code}.txt").read_text("utf-8")
    for text in (found.message, found.expected, found.remedy):
        assert text
        assert "{" not in text.replace("{bore: 32 mm}", "").replace(
            "{shelf: shop, folder: books}", ""
        ).replace("{how", "")


def test_every_finding_has_line_and_column_and_says_what_to_do() -> None:
    """No text is empty or has a gap left in it; every place has line and column, and shows that line."""
    for row in rows():
        for found in diagnostics_of(row.code):
            for text in (found.message, found.expected, found.remedy, found.excerpt):
                assert text
                assert "{" not in text.replace(found.excerpt, "")
            assert found.origin.line > 0
            assert found.origin.column > 0


def test_the_page_is_current() -> None:
    """The committed page is what the rules and their smallest books make; renew it with `python -m tests.upkeep.smallest`."""
    assert PAGE.read_text("utf-8") == page_text()


RULE = """# title: A hose
# problem: {part} is a hose
# why: no hoses
# remedy: take another
# severity: note
PREFIX fl: <https://fitlore.example/terms#>
SELECT ?where ?part WHERE { GRAPH ?g { ?n fl:part-category "hose" ; fl:part-key ?part ; fl:as-shown ?where } }
"""
HOSE = "- category: hose\n- part: KT 1\n  is: hose\n"


def test_a_shop_may_add_rules(tmp_path: Path) -> None:
    """A file in the shop's folder `rules` is a rule; its name is the code."""
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "no-hose.rq").write_text(RULE, "utf-8")
    found = next(one for one in check(graph_of(HOSE), TODAY, tmp_path) if one.code == "no-hose")
    assert (found.code, str(found.origin), found.message) == (
        "no-hose",
        "shop/book.yaml:2:3",
        "KT1 is a hose",
    )


@pytest.mark.parametrize(
    ("old", "new", "reason"),
    [
        ("# why: no hoses\n", "", "why"),
        ("severity: note", "severity: bad", "severity is"),
        ("?where ?part WHERE", "?part WHERE", "must be SELECT"),
        ("SELECT ?where ?part", "SELECT ?where ?part ?key", "must be SELECT"),
        ("{part} is", "{kind} is", "kind"),
        ("{part} is", "{part is", "expected"),
        ("GRAPH ?g", "GRAF ?g", "no-hose"),
    ],
)
def test_what_is_no_rule_says_why(tmp_path: Path, old: str, new: str, reason: str) -> None:
    """A header line short, a severity that is none, a query that selects no place or is none: each is named."""
    assert old in RULE
    path = tmp_path / "no-hose.rq"
    path.write_text(RULE.replace(old, new), "utf-8")
    with pytest.raises(rules.BadRule, match=reason):
        list(rules.run(graph_of(HOSE), rules.read_rule(path)))


def test_rules_are_wrong_in_no_place_where_books_are_right() -> None:
    """The sound counterpart of the failing books: known numbers, places, facts, values and evidence give no finding."""
    text = Path(__file__).with_name("sound.yaml").read_text("utf-8")
    assert found_in(text) == []


SIZED = """- category: {category}
  safety: none
  features:
    bearing: {{kind: bearing, role: mates}}
    bore: {{kind: length, role: mates}}
    width: {{kind: length, role: mates}}
    offset: {{kind: length, role: mates}}
- part: KT 1
  maker: Kestin
  is: {category}
  features: {{{features}}}
"""


@pytest.mark.parametrize(
    ("category", "features", "found"),
    [
        ("wheel-bearing", "bearing: 6203-2RS, bore: 17 mm, width: 12 mm", ""),
        ("wheel-bearing", "bearing: 6203-2RS, bore: 20 mm, width: 12 mm", "bearing 6203-2RS has 17"),
        ("hub", "bearing: 6203-2RS, bore: 30 mm, width: 60 mm", ""),
        ("wheel-bearing", "bearing: 6203-2RS, bore: 17.02 mm, width: 11.98 mm", ""),
        ("hub", "width: 0 mm, offset: -20 mm", ""),
        ("hub", "width: -1 mm", "no such size is less than nothing"),
    ],
)
def test_a_size_must_be_possible(category: str, features: str, found: str) -> None:
    """A 6203 has a bore of 17 mm and a width of 12 mm (ISO 15, series 02); a hub has sizes beside its bearing's."""
    said = [one.message for one in found_in(SIZED.format(category=category, features=features))]
    assert len(said) == bool(found)
    assert all(found in text for text in said)


TWO = """- category: hose
  safety: none
- part: "1470"
  maker: {}
  is: hose
# book: shop/more.yaml
- part: "1470"
  maker: {}
  is: hose
"""


@pytest.mark.parametrize(
    ("one", "other", "count"),
    [
        ("Ostra", "Velm", 1),
        ("Brede\n  issued-by: Kestin", "Merrow\n  issued-by: Kestin", 0),
        ("Ostra\n  same-as: Velm 1470", "Velm", 0),
        ("Ostra", "Velm\n  replaced-by: {number: Ostra 1470, reason: supplier}", 0),
    ],
)
def test_equal_numbers_are_told_of_two_issuers_only(one: str, other: str, count: int) -> None:
    """Not where the number is of one issuer, nor where either names the other."""
    found = found_in(TWO.format(one, other))
    assert [row.code for row in found] == ["Q29-equal-numbers-unlinked"] * count


@pytest.mark.parametrize(
    ("start", "end", "goes", "count"),
    [
        ("OS 7", "Ostra OS 7", "one-way", 1),
        ("Ostra OS 7", "OS 7", "both-ways", 1),
        ("OS 7", "OS 8", "both-ways", 0),
        ("OS 8", "OS 7", "one-way", 0),
    ],
)
def test_a_claim_leads_to_another_part(start: str, end: str, goes: str, count: int) -> None:
    """A number with its maker in front is the same number; the very same text is a fault of the book already (B76)."""
    parts = "".join(f"- part: OS {n}\n  maker: Ostra\n  is: hose\n" for n in (7, 8))
    claim = (
        f"- crossfit: c\n  instead-of: {start}\n  use: {end}\n  goes: {goes}\n  evidence: [{{how: fitted}}]\n"
    )
    found = found_in(f"- category: hose\n  safety: none\n{parts}{claim}")
    assert [row.code for row in found] == ["Q34-claim-to-itself"] * count


def test_queries_use_terms_that_there_are() -> None:
    """A term that the derived graphs do not have would make a rule that finds nothing."""
    for path in rules.QUERIES.glob("*.rq"):
        used = set(re.findall(r"fl:([a-z-]+)", path.read_text("utf-8")))
        assert used
        assert used <= set(TERMS), path.name


def test_the_built_in_knowledge_is_sound() -> None:
    """The shelf that comes with the program passes its own strict check: nothing but notes under the profile `built-in`."""
    records = [
        record
        for book in books_of(None)
        for record in read_book(book.shown, book.path.read_bytes(), book.graph_name).records
    ]
    assert len(records) > 500
    strictly = profile_of(None, profile.find("built-in", None))
    found = list(strictly.applied(judged(Graph.from_records(records, tables()), TODAY)))
    assert [f"{one.origin} {one.message}" for one in found if one.severity is not Severity.NOTE] == []


def test_the_profile_of_shelves_asks_for_every_rule_about_them() -> None:
    """What `shop` and `strict` leave to shelves that others build on, `built-in` asks for; nothing is ignored there."""
    said = {name: profile_of(None, profile.find(name, None)).severities for name in profile.built_in()}
    left = {code for code, bad in said["shop"].items() if bad is None}
    assert left == {code for code, bad in said["strict"].items() if bad is None}
    assert left <= set(said["built-in"])
    assert None not in said["built-in"].values()
