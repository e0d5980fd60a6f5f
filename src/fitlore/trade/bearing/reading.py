"""From the text on a box to a bearing: its size row, and what the letters behind the number say."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.bearing.tables import bore_by_code, series
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain
from fitlore.trade.thread.spelling import fold

EXAMPLES: Final = ("6203-2RS C3", "30205", "LM11949/LM11910", "HK1612")
LONGEST: Final = 48
"""Characters of a designation at most."""
_NAME: Final = re.compile(r"^(?:(?:ball|roller|needle|taper|wheel|thrust) )*bearing ", re.IGNORECASE)
_BASE: Final = re.compile(
    r"(?P<base>(?:NUP|NU|NJ|N)\s?[23]\d\d|[HB]K\s?\d{4}|NA\s?49\d\d"
    r"|(?:6[023]|30[23]|32[02])/\d\d|[36][023][0-9]\s?/\s?\d\d(?!\d)|3[0-3][0-3]\d\dX?"
    r"|51[1-4]\d\d|618\d\d|619\d\d|16[01]\d\d|6[23]0\d\d|62[23]\d\d|63[02]\d\d|6[0-489]\d\d|7[023]\d\d|[1-4][23]\d\d|6[0-3]\d)"
    r"(?P<rest>(?![\d.,]).*)",
    re.IGNORECASE | re.ASCII,
)
_INCH: Final = re.compile(
    r"(?P<cone>(?:L|LM|M|HM|H)\d{4,6})(?:\s?[/-]\s?(?P<cup>(?:L|LM|M|HM|H)?\d{2,6}))?",
    re.IGNORECASE | re.ASCII,
)
_SIZE: Final = re.compile(
    r"(\d{1,3}(?:[.,]\d+)?) ?x ?(\d{1,3}(?:[.,]\d+)?) ?x ?(\d{1,3}(?:[.,]\d+)?)(?: ?mm)?", re.IGNORECASE
)
_OLD: Final = re.compile(r"6([89]\d\d)")


class Bearing(NamedTuple):
    """A bearing by its rows. `set_row` for inch taper sets, where `ring` names the one ring meant, if only one is."""

    row: TableRow
    marks: dict[str, str]
    """What the letters say, by kind: sealing, groove, bore, clearance, precision, angle, and of rollers what is inside;
    nothing is the standard's plain."""
    letters: tuple[TableRow, ...] = ()
    ring: str = ""

    @property
    def form(self) -> str:
        """How it is made inside; `taper` for an inch set, `cone` or `cup` for one ring of it."""
        return self.row.word("form") or self.ring_kind or "taper"

    @property
    def ring_kind(self) -> str:
        """Which ring it is, where it is one only."""
        return (
            {self.row.word("cone"): "cone", self.row.word("cup"): "cup"}.get(self.ring, "")
            if self.ring
            else ""
        )

    @property
    def base(self) -> str:
        """The basic designation."""
        return self.row.word("designation") or self.ring or f"{self.row.word('cone')}/{self.row.word('cup')}"

    def __str__(self) -> str:
        sealing = _SEALING.get(self.marks.get("sealing", ""), "")
        taper = "K" if "bore" in self.marks else ""
        angle = _ANGLE.get(self.marks.get("angle", ""), "")
        others = [
            {"groove": "N", "groove-and-ring": "NR"}.get(self.marks.get("groove", ""), ""),
            *(self.marks.get(name, "") for name in ("clearance", "precision")),
        ]
        angle += self.marks.get("inside", "")
        return " ".join([f"{self.base}{angle}{taper}{sealing}", *(one for one in others if one)])


_SEALING: Final = {
    "two-seals": "-2RS", "one-seal": "-RS", "two-shields": "-2Z", "one-shield": "-Z", "two-light-seals": "-2RZ",
}  # fmt: skip
_ANGLE: Final = {"40": "B", "25": "AC", "15": "C"}
_PLAIN: Final = {"clearance": "CN", "precision": "P0"}
"""What needs no letters: group N (ISO 5753-1) and class Normal (ISO 492)."""
_FREE: Final = ("cage", "inside")
"""Letters that say nothing about where it goes."""


def read(text: str, standards: Standards) -> Bearing | Unreadable:
    """The bearing a text names. A size alone is a question with the bearings of that size as readings."""
    folded = _NAME.sub("", fold(text))[: LONGEST + 1]
    if len(folded) > LONGEST:
        return _unknown(text)
    if inch := _INCH.fullmatch(folded):
        return _inch(text, inch, standards)
    if size := _SIZE.fullmatch(folded):
        return _by_size(text, size, standards)
    found = _BASE.fullmatch(folded)
    if not found:
        return _unknown(text)
    base = re.sub(r"\s", "", found["base"]).upper()
    if old := _OLD.fullmatch(base):
        base = f"61{old[1]}"  # 6804 and 6904 are the dimension series 18 and 19 written short
    rows = standards.table("bearing-size").find(designation=base)
    if not rows and base.startswith("320"):
        rows = standards.table("bearing-size").find(designation=f"{base}X")
    if not rows:
        return Unreadable(text, "bearing-unlisted", expected=_near(base, standards))
    return _lettered(text, rows[0], found["rest"], standards)


def _unknown(text: str) -> Unreadable:
    return Unreadable(text, "bearing-unknown", expected=EXAMPLES)


def _lettered(text: str, row: TableRow, rest: str, standards: Standards) -> Bearing | Unreadable:
    known = standards.table("bearing-suffix")
    marks: dict[str, str] = {}
    letters: list[TableRow] = []
    for word in _letters(rest.upper(), {row.word("suffix") for row in known.rows}):
        found = known.find(suffix=word)
        if not found or (found[0].word("says") in marks):
            return Unreadable(
                text,
                "bearing-letters",
                expected=tuple(f"{row.word('designation')}{w}" for w in ("", "-2RS", " C3")),
            )
        letters.append(found[0])
        marks[found[0].word("says")] = found[0].word("value")
    kept = {name: value for name, value in marks.items() if name not in _FREE and _PLAIN.get(name) != value}
    if marks.get("inside", "").startswith("E") and row.word("form").startswith("cylindrical"):
        kept["inside"] = "E"
    if "angle" in kept and row.word("form") not in ("angular-contact", "taper"):
        return Unreadable(text, "bearing-letters", expected=(row.word("designation"),))
    return Bearing(row, kept, tuple(letters))


def _letters(rest: str, known: set[str]) -> Iterable[str]:
    """The words behind a number; words run together are taken apart where each part is known (`2RSC3`, `ZZNR`)."""
    for word in re.split(r"[\s/,.-]+", rest):
        while word:
            head = next((word[:end] for end in range(len(word), 0, -1) if word[:end] in known), word)
            yield head
            word = word[len(head) :]


def _inch(text: str, found: re.Match[str], standards: Standards) -> Bearing | Unreadable:
    """A cone and a cup, or one ring alone. `LM11949/10` is short for `LM11949/LM11910`."""
    table = standards.table("inch-taper-set")
    cone, cup = found["cone"].upper(), (found["cup"] or "").upper()
    if not cup:
        rows = table.find(cone=cone) or table.find(cup=cone)
        return Bearing(rows[0], {}, ring=cone) if rows else _no_set(text, cone, standards)
    if cup.isdigit():
        cup = cone[: -len(cup)] + cup if len(cup) < len(cone) else cup
    if table.find(cup=cone) and table.find(cone=cup):
        cone, cup = cup, cone
    rows = table.find(cone=cone, cup=cup)
    if rows:
        return Bearing(rows[0], {})
    if (table.find(cone=cone) or table.find(cup=cup)) and series(cone) != series(cup):
        pairs = tuple(
            f"{row.word('cone')}/{row.word('cup')}" for row in (*table.find(cone=cone), *table.find(cup=cup))
        )
        return Unreadable(text, "bearing-rings-differ", expected=pairs)
    return _no_set(text, cone, standards)


def _no_set(text: str, ring: str, standards: Standards) -> Unreadable:
    rows = [row for row in standards.table("inch-taper-set").rows if series(row.word("cone")) == series(ring)]
    expected = tuple(f"{row.word('cone')}/{row.word('cup')}" for row in rows[:3])
    return Unreadable(text, "bearing-unlisted", expected=expected or EXAMPLES)


def _by_size(text: str, found: re.Match[str], standards: Standards) -> Unreadable:
    bore, outside, width = (plain(Decimal(figure.replace(",", "."))) for figure in found.groups())
    rows = [
        row
        for section in ("bearing-size", "inch-taper-set")
        for row in standards.table(section).find(bore=bore, outside=outside, width=width)
    ]
    if not rows:
        return _unknown(text)
    names = tuple(str(Bearing(row, {})) for row in rows)
    return Unreadable(text, "bearing-only-size", readings=names)


def _near(base: str, standards: Standards) -> tuple[str, ...]:
    """Listed bearings of the same number but for its last two figures, the nearest bore first."""
    head = base.rpartition("/")[0] or base.rstrip("X")[:-2]
    rows = [row for row in standards.table("bearing-size").rows if row.word("designation").startswith(head)]
    wanted = bore_by_code(base) or Decimal(0)
    near = sorted(rows, key=lambda row: abs(row.number("bore") - wanted))
    return tuple(row.word("designation") for row in near[:3]) or EXAMPLES
