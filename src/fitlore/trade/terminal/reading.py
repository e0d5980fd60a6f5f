"""Texts into terminals by size, and into numbers of terminals."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import INCH, Words, in_mm, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain
from fitlore.trade.thread.spelling import fold

EXAMPLES: Final = ("tab 6.3x0.8", "sleeve 4.8x0.8", "ring M6", "bullet 4.7")
NUMBERS: Final = ("30", "87a", "D+", "old 15/54", "british C1")
_FORM: Final = words(
    r"\b(?:(?P<sleeve>sleeve|female(?: (?:spade|blade|tab))?|push-?on|receptacle)"
    r"|(?P<tab>tab|blade(?: terminal)?|male(?: (?:spade|blade|tab))?)|(?P<spade>spade)"
    r"|(?P<ring>ring|eye(?:let)?)|(?P<socket>bullet (?:socket|sleeve|connector))|(?P<bullet>bullet))s?\b"
)
_STUD: Final = words(r"(?<![\w.])M(?P<m>3|4|5|6|8|10|12)(?![\w.])")
_SPAN: Final = words(
    r"(?<![\w.,/])(?P<w>\d{1,2}(?:[.,]\d{1,3})?)\s?(?:mm\s?)?x\s?(?P<t>\d(?:[.,]\d{1,2})?)(?:\s?mm)?(?![\w])"
)
_WIDTH: Final = words(
    r"(?<![\w])(?P<w>\d{1,2}/\d{1,2}|\d{0,2}[.,]\d{1,3}|\d{1,2})\s?(?P<unit>mm|inch(?:es)?|in|\")?(?![\w/])"
)
_FILLING: Final = words(r"\b(?:terminals?|crimp|flat|round|connectors?|hole|for|of|stud|spade)\b")
_SLACK: Final = Decimal("0.1")
_NUMBER: Final = re.compile(
    r"(?:(?P<old>old)\s+|(?P<british>(?:old\s+)?british(?:\s+(?:relay|flasher))?)\s+)?"
    r"(?:(?P<word>terminal|term|klemme|kl)\s+)?(?P<n>[A-Z]{0,2}[-+]?/?\d{0,2}(?:[A-Za-z]{1,2}|~)?[-+]?(?:/\d{2})?)",
    re.IGNORECASE | re.ASCII,
)


class Terminal(NamedTuple):
    """A terminal by size: the width of a tab, the hole of a ring, the diameter of a bullet, in mm."""

    name: str
    form: str
    size: Decimal
    thickness: Decimal | None = None
    rows: tuple[TableRow, ...] = ()


def read(text: str, standards: Standards) -> Terminal | Unreadable:
    """The terminal a text names. A spade may be either half; a tab of 2.8 or 4.8 mm comes in two thicknesses."""
    said = Words(text)
    match = None if said.too_long else said.take(_FORM)
    if not match:
        return Unreadable(text, "terminal-unknown", expected=EXAMPLES)
    form, stud = match.lastgroup or "", said.take(_STUD)
    span = said.take(_SPAN) if form in ("tab", "sleeve", "spade") else None
    width = None if stud or span else said.take(_WIDTH)
    while said.take(_FILLING):
        pass
    if said.bare() or not (stud or span or width):
        return Unreadable(text, "terminal-unknown", expected=EXAMPLES)
    if stud:
        rows = standards.table("terminal-rings").find(stud=f"M{stud['m']}")
        if form != "ring" or not rows:
            return Unreadable(text, "terminal-unknown", expected=EXAMPLES)
        return Terminal(f"ring M{stud['m']}", form, rows[0].number("hole"), rows=rows)
    wanted = in_mm(span["w"], "mm") if span else in_mm(width["w"], width["unit"]) if width else Decimal(0)
    thickness = in_mm(span["t"], "mm") if span else None
    return _sized(text, form, wanted, thickness, standards)


def _sized(
    text: str, form: str, wanted: Decimal, thickness: Decimal | None, standards: Standards
) -> Terminal | Unreadable:
    if form == "ring":
        near = [
            row
            for row in standards.table("terminal-rings").rows
            if abs(row.number("hole") - wanted) <= _SLACK
        ]
        name = f"ring {near[0].word('stud')}" if near else f"ring {plain(round(wanted, 1))} mm"
        return Terminal(name, form, near[0].number("hole") if near else wanted, rows=tuple(near[:1]))
    section, column = (
        ("terminal-bullets", "diameter") if form in ("bullet", "socket") else ("terminal-tabs", "width")
    )
    rows = [row for row in standards.table(section).rows if _same(row, column, wanted)]
    rows = [row for row in rows if thickness in (None, row.numbers.get("thickness"))]
    if not rows:
        listed = (f"{form} {row.cell(column)}" for row in standards.table(section).rows)
        return Unreadable(text, "terminal-unlisted", expected=tuple(dict.fromkeys(listed)))
    size = rows[0].number(column)
    if form == "spade":
        named = [f"{plain(size)}x{row.cell('thickness')}" for row in rows]
        readings = tuple(f"{half} {one}" for half in ("tab", "sleeve") for one in named)
        return Unreadable(text, "terminal-spade", readings, readings)
    if column == "diameter":
        name = f"{'bullet socket' if form == 'socket' else 'bullet'} {plain(size)}"
        return Terminal(name, form, size, rows=tuple(rows[:1]))
    if len(rows) > 1:
        readings = tuple(f"{form} {plain(size)}x{row.cell('thickness')}" for row in rows)
        return Unreadable(text, "terminal-thickness", readings, readings)
    own = rows[0].number("thickness")
    return Terminal(f"{form} {plain(size)}x{plain(own)}", form, size, own, tuple(rows))


def _same(row: TableRow, column: str, wanted: Decimal) -> bool:
    inch = row.numbers.get("inch")
    sizes = [row.number(column)] + ([inch * INCH] if inch is not None else [])
    return any(abs(size - wanted) <= _SLACK / 2 for size in sizes)


def read_number(text: str, standards: Standards) -> TableRow | Unreadable:
    """The row of DIN 72552 that a mark names. An old mark that became several is refused with all of them.

    A single figure has to be called a terminal: by itself it is a count of something.
    """
    match = _NUMBER.fullmatch(fold(text)) if len(text) <= 40 else None
    if match is None or not match["n"]:
        return Unreadable(text, "terminal-number-unknown", expected=NUMBERS)
    mark = match["n"]
    if len(mark) == 1 and mark.isdigit() and not (match["word"] or match["old"]):
        return Unreadable(text, "terminal-number-unknown", expected=(f"terminal {mark}",))
    numbers = standards.table("terminal-numbers")
    if match["british"]:
        rows = standards.table("terminal-british").find(letter=mark.upper())
        return _renamed(text, rows[0].word("number") if rows else "", standards)
    if not match["old"] and (found := _fold(mark, "number", numbers.rows)):
        return found
    old = _fold(mark, "old", standards.table("terminal-old").rows)
    if old is None or not (match["old"] or re.search(r"\d", mark)):
        return Unreadable(text, "terminal-number-unknown", expected=NUMBERS)
    return _renamed(text, old.word("new"), standards)


def _fold(mark: str, column: str, rows: tuple[TableRow, ...]) -> TableRow | None:
    """The row whose mark is this; upper and lower case mean the same where only one row is meant."""
    exact = [row for row in rows if row.word(column) == mark]
    alike = [row for row in rows if row.word(column).casefold() == mark.casefold()]
    return exact[0] if exact else alike[0] if len(alike) == 1 else None


def _renamed(text: str, new: str, standards: Standards) -> TableRow | Unreadable:
    numbers = new.split(",") if new else []
    if len(numbers) == 1 and (rows := standards.table("terminal-numbers").find(number=numbers[0])):
        return rows[0]
    reason = "terminal-number-several" if numbers else "terminal-number-unknown"
    readings = tuple(f"terminal {number}" for number in numbers)
    return Unreadable(text, reason, readings, readings or NUMBERS)
