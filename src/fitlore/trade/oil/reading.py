"""Texts into oils: a grade of viscosity of one of two scales, and classes of service."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from fitlore.trade.pieces import Words, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

ENGINE: Final = ("SAE 20W-50", "SAE 30", "SAE 10W-40 API SF/CC", "API SE")
GEAR: Final = ("SAE 80W-90 GL-4", "SAE 90 EP", "GL-5", "SAE 20W-50")
_HINT: Final = words(r"\bSAE|\bAPI\b|\d\s?W|\bGL|\bEP|\bHD")
_GL: Final = words(
    r"\b(?:API\s*)?GL\s?-?\s?(?P<first>[1-6])(?![\w.])(?:\s*[/+&]\s*(?:GL\s?-?\s?)?(?P<second>[1-6])(?![\w.]))?(?!\+)"
)
_CLASS: Final = r"(?:S[A-HJLMNP]|C[A-K](?:-?[24])?)"
_API: Final = words(rf"\bAPI\s*(?:service\s*)?(?P<list>{_CLASS}(?:\s*[/,+& ]\s*{_CLASS})*)(?![\w-])")
_BARE: Final = words(rf"(?<![\w-])(?P<list>{_CLASS}(?:\s*[/,+&]\s*{_CLASS})*)(?![\w-])")
_MULTI: Final = words(
    r"(?<![\w.])(?:SAE\s*)?(?P<winter>\d{1,2})\s?W\s*[-/ ]?\s*(?P<hot>\d{1,3})(?![\w.,/]|-\w)"
)
_WINTER: Final = words(r"\bSAE\s*(?P<winter>\d{1,2})\s?W(?![\w.])")
_MONO: Final = words(r"\b(?:SAE|(?P<ep>EP)|HD|SAE\s*EP)\s?-?(?P<hot>\d{1,3})(?![\w.,/]|-\w)")
_EP: Final = words(r"\b(?:EP|hypoid)\b")
_FILLER: Final = words(
    r"\b(?:engine|motor|gear(?:box)?|axle|transmission)?\s?oil\b|\bmultigrade\b|(?<!\S)[/&+,;()](?!\S)"
)


class Oil(NamedTuple):
    """An oil as far as a text says it: rows of its grades, of its classes, and whether it is an extreme-pressure oil."""

    scale: str
    """`engine` or `gear`; empty where no grade is said."""
    winter: TableRow | None
    hot: TableRow | None
    classes: tuple[TableRow, ...]
    ep: bool = False

    def __str__(self) -> str:
        grades = "-".join(row.word("grade") for row in (self.winter, self.hot) if row)
        gears = [row.word("class") for row in self.classes if row.section == "gear-oil-service"]
        engines = [row.word("class") for row in self.classes if row.section == "engine-oil-service"]
        said = (
            f"SAE {grades}" if grades else "",
            f"API {'/'.join(engines)}" if engines else "",
            "/".join(gears),
            "EP" if self.ep and not gears else "",
        )
        return " ".join(part for part in said if part)


def read(kind: str, text: str, standards: Standards) -> Oil | Unreadable:
    """The oil a text names. An engine oil may be asked for by a gearbox, but a gear oil by no engine."""
    unknown = Unreadable(text, f"{kind}-unknown", expected=ENGINE if kind == "engine-oil" else GEAR)
    if not _HINT.search(text):
        return unknown
    found = Words(text)
    if found.too_long:
        return unknown
    gears = found.take(_GL)
    grade = found.take(_MULTI) or found.take(_WINTER) or found.take(_MONO)
    listed = found.take(_API) or (found.take(_BARE) if grade else None)
    pressed = found.take(_EP)
    while found.take(_FILLER):
        pass
    if found.bare() or not (grade or listed or gears):
        return unknown
    named = {} if grade is None else grade.groupdict()
    scales = _scales(named, standards)
    if len(scales) != 1:
        return Unreadable(text, "oil-grade", expected=unknown.expected)
    scale, winter, hot = scales[0]
    if kind == "engine-oil" and (scale == "gear" or gears or pressed or named.get("ep")):
        return Unreadable(text, "engine-oil-of-gears", expected=ENGINE)
    wanted = set(re.findall(_CLASS, listed["list"].upper())) if listed else set()
    wanted = {re.sub(r"(?<=[A-Z])(?=[24])", "-", name) for name in wanted}
    wanted |= {f"GL-{figure}" for figure in (gears.groups() if gears else ()) if figure}
    sections = ("engine-oil-service", "gear-oil-service")
    classes = tuple(
        row for name in sections for row in standards.table(name).rows if row.word("class") in wanted
    )
    if len(classes) != len(wanted):
        return Unreadable(text, "oil-class", expected=unknown.expected)
    return Oil(scale, winter, hot, classes, bool(pressed or named.get("ep")))


def _scales(
    named: dict[str, str | None], standards: Standards
) -> list[tuple[str, TableRow | None, TableRow | None]]:
    """The scales that have all the grades said: the two have no grade in common."""
    winter, hot = named.get("winter"), named.get("hot")
    if not (winter or hot):
        return [("", None, None)]
    made = []
    for scale in ("engine", "gear"):
        cold = standards.table(f"{scale}-oil-winter").find(grade=f"{winter}W") if winter else ()
        warm = standards.table(f"{scale}-oil-hot").find(grade=hot) if hot else ()
        if bool(winter) == bool(cold) and bool(hot) == bool(warm):
            made.append((scale, cold[0] if cold else None, warm[0] if warm else None))
    return made
