"""What someone measured, as he says it: `9.5 outside, 24 to the inch, 60 degrees`; `17 x 40 x 12`; `a worn disc at 252`.

Each measurement gets an error: half of the last digit written, and never less than the usual instrument allows (common
practice: a calliper 0.05 mm, a thread comb a sixtieth of a millimetre of pitch, a protractor two degrees).
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.model.amounts import read_quantity
from fitlore.trade.sizes import MEASURES

INCH: Final = Decimal("25.4")
LONGEST: Final = 300
"""Characters at most; what is longer is a letter and no measurement."""
_NUMBER: Final = r"(?:\d{1,3} \d{1,2}/\d{1,3}|\d{1,3}/\d{1,3}|\d{1,5}(?:[.,]\d{1,4})?|[.,]\d{1,4})"
_UNIT: Final = (
    r"(?:mm|cm|m|in(?:ch(?:es)?)?|thou|\"|deg(?:rees?)?|°|v|w|a|ah|n|kg|g|ohms?|bar|psi|ml|l|c)(?![a-z])"
)
_FIGURE: Final = re.compile(rf"(?<![\w.])(?P<number>{_NUMBER})(?![\d/]) ?(?P<unit>{_UNIT})?")
_ERROR: Final = re.compile(rf"(?:±|\+/-|\+-|give or take) ?(?P<number>{_NUMBER}) ?(?P<unit>{_UNIT})?")
_SPLIT: Final = re.compile(r"\s*(?:;|,(?!\d)|(?<!\d),|\band\b)\s*")
_BY: Final = re.compile(r"(?<=[\d\"a-z]) ?(?:x|\*|×) ?(?=[\d.])")
_HOLES: Final = re.compile(
    r"\b(?:across|between|over) two (?:holes|studs|bolts|nuts)\b(?: of (?P<count>\w+))?"
)
_COUNTS: Final = {"two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "eight": "8"}
_IDLE: Final = frozenset(
    [
        "a",
        "an",
        "the",
        "is",
        "it",
        "its",
        "at",
        "of",
        "with",
        "to",
        "by",
        "worn",
        "used",
        "old",
        "about",
        "some",
        "measures",
        "in",
        "on",
    ]
)
"""Words that say nothing of what was measured."""
_SPELT: Final = {
    "in": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "°": "deg",
    "degree": "deg",
    "degrees": "deg",
}
_UNITS: Final = {"v": "V", "w": "W", "a": "A", "ah": "Ah", "n": "N", "ohms": "ohm", "c": "degC"}
_LEAST: Final = {"mm": Decimal("0.05"), "deg": Decimal(2)}
"""What the usual instrument lets one be wrong by, by base unit."""
_COMB: Final = {
    "pitch": Decimal(1) / 60,
    "threads-per-inch": Decimal("0.3"),
    "holes": Decimal(0),
    "ribs": Decimal(0),
    "strands": Decimal(0),
}
"""Measures that are told by a gauge or counted, so that the digits written say nothing of the error."""
_BY_WORDS: Final = sorted(
    ((said, name) for name, measure in MEASURES.items() for said in measure.said),
    key=lambda pair: -len(pair[0]),
)


class Said(NamedTuple):
    """One measurement: of what (empty where it was not said), its value and error in a base unit, and the text."""

    measure: str
    value: Decimal
    error: Decimal
    unit: str
    text: str


class Measured(NamedTuple):
    """Everything that was said: the measurements, and the words of what the thing is."""

    said: tuple[Said, ...]
    thing: str


class NotMeasured(NamedTuple):
    """Words that cannot be understood as measurements."""

    text: str
    reason: str


def read_measured(text: str) -> Measured | NotMeasured:
    """What was measured. A number alone is in mm, a fraction alone in inches; commas part measurements."""
    if len(text) > LONGEST:
        return NotMeasured(f"{text[:40]}...", "that is too long for a few measurements")
    rest = " ".join(text.casefold().replace("”", '"').replace("''", '"').split())
    said: list[Said] = []
    thing: list[str] = []
    for clause in (part for part in _SPLIT.split(rest) if part):
        found = list(_clause(clause, thing))
        wrong = next((one for one in found if isinstance(one, NotMeasured)), None)
        if wrong:
            return wrong
        said += [one for one in found if isinstance(one, Said)]
    named = [one.measure for one in said if one.measure]
    twice = next((name for name in named if named.count(name) > 1), "")
    if twice:
        return NotMeasured(twice, f"{MEASURES[twice].said[0]} is given twice")
    stray = next((word for word in thing if not any(c.isalpha() for c in word)), "")
    if stray:
        return NotMeasured(
            text, f"{stray!r} cannot be read there; write a comma and a space between measurements"
        )
    if not said:
        return NotMeasured(text, "there is no measurement in it")
    return Measured(tuple(said), " ".join(thing))


def _clause(clause: str, thing: list[str]) -> Iterator[Said | NotMeasured]:
    """The measurements between two commas; words that name no measure go to `thing`."""
    between = _HOLES.search(clause)
    if between:
        clause = f"{clause[: between.start()]} {clause[between.end() :]}"
        if between["count"]:
            count = _COUNTS.get(between["count"], between["count"])
            wrong = NotMeasured(between["count"], "how many holes there are is a number")
            yield _said("holes", count, "", None) if count.isdecimal() else wrong
    error = _ERROR.search(clause)
    if error:
        clause = f"{clause[: error.start()]} {clause[error.end() :]}"
    plain = " ".join(_COUNTS.get(word, word) for word in clause.split())
    row = _BY.sub(" x ", plain)
    figures = list(_FIGURE.finditer(row))
    parted = _parted(row, figures)
    if parted and not error and not between:
        for part in parted:
            yield from _clause(part, thing)
        return
    words = " ".join(_FIGURE.sub(" ", row).replace(" x ", " ").split())
    measure = "hole-gap" if between else ""
    for said, name in _BY_WORDS:
        match = _says(said, words)
        if match and not measure:
            measure, words = name, f"{words[: match.start()]} {words[match.end() :]}"
    thing += [word for word in words.split() if word not in _IDLE and word != "x"]
    if measure and len(figures) != 1:
        yield NotMeasured(clause, "one number belongs to each measure; part them by commas")
        return
    last = next((figure["unit"] for figure in reversed(figures) if figure["unit"]), "")
    for figure in figures:
        shared = "" if "/" in figure["number"] else last
        yield _said(measure, figure["number"], figure["unit"] or shared, error)


def _parted(row: str, figures: Sequence[re.Match[str]]) -> list[str]:
    """`5 ribs 1200 long` or `outside 10 inside 8` as a part for each number; none where they are no such pairs.

    Numbers may stand without a word of what they are (`17 x 40 x 12 wide`, `12 mm thread 1.25 pitch`) where each word goes
    with the same number whether it is said before or behind it. Nothing between two of them is refused: a point may be missing.
    """
    if len(figures) < 2:
        return []
    starts, ends = [figure.start() for figure in figures], [figure.end() for figure in figures]
    ways = []
    for cuts in ([0, *starts[1:], len(row)], [0, *ends[:-1], len(row)]):
        parts = [row[one:other] for one, other in itertools.pairwise(cuts)]
        ways.append([next((name for said, name in _BY_WORDS if _says(said, part)), "") for part in parts])
        if all(ways[-1]):
            return parts
    before, behind = ways
    apart = all(
        one["unit"] or row[one.end() : other.start()].strip() for one, other in itertools.pairwise(figures)
    )
    return parts if any(before) and before == behind and apart else []


def _says(said: str, words: str) -> re.Match[str] | None:
    return re.search(rf"(?<![\w/]){re.escape(said)}(?![\w/])", words)


def _said(measure: str, number: str, unit: str, error: re.Match[str] | None) -> Said | NotMeasured:
    """One measurement in a base unit with its error."""
    base = MEASURES[measure].unit if measure else ""
    own = _plain(unit) or _assumed(number, base, measure)
    shown = number if own == "1" else f"{number} {own}"
    value = read_quantity(shown)
    if value is None:
        return NotMeasured(shown, "that cannot be read as a number and a unit")
    if base and value.unit != base:
        return NotMeasured(
            shown, f"{MEASURES[measure].said[0]} is measured in {base if base != '1' else 'a number'}"
        )
    play = read_quantity(f"{error[1]} {_plain(error[2] or '') or own}".removesuffix(" 1")) if error else None
    if error and (play is None or play.unit != value.unit):
        return NotMeasured(error[0], "the error is no measure of the same kind")
    slack = play.value if play else _slack(measure, number, own, value.unit)
    return Said(measure, value.value, slack, value.unit, shown)


def _plain(unit: str) -> str:
    low = unit.strip()
    return _SPELT.get(low) or _UNITS.get(low) or low


def _assumed(number: str, base: str, measure: str) -> str:
    """The unit of a number alone: what the measure has; inches for a fraction, and for a decimal that starts with its point."""
    if base in ("", "mm"):
        return "in" if "/" in number or number[0] in ".," else "mm"
    return base


def _slack(measure: str, number: str, unit: str, base: str) -> Decimal:
    """Half of the last digit, or half a sixty-fourth for a fraction, and no less than the instrument lets one be wrong by."""
    if measure in _COMB:
        return _COMB[measure]
    places = len(re.split(r"[.,]", number)[1]) if re.search(r"[.,]", number) else 0
    last = Decimal(1) / 128 if "/" in number else Decimal(1).scaleb(-places) / 2
    one = read_quantity(f"1 {unit}") if unit != "1" else None
    if base == "degC":
        one = None
    return max(last * (one.value if one else 1), _LEAST.get(base, Decimal(0)))
