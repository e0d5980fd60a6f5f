"""The plans worth choosing between, in words: money against days and certainty."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitlore.report.money import said
from fitlore.report.plans import title_lines
from fitlore.report.plans_impossible import day_of
from fitlore.report.text import Line, Tone, columns, tied
from fitlore.sourcing.proof import hundredths

if TYPE_CHECKING:
    from fitlore.sourcing.frontier import Frontier
    from fitlore.sourcing.plan import Plan


def trade_off_lines(plan: Plan, found: Frontier) -> list[Line]:
    """Each plan on one numbered line, the cheapest first; how far a first line is away is its reader's to see."""
    lines = [
        *title_lines(plan),
        Line("no other plan is at once as cheap, as soon and as sure:", "head", hang=2),
    ]
    cells = [
        (
            f"{number:>2}",
            said(point.cost, plan.home),
            tied(day_of(plan, point.days)) if point.days else "now",
            f"{hundredths(point.chance)} in 100",
        )
        for number, point in enumerate(found.points, 1)
    ]
    head = ("", "in all", "all in hand", "all right the first time")
    tones: list[Tone] = ["plain"] * len(cells)
    tones.insert(0, "dim")
    lines += columns([head, *cells], tones, "rrl")
    if not found.whole:
        lines.append(Line("the search was cut short: there may be others", "danger"))
    lines.append(Line("`fitlore why N` says what line N does otherwise than line 1", "dim", hang=2))
    return lines
