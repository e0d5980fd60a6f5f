"""Designations made of named figures and words (height 98 mm, opens 82 C, anti-drain): read and compared by declaration.

A noun stands before its figure (`height 98 mm`), an adjective behind it (`98 mm high`); a noun may also stand behind where
commas fence the two off. What could be read either way is refused.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.model.because import Because
from fitlore.trade.pieces import FIGURE, PRACTICE, Piece, Words, in_mm, shown, size, verdict, words
from fitlore.trade.result import FamilyResult, FamilyState, Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.thread.reading import read as read_thread
from fitlore.trade.thread.spelling import fold
from fitlore.trade.thread.value import Thread, normal

_NEVER: Final = "(?!)"
_BAR: Final = {"psi": "0.0689476", "lb": "0.0689476", "kpa": "0.01", "mbar": "0.001", "kgf/cm2": "0.980665"}
"""One of each in bar: the pound-force and the kilogram-force by definition (ISO 80000-4), the inch being 25.4 mm."""
_UNITS: Final = {
    "mm": r"(?:mm|\"|in(?:ch(?:es)?)?)",
    "bar": r"(?:m?bar|psi|lbs?(?:/sq ?in)?|kPa|kgf?/cm2)",
    "C": r"(?:deg(?:rees?)? ?)?[CF]",
    "ohm": r"(?:ohms?)",
}
LONGEST: Final = 180
"""Characters of a designation of named figures at most."""
_BARE_OK: Final = ("mm",)
"""Units that may be left out; a pressure or a temperature without its unit could be either of two."""


class LongWords(Words):
    """A text of many named figures, longer than designations are otherwise."""

    def __init__(self, text: str) -> None:
        self.rest = fold(text[: LONGEST * 2].replace("\N{DEGREE SIGN}", " deg "))[: LONGEST + 1]

    @property
    def too_long(self) -> bool:
        """Whether the text is longer than any such designation."""
        return len(self.rest) > LONGEST


class Bound(NamedTuple):
    """What it means to lie outside on one side."""

    state: FamilyState
    code: str
    tell: str = ""
    """Code of the bench test that tells the two apart."""
    within: Decimal | None = None
    """How far outside this still holds; what is further off is plainly another size. None: however far."""


class Figure(NamedTuple):
    """A figure of a designation: its trade word, unit, the nouns and adjectives said for it, and how it is compared.

    The offered one may be smaller by `less` and bigger by `more`; beyond, `small` and `big` say what it means.
    """

    name: str
    unit: str
    nouns: str
    less: Decimal
    more: Decimal
    small: Bound
    big: Bound
    look: str
    adjectives: str = _NEVER
    by_unit: bool = False
    """Whether its unit alone names it: a pressure in a cap, a temperature in a thermostat."""


class Trait(NamedTuple):
    """A thing said in a word: its options with their spellings, the first that matches, and what another one means.

    `differs` is by (needed, offered); a pair that is not there is as good as what is needed.
    """

    name: str
    options: tuple[tuple[str, re.Pattern[str]], ...]
    differs: Mapping[tuple[str, str], Bound]
    look: str


class Shape(NamedTuple):
    """What designations of a kind look like: the name first, its figures and traits, and what must be said."""

    kind: str
    name: str
    called: re.Pattern[str]
    figures: tuple[Figure, ...]
    traits: tuple[Trait, ...]
    needs: tuple[str, ...]
    examples: tuple[str, ...]
    threaded: bool = False
    filler: re.Pattern[str] = words(r"\b(?:with|and|of|for|a|the)\b|(?<!\S)[&+;,](?!\S)")


class Made(NamedTuple):
    """A designation read: figures in the unit of their shape, traits by name, the thread where there is one."""

    shape: Shape
    figures: dict[str, Decimal]
    traits: dict[str, str]
    thread: Thread | None = None

    def __str__(self) -> str:
        figures = [
            f"{one.name} {shown(self.figures[one.name])} {one.unit}".strip()
            for one in self.shape.figures
            if one.name in self.figures
        ]
        traits = [self.traits[one.name] for one in self.shape.traits if one.name in self.traits]
        first = f"{self.shape.name} {normal(self.thread)}" if self.thread else self.shape.name
        return ", ".join([first, *traits, *figures])

    def says(self, name: str) -> bool:
        """Whether it says this figure or trait."""
        return name in self.figures or name in self.traits


def read_made(text: str, shape: Shape, standards: Standards) -> Made | Unreadable:
    """What a text says of a thing of this shape; refused where a word is left over or what must be said is missing."""
    found, unknown = LongWords(text), Unreadable(text, f"{shape.kind}-unknown", expected=shape.examples)
    if found.too_long or not found.take(shape.called):
        return unknown
    traits: dict[str, str] = {}
    for trait in shape.traits:
        said = {option for option, pattern in trait.options if found.take(pattern)}
        if len(said) > 1:
            return unknown
        traits |= dict.fromkeys((trait.name,), said.pop()) if said else {}
    figures = _figures(found, shape)
    while found.take(shape.called) or found.take(shape.filler):
        pass
    if figures is None or (found.bare() and not shape.threaded):
        return unknown
    made = Made(shape, figures, traits)
    if shape.threaded:
        thread = read_thread(found.bare(), standards) if found.bare() else None
        if isinstance(thread, Unreadable):
            return Unreadable(text, f"{shape.kind}-thread", expected=thread.expected or thread.readings)
        made = made._replace(thread=thread)
    missing = [name for name in shape.needs if not made.says(name) and not (name == "thread" and made.thread)]
    if not missing:
        return made
    code = f"{shape.kind}-no-{missing[0].replace(' ', '-')}"
    nothing = not (figures or traits or made.thread)
    return unknown if nothing else Unreadable(text, code, expected=shape.examples)


def _figures(found: Words, shape: Shape) -> dict[str, Decimal] | None:
    """The figures that a text names, taken out of it; None where one is said twice, or stands between two nouns."""
    figures: dict[str, Decimal] = {}
    nouns = "|".join(one.nouns for one in shape.figures)
    for place in (_behind, _before, _fenced, _alone):
        for one in shape.figures:
            if place is _alone and not one.by_unit:
                continue
            unit = _UNITS[one.unit] if one.unit else _NEVER
            ask = "?" if one.unit in _BARE_OK or not one.unit else ""
            match = found.take(words(place(one, rf"(?P<size>{FIGURE})(?: ?(?P<unit>{unit})(?![\w/])){ask}")))
            if not match:
                continue
            between = re.search(rf"(?:(?P<noun>{nouns}) )?{FIGURE} ?(?:mm|\"|in|m?bar|psi|kPa) ?$", match.string[: match.start()],
                                re.IGNORECASE)  # fmt: skip
            if one.name in figures or (place is _before and between and not between["noun"]):
                return None
            figures[one.name] = _value(match["size"], match["unit"], one.unit)
    return figures


def _before(figure: Figure, amount: str) -> str:
    return rf"\b(?:{figure.nouns})(?: ?[:=] ?| of | at | )?{amount}(?![\w/])"


def _behind(figure: Figure, amount: str) -> str:
    return rf"(?<![\w/.,-]){amount} ?(?:{figure.adjectives})\b"


def _fenced(figure: Figure, amount: str) -> str:
    return rf"(?:(?<=,)|^) ?{amount} (?:{figure.nouns}) ?(?=,|$)"


def _alone(figure: Figure, amount: str) -> str:
    return rf"(?<![\w/.,-]){amount}(?![\w/])"


def _value(text: str, unit: str | None, wanted: str) -> Decimal:
    said = (unit or "").casefold()
    if wanted == "mm":
        return round(in_mm(text, said), 2)
    value = size(text)
    if wanted == "bar":
        name = said.replace("lbs", "lb").partition("/sq")[0].replace("kg/cm2", "kgf/cm2")
        value *= Decimal(_BAR.get(name, "1"))
    elif wanted == "C" and said.endswith("f"):
        value = (value - 32) * 5 / 9
    return round(value, 2)


def figure_piece(kind: str, figure: Figure, need: Decimal, have: Decimal | None) -> Piece:
    """How an offered figure stands against the needed one."""
    unit = f" {figure.unit}".replace(" C", " \N{DEGREE SIGN}C").rstrip()
    values = {
        "what": figure.name,
        "needed": f"{shown(need)}{unit}",
        "offered": "" if have is None else f"{shown(have)}{unit}",
        "look": figure.look,
    }
    if have is None:
        return Piece(figure.name, verdict(FamilyState.UNREADABLE, "service-not-said", values))
    bound = (
        figure.small if have < need - figure.less else figure.big if have > need + figure.more else _AS_NEEDED
    )
    values["by"] = f"{shown(abs(have - need))}{unit}"
    if bound.within is not None and abs(have - need) > bound.within:
        return Piece(figure.name, verdict(FamilyState.OFF, "service-other-size", values, sources=(PRACTICE,)))
    return Piece(figure.name, _bounded(kind, bound, values))


def trait_piece(kind: str, trait: Trait, need: str, have: str) -> Piece:
    """How an offered word stands against the needed one."""
    values = {"what": trait.name, "needed": need, "offered": have, "look": trait.look}
    if not have:
        return Piece(trait.name, verdict(FamilyState.UNREADABLE, "service-not-said", values))
    return Piece(trait.name, _bounded(kind, trait.differs.get((need, have), _AS_NEEDED), values))


def pieces(wanted: Made, had: Made, apart: Iterable[str] = ()) -> list[Piece]:
    """All that the needed one says, figures first: they do the worse harm. Those named in `apart` are the family's own."""
    shape, left_out = wanted.shape, frozenset(apart)
    found = [
        figure_piece(shape.kind, one, wanted.figures[one.name], had.figures.get(one.name))
        for one in shape.figures
        if one.name in wanted.figures and one.name not in left_out
    ]
    return found + [
        trait_piece(shape.kind, one, wanted.traits[one.name], had.traits.get(one.name, ""))
        for one in shape.traits
        if one.name in wanted.traits and one.name not in left_out
    ]


def differing(options: Iterable[str], bound: Callable[[str, str], Bound]) -> dict[tuple[str, str], Bound]:
    """Every pair of two different options with what it means."""
    listed = tuple(options)
    return {(need, have): bound(need, have) for need in listed for have in listed if need != have}


def _bounded(kind: str, bound: Bound, values: Mapping[str, str]) -> FamilyResult:
    trap = "trap-" if bound.state is FamilyState.TRAP else ""
    code = bound.code if bound is _AS_NEEDED else f"{kind}-{trap}{bound.code}"
    tells = (Because(f"{kind}-{bound.tell}", dict(values)),) if bound.tell else ()
    sources = () if bound is _AS_NEEDED else (PRACTICE,)
    return verdict(bound.state, code, values, sources=sources, under=tells)


_AS_NEEDED: Final = Bound(FamilyState.OK, "service-agrees")
