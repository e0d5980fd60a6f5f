"""Texts into property classes: classes, grades, letters and marks."""

from __future__ import annotations

import re
from typing import Final

from fitlore.model.choices import End
from fitlore.trade.pieces import words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow
from fitlore.trade.thread.spelling import fold

EXAMPLES: Final = ("8.8", "10.9", "nut 8", "SAE grade 5", "BS S", "JIS 7T", "A2-70")
_ISO: Final = words(
    r"(?:(?:ISO )?(?:property )?class |cl )?(?P<one>\d{1,2})\s*[.,]\s*(?P<two>[689])(?: bolt)?"
)
_NUT: Final = words(
    r"(?:(?:ISO )?(?:property )?(?:nut )?class |cl |nut (?:class )?|\|)(?P<class>0?\d{1,2})\|?(?: nut)?|(?P<after>0?\d{1,2}) nut"
)
_NUT_FOR: Final = words(r"(?:nut (?:for|to) (?P<for>\d{1,2}\.[689])|(?P<before>\d{1,2}\.[689]) nut)")
_SAE: Final = words(r"(?:SAE(?: J429)? ?)?(?:grade|gr) ?(?P<grade>\d(?:\.\d)?)|SAE ?(?P<bare>\d(?:\.\d)?)")
_BS: Final = words(r"(?:BS(?: \d{3,4})? ?(?:grade |letter )?|grade |letter )(?P<letter>[PRSTVX])(?: grade)?")
_JIS: Final = words(r"(?:JIS )?(?P<t>\d{1,2})T")
_STAINLESS: Final = words(r"(?:stainless )?(?P<steel>A[24])\s*[- ]\s*(?P<strength>50|70|80)")
_LINES: Final = words(
    r"(?P<n>[356]|three|five|six) (?:radial )?(?:lines|dashes|marks)(?P<close> close together| grouped)?(?: on the head)?"
)
_NUMBERS: Final = {"three": "3", "five": "5", "six": "6"}
_BARE: Final = re.compile(r"\d{1,2}|[PRSTVX]")


def read(text: str, standards: Standards) -> str | Unreadable:
    """The class a text names, in its one spelling. A bare `8` may be three things and is refused with all of them."""
    folded = fold(text)
    names = _names(folded)
    if not names:
        if folded.casefold() in ("no mark", "no marks", "unmarked", "none"):
            return Unreadable(text, "property-class-unmarked", expected=EXAMPLES[:1])
        return Unreadable(text, "property-class-unknown", expected=EXAMPLES)
    listed = tuple(name for name in names if _listed(name, standards))
    if not listed:
        near = tuple(dict.fromkeys(row.word("class") for row in _kin(names[0], standards)))
        return Unreadable(text, "property-class-unlisted", expected=near[:6])
    return listed[0] if len(names) == 1 else Unreadable(text, "property-class-several", listed)


def read_for(text: str, end: End, standards: Standards) -> str | Unreadable:
    """As `read`, of a part whose half of the joint is known: a bare figure on a nut is the nut's class."""
    folded = fold(text)
    if end is End.FEMALE and folded.isdigit():
        return read(f"nut {folded}", standards)
    return read(text, standards)


def _names(folded: str) -> tuple[str, ...]:
    if match := _ISO.fullmatch(folded):
        return (f"{match['one']}.{match['two']}",)
    if match := _NUT_FOR.fullmatch(folded):
        return (f"nut {(match['for'] or match['before']).split('.')[0]}",)
    if match := _STAINLESS.fullmatch(folded):
        return (f"{match['steel'].upper()}-{match['strength']}",)
    if match := _SAE.fullmatch(folded):
        return (f"SAE grade {match['grade'] or match['bare']}",)
    if match := _NUT.fullmatch(folded):
        return (f"nut {match['class'] or match['after']}",)
    if match := _JIS.fullmatch(folded):
        return (f"JIS {match['t']}T",)
    if match := _BS.fullmatch(folded):
        return (f"BS {match['letter'].upper()}",)
    if match := _LINES.fullmatch(folded):
        grade = {"3": "5", "5": "7", "6": "8"}[_NUMBERS.get(match["n"].casefold(), match["n"])]
        return (f"SAE grade {grade}.2" if match["close"] else f"SAE grade {grade}",)
    if _BARE.fullmatch(folded) and folded.isdigit():
        return f"nut {folded}", f"SAE grade {folded}", f"JIS {folded}T"
    return ()


def _listed(name: str, standards: Standards) -> bool:
    table = "nut-class" if name.startswith("nut ") else "bolt-class"
    return bool(standards.table(table).find(**{"class": name}))


def _kin(name: str, standards: Standards) -> list[TableRow]:
    if name.startswith("nut "):
        return list(standards.table("nut-class").rows)
    system = {"S": "SAE", "B": "BS", "J": "JIS", "A": "stainless"}.get(name[0], "ISO")
    return [row for row in standards.table("bolt-class").rows if row.word("system") == system]
