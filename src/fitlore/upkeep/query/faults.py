"""What can be wrong with a question in SPARQL."""

from __future__ import annotations

from fitlore.books.faults import Fault, fault, register, stretch
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin

_E = Severity.ERROR

register(
    [
        Fault(
            "U30-not-sparql",
            _E,
            "A question that is no SPARQL",
            "this cannot be read as SPARQL: {why}",
            "one SELECT or ASK query of SPARQL 1.1",
            "look at this place and just before it; a bracket, a full stop or a prefix may be missing",
        ),
        Fault(
            "U31-would-change",
            _E,
            "A question that would change something",
            "`{word}` begins an update, and questions change nothing",
            "SELECT or ASK",
            "change the books in an editor or with `fitlore note`; the graph is made from them",
        ),
        Fault(
            "U32-asks-elsewhere",
            _E,
            "A question that asks elsewhere",
            "`SERVICE` sends a part of the question to another machine, and that is not done",
            "a question about the books that are here",
            "take that part out; books of others come in as a shelf (`fitlore books shelf add`)",
        ),
        Fault(
            "U33-not-a-table",
            _E,
            "A question whose answer is no table",
            "`{word}` asks for statements, not for rows",
            "SELECT, or ASK for a yes or no",
            "write SELECT with the columns wanted; `fitlore books export` hands out statements",
        ),
        Fault(
            "U34-took-too-long",
            _E,
            "A question that took too long",
            "no answer within {seconds} s; it was stopped",
            "patterns that hang together by a shared variable, the rarest first",
            "narrow it, or give it more time with --seconds",
        ),
        Fault(
            "U35-broke-off",
            _E,
            "A question that broke off",
            "the process that answered it ended before the answer: {why}",
            "an answer that the memory can hold",
            "narrow it: fewer patterns that do not hang together, no sorting of everything",
        ),
        Fault(
            "U36-not-ready",
            _E,
            "A ready question without its header",
            "{why}",
            "`# title: ...` and `# answers: ...`, each on a line of its own, and a query",
            "add the line; the list of ready questions shows both",
        ),
    ]
)


def at(code: str, shown: str, text: str, line: int, column: int, width: int = 1, **values: str) -> Diagnostic:
    """A fault at a place of a question's text (line and column from 1), with that line."""
    lines = text.split("\n")
    excerpt, cut = "", 0
    if 0 < line <= len(lines):
        row = lines[line - 1]
        first, last = stretch(0, len(row), max(0, column - 1))
        excerpt, cut = row[first:last], first
    return fault(code, Origin(shown, line, column), excerpt=excerpt, width=width, cut=cut, **values)


def place(text: str, index: int) -> tuple[int, int]:
    """Line and column (both from 1) of an index of a text."""
    return text.count("\n", 0, index) + 1, index - text.rfind("\n", 0, index)
