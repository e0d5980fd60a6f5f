"""Texts into fuel hoses: the type as printed, what it is for, pressure, fuel and bore."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final

from fitlore.trade.fuel_hose.tables import DUTIES
from fitlore.trade.measured import Bound, Figure, Made, Shape, Trait, read_made
from fitlore.trade.pieces import FIGURE, words
from fitlore.trade.result import FamilyState, Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP, _ASK = FamilyState.TRAP, FamilyState.UNREADABLE
EXAMPLES: Final = (
    "fuel hose SAE J30R9, bore 8 mm",
    "fuel hose for injection, pressure 3 bar, petrol with ethanol, bore 8 mm",
)
_ANY_HOSE: Final = r"(?:hose|line|pipe)s?\b"
_CALLED: Final = words(rf"\bfuel {_ANY_HOSE}")
_ALSO: Final = (
    (words(rf"\b(?:fuel[- ])?injection {_ANY_HOSE}"), "fuel hose, injection, "),
    (words(rf"\bcarb(?:urett?or)? {_ANY_HOSE}"), "fuel hose, carburettor, "),
    (words(rf"\b(?:petrol|gasoline) {_ANY_HOSE}"), "fuel hose, petrol, "),
    (words(rf"\bdiesel (?:fuel )?{_ANY_HOSE}"), "fuel hose, diesel, "),
)
_SAE: Final = words(
    r"(?<![\w.])(?:SAE[- ]?)?J? ?30[- ]?R[- ]?(?P<number>\d{1,2})(?: ?-?T ?(?P<sub>\d))?(?!\w)"
)
_BARE_R: Final = words(r"(?<![\w.-])R(?P<number>\d{1,2})(?:[ -]?T(?P<sub>\d))?(?!\w)")
_DIN: Final = words(
    r"\bDIN ?73 ?379(?:-[12](?!\w))?(?:[- ]*(?:typ|type|form)?[- ]*(?P<form>[1-4]?[A-E])(?!\w))?"
)
_WALL: Final = words(
    r"(?<![\w/.,-])(?P<bore>\d{1,2}(?:[.,]\d)?)(?: ?mm)? ?[x\N{MULTIPLICATION SIGN}] ?(?P<outside>\d{1,2}(?:[.,]\d)?) ?mm\b"
)
_NAMED: Final = words(r"\b(?:bore|inside|i/?d)\b")
_UNNAMED: Final = words(
    rf"(?<!length )(?<!outside )(?<![\w/.,-])(?P<figure>{FIGURE} ?(?:mm|\"|in(?:ch)?\b))(?! (?:long|outside|length))"
)
_SPELT: Final = {
    "carburettor": r"\b(?:for )?(?:an? )?(?:carburett?ors?|carbs?|low[- ]pressure)\b",
    "injection": r"\b(?:for )?(?:fuel )?injection\b|\b(?:for )?EFI\b",
    "in the tank": r"\b(?:in(?:side)?[- ](?:the[- ])?tank|submersible)\b",
    "vent": r"\b(?:for )?(?:the )?(?:vent|filler|vapour|breather)\b",
}
_FUELS: Final = (
    (
        "petrol with ethanol",
        words(r"\b(?:for )?(?:petrol (?:with|and|\+) ethanol|ethanol(?:[- ](?:proof|resistant))?|E ?(?:5|10|85))\b"),
    ),
    ("diesel", words(r"\b(?:for )?diesel(?: fuel)?\b")),
    ("petrol", words(r"\b(?:for )?(?:petrol|gasoline)\b(?! with)")),
)  # fmt: skip
BORE: Final = Figure(
    "bore", "mm", r"(?:bore|inside(?: diameter)?|i/?d)", Decimal("0.3"), Decimal("0.3"),
    Bound(_OFF, "bore-small"), Bound(_OFF, "bore-big"), "the bore, or the stub",
)  # fmt: skip
SHAPE: Final = Shape(
    "fuel-hose",
    "fuel hose",
    _CALLED,
    (
        BORE,
        Figure(
            "pressure", "bar", r"(?:working )?pressure", Decimal(0), Decimal(1000),
            Bound(_TRAP, "bursts", "tell-print"), Bound(_OK, "service-agrees"), "what is printed along it", by_unit=True,
        ),
        Figure(
            "outside", "mm", r"(?:outside(?: diameter)?|o/?d)", Decimal(1), Decimal(1),
            Bound(_WORK, "other-clips"), Bound(_WORK, "other-clips"), "across the hose",
        ),
        Figure(
            "length", "mm", "length", Decimal(10), Decimal(100000),
            Bound(_OFF, "short"), Bound(_OK, "service-agrees"), "along the middle", "long",
        ),
    ),
    (
        Trait("type", (), {}, "what is printed along it"),
        Trait("duty", tuple((duty, words(_SPELT[duty])) for duty in DUTIES), {}, "what is printed along it"),
        Trait(
            "fuel",
            _FUELS,
            {
                ("petrol with ethanol", "petrol"): Bound(_TRAP, "no-ethanol", "tell-old"),
                ("petrol with ethanol", "diesel"): Bound(_TRAP, "no-ethanol", "tell-old"),
                ("petrol", "diesel"): Bound(_ASK, "other-fuel"),
                ("diesel", "petrol"): Bound(_ASK, "other-fuel"),
                ("diesel", "petrol with ethanol"): Bound(_ASK, "other-fuel"),
            },
            "what is printed along it",
        ),
    ),
    ("bore",),
    EXAMPLES,
)  # fmt: skip


def read_fuel_hose(text: str, standards: Standards) -> Made | Unreadable:
    """The hose a text names. One that says neither type nor duty nor pressure is refused: the bore decides nothing."""
    spelt = text[:300]
    for pattern, word in _ALSO:
        spelt = pattern.sub(word, spelt)
    if _FUELS[0][1].search(spelt):
        spelt = spelt.replace("fuel hose, petrol, ", "fuel hose, ", 1)
    kind = _type(spelt)
    if kind:
        spelt = spelt.replace(kind[0], ", ", 1)
        spelt = spelt if _CALLED.search(spelt) else f"fuel hose, {spelt}"
    found = read_made(_with_bore(spelt), SHAPE, standards)
    if isinstance(found, Unreadable):
        return Unreadable(text, found.reason, found.readings, found.expected)
    if kind:
        found = found._replace(traits={**found.traits, "type": kind[1]})
        row = type_row(found, standards)
        if row is None:
            listed = tuple(row.word("type") for row in standards.table("fuel-hose-type").rows)
            return Unreadable(text, "fuel-hose-type", expected=listed)
        said, made_for = found.traits.get("duty", ""), row.word("duty")
        if said and made_for not in ("unsaid", said) and (said, made_for) != ("carburettor", "injection"):
            return Unreadable(text, "fuel-hose-clash", expected=(f"{kind[1]}, {made_for}",))
    if not any(found.says(name) for name in ("type", "duty", "pressure")):
        return Unreadable(text, "fuel-hose-no-type", expected=EXAMPLES)
    return found


def type_row(made: Made, standards: Standards) -> TableRow | None:
    """What the standard says of the type that is printed on a hose; None where none is, or none that is listed."""
    name = made.traits.get("type", "").partition(" T")[0]
    rows = standards.table("fuel-hose-type").find(type="DIN 73379" if name.startswith("DIN") else name)
    return rows[0] if rows else None


def _type(text: str) -> tuple[str, str] | None:
    """The type as written, and in one spelling: `SAE J30R14 T1`."""
    if match := _SAE.search(text) or (_BARE_R.search(text) if _CALLED.search(text) else None):
        return match[0], f"SAE J30R{int(match['number'])}" + (f" T{match['sub']}" if match["sub"] else "")
    if match := _DIN.search(text):
        return match[0], f"DIN 73379 {(match['form'] or '').upper()}".strip()
    return None


def _with_bore(text: str) -> str:
    """The text with its bare figure named: such hoses are sold by their bore, or by bore and outside."""
    if match := _WALL.search(text):
        return text.replace(match[0], f", bore {match['bore']} mm, outside {match['outside']} mm, ", 1)
    if _NAMED.search(text):
        return text
    return _UNNAMED.sub(_as_bore, text, count=1)


def _as_bore(match: re.Match[str]) -> str:
    return f", bore {match['figure']}, "
