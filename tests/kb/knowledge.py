"""The built-in books as the books room reads them, and each category with what it inherits."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import cast

from fitlore.books.reading import Reading, read_book
from fitlore.fitting.interface import interface_of
from fitlore.fitting.shape import Interface
from fitlore.graph.policy import in_force
from fitlore.model.category import Category
from fitlore.model.policy import InForce, Policy

KB = Path(__file__).resolve().parent.parent.parent / "kb"


class Known:
    """The categories by name; stands for a graph where only `category` is asked of it."""

    def __init__(self, categories: dict[str, Category]) -> None:
        self.categories = categories

    def category(self, name: str) -> Category | None:
        """As `Graph.category`."""
        return self.categories.get(name)

    def interface(self, name: str) -> Interface:
        """A category with all it inherits, by the fitting room's own rules."""
        found = interface_of(self, name)  # type: ignore[arg-type]
        assert found is not None
        return found

    def chain(self, name: str) -> list[Category]:
        """The category and all broader ones, narrowest first; stops where a name comes twice or is unknown."""
        rows: list[Category] = []
        at: str | None = name
        while at is not None and at in self.categories and self.categories[at] not in rows:
            rows.append(self.categories[at])
            at = self.categories[at].broader
        return rows

    @property
    def leaves(self) -> list[str]:
        """Names of categories that no other one is narrower than."""
        broader = {category.broader for category in self.categories.values()}
        return [name for name in self.categories if name not in broader]


@cache
def readings() -> dict[str, Reading]:
    """File name to what the book says: kb/categories/*.yaml and kb/policy.yaml."""
    files = [*sorted((KB / "categories").glob("*.yaml")), KB / "policy.yaml"]
    return {
        f.name: read_book(
            f"kb/{f.relative_to(KB).as_posix()}", f.read_bytes(), f"https://fitlore.example/{f.name}"
        )
        for f in files
    }


@cache
def known() -> Known:
    """All built-in categories."""
    rows = [r for reading in readings().values() for r in reading.records if isinstance(r, Category)]
    names: dict[str, Category] = {str(row.category): row for row in rows}
    assert len(names) == len(rows), "a category stands in two books"
    return Known(names)


@cache
def policy() -> InForce:
    """The built-in policy."""
    return in_force([cast(Policy, next(iter(readings()["policy.yaml"].records)))])
