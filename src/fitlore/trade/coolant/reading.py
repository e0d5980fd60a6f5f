"""Texts into coolants."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import Words, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import plain

EXAMPLES: Final = ("IAT coolant, 50 %", "OAT coolant, -37 °C", "IAT coolant, concentrate", "HOAT coolant")
_HINT: Final = words(r"OAT\b|\bIAT\b|coolant|anti-?\s?freeze|\b6580\b|\bD ?3306\b")
_ADDITIVES: Final = (
    ("Si-OAT", words(r"\bSi-?\s?OAT\b|\bsilicated OAT\b")),
    ("P-HOAT", words(r"\bP-?\s?HOAT\b|\bP-?\s?OAT\b|\bphosphated (?:H?OAT)\b")),
    ("HOAT", words(r"\bHOAT\b|\bhybrid(?: organic(?: acid)?)?(?: technology)?\b")),
    ("OAT", words(r"(?<!-)\bOAT\b|\borganic(?: acid)?(?: technology)?\b")),
    ("IAT", words(r"\bIAT\b|\binorganic(?: acid| additive)?(?: technology)?\b|\b(?:with )?silicates?\b")),
)
_PAPER: Final = words(
    r"\b(?P<paper>BS\s?6580|BS\s?3151|ASTM\s?D\s?3306|SAE\s?J\s?1034)(?:[:-]\s?(?P<year>19\d\d|20\d\d))?\b"
)
_FROST: Final = words(r"(?<![\w.])(?:to\s*)?-\s?(?P<frost>\d{1,2}(?:[.,]\d)?)\s*(?:deg\s*)?C\b")
_SHARE: Final = words(r"(?<![\w./])(?P<share>\d{1,2}(?:[.,]\d)?)\s*(?:%|per ?cent)")
_HALVES: Final = words(r"(?<![\w./])(?P<glycol>\d0)\s*[/:]\s*(?P<water>\d0)(?![\w./])")
_CONCENTRATE: Final = words(r"\b(?:concentrated?|undiluted)\b")
_READY: Final = words(r"\bready(?:[ -](?:mixed|to[ -]use|to[ -]fill|to[ -]pour))?\b|\bpre-?\s?mix(?:ed)?\b")
_COLOUR: Final = words(r"\b(?:green|blue|red|pink|orange|yellow|purple|violet|turquoise)\b")
_FILLER: Final = words(
    r"\b(?:engine )?coolant\b|\banti-?\s?freeze\b|\b(?:ethylene )?glycol\b|(?<!\S)[/&+,;()](?!\S)|[()]"
)


class Coolant(NamedTuple):
    """A coolant as far as a text says it: additive, papers it meets, share in per cent or frost in degrees, state."""

    additive: str
    papers: tuple[str, ...] = ()
    share: Decimal | None = None
    frost: Decimal | None = None
    state: str = ""

    def __str__(self) -> str:
        parts = [f"{self.additive} coolant".strip(), *self.papers]
        parts += [f"{plain(self.share)} %"] if self.share is not None else []
        parts += [f"{plain(self.frost)} °C"] if self.frost is not None else []
        return ", ".join([*parts, *([self.state] if self.state else [])])


def read(text: str, standards: Standards) -> Coolant | Unreadable:
    """The coolant a text names. A colour says nothing and is refused as if it were the only word."""
    unknown = Unreadable(text, "coolant-unknown", expected=EXAMPLES)
    if not _HINT.search(text):
        return unknown
    found = Words(text)
    if found.too_long:
        return unknown
    additives = [name for name, pattern in _ADDITIVES if found.take(pattern)]
    papers = []
    while match := found.take(_PAPER):
        name = re.sub(r"\s|(?<=[A-Z])(?=\d)", "", match["paper"].upper())
        year = f":{match['year']}" if match["year"] else ""
        papers.append(_paper(name) + year)
    share, frost, state = _strength(found)
    colour = found.take(_COLOUR)
    while found.take(_FILLER):
        pass
    if found.bare():
        return unknown
    if len(additives) > 1 or (colour and not additives):
        code = "coolant-several" if additives else "coolant-colour"
        return Unreadable(text, code, expected=tuple(additives) or EXAMPLES)
    if not additives and not papers and share is None and frost is None:
        return Unreadable(text, "coolant-bare", expected=EXAMPLES)
    if (share is not None and not 0 < share <= 60) or (frost is not None and not -52 <= frost < 0):
        return Unreadable(text, "coolant-strength", expected=EXAMPLES)
    if state == "concentrate" and (share is not None or frost is not None):
        return Unreadable(text, "coolant-both", expected=EXAMPLES)
    return Coolant("".join(additives), tuple(sorted(set(papers))), share, frost, state)


def _paper(name: str) -> str:
    known = {"BS6580": "BS 6580", "BS3151": "BS 3151", "ASTMD3306": "ASTM D3306", "SAEJ1034": "SAE J1034"}
    return known[name]


def _strength(found: Words) -> tuple[Decimal | None, Decimal | None, str]:
    frost = found.take(_FROST)
    share = found.take(_SHARE)
    halves = None if share else found.take(_HALVES)
    ready, strong = found.take(_READY), found.take(_CONCENTRATE)
    part: Decimal | None = None
    if share:
        part = Decimal(share["share"].replace(",", "."))
    elif halves:
        whole = int(halves["glycol"]) + int(halves["water"])
        part = Decimal(halves["glycol"]) if whole == 100 else Decimal(0)
    cold = -Decimal(frost["frost"].replace(",", ".")) if frost else None
    state = "concentrate" if strong and not ready else "ready mixed" if ready else ""
    return part, cold, state
