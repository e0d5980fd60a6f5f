"""The policy in words: what is looser than built in first, then every value with the line that says it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from fitlore.model.policy import Policy
from fitlore.report.text import Line, columns
from fitlore.upkeep.policy_values import PolicyValue, Said

_OF_TABLES = {
    "chance": "chance that a piece of evidence is right",
    "stale-after": "days after which a price is stale, by kind of supplier",
    "vat": "value added tax",
    "import-duty": "import duty",
}


def policy_lines(values: Sequence[PolicyValue], not_counted: Iterable[Policy]) -> list[Line]:
    """One line a value; `over` are what it was, and where."""
    lines = [_danger(value) for value in values if value.looser]
    lines += [
        Line(f"not counted, because somebody else's: the policy {one.policy}  [{one.origin}]", "ask", hang=2)
        for one in not_counted
    ]
    for of, rows in groupby(values, group_of):
        lines.append(Line(_OF_TABLES.get(of, of) or "for everything", "head"))
        shown = [(f"  {key_of(value)}", _words(value)) for value in rows]
        lines += columns(shown, ["plain" for _ in shown], "l")
    return lines


def group_of(value: PolicyValue) -> str:
    """The safety class or the table a value belongs to; empty where it stands alone."""
    path = value.path
    return path[1] if len(path) > 2 and path[0] == "classes" else path[0] if len(path) > 1 else ""


def key_of(value: PolicyValue) -> str:
    """What it is called in its group: `no-used`, `told`, `GB from 2011-01-04`."""
    path = value.path
    if path[0] in ("vat", "import-duty"):
        *what, since = path[1:]
        return f"{', '.join(word for word in what if word)} from {since}"
    return path[-1]


def _words(value: PolicyValue) -> str:
    now, *over = (f"{one.text}  [{one.origin}]" for one in (value.now, *value.over))
    return "; was ".join([now, *over])


def _danger(value: PolicyValue) -> Line:
    whose = f"{group_of(value)}, " if group_of(value) else ""
    return Line(
        f"! {whose}{key_of(value)}: {_at(value.now)}, and the built-in policy says {_at(value.built_in)}:"
        f" looser for {value.looser}",
        "danger",
        hang=2,
    )


def _at(said: Said) -> str:
    return f"{said.text} [{said.origin}]"
