"""The answer to a question in SPARQL: a table, or the two forms that other programs read (W3C, SPARQL 1.1 results)."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence
from typing import Final

from fitlore.report.machine import Json
from fitlore.report.text import BLANK, Line, Tone, columns
from fitlore.upkeep.query import Answered, Ready, Term

_GAP: Final = 2
_NARROW: Final = 24
"""The last column may wrap, but not into less than this."""
_OURS: Final = re.compile(r"https://fitlore\.example/(book/|[a-z]+#|)(.*)")
_FIGURE: Final = re.compile(r"-?\d+(?:\.\d+)?")


def answer_lines(answer: Answered, width: int) -> list[Line]:
    """Rows under their headings; where the columns have no room side by side, a block for each row."""
    if answer.said is not None:
        return [Line("yes" if answer.said else "no", "good" if answer.said else "plain")]
    if not answer.rows:
        return [Line("no rows")]
    heads = [name.replace("_", " ") for name in answer.columns]
    rows = [[_shown(term) for term in row] for row in answer.rows]
    sizes = [max(len(cell) for cell in column) for column in zip(heads, *rows, strict=True)]
    before = sum(sizes[:-1]) + _GAP * (len(sizes) - 1)
    if before + min(sizes[-1], _NARROW) > width:
        lines = _blocks(heads, rows)
    else:
        figures = [
            all(_FIGURE.fullmatch(cell) for cell in column if cell) for column in zip(*rows, strict=True)
        ]
        align = "".join("r" if right else "l" for right in figures[:-1])
        tones: list[Tone] = ["head"]
        tones += ["plain" for _ in rows]
        lines = columns([heads, *rows], tones, align)
    count = f"{len(rows)} row{'' if len(rows) == 1 else 's'}"
    return [
        *lines,
        BLANK,
        Line(f"the first {count}; there are more" if answer.cut else count, "ask" if answer.cut else "dim"),
    ]


def _blocks(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> list[Line]:
    """Each row as lines `heading  value`; what is unbound is left out."""
    wide = max(map(len, heads))
    lines: list[Line] = []
    for number, row in enumerate(rows):
        lines += [BLANK] if number else []
        lines += [
            Line(f"{head.ljust(wide)}  {cell}", hang=wide + _GAP)
            for head, cell in zip(heads, row, strict=True)
            if cell
        ]
    return lines


def _shown(term: Term | None) -> str:
    """A value as people read it: names of ours without their address, ends of lines as blanks."""
    if term is None:
        return ""
    if term.kind == "bnode":
        return f"_:{term.value[:8]}"
    found = _OURS.fullmatch(term.value) if term.kind == "uri" else None
    return " ".join((found[2] if found else term.value).split())


def answer_json(answer: Answered) -> Json:
    """As the W3C's recommendation "SPARQL 1.1 Query Results JSON Format" has it."""
    if answer.said is not None:
        return {"head": {}, "boolean": answer.said}
    return {
        "head": {"vars": list(answer.columns)},
        "results": {
            "bindings": [
                {name: _term_json(term) for name, term in zip(answer.columns, row, strict=True) if term}
                for row in answer.rows
            ]
        },
    }


def _term_json(term: Term) -> Json:
    said: Json = {"type": term.kind, "value": term.value}
    if term.language:
        said["xml:lang"] = term.language
    if term.datatype:
        said["datatype"] = term.datatype
    return said


def answer_csv(answer: Answered) -> str:
    """As the W3C's recommendation "SPARQL 1.1 Query Results CSV and TSV Formats" has it: values alone, lines end in CR LF.

    It has no form for a yes or no; that is a column `said` with `true` or `false`.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    if answer.said is not None:
        writer.writerows([["said"], [str(answer.said).lower()]])
        return out.getvalue()
    writer.writerow(answer.columns)
    for row in answer.rows:
        cells = [
            f"_:{term.value}" if term and term.kind == "bnode" else term.value if term else "" for term in row
        ]
        writer.writerow(cells)
    return out.getvalue()


def ready_lines(questions: Iterable[Ready], own: frozenset[str]) -> list[Line]:
    """Names and titles of the ready questions; the shop's own are marked."""
    rows = [(one.name, f"{one.title}{' (your own)' if one.name in own else ''}") for one in questions]
    return columns(rows, ["plain"] * len(rows), "l")


def ready_json(questions: Iterable[Ready]) -> Json:
    """The same for programs."""
    return {"ready": [{"name": one.name, "title": one.title, "answers": one.answers} for one in questions]}
