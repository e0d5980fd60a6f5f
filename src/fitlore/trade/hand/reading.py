"""Texts into a side of a car. A word that depends on the side of the road or of the steering needs it written beside it."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Final, NamedTuple

from fitlore.trade.hand.tables import ROAD, SEATS, SIDES
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import Table, TableRow

EXAMPLES: Final = ("left", "right", "offside GB", "driver's side RHD")
LONGEST: Final = 80
"""Characters of a side at most; what is longer is a note."""
_MOST: Final = 7
"""Words of a country's name at most."""
_SIGNS: Final = re.compile(r"(?:[^\W\d_]|[\s/&+.,;:()\[\]'’\"-])+")
_TOKEN: Final = re.compile(r"[^\W\d_]+|[/&+]")
_SHORT: Final = (
    (re.compile(r"\b(?:[^\W\d_]\.){2,}"), lambda match: match[0].replace(".", "") + " "),
    (re.compile(r"\b([lr])/?h/?d\b", re.I), r"\1HD"),
    (re.compile(r"\b([lr])[/ ]?h(?:[/ ]?s)?\b", re.I), r"\1H"),
    (re.compile(r"\b([no])/?s/?f\b", re.I), r"\1S front"),
    (re.compile(r"\b([no])/?s/?r\b", re.I), r"\1S rear"),
    (re.compile(r"\b([no])/(s)\b", re.I), r"\1\2"),
    (re.compile(r"\bd/s\b", re.I), "driver side"),
    (re.compile(r"\bp/s\b", re.I), "passenger side"),
    (re.compile(r"['’]s?\b|['’]"), " "),
)
"""`R.H.`, `U.K.`, `L/H`, `nsf`, `O/S` and `driver's` as words."""
_UMLAUTS: Final = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "æ": "ae", "ø": "oe", "œ": "oe"})
_EMPTY: Final = frozenset(
    {
        "side", "sides", "hand", "handed", "the", "on", "for", "of", "in", "a", "an", "as", "one", "where", "car",
        "cars", "vehicle", "market", "country", "seite", "der", "die", "das", "den", "auf", "im", "fuer", "auto",
        "fahrzeug", "cote", "cotes", "du", "de", "la", "le", "les", "au", "aux", "pour", "voiture", "lado", "lados",
        "mano", "del", "el", "los", "las", "al", "en", "coche",
    }
)  # fmt: skip
"""Words that say nothing of their own beside a side."""
_BEFORE: Final = frozenset({"in", "for", "from", "country", "market"})
_AFTER: Final = frozenset({"market", "car", "cars", "country"})
_JOINS: Final = {
    "/": "beside", "and": "and", "&": "and", "+": "and", "und": "and", "et": "and", "y": "and",
    "or": "or", "oder": "or", "ou": "or", "o": "or",
}  # fmt: skip
_PAIRS: Final = (frozenset(SIDES), frozenset(ROAD), frozenset(SEATS))


class Dependent(NamedTuple):
    """A word that depends on something, as typed and in the table, with what it depends on and the side it means."""

    typed: str
    row: TableRow
    by: TableRow
    side: str


class Said(NamedTuple):
    """A text understood: `left`, `right` or `both`, and the words it rests on that needed something beside them."""

    side: str
    by: tuple[Dependent, ...] = ()


class _Found:
    """What the words of a text are, each kind by itself."""

    def __init__(self) -> None:
        self.words: list[tuple[str, TableRow]] = []
        self.beside: dict[str, list[TableRow]] = {"road": [], "steering": [], "view": []}
        self.joins: set[str] = set()
        self.strange = self.doubtful = False

    def told(self, what: str) -> set[str]:
        """The sides that the text says of the road or of the steering; more than one is a contradiction."""
        return {_told(row) for row in self.beside[what]}

    def dependent(self) -> Iterator[Dependent]:
        """The words that depend on something which the text says."""
        for typed, row in self.words:
            side = row.word("side")
            by = self.beside["road" if side in ROAD else "steering"]
            if side in (*ROAD, *SEATS) and by:
                told = _told(by[0])
                yield Dependent(typed, row, by[0], told if side in ("near", "driver") else other(told))


def other(side: str) -> str:
    """The other one of left and right."""
    return SIDES[side == SIDES[0]]


def read(text: str, standards: Standards) -> Said | Unreadable:
    """The side, or why the text says none; where it may be either, both are the readings."""
    found = _scan(text, standards)
    if found is None or not found.words:
        told = found and not found.strange and any(row.section == "side-beside" for row in _all(found))
        return Unreadable(text, "hand-no-side" if told else "hand-unknown", expected=EXAMPLES)
    if found.strange:
        return Unreadable(text, "hand-more", expected=EXAMPLES)
    if found.doubtful:
        return Unreadable(text, "hand-code", SIDES, tuple(_with_road(found.words[0][0])))
    if len(found.told("road")) > 1 or len(found.told("steering")) > 1:
        return Unreadable(text, "hand-clash", SIDES)
    if "front" in found.told("view"):
        return Unreadable(text, "hand-viewed", SIDES)
    return _joined(text, found) or _one(text, found)


def _joined(text: str, found: _Found) -> Said | Unreadable | None:
    """Two words joined: both sides of a pair, one of two, or a contradiction; None where the words are of one side."""
    kinds = {row.word("side") for _, row in found.words}
    if len(kinds) > 2:
        kinds -= {"both"}
    if len(kinds) == 1 or not (found.joins - {"beside"} or any(pair <= kinds for pair in _PAIRS)):
        return None
    if "or" in found.joins:
        return Unreadable(text, "hand-several", SIDES)
    if found.joins and kinds in _PAIRS:
        return Said("both")
    return Unreadable(text, "hand-clash", SIDES)


def _one(text: str, found: _Found) -> Said | Unreadable:
    """The one side that all words mean which mean one here."""
    plain = {row.word("side") for _, row in found.words} - {*ROAD, *SEATS}
    by = tuple(found.dependent())
    sides = plain | {one.side for one in by}
    if len(sides) > 1:
        return Unreadable(text, "hand-clash", SIDES)
    if sides:
        return Said(sides.pop(), () if plain else by)
    typed, row = found.words[0]
    if row.word("side") in ROAD:
        return Unreadable(text, "hand-road", SIDES, tuple(_with_road(typed)))
    return Unreadable(text, "hand-steering", SIDES, (f"{typed} LHD", f"{typed} RHD"))


def _with_road(typed: str) -> Iterator[str]:
    return (f"{typed} (drives on the {side})" for side in SIDES)


def _told(row: TableRow) -> str:
    return row.word("road") or row.word("is")


def _all(found: _Found) -> list[TableRow]:
    return [row for rows in found.beside.values() for row in rows]


def _scan(text: str, standards: Standards) -> _Found | None:
    """The words of a text by their kind, the longest phrase first; None for what is plainly no side."""
    if len(text) > LONGEST or not _SIGNS.fullmatch(text):
        return None
    typed = _tokens(text)
    folded = [fold(token) for token in typed]
    loud = text.upper() == text
    found, at = _Found(), 0
    while at < len(typed):
        taken = _phrase(typed, folded, at, found, standards)
        if not taken and not _country_code(typed, folded, at, found, standards, loud):
            join = _JOINS.get(folded[at])
            if join:
                found.joins.add(join)
            found.strange |= not join and folded[at] not in _EMPTY
        at += taken or 1
    return found


def _phrase(typed: list[str], folded: list[str], at: int, found: _Found, standards: Standards) -> int:
    """How many words from here on are a known phrase; it is noted."""
    names = _names(standards.table("side-country"))
    for many in range(min(_MOST, len(typed) - at), 0, -1):
        phrase = " ".join(folded[at : at + many])
        beside = standards.table("side-beside").find(phrase=phrase)
        words = standards.table("side-word").find(word=phrase)
        if beside:
            found.beside[beside[0].word("tells")].append(beside[0])
        elif words:
            found.words.append((" ".join(typed[at : at + many]), words[0]))
        elif phrase in names:
            found.beside["road"].append(names[phrase])
        else:
            continue
        return many
    return 0


def _country_code(
    typed: list[str], folded: list[str], at: int, found: _Found, standards: Standards, loud: bool
) -> bool:
    """Whether the word is the code of a country, in capitals. `FR` beside a side may be short for front right."""
    rows = standards.table("side-country").find(code=typed[at])
    filler = folded[at] in _EMPTY and at + 1 < len(typed)
    if not rows or (filler and (loud or rows[0].word("also"))):
        return False
    before, after = folded[max(at - 1, 0) : at], folded[at + 1 : at + 2]
    if rows[0].word("also") and not (_BEFORE & set(before) or _AFTER & set(after)):
        found.doubtful = True
    else:
        found.beside["road"].append(rows[0])
    return True


def fold(word: str) -> str:
    """Small letters without accents; German umlauts become two letters."""
    folded = unicodedata.normalize("NFKC", word).casefold().translate(_UMLAUTS)
    return "".join(sign for sign in unicodedata.normalize("NFKD", folded) if not unicodedata.combining(sign))


def _tokens(text: str) -> list[str]:
    text = unicodedata.normalize("NFKC", text)
    for pattern, instead in _SHORT:
        text = pattern.sub(instead, text)
    return _TOKEN.findall(text)


@lru_cache(maxsize=8)
def _names(table: Table) -> Mapping[str, TableRow]:
    """The countries by their names, folded."""
    return {
        " ".join(map(fold, _tokens(name))): row for row in table.rows for name in row.word("names").split(";")
    }
