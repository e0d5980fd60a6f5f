"""What a plan leaves open: what to look at on the other side first, and what could be mended but is not planned."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from fitlore.fitting import Word
from fitlore.report.text import Line, listed, minutes, tied

if TYPE_CHECKING:
    from fitlore.sourcing.mending import Mendable
    from fitlore.sourcing.planned import Plan, PlanLine

Json = dict[str, Any]


class OtherSide(NamedTuple):
    """What to look at on the other side before anybody can say whether these parts do."""

    need: str
    feature: str
    look: str
    parts: tuple[str, ...]


def open_sides(plan: Plan) -> list[OtherSide]:
    """Parts of which only the other side of the car decides, and nobody said what is there."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for row in plan.assembled.refused:
        asks = row.verdict.asks
        if row.verdict.word is Word.DEPENDS and asks and all(ask.about == "other-side" for ask in asks):
            for ask in asks:
                found.setdefault((row.need.id, ask.name, ask.look), []).append(row.verdict.part.part)
    return [OtherSide(*key, tuple(dict.fromkeys(parts))) for key, parts in found.items()]


def open_side_lines(plan: Plan) -> list[Line]:
    """One line for each thing to look at on the other side."""
    return [
        Line(
            f"look first at the other side of {tied(row.need)}: {row.feature}{f' ({row.look})' if row.look else ''}; "
            f"where it agrees, {listed(map(tied, row.parts), 'or')} would do",
            "ask",
            hang=2,
        )
        for row in open_sides(plan)
    ]


def could_be_mended(plan: Plan, line: PlanLine) -> list[str]:
    """What could be made good again instead of what is bought here, and why it is not planned."""
    if line.choice is not None and line.choice.verdict is None:
        return []
    why: dict[str, list[str]] = {}
    for row in plan.assembled.mendable:
        if row.need.id == line.need.id:
            lacks = listed(map(tied, row.lacks))
            reason = f"no price for {lacks}" if row.lacks else "nobody says how often it succeeds"
            time = row.how.minutes * row.need.quantity
            why.setdefault(reason, []).append(f"{row.how.do}{f' ({minutes(time)})' if time else ''}")
    return [f"could be mended, not planned ({reason}): {listed(ways, 'or')}" for reason, ways in why.items()]


def _mendable_json(row: Mendable) -> Json:
    return {
        "need": row.need.id,
        "do": row.how.do,
        "minutes": row.how.minutes * row.need.quantity,
        "succeeds": float(row.how.succeeds.percent) if row.how.succeeds else None,
        "no-price-for": list(row.lacks),
        "look": row.how.look,
        "line": str(row.how.origin),
    }


def open_json(plan: Plan) -> Json:
    """The same as data."""
    return {
        "could-be-mended": [_mendable_json(row) for row in plan.assembled.mendable],
        "other-side": [
            {"need": row.need, "feature": row.feature, "look": row.look, "parts": list(row.parts)}
            for row in open_sides(plan)
        ],
    }
