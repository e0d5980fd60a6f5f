"""Hose clips: the hoses they hold, their form and their band; what is needed may be the hose itself."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.model.because import Because
from fitlore.trade.pieces import FIGURE, PRACTICE, Piece, Words, in_mm, shown, together, verdict, words
from fitlore.trade.result import FamilyResult, FamilyState, Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP, _ASK = FamilyState.TRAP, FamilyState.UNREADABLE
EXAMPLES: Final = (
    "hose clip 32-50 mm, worm drive, band 9 mm",
    "hose clip for 23 mm, spring",
    "hose clip SAE 16",
)
_ALIKE: Final = Decimal("0.5")
"""How far a hose may be from the one a clip without a range is made for, in mm (common practice)."""
_BAND: Final = Decimal(3)
_CALLED: Final = words(
    r"\b(?:hose |pipe )?(?:clips?|clamps?)\b|\bDIN ?3017(?:-1)?\b|\bDIN ?3021(?:-1)?\b|\bSAE ?J ?1508\b"
)
_SAE: Final = words(
    r"\b(?:SAE ?(?:J ?1508 ?)?(?:type F )?(?:size|no\.?|number)? ?|size )(?P<number>\d{1,3})\b(?! ?mm)"
)
_UNIT: Final = r"(?: ?(?P<unit>mm|\"|in(?:ch(?:es)?)?)(?!\w))?"
_RANGE: Final = words(
    rf"(?<![\w/.,-])(?P<low>{FIGURE})(?: ?mm)? ?(?:-|to|\.\.+) ?(?P<high>{FIGURE}){_UNIT}"
    rf"(?: ?x ?(?P<band>\d{{1,2}}(?:[.,]\d)?)(?: ?mm)?)?(?![\w/])"
)
_FOR: Final = words(rf"\b(?:for|on) (?:an? )?(?:hose (?:of )?)?(?P<size>{FIGURE}){_UNIT}(?: hose)?(?![\w/])")
_BANDS: Final = words(
    r"\b(?:band|width) (?P<size>\d{1,2}(?:[.,]\d)?)(?: ?mm)?(?![\w/])"
    r"|(?<![\w/.,-])(?P<behind>\d{1,2}(?:[.,]\d)?) ?mm (?:band|wide)\b"
)
_ALONE: Final = words(rf"(?<![\w/.,-])(?P<size>{FIGURE}){_UNIT}(?![\w/])")
_FORMS: Final = (
    ("worm drive", words(r"\bworm(?:[- ](?:drive|gear))?\b|\btype F\b")),
    ("spring", words(r"\b(?:constant[- ]tension|spring(?:[- ]band)?)\b")),
    ("two ear", words(r"\b(?:two|2|double)[- ]ear(?:ed)?\b")),
    ("one ear", words(r"\b(?:(?:one|1|single)[- ])?ear(?:ed)?\b")),
    ("rolled edge", words(r"\brolled[- ]edges?\b|\bfuel[- ]injection\b")),
    ("wire", words(r"\b(?:double |two )?wire\b")),
    ("T-bolt", words(r"\bT[- ]?bolt\b")),
)
_FILLER: Final = words(r"\b(?:with|a|of|mm)\b|(?<!\S)[;,](?!\S)")


class Clip(NamedTuple):
    """A clip: the outside diameters of hose it holds in mm (one figure twice where it is made for one), form and band."""

    low: Decimal
    high: Decimal
    form: str = ""
    band: Decimal | None = None

    @property
    def for_one(self) -> bool:
        """Whether one hose is named, not a range."""
        return self.low == self.high

    @property
    def held(self) -> str:
        """What it holds, for people."""
        return f"for {shown(self.low)} mm" if self.for_one else f"{shown(self.low)}-{shown(self.high)} mm"

    def __str__(self) -> str:
        parts = [f"hose clip {self.held}", *([self.form] if self.form else [])]
        return ", ".join([*parts, f"band {shown(self.band)} mm"] if self.band is not None else parts)


def read_clip(text: str, standards: Standards) -> Clip | Unreadable:
    """The clip a text names: a range, a size of SAE J1508, or the hose it is for."""
    found, unknown = Words(text), Unreadable(text, "hose-clip-unknown", expected=EXAMPLES)
    if found.too_long or not found.take(_CALLED):
        return unknown
    while found.take(_CALLED):
        pass
    forms = [name for name, pattern in _FORMS if found.take(pattern)]
    band = found.take(_BANDS)
    width = Decimal((band["size"] or band["behind"]).replace(",", ".")) if band else None
    if number := found.take(_SAE):
        rows = standards.table("clip-range").find(number=f"{int(number['number']):02d}")
        if not rows:
            listed = (row.word("number") for row in standards.table("clip-range").rows if row.word("number"))
            return Unreadable(
                text, "hose-clip-unlisted", expected=tuple(f"hose clip SAE {one}" for one in listed)
            )
        ends = rows[0].number("low"), rows[0].number("high")
        forms = forms or ["worm drive"]
    elif span := found.take(_RANGE):
        ends = _mm(span["low"], span["unit"]), _mm(span["high"], span["unit"])
        width = Decimal(span["band"].replace(",", ".")) if span["band"] else width
    else:
        one = found.take(_FOR) or (found.take(_ALONE) if forms == ["spring"] else None)
        if not one:
            return unknown
        ends = (_mm(one["size"], one["unit"]),) * 2
    while found.take(_FILLER):
        pass
    if found.bare() or len(forms) > 1 or ends[0] > ends[1] or ends[0] <= 1:
        return unknown
    return Clip(*ends, forms[0] if forms else "", width)


def compare_clips(wanted: Clip, had: Clip, standards: Standards) -> FamilyResult:
    """What it holds, its form and its band, each by itself."""
    values = {"needed": str(wanted), "offered": str(had)}
    if str(wanted) == str(had):
        return verdict(_OK, "hose-clip-same", values)
    return together("hose-clip", str(wanted), str(had), _pieces(wanted, had, standards))


def _pieces(wanted: Clip, had: Clip, standards: Standards) -> Iterator[Piece]:
    yield Piece("size", _size(wanted, had, standards))
    if wanted.form:
        yield Piece("form", _form(wanted.form, had.form, standards))
    if wanted.band is not None:
        yield Piece("band", _band(wanted.band, had.band))


def _size(wanted: Clip, had: Clip, standards: Standards) -> FamilyResult:
    values = {"needed": wanted.held, "offered": had.held}
    if not had.for_one:
        if had.low <= wanted.low and wanted.high <= had.high:
            return verdict(_OK, "hose-clip-holds", values)
        apart = wanted.high < had.low or had.high < wanted.low
        return verdict(_OFF if apart else _ASK, "hose-clip-apart" if apart else "hose-clip-overlaps", values)
    if not wanted.for_one:
        return verdict(_ASK, "hose-clip-overlaps", values)
    rows = standards.table("clip-spring").find(hose=plain(had.low)) if had.form == "spring" else ()
    if abs(had.low - wanted.low) <= _ALIKE:
        return verdict(_OK, "hose-clip-holds", values)
    if had.low < wanted.low:
        return verdict(_OFF, "hose-clip-small", values, rows, (PRACTICE,))
    near = had.low - wanted.low <= wanted.low / 5
    tells = (Because("hose-clip-tell-loose", values),) if near else ()
    code = "hose-clip-trap-loose" if near else "hose-clip-big"
    return verdict(_TRAP if near else _OFF, code, values, rows, (PRACTICE,), tells)


def _form(need: str, have: str, standards: Standards) -> FamilyResult:
    values = {"what": "form", "needed": need, "offered": have, "look": "how the clip is drawn tight"}
    if not have:
        return verdict(_ASK, "service-not-said", values)
    if need == have:
        return verdict(_OK, "service-agrees", values)
    table = standards.table("clip-form")
    rows = (*table.find(form=need), *table.find(form=have))
    lacks = [
        column for column in ("smooth", "follows") if [row.word(column) for row in rows] == ["yes", "no"]
    ]
    if "smooth" in lacks and need != "spring":
        tells = [_tell(row) for row in rows]
        return verdict(_TRAP, "hose-clip-trap-cuts", values, rows, (PRACTICE,), tells)
    if "follows" in lacks:
        return verdict(_WORK, "hose-clip-stiff", values, rows, (PRACTICE,))
    return verdict(_OK, "service-agrees", values, rows)


def _tell(row: TableRow) -> Because:
    return Because("hose-clip-tell-form", {"form": row.word("form"), "tell": row.word("tell")})


def _band(need: Decimal, have: Decimal | None) -> FamilyResult:
    offered = "" if have is None else f"{shown(have)} mm"
    values = {
        "what": "band",
        "needed": f"{shown(need)} mm",
        "offered": offered,
        "look": "the width of the band",
    }
    if have is None:
        return verdict(_ASK, "service-not-said", values)
    if abs(have - need) <= _BAND:
        return verdict(_OK, "service-agrees", values)
    code, state = ("hose-clip-narrow", _OFF) if have < need else ("hose-clip-wide", _ASK)
    return verdict(state, code, values, sources=(PRACTICE,))


def _mm(text: str, unit: str | None) -> Decimal:
    return round(in_mm(text, unit), 2)
