"""The spellings people use for threads, taken apart into size, pitch, letters, tolerance class and hand."""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.model.late import Late
from fitlore.trade.thread.rows import METRIC, PIPE, UNIFIED, WHITWORTH, Family
from fitlore.trade.thread.value import Hand

if TYPE_CHECKING:
    from fractions import Fraction

LONGEST: Final = 60
"""Characters of a designation at most; what is longer is a note, not a thread."""
_FLAGS: Final = re.IGNORECASE | re.ASCII
_LOOKALIKES: Final = str.maketrans(
    dict.fromkeys("‐‑‒–—−", "-")
    | dict.fromkeys("×✕✖⨯хХ*", "x")
    | dict.fromkeys("“”„‟″", '"')
    | dict.fromkeys("’‘′", "'")
)
_FOLDED: Final = ("<fraction>", "<wide>", "<narrow>", "<noBreak>")
"""Compatibility forms that mean the same; a superscript or circled digit does not and stays, to be refused."""
_HANDED: Final = r"\(?(?:(?P<left>LHT?|L/H|left(?:[ -]?hand(?:ed)?)?)|RHT?|R/H|right(?:[ -]?hand(?:ed)?)?)(?: threads?)?\)?"
_HAND: Final = Late(
    rf"(?:\s*[-,]\s*|\s+|(?<=\d)){_HANDED}$|^{_HANDED.replace('left>', 'first>')}[\s,]+", _FLAGS
)

_NUM: Final = r"\d{1,3}(?:[.,]\d{1,4})?"
_CLASS: Final = r"\d[A-Z](?:\d[A-Z])?"
_METRIC: Final = Late(
    rf"(?P<m>MF?)\s*(?P<size>{_NUM})(?:\s*[x-]\s*(?P<pitch>{_NUM})(?:\s*mm)?)?(?:(?:\s*-\s*|\s+)(?P<cls>{_CLASS}))?",
    _FLAGS,
)
_BARE: Final = Late(rf"(?P<size>{_NUM})\s*x\s*(?P<pitch>{_NUM})(?:\s*mm)?", _FLAGS)
_BA: Final = Late(r"(?:No\s*)?(?P<size>\d{1,2})\s*-?\s*BA|BA\s*-?\s*(?P<after>\d{1,2})", _FLAGS)
_SIZE: Final = r"\#\s?\d{1,2}|no\s?\d{1,2}|\d{1,2}[ -]\d{1,2}/\d{1,2}|\d{1,2}/\d{1,2}|\d?[.,]\d{1,5}|\d{1,2}"
_MARK: Final = r"""(?P<mark>\s*(?:"|''|inch(?:es)?\b|ins?\b))?"""
_TPI: Final = r"(?P<tpi>\d{1,2}(?:[.,]5)?)(?:\s*tpi)?"
_PIPE: Final = Late(
    rf"(?P<let>Rc|Rp|R|G)\s*(?P<size>{_SIZE}){_MARK}(?:\s*[x-]\s*{_TPI})?(?:\s*-?\s*(?P<cls>[AB]))?", _FLAGS
)
_WORD: Final = r"[A-Z]{2,10}(?:\s(?:parallel|tapered|taper))?"
_INCH: Final = Late(
    rf"(?:(?!no\s?\d)(?P<before>{_WORD})\s*-?\s*)?(?P<size>{_SIZE}){_MARK}(?:(?P<sep>\s*[x-]\s*|\s+){_TPI})?"
    rf"(?:\s*-?\s*(?P<after>{_WORD}))?(?:(?:\s*-\s*|\s+)(?P<cls>[1-3][AB]))?",
    _FLAGS,
)

_LETTERS: Final[dict[str, frozenset[Family]]] = {
    **{f.value.casefold(): frozenset({f}) for f in UNIFIED | WHITWORTH},
    "npt": frozenset({Family.NPT}),
    "nptf": frozenset({Family.NPTF}),
    "whit": frozenset({Family.BSW}),
    "whitworth": frozenset({Family.BSW}),
    "bsp": frozenset({Family.G, Family.R}),
    "bspp": frozenset({Family.G}),
    "bsp parallel": frozenset({Family.G}),
    "bspt": frozenset({Family.R}),
    "bsp taper": frozenset({Family.R}),
    "bsp tapered": frozenset({Family.R}),
}
"""Letters or words after (or before) an inch size, and the series they name. BSP alone leaves open which of two."""
_ANY_INCH: Final = UNIFIED | WHITWORTH | {Family.G, Family.R, Family.NPT}
"""What an inch size without letters may be."""


class Spelt(NamedTuple):
    """A designation taken apart: the series it may be, and what is written of size, pitch (mm) or threads per inch.

    `size` is a number of mm (metric), a number of inches, the text of a number size (`#10`, `2` for BA), or an integer
    where a bare `10` may be either a number size or inches.
    """

    families: frozenset[Family]
    size: Decimal | Fraction | int | str
    pitch: Decimal | None = None
    tpi: Decimal | None = None
    tolerance: str = ""
    hand: Hand = Hand.RIGHT
    lettered: bool = True


def fold(text: str) -> str:
    """One spelling for what only looks different: spaces, dashes, times signs, quotes, one-sign fractions, dots in letters.

    A one-sign fraction gets a space in front, so that `1½` is one and a half and never eleven halves.
    """
    signs = []
    for sign in text.translate(_LOOKALIKES):
        kind = unicodedata.decomposition(sign).split(" ")[0]
        folded = unicodedata.normalize("NFKC", sign) if kind in _FOLDED else sign
        signs.append(f" {folded}" if kind == "<fraction>" else folded)
    plain = "".join(signs).replace("\N{FRACTION SLASH}", "/")
    return " ".join(re.sub(r"(?<=[A-Za-z])\.", "", plain).split())


def spell(text: str) -> Spelt | None:
    """Take a designation apart; None where it has the shape of no thread."""
    folded = fold(text)
    hand = _HAND.search(folded)
    body = folded[: hand.start()] + folded[hand.end() :] if hand else folded
    spelt = _spell(body) if len(body) <= LONGEST else None
    left = hand is not None and bool(hand["left"] or hand["first"])
    return spelt._replace(hand=Hand.LEFT) if spelt and left else spelt


def spell_bare(text: str) -> Spelt | None:
    """`10x1` without its M, as the metric thread it may be."""
    match = _BARE.fullmatch(fold(text)[:LONGEST])
    return Spelt(METRIC, _decimal(match["size"]), _decimal(match["pitch"])) if match else None


def _spell(text: str) -> Spelt | None:
    if match := _METRIC.fullmatch(text):
        families = frozenset({Family.METRIC_FINE}) if match["m"].upper() == "MF" else METRIC
        pitch = _decimal(match["pitch"]) if match["pitch"] else None
        return Spelt(families, _decimal(match["size"]), pitch, tolerance=match["cls"] or "")
    if match := _BA.fullmatch(text):
        return Spelt(frozenset({Family.BA}), str(int(match["size"] or match["after"])))
    if match := _PIPE.fullmatch(text):
        letter = next(f for f in PIPE if f.value.casefold() == match["let"].casefold())
        return Spelt(
            frozenset({letter}), _inch(match), None, _tpi(match["tpi"]), (match["cls"] or "").upper()
        )
    return _spell_inch(text)


def _spell_inch(text: str) -> Spelt | None:
    match = _INCH.fullmatch(text)
    if not match or (match["before"] and match["after"]):
        return None
    word = (match["before"] or match["after"] or "").casefold()
    if not word and match["size"].isdigit() and (match["sep"] or "").strip() != "-":
        return None
    families = _LETTERS.get(word, frozenset()) if word else _ANY_INCH
    if not families:
        return None
    tolerance = (match["cls"] or "").upper()
    return Spelt(families, _inch(match), None, _tpi(match["tpi"]), tolerance, lettered=bool(word))


def _inch(match: re.Match[str]) -> Fraction | Decimal | int | str:
    """`3/8` and `1 1/8` as a fraction, `.375` as a decimal, `#10` and `No 10` as `#10`, a bare `10` as an integer."""
    from fractions import Fraction

    text: str = match["size"]
    if not text[0].isdigit() and text[0] not in ".,":
        return f"#{int(re.sub(r'[^0-9]', '', text))}"
    if text.isdigit():
        return Fraction(text) if match["mark"] else int(text)
    if "/" not in text:
        return _decimal(text)
    *whole, part = re.split(r"[ -]", text)
    top, bottom = (int(n) for n in part.split("/"))
    return sum(map(Fraction, whole), Fraction(top, bottom)) if bottom else Fraction(-1)


def _tpi(text: str | None) -> Decimal | None:
    return _decimal(text) if text else None


def _decimal(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))
