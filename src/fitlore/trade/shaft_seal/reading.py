"""From the text to a shaft seal: shaft, housing and width in mm, form, rubber and the way the shaft may turn."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.o_ring.rubber import take_rubber
from fitlore.trade.pieces import FIGURE, Words, in_mm, shown, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

EXAMPLES: Final = ("38x52x7", "AS 38x52x7 NBR", "35x50x8 FKM right")
_SIZE: Final = words(
    rf"(?<![\w/.,])({FIGURE}) ?[x*-] ?({FIGURE}) ?[x*-] ?({FIGURE})(?: ?/ ?({FIGURE}))?(?: ?(mm|\"|in(?:ch)?))?(?![\w.,])"
)
_NAME: Final = words(
    r"\b(?:DIN ?376[01]|ISO ?6194(?:-1)?|(?:rotary )?(?:shaft|oil|lip|crank|gearbox|hub)|seals?|type|form|lip)\b"
)
_LIPS: Final = (
    ("yes", words(r"\b(?:with (?:a )?)?(?:dust[- ]?lip|double[- ]?lip|two lips)\b")),
    ("no", words(r"\b(?:without dust[- ]?lip|single[- ]?lip|one lip)\b")),
)
_TURNS: Final = (
    ("both", words(r"\b(?:turns |turning )?both(?: ways)?\b|\bbi-?directional\b")),
    (
        "left",
        words(r"\b(?:turns |turning )?(?:left|anti-?clockwise|counter-?clockwise|ccw|LH)(?: hand| helix)?\b"),
    ),
    ("right", words(r"\b(?:turns |turning )?(?:right|clockwise|cw|RH)(?: hand| helix)?\b")),
)
_CASES: Final = (
    ("metal", words(r"\b(?:metal|steel)(?: case[d]?)?\b")),
    ("rubber", words(r"\brubber(?: case[d]?| covered| coated)?\b")),
)
_LETTERS: Final = re.compile(r"(?<![A-Z])[A-Z]{1,3}(?![A-Z])", re.IGNORECASE | re.ASCII)
LEAST: Final = Decimal(4)
"""Room in mm between shaft and housing, all told, below which nothing is a lip seal (thin-section seals included)."""
LARGEST_INCH: Final = Decimal(6)
"""From this shaft figure on `7/9` behind two figures is two widths in mm, not a fraction of an inch."""
WIDEST: Final = Decimal(30)
_NONE: Final = Decimal(0)
_GLUED: Final = words(r"\b(W?AS?|BS?|CS?|[ST][BC])(?=\d)")
_DASH: Final = words(r"(?:(?<=\s)|^)-(?:(?=\s)|$)")


class Seal(NamedTuple):
    """A shaft seal. Sizes in mm; `overall` is the width over a standing dust lip where the text has two widths.

    `case` is rubber or metal, `dust` yes or no, `turns` right, left or both; each empty where the text says nothing.
    """

    shaft: Decimal
    housing: Decimal
    width: Decimal
    overall: Decimal
    case: str = ""
    dust: str = ""
    rubber: str = ""
    turns: str = ""
    letters: tuple[TableRow, ...] = ()

    @property
    def size(self) -> str:
        """The three figures as they are written."""
        widths = shown(self.width) + ("" if self.overall == self.width else f"/{shown(self.overall)}")
        return f"{shown(self.shaft)}x{shown(self.housing)}x{widths}"

    def __str__(self) -> str:
        dust = {"yes": "dust lip", "no": "single lip"}.get(self.dust, "")
        case = self.case and f"{self.case} case"
        turns = self.turns and f"turns {self.turns}"
        return " ".join(part for part in (self.size, case, dust, self.rubber, turns) if part)


def read(text: str, standards: Standards) -> Seal | Unreadable:
    """The seal a text names: any three figures that leave room for a lip, for far more are sold than are listed."""
    found = Words(text)
    if found.too_long:
        return Unreadable(text, "shaft-seal-unknown", expected=EXAMPLES)
    found.rest = _GLUED.sub(r"\1 ", found.rest)
    size = found.take(_SIZE)
    if not size:
        return Unreadable(text, "shaft-seal-unknown", expected=EXAMPLES)
    dust = next((name for name, pattern in _LIPS if found.take(pattern)), "")
    turns = next((name for name, pattern in _TURNS if found.take(pattern)), "")
    case = next((name for name, pattern in _CASES if found.take(pattern)), "")
    while found.take(_NAME) or found.take(_DASH):
        pass
    rubber = take_rubber(found, standards)
    letters = _letters(found, standards)
    for row in letters:
        case, dust = case or row.word("case"), dust or row.word("dust-lip")
    clash = any((case, dust) != (row.word("case"), row.word("dust-lip")) for row in letters)
    if found.bare() or clash or len(letters) > 1:
        return Unreadable(text, "shaft-seal-words", expected=EXAMPLES)
    return _made(text, size, Seal(_NONE, _NONE, _NONE, _NONE, case, dust, rubber, turns, letters))


def _letters(found: Words, standards: Standards) -> tuple[TableRow, ...]:
    """The letters of form, and `R` or `L` alone for the way it turns is never guessed: they stay, and are refused."""
    known = standards.table("seal-type")
    rows: list[TableRow] = []
    for match in _LETTERS.finditer(found.rest):
        rows += known.find(type=match[0].upper())
    for row in rows:
        found.take(words(rf"(?<![A-Z]){row.word('type')}(?![A-Z])"))
    return tuple(rows)


def _made(text: str, size: re.Match[str], said: Seal) -> Seal | Unreadable:
    first, second, third, over, unit = size.groups()
    if (
        "/" in third
        and not unit
        and not over
        and "/" not in first + second
        and in_mm(first, "mm") >= LARGEST_INCH
    ):
        third, over = third.split("/")
    unit = unit or ("in" if any("/" in figure for figure in (first, second, third)) else "mm")
    shaft, housing, width = (in_mm(figure, unit) for figure in (first, second, third))
    overall = in_mm(over, unit) if over else width
    if (
        not shaft
        or housing - shaft < LEAST
        or not 0 < width <= min(WIDEST, housing - shaft)
        or overall < width
    ):
        return Unreadable(text, "shaft-seal-figures", expected=EXAMPLES)
    return said._replace(shaft=shaft, housing=housing, width=width, overall=overall)
