"""Designations of several pieces (thread, seat, length ...): taken apart word by word, compared piece by piece.

Each piece is compared by itself and the worst decides: a trap, else an off, else a question, else work, else ok.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Final, NamedTuple

from fitlore.model.because import Because
from fitlore.trade.result import FamilyResult, FamilyState, Unreadable
from fitlore.trade.rows import Certainty, Row
from fitlore.trade.table import weakest
from fitlore.trade.thread.spelling import fold

PRACTICE: Final = "common practice"
INCH: Final = Decimal("25.4")
LONGEST: Final = 90
"""Characters of a designation at most; what is longer is a note."""
FIGURE: Final = r"(?:[1-9][ -]\d{1,2}/\d{1,2}|\d{1,2}/\d{1,2}|\d{1,3}(?:[.,]\d{1,4})?|[.,]\d{1,4})"
"""A plain size: 12, 12.5, 12,5, .520, 3/8, 1 1/2."""
_WORST_LAST: Final = (
    FamilyState.OK,
    FamilyState.OK_WITH_WORK,
    FamilyState.UNREADABLE,
    FamilyState.OFF,
    FamilyState.TRAP,
)


class Piece(NamedTuple):
    """One piece of a designation, by its trade word, and how the offered one stands against the needed."""

    name: str
    result: FamilyResult


class Words:
    """A text from which what is understood is taken out, until nothing is left or it is no designation of the kind."""

    def __init__(self, text: str) -> None:
        self.rest = fold(text.replace("\N{DEGREE SIGN}", " deg "))[: LONGEST + 1]

    @property
    def too_long(self) -> bool:
        """Whether the text is longer than any designation."""
        return len(self.rest) > LONGEST

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """The first place that the pattern matches, taken out of the text; None where it matches nowhere."""
        match = pattern.search(self.rest)
        if match:
            self.rest = " ".join(f"{self.rest[: match.start()]} {self.rest[match.end() :]}".split())
        return match

    def bare(self) -> str:
        """What is left, without commas and dashes at its ends."""
        return " ".join(self.rest.replace(" ,", " ").split()).strip(" ,;-")


def words(pattern: str) -> re.Pattern[str]:
    """A pattern of trade words, in upper or lower case."""
    return re.compile(pattern, re.IGNORECASE | re.ASCII)


def size(text: str) -> Decimal:
    """A plain size as a number: a decimal point or comma, or a fraction, alone or with a whole number."""
    if "/" not in text:
        return Decimal(text.replace(",", "."))
    parts = [Fraction(part) for part in re.split(r"[ -]", text) if not part.endswith("/0")]
    whole = sum(parts, Fraction(0))
    return Decimal(whole.numerator) / Decimal(whole.denominator)


def in_mm(text: str, unit: str | None) -> Decimal:
    """A size in mm: inches where the unit says so, and where it is a fraction or starts with its point."""
    inches = (unit or "").strip().casefold() not in ("", "mm") or (
        not unit and ("/" in text or text[0] in ".,")
    )
    return size(text) * INCH if inches else size(text)


def shown(value: Decimal) -> str:
    """A size in mm for people, to a hundredth, without trailing zeros: `17.5`."""
    return f"{round(value, 2).normalize():f}"


def verdict(
    state: FamilyState,
    code: str,
    values: Mapping[str, str],
    rows: Iterable[Row] = (),
    sources: Iterable[str] = (),
    under: Iterable[Because] = (),
) -> FamilyResult:
    """An outcome with its proof: the lines and sources of the rows it rests on, then other sources."""
    used = tuple(rows)
    origins = tuple(dict.fromkeys(row.origin for row in used))
    named = tuple(dict.fromkeys([*(row.source for row in used), *sources]))
    because = Because(code, dict(values), origins=origins, sources=named, under=tuple(under))
    return FamilyResult(state, because, weakest(used))


def together(family: str, needed: str, offered: str, pieces: Iterable[Piece]) -> FamilyResult:
    """The pieces' worst as the outcome of the whole, the deciding pieces named and told first.

    The certainty is that of the weakest row under what decided; under a yes, under every piece.
    """
    listed = list(pieces)
    state = max((piece.result.state for piece in listed), key=_WORST_LAST.index, default=FamilyState.OK)
    deciding = [piece for piece in listed if piece.result.state is state]
    others = [piece for piece in listed if piece.result.state is not state]
    grounds = listed if _yes(state) else deciding
    sure = max(
        (piece.result.certainty for piece in grounds),
        key=list(Certainty).index,
        default=Certainty.PUBLISHED,
    )
    values = {"needed": needed, "offered": offered, "what": ", ".join(piece.name for piece in deciding)}
    under = tuple(piece.result.because for piece in (*deciding, *others))
    return FamilyResult(state, Because(f"{family}-{state.value}", values, under=under), sure)


def question(*faults: object) -> FamilyResult:
    """The outcome where one text or both cannot be read: a question, never a yes."""
    first, *rest = (fault.because() for fault in faults if isinstance(fault, Unreadable))
    because = Because(first.code, first.values, under=tuple(rest))
    return FamilyResult(FamilyState.UNREADABLE, because)


def _yes(state: FamilyState) -> bool:
    return state in (FamilyState.OK, FamilyState.OK_WITH_WORK)
