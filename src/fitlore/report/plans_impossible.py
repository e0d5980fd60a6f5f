"""A job that is not possible as it stands, in words: what clashes, and what would help."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from fitlore.model.because import Because
from fitlore.report.days import short_day
from fitlore.report.money import said
from fitlore.report.sentences import cited, say
from fitlore.report.text import Line, listed, minutes
from fitlore.sourcing.proof import clash_proofs

if TYPE_CHECKING:
    from fitlore.sourcing.clash import Relaxation
    from fitlore.sourcing.plan import Plan


def clash_lines(plan: Plan) -> list[Line]:
    """What cannot all hold, numbered for `why`; what by itself would help; what would have to be left."""
    lines = [Line("not possible as it stands", "danger")]
    if plan.clash is None:
        return lines
    found = plan.clash
    head = (
        "these cannot all hold, and no smaller part of them clashes (other sets may clash as well):"
        if found.irreducible
        else "among these is what clashes (the search was cut short):"
    )
    lines.append(Line(head, "head", hang=2))
    for number, proof in enumerate(clash_proofs(plan), 1):
        where = cited(proof)
        lines.append(Line(f"{number:>2}  {clash_words(proof)}{'  ' + where if where else ''}", hang=6))
    ways = [row for row in found.relaxations if row.group.kind != "banned"]
    if ways:
        head = (
            "any one of these alone makes the whole job possible:"
            if len(ways) > 1
            else "this alone makes it possible:"
        )
        lines.append(Line(head, "head"))
        lines += [Line(f"  {_eased(plan, row)}", hang=4) for row in ways]
    else:
        lines.append(Line("no single change makes it possible", "head"))
    if found.give_up:
        lines.append(Line("with every limit kept, the fewest to leave: " + listed(found.give_up), hang=2))
    lines.append(Line("`fitlore why N` says who has what, and when", "dim", hang=2))
    return lines


def clash_words(proof: Because) -> str:
    """A member of a clash in one line."""
    if proof.code == "clash-need":
        return f"need: {proof.values['need']} ({proof.values['fault']})"
    return f"limit: {say(proof)}"


def _eased(plan: Plan, row: Relaxation) -> str:
    value = row.value or 0
    match row.group.kind:
        case "need":
            return f"leaving {row.group.id}"
        case "minutes":
            return f"{minutes(value)} of hands"
        case "cash":
            return f"{said(value, plan.home)} to spend now"
        case "days":
            return f"waiting till {day_of(plan, value)}"
        case "suppliers":
            return suppliers_words(value)
        case "without supplier":
            return f"buying from {row.group.id}"
        case _:
            return f"doing without the limit: {row.group.kind} {row.group.id}".rstrip()


def suppliers_words(count: int) -> str:
    """`1 supplier`, `2 suppliers`."""
    return f"{count} supplier{'' if count == 1 else 's'}"


def day_of(plan: Plan, days: int) -> str:
    """Days from the day of planning as a date with its weekday."""
    return short_day(plan.assembled.today + timedelta(days=days))
