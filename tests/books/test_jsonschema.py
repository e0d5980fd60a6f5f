"""The JSON Schema for editors, held against the `jsonschema` library, PyYAML's untyped reading, and our own reading."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Iterator
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft7Validator, Draft202012Validator

from fitlore.books.jsonschema import book_schema, book_schema_text, header_line, shop_schema
from fitlore.books.jsonschema_sense import EXTRA, RULES
from fitlore.books.layout import builtin_kb
from fitlore.books.reading import read_book
from fitlore.books.schema import KINDS, fields, nested
from fitlore.model.diagnostic import Severity

ROOT = Path(__file__).parents[2]
RICH = ROOT / "tests/books/rich.yaml"
FAULTS = {path.stem: path for path in (ROOT / "tests/books/faults").iterdir() if path.suffix != ".txt"}
"""The smallest failing book of each fault (another test holds them against the registry)."""
CODES = sorted(FAULTS)
BOOKS = [
    *sorted((builtin_kb() / "categories").glob("*.yaml")),
    builtin_kb() / "policy.yaml",
    *sorted((ROOT / "demo/lowbarn/books").rglob("*.yaml")),
    RICH,
    ROOT / "tests/books/amend/rich.yaml",
]
BOOK = Draft202012Validator(book_schema(), format_checker=None)
SHOP = Draft202012Validator(shop_schema(), format_checker=None)
OLDER = {
    id(one): Draft7Validator({**one.schema, "$schema": Draft7Validator.META_SCHEMA["$schema"]})
    for one in (BOOK, SHOP)
}

# fmt: off
IN_BOTH = {
    "$schema", "$comment", "$defs", "$ref", "title", "description", "type", "enum", "const", "pattern", "minLength",
    "properties", "additionalProperties", "propertyNames", "minProperties", "required", "items", "minItems", "uniqueItems",
    "minimum", "maximum", "allOf", "anyOf", "oneOf", "not", "if", "then", "else",
}
# fmt: on
"""Words of JSON Schema that mean the same in draft 7 and 2020-12 (`$defs` is only a place to point into)."""


class Core(yaml.SafeLoader):
    """Scalars typed as editors type them: the Core Schema of YAML 1.2.2 (10.3.2)."""


Core.yaml_implicit_resolvers = {}
for _tag, _pattern, _first in (
    ("null", r"~|null|Null|NULL|", ["~", "n", "N", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF")),
    ("int", r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", list("-+0123456789")),
    ("float", r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?", list("-+.0123456789")),
):
    Core.add_implicit_resolver(f"tag:yaml.org,2002:{_tag}", re.compile(f"^(?:{_pattern})$"), _first)
Core.add_constructor("tag:yaml.org,2002:int", lambda loader, node: int(node.value, 10))
Core.add_constructor("tag:yaml.org,2002:float", lambda loader, node: float(node.value))


def untyped(data: bytes | str) -> Any:
    """A book with every scalar as text."""
    return yaml.load(data, yaml.BaseLoader)


def valid(schema: Draft202012Validator, tree: Any) -> bool:
    """Whether a tree is valid: under 2020-12, and the same words under draft 7 must agree."""
    found = schema.is_valid(tree)
    assert OLDER[id(schema)].is_valid(tree) is found
    return bool(found)


def parts(schema: Any) -> Iterator[dict[str, Any]]:
    """Every schema inside a schema, without the names that books use."""
    if isinstance(schema, list):
        for one in schema:
            yield from parts(one)
    elif isinstance(schema, dict):
        yield schema
        for word, inner in schema.items():
            if word in ("properties", "$defs"):
                for one in inner.values():
                    yield from parts(one)
            elif word not in ("enum", "const", "required", "type", "minimum", "maximum"):
                yield from parts(inner)


def test_the_committed_file_is_current() -> None:
    """`kb/book.schema.json` is generated: after a change of a Struct, write `book_schema_text()` there anew."""
    text = (builtin_kb() / "book.schema.json").read_text("utf-8")
    assert text == book_schema_text()
    assert json.loads(text) == book_schema()


@pytest.mark.parametrize("schema", [book_schema(), shop_schema()], ids=["book", "shop"])
def test_editors_of_either_draft_can_read_it(schema: dict[str, Any]) -> None:
    """It is a schema to both drafts' metaschemas, and uses only words that mean the same in both; no `$ref` has neighbours
    (draft 7 would not look at them); regular expressions use what ECMA-262 and Python share."""
    Draft202012Validator.check_schema(schema)
    Draft7Validator.check_schema({**schema, "$schema": Draft7Validator.META_SCHEMA["$schema"]})
    seen = list(parts(schema))
    assert len(seen) > 20
    for one in seen:
        assert set(one) <= IN_BOTH
        assert "$ref" not in one or set(one) == {"$ref"}
        if "$ref" in one:
            assert one["$ref"].removeprefix("#/$defs/") in schema["$defs"]
        if "pattern" in one:
            re.compile(one["pattern"])
            assert not re.search(r"\(\?[^:=!]|\\[^sSd.*+?()\[\]{}|^$\\]|\\[AZ]", one["pattern"]), one[
                "pattern"
            ]


def test_it_has_every_key_of_every_struct_and_no_other() -> None:
    """Each Struct that can be in a book has its definition, closed, with its keys, what must be there, and its description."""
    defs = book_schema()["$defs"]
    assert isinstance(defs, dict)
    structs = {inner for struct in KINDS.values() for inner in nested(struct)}
    closed = 0
    for struct in structs:
        made: Any = defs[struct.__name__]
        assert made["description"] == " ".join((struct.__doc__ or "").split())
        if struct.__name__ in ("Cond", "FactRange"):
            continue
        body = made if "properties" in made else made["anyOf"][0]
        assert list(body["properties"]) == [field.key for field in fields(struct)]
        assert body.get("required", []) == [field.key for field in fields(struct) if field.required]
        assert body["additionalProperties"] is False
        closed += 1
    assert closed >= 30
    offer: Any = defs["Offer"]
    assert offer["properties"]["brings"]["description"].startswith("What one of it contains")


def test_rules_are_about_keys_that_there_are() -> None:
    """A rule between keys of a Struct names keys that the Struct has."""
    for struct, rules in RULES.items():
        keys = {field.key for field in fields(struct)}
        for rule in parts([*rules]):
            assert set(rule.get("required", [])) <= keys
            assert set(rule.get("properties", {})) <= keys
    for struct, name in EXTRA:
        assert name in {field.name for field in fields(struct)}


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
def test_the_books_that_come_with_it_are_valid(path: Path) -> None:
    """Every book of the demo and of the built-in knowledge, and the books with every key: with all scalars as text, and
    with scalars typed as editors type them."""
    data = path.read_bytes()
    tree = untyped(data)
    assert isinstance(tree, list)
    errors = [f"{list(one.absolute_path)}: {one.message}" for one in BOOK.iter_errors(tree)]
    assert errors == []
    assert valid(BOOK, tree)
    assert valid(BOOK, yaml.load(data, Core))


def test_the_shop_file_is_valid() -> None:
    """The demo's fitlore.yaml is valid as one mapping, and a book is none."""
    data = (ROOT / "demo/lowbarn/fitlore.yaml").read_bytes()
    assert valid(SHOP, untyped(data))
    assert valid(SHOP, yaml.load(data, Core))
    assert not valid(BOOK, untyped(data))
    assert not valid(SHOP, untyped(RICH.read_bytes()))
    for wrong in ("shop: lowbarn\nshelf: books\n", "name: x\n", "shop: lowbarn\nshelves: [{shelf: shop}]\n",
                  "shop: lowbarn\nshelves: [{shelf: shop, folder: b, trust: seen}]\n"):  # fmt: skip
        assert not valid(SHOP, untyped(wrong)), wrong


NO_YAML = "the text is not read as YAML at all, so there is nothing to hold against a schema"
RESOLVED = "YAML itself takes it away before a schema looks"
COMPARES = "it compares two values, or two records, and a schema looks at one"
OUTSIDE = "it is about the disk or about another file"
RDF = "it is about a book of RDF"
TABLE = "it is about a table of standards, which is no book"
NOT_SEEN: dict[str, str] = {
    "B01-not-utf-8": NO_YAML,
    "B02-utf-16": "YAML readers take UTF-16 too",
    "B03-strange-line-end": NO_YAML,
    "B04-control-character": NO_YAML,
    **{code: NO_YAML for code in CODES if "B10" <= code < "B25"},
    "B31-anchor": RESOLVED,
    "B32-alias": NO_YAML,
    "B33-second-document": NO_YAML,
    "B34-tag": RESOLVED,
    "B35-key-not-text": NO_YAML,
    "B37-key-twice": RESOLVED,
    "B60-not-a-date": "both ends are dates, and which is earlier cannot be said in a schema",
    "B69-looks-like-another-type": "read as text it is right; an editor that types scalars sees it (a test of its own)",
    "B76-points-at-itself": COMPARES,
    "B79-look-at-what": COMPARES,
    "B83-dates-crossed": COMPARES,
    "B84-else-the-same": COMPARES,
    "B85-reserve-over-cash": COMPARES,
    "B89-record-twice": COMPARES,
    **{code: RDF for code in CODES if "B90" <= code < "C"},
    "V08-odds-over-the-whole": COMPARES,
    "V09-both-the-same": COMPARES,
    "L02-shelf-of-that-name": COMPARES,
    "L03-no-such-folder": OUTSIDE,
    "L04-cannot-be-read": OUTSIDE,
    "L07-endpoint-not-asked": "it is well written; that nobody asks it is a matter of the program",
    "L05-not-a-table": TABLE,
    "L06-not-a-row": TABLE,
}
"""Faults that the schema does not see, with the reason. It sees all others."""


@pytest.mark.parametrize("code", CODES)
def test_what_it_sees_of_each_fault(code: str) -> None:
    """The smallest failing book of each fault is not valid, or the table above says why it is."""
    reason = NOT_SEEN.get(code)
    if reason in (RDF, TABLE, OUTSIDE):
        return
    data = FAULTS[code].read_bytes()
    if reason == NO_YAML:
        with pytest.raises(yaml.YAMLError):
            untyped(data)
        return
    assert valid(SHOP if code.startswith("L") else BOOK, untyped(data)) is (reason is not None)


def test_the_table_of_faults_is_no_longer_than_it_must_be() -> None:
    """It names only faults that there are; more than half of those about a text that is YAML are seen."""
    assert set(NOT_SEEN) <= set(CODES)
    readable = [code for code in CODES if NOT_SEEN.get(code) not in (NO_YAML, RDF, TABLE, OUTSIDE)]
    seen = [code for code in readable if code not in NOT_SEEN]
    assert len(seen) > 0.75 * len(readable), f"{len(seen)} of {len(readable)}"


def test_typed_text_is_seen_by_editors() -> None:
    """Core Schema makes numbers of counts and years, which may be numbers, and of texts, which may not: put them in quotes."""
    assert not valid(BOOK, yaml.load(FAULTS["B69-looks-like-another-type"].read_bytes(), Core))
    head = "- platform: p\n  built: 1986\n  assemblies: {a: {sides: [1, 2], places: {b: {is: c, quantity: 2, "
    assert valid(BOOK, yaml.load(head + 'original: "0123"}}}}\n', Core))
    assert not valid(BOOK, yaml.load(head + "original: 0123}}}}\n", Core))
    assert not valid(BOOK, yaml.load(head.replace("quantity: 2", "quantity: 0") + "minutes: 1}}}}\n", Core))
    assert valid(BOOK, yaml.load("- category: c\n  always-new: yes\n", Core))
    assert not valid(BOOK, yaml.load("- category: c\n  always-new: true\n", Core))
    assert valid(BOOK, yaml.load("- crossfit: c\n  instead-of: A\n  use: B\n  only-if: {chassis: {KT: 118000}}\n"
                                 "  evidence: [{how: told}]\n", Core))  # fmt: skip


def test_dates_among_the_facts() -> None:
    """`built` and `registered` are dates wherever facts are written; other facts are words."""
    base = "- crossfit: c\n  instead-of: A\n  use: B\n  evidence: [{how: told}]\n  only-if: "
    assert valid(BOOK, untyped(base + "{built: [1986, ../1984], engine: about 2}\n"))
    assert not valid(BOOK, untyped(base + "{built: about 1986}\n"))
    assert not valid(BOOK, untyped(base + "{built: {not: about 1986}}\n"))
    assert not valid(BOOK, untyped("- platform: p\n  facts: {registered: [soon]}\n"))
    assert not valid(BOOK, untyped("- car: c\n  is: p\n  facts: {built: {value: soon}}\n"))
    assert valid(
        BOOK, untyped("- car: c\n  is: p\n  facts: {built: {value: 1986, how: told}, engine: soon}\n")
    )


def test_short_forms_and_single_values() -> None:
    """What may be a text, a list or a mapping may be each of them; what is one text may not be a list."""
    for value in ("A", "[A, B]", "{number: A}", "[{number: A}, B]"):
        assert valid(BOOK, untyped(f"- part: X\n  is: y\n  contains: {value}\n")), value
    for value in ("[[A]]", "{number: A, is: b}", "{}", "[]", '""', "{number: A, kwantity: 1}"):
        assert not valid(BOOK, untyped(f"- part: X\n  is: y\n  contains: {value}\n")), value
    assert not valid(BOOK, untyped("- part: X\n  is: [y, z]\n"))
    assert valid(
        BOOK, untyped("- platform: p\n  assemblies: {a: {places: {b: {is: c, sides: none, shares: none}}}}\n")
    )


def test_a_record_has_exactly_one_kind() -> None:
    """None and two are not valid, whichever two; an empty book is."""
    records = {next(iter(set(one) & set(KINDS))): one for one in untyped(RICH.read_bytes())}
    assert set(records) == set(KINDS)
    for kind, record in records.items():
        assert valid(BOOK, [record])
        assert not valid(BOOK, [{key: value for key, value in record.items() if key != kind}])
        for other in KINDS:
            assert other == kind or not valid(BOOK, [{**record, other: "x1"}])
    assert valid(BOOK, untyped("# nothing yet\n") or None)
    assert valid(BOOK, [])
    assert not valid(BOOK, "part")


def test_the_header_line() -> None:
    """One word behind `$schema=`, whatever the path: relative as it is, absolute as an address, blanks written `%20`."""
    assert header_line("../kb/book.schema.json") == "# yaml-language-server: $schema=../kb/book.schema.json"
    assert (
        header_line(PurePosixPath("/a b/ü.json"))
        == "# yaml-language-server: $schema=file:///a%20b/%C3%BC.json"
    )
    assert header_line(PurePosixPath("a b/c#.json")).endswith("=a%20b/c%23.json")
    assert header_line(PureWindowsPath(r"C:\k b\x.json")).endswith("=file:///C:/k%20b/x.json")
    book = header_line("x.json") + "\n- part: A 1\n  is: hex-bolt\n"
    assert read_book("shop/x.yaml", book.encode(), "https://fitlore.example/book/x").diagnostics == ()


# fmt: off
WORDS = st.sampled_from([
    "left", "right", "both", "none", "1", "2", "0", "-1", "007", "1986", "1986-08", "198X", "../1986-07", "1986-08/..",
    "1990/1984", "2026-12-03", "yes", "no", "true", "KT", "kt", "kt-1", "../118000", "120001/..", "1/500", "5/1", "a/b",
    "a/b@left", "a/b/c", "a/b@2", "A-1", "--", "é", "new", "used", "fitted", "told", "within", "same", "braking", "hex-bolt",
    "6.50 GBP", "6.505 GBP", "6,50 GBP", "60 %", "100 %", "101 %", "0.5 mm", "-0.2/+0 mm", "22 km", "4.5 kg", "1/2 km",
    ".5 g", "down 1 mm", "up", "A 1", "OS 4021", " 5 km ", "", "en-gb", "two words", "both-ways", "choice",
])
# fmt: on
TREE = untyped(RICH.read_bytes())


def holders(tree: Any) -> Iterator[Any]:
    """Every list and mapping in a tree."""
    if isinstance(tree, dict | list):
        yield tree
        for one in tree.values() if isinstance(tree, dict) else tree:
            yield from holders(one)


@st.composite
def changed(draw: st.DrawFn) -> Any:
    """One record of the book with every key, changed in one to three places."""
    record = copy.deepcopy(draw(st.sampled_from(TREE)))
    for _ in range(draw(st.integers(1, 3))):
        found = list(holders(record))
        holder = draw(st.sampled_from(found))
        if not holder:
            continue
        key = draw(st.sampled_from(sorted(holder) if isinstance(holder, dict) else range(len(holder))))
        match draw(st.integers(0, 4)):
            case 0:
                del holder[key]
            case 1:
                holder[key] = [holder[key], draw(WORDS)]
            case 2 if isinstance(holder, dict):
                other = draw(st.sampled_from(found))
                if isinstance(other, dict) and other:
                    holder[draw(st.sampled_from(sorted(other)))] = draw(WORDS)
            case _:
                holder[key] = draw(WORDS)
    return record


@settings(max_examples=1500, deadline=None)
@given(changed())
def test_what_reading_takes_the_schema_takes(record: Any) -> None:
    """A record in which reading finds no error is valid: the schema never refuses what may be written."""
    book = json.dumps([record], ensure_ascii=False)
    found = read_book("shop/x.yaml", book.encode(), "https://fitlore.example/book/x").diagnostics
    if not any(one.severity is Severity.ERROR for one in found):
        assert valid(BOOK, [record]), [one.message for one in BOOK.iter_errors([record])]


def test_most_of_what_reading_refuses_the_schema_refuses() -> None:
    """Of randomly changed records with an error in them, the schema refuses more than nine of ten; and many have none."""
    refused: list[bool] = []
    taken: list[bool] = []

    @settings(max_examples=600, deadline=None, derandomize=True, database=None)
    @given(changed())
    def count(record: Any) -> None:
        book = json.dumps([record], ensure_ascii=False)
        found = read_book("shop/x.yaml", book.encode(), "https://fitlore.example/book/x").diagnostics
        if any(one.severity is Severity.ERROR for one in found):
            refused.append(not valid(BOOK, [record]))
        else:
            taken.append(True)

    count()
    assert len(taken) > 60
    assert len(refused) > 200
    assert sum(refused) > 0.9 * len(refused), f"{sum(refused)} of {len(refused)}"
