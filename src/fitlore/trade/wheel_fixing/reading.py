"""Texts into wheel nuts and wheel bolts."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import FIGURE, Words, in_mm, shown, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.thread.reading import read as read_thread
from fitlore.trade.thread.value import Thread, normal

EXAMPLES: Final = (
    "wheel nut M12x1.5, cone 60",
    "wheel bolt M14x1.5, ball R13, length 27 mm",
    "wheel nut 1/2-20 UNF, sleeve 17.5 mm",
)
_HALF: Final = words(r"\b(?:wheel |lug )?(?P<half>nut|bolt)\b")
_UNIT: Final = r"\s*(?P<unit>mm|\"|in(?:ch)?\b)?"
_CONE: Final = words(
    r"\b(?:(?P<before>60|90)\s*-?\s*(?:deg(?:rees?)?)?\s*)?(?:cone|conical|taper(?:ed)?)(?:\s*(?P<after>60|90)(?:\s*deg(?:rees?)?)?(?![\w.]))?"
)
_BALL: Final = words(
    r"\b(?:ball|radius|spherical|domed)(?:\s+seat)?(?:\s*R?\s*(?P<r>1[0-9])(?:\s*mm)?(?![\w.]))?|\bR\s*(?P<bare>1[234])(?![\w.])(?:\s*ball)?"
)
_SLEEVE: Final = words(rf"\b(?:sleeve|mag|shank)(?:\s+(?P<size>{FIGURE}){_UNIT})?")
_FLAT: Final = words(r"\bflat(?: seat| washer| face)?\b")
_BEFORE: Final = rf"(?<![\w/.-])(?P<size>{FIGURE}){_UNIT}\s*"
_LENGTH: Final = (words(rf"\b(?:thread )?length\s+(?P<size>{FIGURE}){_UNIT}"), words(rf"{_BEFORE}long\b"))
_HEX: Final = (
    words(rf"\b(?:hexagon|hex|spanner)\s+(?P<size>{FIGURE})(?![\d.,/]){_UNIT}(?!\s*(?:mm\s*)?long\b)"),
    words(rf"{_BEFORE}(?:hexagon|hex|a/?f)\b"),
)
_SEAT_SIZE: Final = (words(rf"\bseat\s+(?P<size>{FIGURE}){_UNIT}"),)
_FILLER: Final = words(r"\b(?:wheel|lug|seat)\b")


class Fixing(NamedTuple):
    """A wheel nut or bolt; sizes in mm where they are said.

    `seat_size` is the cone's large diameter, `sleeve` the outside diameter of a sleeve, `length` that of a nut's thread, or
    of a bolt from its seat to its end.
    """

    half: str
    thread: Thread
    seat: str
    sleeve: Decimal | None = None
    seat_size: Decimal | None = None
    length: Decimal | None = None
    hexagon: Decimal | None = None

    def __str__(self) -> str:
        seat = self.seat if self.sleeve is None else f"{self.seat} {shown(self.sleeve)} mm"
        parts = [f"wheel {self.half} {normal(self.thread)}", seat]
        named = (("seat", self.seat_size), ("length", self.length), ("hexagon", self.hexagon))
        return ", ".join([*parts, *(f"{name} {shown(size)} mm" for name, size in named if size is not None)])


def read(text: str, standards: Standards) -> Fixing | Unreadable:
    """The wheel nut or bolt a text names. Without its seat, or with half of it (which radius?), it is a question."""
    found = Words(text)
    half = found.take(_HALF)
    if (
        found.too_long
        or not half
        or not any(one.search(found.rest) for one in (_CONE, _BALL, _FLAT, _SLEEVE, _FILLER))
    ):
        wheel = half is not None and ("wheel" in half[0].casefold() or "lug" in half[0].casefold())
        if found.too_long or not wheel:
            return Unreadable(text, "wheel-fixing-unknown", expected=EXAMPLES)
    assert half is not None
    hexagon, length = _size(found, _HEX), _size(found, _LENGTH)
    seats, sleeve = _seat(found)
    seat_size = _size(found, _SEAT_SIZE)
    while found.take(_FILLER):
        pass
    thread = read_thread(found.bare(), standards)
    if isinstance(thread, Unreadable):
        return Unreadable(text, "wheel-fixing-thread", expected=thread.expected or thread.readings)
    made = Fixing(half["half"].casefold(), thread, "", sleeve, seat_size, length, hexagon)
    readings = tuple(str(made._replace(seat=seat)) for seat in seats)
    if len(readings) != 1:
        usual = tuple(str(made._replace(seat=seat)) for seat in ("cone 60", "ball R13", "flat"))
        code = "wheel-fixing-several" if readings else "wheel-fixing-no-seat"
        return Unreadable(text, code, readings or usual, readings or usual)
    if seats == ("sleeve",) and half[0].casefold() == "bolt":
        return Unreadable(text, "wheel-fixing-unknown", expected=EXAMPLES)  # the shank of a plain bolt
    if seats == ("sleeve",) and sleeve is None:
        return Unreadable(text, "wheel-fixing-no-sleeve", expected=EXAMPLES[2:])
    return made._replace(seat=seats[0])


def _seat(found: Words) -> tuple[tuple[str, ...], Decimal | None]:
    """The forms of seat that the text may mean, and the diameter of a sleeve."""
    if match := found.take(_CONE):
        angle = match["before"] or match["after"]
        return (f"cone {angle}",) if angle else ("cone 60", "cone 90"), None
    if match := found.take(_BALL):
        radius = match["r"] or match["bare"]
        if radius and not 12 <= int(radius) <= 14:
            return (), None
        return (f"ball R{radius}",) if radius else ("ball R12", "ball R13", "ball R14"), None
    if match := found.take(_SLEEVE):
        return ("sleeve",), in_mm(match["size"], match["unit"]) if match["size"] else None
    return (("flat",), None) if found.take(_FLAT) else ((), None)


def _size(found: Words, patterns: tuple[re.Pattern[str], ...]) -> Decimal | None:
    for pattern in patterns:
        if match := found.take(pattern):
            return in_mm(match["size"], match["unit"])
    return None
