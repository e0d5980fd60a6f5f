"""Texts into batteries: case names of Europe, Japan and North America, type numbers, and figures beside them."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import Words, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

EXAMPLES: Final = (
    "L2 60 Ah 540 A EN positive right",
    "46B24L",
    "ETN 560 408 054",
    "BCI 48",
    "battery 242x175x190 60 Ah",
)
_JIS: Final = words(
    r"(?<![\w-])(?P<rank>\d{2,3})(?P<case>[A-H]\d{2})(?P<layout>[LR])?(?P<thick>\(?S\)?)?(?![\w-])"
)
_ETN: Final = words(r"\b(?:ETN|type number)\s?(?P<a>\d{3})[ .-]?(?P<b>\d{3})[ .-]?(?P<c>\d{3})(?!\d)")
_DIN: Final = words(r"\bDIN\s?(?P<a>[0-2567]\d{2})[ .-]?(?P<b>\d{2})(?!\d)")
_CASE: Final = words(r"(?<![\w-])(?:EN |case )?L(?P<n>[0-6]|N[0-6]|B[1-5])(?![\w-])")
_ALIAS: Final = words(r"\b(?:DIN|case|battery) (?P<a>[HT][3-9])(?![\w-])")
_GROUP: Final = words(r"\b(?:BCI(?: group)?|group)\s?(?P<g>\d{2}[FR]?)(?!\w)")
_SPAN: Final = words(r"(?<![\w.])(?P<l>\d{3})\s?x\s?(?P<w>\d{2,3})\s?x\s?(?P<h>\d{2,3})(?:\s?mm)?(?!\w)")
_AH: Final = words(r"(?<![\w.])(?P<n>\d{1,3})\s?Ah\b")
_COLD: Final = words(
    r"(?<![\w.])(?P<n>\d{2,4})\s?A?\s?\(?(?P<norm>EN|SAE|DIN|IEC|JIS|CCA)\)?(?!\w)|(?<![\w.])(?P<bare>\d{2,4})\s?A(?!\w)"
)
_LAYOUT: Final = words(
    r"\b(?:layout (?P<n>[01])|(?:positive|plus)(?: post)?(?: on the)? (?P<side>right|left)|(?P<before>right"
    r"|left)[- ](?:hand )?positive)\b|\+ (?P<sign>right|left)\b"
)
_POSTS: Final = words(r"\b(?P<p>thick|thin|standard|JIS) posts?\b")
_LEDGE: Final = words(r"(?<![\w-])B(?P<n>\d{1,2})(?![\w-])")
_VOLTS: Final = words(r"(?<![\w.])(?P<v>6|12)\s?V(?:olts?)?(?!\w)")
_WORD: Final = words(r"\b(?:starter )?battery\b")
_FILLING: Final = words(r"\b(?:case|hold-?down|ledge|CCA|cold start)\b|[,;/]")
_TWELVE: Final = 500
"""EN 60095-1: type numbers from here on are of 12 V, and their capacity is what is above."""


class Battery(NamedTuple):
    """A battery as a text says it; what is not said is None or empty. Sizes in mm, capacity in Ah, cold start in A.

    `layout` is where plus is with the posts towards one; `rank` is the performance figure of JIS D 5301.
    """

    name: str
    case: TableRow | None = None
    length: Decimal | None = None
    width: Decimal | None = None
    height: Decimal | None = None
    layout: str = ""
    posts: str = ""
    ledge: TableRow | None = None
    capacity: int | None = None
    cold: int | None = None
    norm: str = ""
    rank: int | None = None
    volts: int | None = None


def read(text: str, standards: Standards) -> Battery | Unreadable:
    """The battery a text names: by its case, its type number, or its sizes with the word battery."""
    said = Words(text)
    if said.too_long:
        return _unknown(text)
    jis, etn, din = said.take(_JIS), said.take(_ETN), said.take(_DIN)
    cased = None if jis else _case(said, standards)
    word, span = said.take(_WORD), said.take(_SPAN)
    battery = _plain(said, standards)
    while said.take(_FILLING):
        pass
    if said.bare() or battery is None or not (jis or etn or din or cased or (word and span)):
        return _unknown(text)
    found: Battery | None = battery
    if jis:
        found = _of_jis(jis, battery, standards)
    elif etn or din:
        found = _of_number(etn, din, battery)
    if cased is not None and found is not None:
        found = None if not cased else _of_case(cased[0], found)
    if found is None:
        return Unreadable(text, "battery-unlisted", expected=EXAMPLES)
    if span:
        found = found._replace(length=Decimal(span["l"]), width=Decimal(span["w"]), height=Decimal(span["h"]))
    lead = _lead(jis, etn, din, found, span is not None)
    return found._replace(name=" ".join([lead, *_beside(found, battery, bool(etn or din))]))


def _case(said: Words, standards: Standards) -> tuple[TableRow, ...] | None:
    """The listed case that is named; empty where it is not listed; None where none is named."""
    table = standards.table("battery-cases")
    if match := said.take(_CASE):
        return table.find(system="EN", case="L" + match["n"].upper().lstrip("N"))
    if match := said.take(_ALIAS):
        rows = standards.table("battery-aliases").find(alias=match["a"].upper())
        return table.find(system="EN", case=rows[0].word("case")) if rows else ()
    if match := said.take(_GROUP):
        return table.find(system="group", case=match["g"].upper())
    return None


def _plain(said: Words, standards: Standards) -> Battery | None:
    """What stands beside the name; None where a ledge is not listed."""
    capacity, layout, posts = said.take(_AH), said.take(_LAYOUT), said.take(_POSTS)
    ledge, volts, cold = said.take(_LEDGE), said.take(_VOLTS), said.take(_COLD)
    rows = standards.table("battery-ledges").find(ledge=f"B{int(ledge['n']):02d}") if ledge else ()
    if ledge and not rows:
        return None
    norm = (cold["norm"] or "").upper() if cold else ""
    return Battery(
        "",
        layout=_side(layout),
        posts={"thick": "thick", "standard": "thick"}.get(posts["p"].lower(), "thin") if posts else "",
        ledge=rows[0] if rows else None,
        capacity=int(capacity["n"]) if capacity else None,
        cold=int(cold["n"] or cold["bare"]) if cold else None,
        norm="" if norm == "CCA" else norm,
        volts=int(volts["v"]) if volts else None,
    )


def _side(layout: re.Match[str] | None) -> str:
    if layout is None:
        return ""
    if layout["n"]:
        return "right" if layout["n"] == "0" else "left"
    return str(layout["side"] or layout["before"] or layout["sign"]).lower()


def _of_jis(jis: re.Match[str], beside: Battery, standards: Standards) -> Battery | None:
    """JIS D 5301: rank, letter of width and height, length in cm, where minus is with the posts towards one."""
    rows = standards.table("battery-cases").find(system="JIS", case=jis["case"].upper())
    if not rows:
        return None
    layout = {"L": "right", "R": "left"}.get((jis["layout"] or "").upper(), "")
    cased = _of_case(rows[0], beside)
    posts = "thick" if jis["thick"] else cased.posts
    return cased._replace(rank=int(jis["rank"]), layout=beside.layout or layout, posts=posts, volts=12)


def _of_number(etn: re.Match[str] | None, din: re.Match[str] | None, beside: Battery) -> Battery | None:
    """The type number: volts and Ah in the first three figures, a tenth of the cold start after EN in the last three."""
    match = etn or din
    assert match is not None
    first = int(match["a"])
    if first >= 800:
        return None
    capacity = first - _TWELVE if first >= _TWELVE else first
    cold = int(etn["c"]) * 10 if etn else None
    return beside._replace(
        volts=12 if first >= _TWELVE else 6,
        capacity=capacity,
        cold=cold or beside.cold,
        norm="EN" if cold else beside.norm,
    )


def _of_case(row: TableRow, beside: Battery) -> Battery:
    return beside._replace(
        case=row,
        length=row.number("length"),
        width=row.number("width"),
        height=row.number("height"),
        layout=beside.layout or row.word("layout"),
        posts=beside.posts or row.word("posts"),
        volts=beside.volts or 12,
    )


def _lead(
    jis: re.Match[str] | None,
    etn: re.Match[str] | None,
    din: re.Match[str] | None,
    found: Battery,
    spanned: bool,
) -> str:
    """The name it goes by, in one spelling."""
    if jis:
        name = f"{jis['rank']}{jis['case']}{jis['layout'] or ''}{'S' if jis['thick'] else ''}".upper()
    elif etn:
        name = f"ETN {etn['a']} {etn['b']} {etn['c']}"
    elif din:
        name = f"DIN {din['a']} {din['b']}"
    else:
        name = ""
    if found.case is not None and not jis:
        group = found.case.word("system") == "group"
        name = " ".join(part for part in (name, "BCI" if group else "", found.case.word("case")) if part)
    if spanned and found.length and found.width and found.height:
        size = "x".join(plain(one) for one in (found.length, found.width, found.height))
        name = f"{name} {size}" if name else f"battery {size}"
    return name


def _beside(found: Battery, said: Battery, numbered: bool) -> list[str]:
    """What the text says beside the name, each in one spelling and order."""
    parts = [
        f"{said.volts} V" if said.volts == 6 and not numbered else "",
        f"{said.capacity} Ah" if said.capacity and not numbered else "",
        f"{said.cold} A {said.norm or 'CCA'}" if said.cold and found.cold == said.cold else "",
        f"positive {said.layout}" if said.layout else "",
        f"{said.posts} posts" if said.posts else "",
        said.ledge.word("ledge") if said.ledge else "",
    ]
    return [part for part in parts if part]


def _unknown(text: str) -> Unreadable:
    return Unreadable(text, "battery-unknown", expected=EXAMPLES)
