"""The figures of `books count`, counted a second time by a reader of plain YAML that knows nothing of fitlore."""

from __future__ import annotations

from collections import Counter
from datetime import date
from functools import cache
from typing import Any

import yaml

from fitlore.books.layout import builtin_kb
from fitlore.graph.open import open_graph
from fitlore.trade.family import FAMILIES
from fitlore.upkeep.counts import Counts, count
from fitlore.upkeep.knowing import Known
from tests.upkeep.smallest import graph_of


@cache
def counted() -> Counts:
    """Those of the built-in shelf."""
    return count(Known(open_graph(None), date(2026, 12, 3)))


@cache
def plain() -> dict[str, list[dict[str, Any]]]:
    """The records of every book of kinds, by the library PyYAML with every scalar as text."""
    return {
        f"kb/categories/{path.name}": yaml.load(path.read_text("utf-8"), yaml.BaseLoader)
        for path in sorted((builtin_kb() / "categories").glob("*.yaml"))
    }


def every() -> dict[str, dict[str, Any]]:
    """By name."""
    return {row["category"]: row for rows in plain().values() for row in rows}


def many(value: Any) -> int:
    """How many a value is: one may stand alone."""
    return len(value) if isinstance(value, list) else 1


def chain(name: str) -> list[dict[str, Any]]:
    """The kind and all broader ones."""
    row = every()[name]
    return [row, *(chain(row["broader"]) if "broader" in row else [])]


def leaves() -> list[str]:
    """Those that no other is narrower than."""
    broader = {row.get("broader") for row in every().values()}
    return [name for name in every() if name not in broader]


def said(name: str, key: str) -> Any:
    """The nearest word in the chain."""
    return next((row[key] for row in chain(name) if key in row), None)


def test_kinds_and_names() -> None:
    """How many, how deep, in which languages."""
    found = counted()
    assert (found.categories, found.narrowest) == (len(every()), len(leaves()))
    assert found.deepest == max(len(chain(name)) for name in every())
    assert found.names == Counter(tag.lower() for row in every().values() for tag in row["names"])
    further = Counter[str]()
    for row in every().values():
        for tag, words in row.get("also", {}).items():
            further[tag.lower()] += many(words)
    assert found.further_names == further
    assert found.false_friends == sum(
        many(row["false-friends"]) for row in every().values() if "false-friends" in row
    )


def test_books() -> None:
    """A line for each, with its own figures."""
    rows = {book.book: book for book in counted().books}
    assert set(rows) == set(plain())
    for shown, records in plain().items():
        book = rows[shown]
        assert book.categories == len(records)
        assert book.narrowest == sum(row["category"] in leaves() for row in records)
        assert book.features == sum(len(row.get("features", {})) for row in records)
        assert book.faults == sum(many(row["faults"]) for row in records if "faults" in row)
        assert book.deepest == max(len(chain(row["category"])) for row in records)


def test_features() -> None:
    """By role and by what compares them; every family there is has a figure."""
    found = counted()
    features = [f for row in every().values() for f in row.get("features", {}).values()]
    kinds = Counter(f["kind"] for f in features)
    assert found.features == len(features)
    assert found.roles == Counter(f["role"] for f in features)
    assert set(found.families) == set(FAMILIES)
    assert {**found.sizes, **found.words, **{k: n for k, n in found.families.items() if n}} == kinds
    assert set(found.words) == {"choice", "text"}
    inherited = sum(len({f for row in chain(name) for f in row.get("features", {})}) for name in leaves())
    assert found.features_with_inherited == inherited


def test_what_is_said_of_the_narrowest() -> None:
    """With what they inherit; the classes from the strictest."""
    found = counted()
    order = ["braking", "steering", "restraint", "suspension", "wheels", "fuel", "lighting", "none"]
    strictest = Counter(
        min((row["safety"] for row in chain(name) if "safety" in row), key=order.index) for name in leaves()
    )
    assert found.safety == strictest
    assert found.sides == Counter(said(name, "sides") for name in leaves())
    assert found.used == Counter(said(name, "used") for name in leaves())
    assert found.renew == Counter(said(name, "renew") for name in leaves())
    assert found.always_new == sum(said(name, "always-new") == "yes" for name in leaves())


def test_texts() -> None:
    """Each as often as it is written."""
    for key, figure in counted().texts.items():
        assert figure == sum(many(row[key]) for row in every().values() if key in row), key


def test_a_shop_counts_with_its_own_books() -> None:
    """Kinds of its own shelf are in the figures, and its parts and offers beside them."""
    text = (
        "- category: hose\n  safety: none\n- {category: water-hose, broader: hose}\n"
        "- part: KT 1\n  maker: Kestin\n  is: water-hose\n"
        "- supplier: northgate\n  trade: breaker\n  offers:\n    - {number: KT 1, price: 6.50 GBP}\n"
        "# book: kb/categories/cooling.yaml\n- category: radiator\n  safety: none\n"
    )
    found = count(Known(graph_of(text), date(2026, 12, 3)))
    assert found.shelves == ("shop", "kb")
    assert [(book.book, book.categories, book.deepest) for book in found.books] == [
        ("kb/categories/cooling.yaml", 1, 1),
        ("shop/book.yaml", 2, 2),
    ]
    assert {what: figure for what, figure in found.records.items() if figure} == {
        "parts": 1,
        "suppliers": 1,
        "offers": 1,
    }
