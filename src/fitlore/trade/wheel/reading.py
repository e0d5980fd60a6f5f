"""Texts into wheels."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final

from fitlore.trade.pieces import INCH, Words, size, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow
from fitlore.trade.wheel.value import Circle, Rim, Wheel

EXAMPLES: Final = ("6Jx15 ET35 5x112 bore 57.1", "5.5Jx13 H2", "4x100")
_WIDTH: Final = r"(?:[3-9]|1[0-4])(?:[.,]\d{1,2}|[ -][13]/[24])?"
_DIAMETER: Final = r"(?:[89]|1\d|2[0-2])(?:[.,]5)?"
_FLANGE: Final = r"JJ|JK|J|K|L|B|D|P"
_HUMP: Final = r"FH2|EH2\+?|EH|FHA?|CHA?|CP|H[12]?"
_RIM: Final = words(
    rf"(?<![\w.,/])(?P<width>{_WIDTH})\s?(?P<flange>{_FLANGE})?\s?[x-]\s?(?P<rim>{_DIAMETER})\s?(?P<behind>{_FLANGE})?"
    rf"(?:\s?(?P<hump>{_HUMP}))?(?![\w.,/])"
)
_RIM_TURNED: Final = words(
    rf"(?<![\w.,/])(?P<rim>1\d|2[0-2])\s?x\s?(?P<width>{_WIDTH})\s?(?P<flange>{_FLANGE})?(?:\s?(?P<hump>{_HUMP}))?(?![\w.,/])"
)
_RIM_MM: Final = words(
    r"(?<![\w.,/])(?P<width>1\d\d|2\d\d)\s?x\s?(?P<rim>315|340|365|390|415)(?:\s?mm)?(?![\w.,/])"
)
_CIRCLE: Final = words(
    r"(?:\bPCD\s?:?\s?)?(?<![\w.,/])(?P<holes>[3-8])\s?(?:x|/|on|holes? on)\s?"
    r"(?P<pcd>[5-9]\d(?:[.,]\d{1,2})?|[12]\d\d(?:[.,]\d{1,2})?|[3-8](?:[.,]\d{1,3}|[ -][1-7]/[248]|(?=\s?(?:\"|in))))"
    r"\s?(?P<unit>mm|\"|in(?:ch)?\b)?(?:\s?PCD\b)?(?![\w/])"
)
_OFFSET: Final = words(r"\b(?:ET|IS|offset)\s?:?\s?(?P<offset>[-+]?\d{1,3}(?:[.,]\d)?)(?:\s?mm)?(?![\w.,])")
_BORE: Final = words(
    r"(?:\b(?:centre bore|center bore|bore|spigot|CB|MB|NB)|\N{LATIN SMALL LETTER O WITH STROKE})\s?:?\s?"
    r"(?P<bore>\d{2,3}(?:[.,]\d{1,2})?)(?:\s?mm)?(?![\w.,])"
)
_BARE_BORE: Final = words(r"^(?P<bore>[4-9]\d[.,]\d{1,2}|1\d\d[.,]\d{1,2})(?:\s?mm)?$")
_SEAT: Final = words(
    r"\b(?:(?P<cone>60|90)\s?(?:deg(?:rees?)?\s?)?(?:cone|taper)|(?:cone|taper)\s?(?P<angle>60|90)(?:\s?deg(?:rees?)?)?|"
    r"(?:ball|radius)\s?R?\s?(?P<ball>12|13|14)|(?P<flat>flat))(?:\s?seats?)?\b(?![.,]\d)"
)
_LOAD: Final = words(r"\b(?:max(?:imum)?\s)?load\s?(?P<load>\d{3,4})\s?(?:kg)?\b")
_FILLER: Final = words(r"\b(?:(?:road|steel|alloy|pressed steel)\s)?(?:wheels?|rims?)\b")
_WORD: Final = re.compile(r"[x/\d]|PCD|ET|on", re.IGNORECASE)
_WIDEST: Final = Decimal("8.5")
"""Figures of a bolt circle up to here are inches."""
SAME_CIRCLE: Final = Decimal("0.1")
"""Bolt circles this near in mm are one: 4.25 in is 107.95 and is sold as 108."""


def read(text: str, standards: Standards) -> Wheel | Unreadable:
    """The wheel a text names.

    A rim without a flange letter, or a bolt circle that is not listed, is read only beside another piece: by itself it
    may be anything. A bare figure with a decimal at the end is the centre bore.
    """
    unknown = Unreadable(text, "wheel-unknown", expected=EXAMPLES)
    found = Words(text)
    if found.too_long or not _WORD.search(text):
        return unknown
    offset, bore, load, seat = (found.take(pattern) for pattern in (_OFFSET, _BORE, _LOAD, _SEAT))
    circle = _circle(found)
    rim = _rim(found)
    found.take(_FILLER)
    bare = None if bore else _BARE_BORE.match(found.bare())
    if found.bare() and not bare:
        return unknown
    hole = bore or bare
    made = Wheel(
        rim=rim,
        circle=circle,
        offset=size(offset["offset"].lstrip("+")) if offset else None,
        bore=size(hole["bore"]) if hole else None,
        seat=_seat(seat) if seat else "",
        load=size(load["load"]) if load else None,
    )
    return _certain(made, text, standards)


def _certain(made: Wheel, text: str, standards: Standards) -> Wheel | Unreadable:
    """The wheel, unless what is said may mean another thing."""
    said = sum(piece not in (None, "") for piece in made)
    if made.rim is None and made.circle is None:
        return Unreadable(text, "wheel-unknown", expected=EXAMPLES)
    if made.rim is not None and not made.rim.flange and not made.rim.millimetres and said == 1:
        lettered = made.rim._replace(flange="J")
        return Unreadable(text, "wheel-no-flange", expected=(str(lettered),))
    if made.circle is None:
        return made
    rows = _nearest(made.circle, standards)
    if rows and abs(rows[0].number("diameter") - made.circle.diameter) <= SAME_CIRCLE:
        return made._replace(circle=made.circle._replace(diameter=rows[0].number("diameter")))
    if said == 1:
        expected = tuple(f"{row.cell('holes')}x{row.cell('diameter')}" for row in rows[:3])
        return Unreadable(text, "wheel-circle-unlisted", expected=expected or EXAMPLES)
    return made


def _nearest(circle: Circle, standards: Standards) -> list[TableRow]:
    """The listed circles of as many holes, the nearest first."""
    rows = standards.table("bolt-circle").find(holes=str(circle.holes))
    return sorted(rows, key=lambda row: abs(row.number("diameter") - circle.diameter))


def _circle(found: Words) -> Circle | None:
    match = found.take(_CIRCLE)
    if not match:
        return None
    figure = size(match["pcd"])
    inches = (match["unit"] or "").casefold() not in ("", "mm") or figure <= _WIDEST
    return Circle(int(match["holes"]), round(figure * INCH, 2) if inches else figure)


def _rim(found: Words) -> Rim | None:
    if match := found.take(_RIM_MM):
        return Rim(size(match["width"]), "", size(match["rim"]))
    turned = None
    match = found.take(_RIM)
    if match is None:
        match = turned = found.take(_RIM_TURNED)
    if match is None:
        return None
    behind = "" if turned else match["behind"] or ""
    flange = (match["flange"] or behind).upper()
    return Rim(
        size(match["width"]), flange, size(match["rim"]), (match["hump"] or "").upper().replace("H1", "H")
    )


def _seat(match: re.Match[str]) -> str:
    if angle := match["cone"] or match["angle"]:
        return f"cone {angle}"
    return f"ball R{match['ball']}" if match["ball"] else "flat"
