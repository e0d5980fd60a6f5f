"""The page of families: what each reads, from which sources, how sure its rows are, what it does not say, what is missing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from importlib import import_module

from fitlore.trade.family import FAMILIES
from fitlore.trade.registry import KINDS
from fitlore.trade.rows import Certainty, Row
from fitlore.trade.standards import Standards

HEAD = """# Families of standards

Made from the tables in this folder and from the families that read them; not written by hand. Renew it with
`python tests/trade/test_page.py` after a change of a table.

A row is `published` (seen in a public source, which it names), `computed` (by a formula of the standard) or `memory`
(recalled, and not confirmed). Rows from memory are marked in every answer, and a yes that rests on one is only a
question for parts that protect someone.

"""


def families_page(standards: Standards) -> str:
    """The page as Markdown, ending in one end of line. The order is that of the registry."""
    packages = dict.fromkeys(KINDS.values())
    counts = {package: Counter(row.certainty for row in rows_of(package, standards)) for package in packages}
    table = "\n".join(_summary(counts, list(packages)))
    parts = [_family(package, standards) for package in packages]
    return HEAD + table + "\n\n" + "\n\n".join("\n".join(part) for part in parts) + "\n"


def rows_of(package: str, standards: Standards) -> tuple[Row, ...]:
    """Every row that a package of this room reads."""
    if package == "thread":
        return standards.threads
    sections = import_module(f"fitlore.trade.{package}.tables").SECTIONS
    return tuple(row for section in sections for row in standards.table(section).rows)


def _kinds(package: str) -> list[str]:
    return [kind for kind, where in KINDS.items() if where == package]


def _summary(counts: dict[str, Counter[Certainty]], packages: Sequence[str]) -> Iterator[str]:
    yield "| kinds of feature | published | computed | from memory | rows |"
    yield "|---|--:|--:|--:|--:|"
    for package in packages:
        found = counts[package]
        figures = " | ".join(str(found[certainty]) for certainty in Certainty)
        yield f"| {', '.join(f'`{kind}`' for kind in _kinds(package))} | {figures} | {found.total()} |"
    every = sum(counts.values(), Counter[Certainty]())
    figures = " | ".join(str(every[certainty]) for certainty in Certainty)
    yield f"| all | {figures} | {every.total()} |"


def _family(package: str, standards: Standards) -> list[str]:
    lines: list[str] = []
    for kind in _kinds(package):
        about = FAMILIES[kind].about
        lines += [f"## `{kind}`: {about.title}", ""]
        lines.append(f"- reads: {', '.join(f'`{text}`' for text in about.spellings)}")
        lines.append(f"- standards: {', '.join(about.standards)}")
        lines.append(f"- does not say: {'; '.join(about.not_said) or 'nothing more'}")
        lines += [f"- known gap: {gap}" for gap in about.gaps]
        lines.append("")
    rows = rows_of(package, standards)
    sources = Counter((row.certainty, row.source) for row in rows)
    lines.append(f"Rows: {len(rows)}." + (" By source:" if rows else ""))
    lines += [""] if rows else []
    order = list(Certainty)
    for (certainty, source), count in sorted(
        sources.items(), key=lambda one: (order.index(one[0][0]), -one[1], one[0][1])
    ):
        lines.append(f"- {count} {certainty.value}: {source}")
    return lines
