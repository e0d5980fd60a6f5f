"""Texts into hexagons across flats."""

from __future__ import annotations

from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import INCH, size, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain
from fitlore.trade.thread.spelling import fold

EXAMPLES: Final = ("13 mm AF", "1/2 AF", "5/16 W", "3/8 BSF spanner", "2 BA spanner", "M10 DIN hexagon")
_NUM: Final = r"\d{1,2}(?:[.,]\d{1,2})?"
_FRACTION: Final = r"(?:1[ -])?\d{1,2}/\d{1,2}|1"
_MARK: Final = r"(?:a/?f|across flats|spanner|hexagon|hex|socket|SW)"
_METRIC: Final = words(
    rf"(?P<n>{_NUM})\s*mm\s*{_MARK}|(?P<bare>{_NUM})\s*{_MARK}|{_MARK}\s*(?P<after>{_NUM})(?:\s*mm)?"
)
_INCH: Final = words(
    rf"(?P<n>{_FRACTION})\s*(?:\"|in(?:ch)?\b)?\s*{_MARK}|{_MARK}\s*(?P<after>(?:1[ -])?\d{{1,2}}/\d{{1,2}})\s*(?:\"|in(?:ch)?)?"
)
_WHITWORTH: Final = words(
    rf"(?P<n>{_FRACTION})\s*(?:\"|in)?\s*(?:(?P<kind>W|BS)(?:\s+{_MARK})?|(?P<marked>Whit(?:worth)?|BSW|BSF)\s+{_MARK})"
)
_BA: Final = words(rf"(?P<n>\d{{1,2}})\s*BA\s+{_MARK}")
_ANY_MARK: Final = words(rf"\b{_MARK}\b")
_OF_METRIC: Final = words(
    rf"(?:{_MARK} (?:for|of) )?M(?P<n>\d{{1,2}})(?: (?P<rule>ISO|DIN|JIS))?(?: {_MARK})?(?: (?P<late>ISO|DIN|JIS))?"
)
_OF_INCH: Final = words(
    rf"(?:{_MARK} (?:for|of) )?(?P<n>{_FRACTION}) (?:UNF|UNC)(?: (?P<rule>bolt|nut))?(?: {_MARK})?"
)


class Hexagon(NamedTuple):
    """A hexagon by the name of its spanner, its size across flats in mm, and the rows that say so."""

    name: str
    flats: Decimal
    rows: tuple[TableRow, ...]


def read(text: str, standards: Standards) -> Hexagon | Unreadable:
    """The hexagon a text names. A bare size is a length, and `M10 hexagon` (16, 17 or 14?) is a question."""
    folded = fold(text)
    if match := _INCH.fullmatch(folded):
        name = _plain(match["n"] or match["after"])
        return _listed(text, "spanner-inch", f"{name} AF", standards, size=name)
    if match := _METRIC.fullmatch(folded):
        flats = size(match["n"] or match["bare"] or match["after"])
        return _listed(text, "spanner-metric", f"{plain(flats)} mm AF", standards, flats=plain(flats))
    if match := _WHITWORTH.fullmatch(folded):
        fine = (match["kind"] or match["marked"]).upper() in ("BSF", "BS")
        cells = {"bsf" if fine else "size": _plain(match["n"])}
        return _listed(text, "spanner-whitworth", "", standards, **cells)
    if match := _BA.fullmatch(folded):
        return _listed(text, "spanner-ba", f"{match['n']} BA spanner", standards, size=match["n"])
    marked = bool(_ANY_MARK.search(folded))
    if marked and (match := _OF_METRIC.fullmatch(folded)):
        rule = match["rule"] or match["late"] or ""
        return _of_bolt(text, "hexagon-metric", match["n"], rule.upper(), standards)
    if marked and (match := _OF_INCH.fullmatch(folded)):
        return _of_bolt(text, "hexagon-inch", _plain(match["n"]), (match["rule"] or "").lower(), standards)
    return Unreadable(text, "spanner-unknown", expected=EXAMPLES)


def name_of(row: TableRow) -> str:
    """The one spelling of a row's hexagon; Whitworth names lead, since BSF and Whitworth share one hexagon."""
    if row.section in ("spanner-metric", "hexagon-metric"):
        return f"{row.cell('flats')} mm AF"
    if row.section == "spanner-whitworth":
        return f"{row.word('size')} W"
    return f"{row.word('size')} BA spanner" if row.section == "spanner-ba" else f"{row.word('size')} AF"


def flats_of(row: TableRow) -> Decimal:
    """The size across flats in mm."""
    flats = row.number("flats")
    return flats if row.section in ("spanner-metric", "hexagon-metric") else flats * INCH


def _listed(text: str, section: str, name: str, standards: Standards, **cells: str) -> Hexagon | Unreadable:
    table = standards.table(section)
    rows = table.find(**cells)
    if not rows:
        wanted = _value(next(iter(cells.values())))
        near = sorted(table.rows, key=lambda row: abs(_value(row.cell(next(iter(cells))) or "0") - wanted))
        return Unreadable(text, "spanner-unlisted", expected=tuple(name_of(row) for row in near[:3]))
    return Hexagon(name or name_of(rows[0]), flats_of(rows[0]), rows[:1])


def _of_bolt(text: str, section: str, bolt: str, rule: str, standards: Standards) -> Hexagon | Unreadable:
    rows = standards.table(section).find(bolt=bolt)
    chosen = [row for row in rows if not rule or row.word("rule") == rule]
    if not chosen:
        return Unreadable(text, "spanner-unlisted", expected=EXAMPLES)
    names = tuple(dict.fromkeys(_spanner(row, standards) for row in chosen))
    if len(names) > 1:
        return Unreadable(text, "spanner-several", names, names)
    return Hexagon(names[0], flats_of(chosen[0]), tuple(chosen[:1]))


def _spanner(row: TableRow, standards: Standards) -> str:
    if row.section == "hexagon-metric":
        return name_of(row)
    same = (one for one in standards.table("spanner-inch").rows if one.number("flats") == row.number("flats"))
    return next((name_of(one) for one in same), f"{row.cell('flats')} AF")


def _plain(text: str) -> str:
    return text.replace("-", " ")


def _value(text: str) -> Decimal:
    return size(text)
