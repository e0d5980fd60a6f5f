"""Texts into gas struts: lengths by any two of open, closed and stroke; the force at 20 degrees; both ends."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final

from fitlore.trade.gas_strut.gas import force_at_20
from fitlore.trade.gas_strut.tables import ENDS
from fitlore.trade.measured import Bound, Figure, Made, Shape, Trait, read_made
from fitlore.trade.pieces import FIGURE, words
from fitlore.trade.result import FamilyState, Unreadable
from fitlore.trade.standards import Standards

_OK, _OFF, _TRAP = FamilyState.OK, FamilyState.OFF, FamilyState.TRAP
EXAMPLES: Final = (
    "gas strut, open 505 mm, closed 305 mm, force 380 N, rod ball 10 mm, tube ball 10 mm",
    "gas strut 505/305 mm, 380 N, rod eye 8 mm, tube stud M8",
)
_NEWTONS: Final = {
    "n": "1",
    "dan": "10",
    "kn": "1000",
    "lb": "4.4482216",
    "lbf": "4.4482216",
    "lbs": "4.4482216",
    "kg": "9.80665",
    "kgf": "9.80665",
    "kp": "9.80665",
}
"""One of each in newtons (ISO 80000-4 and the international pound)."""
_FORCE: Final = words(
    r",?\s*(?:\b(?:force|F1|pushes|push):? ?=? ?)?(?<![\w/.,-])(?P<size>\d{1,4}(?:[.,]\d{1,2})?) ?"
    r"(?P<unit>daN|kN|N|lbf|lbs?|kgf?|kp)\b(?: ?(?:at )?(?P<at>[-+]?\d{1,2}) ?(?:\N{DEGREE SIGN}|deg(?:rees?)?)? ?C\b)?"
)
_AMOUNT: Final = rf"(?:M(?P<thread>\d{{1,2}})|(?P<size>{FIGURE}(?: ?(?:mm|\"|in(?:ch)?))?))"
_FORM: Final = r"(?P<form>ball(?: ?(?:socket|joint|cup))?|eye|eyelet|fork|clevis|stud|thread)"
_END: Final = words(
    rf"\b(?P<end>rod|tube|cylinder|body|both)(?:[- ]ends?)? {_FORM}s?(?: ends?)?(?: {_AMOUNT})?(?![\w/])"
)
_PAIR: Final = words(
    rf"(?<![\w/.,-])(?P<size>{FIGURE}) ?mm {_FORM}s?(?:(?: ends?)?,? (?:(?:at|on) )?(?P<end>both)(?: ends)?| ends)(?![\w/])"
)
_FORMS: Final = {"eyelet": "eye", "clevis": "fork", "thread": "stud"}
_SIDES: Final = {"rod": ("rod",), "both": ("rod", "tube")}
_LENGTHS: Final = words(
    r"(?<![\w/.,-])(?P<one>\d{3}(?:[.,]\d)?)(?: ?mm)? ?(?:/|-|to) ?(?P<two>\d{2,3}(?:[.,]\d)?)(?: ?mm)?(?![\w/])"
)
_AGREE: Final = Decimal(2)
"""By how many mm open, closed and stroke may contradict each other: rounding."""


def _size(side: str) -> Figure:
    bound = Bound(_OFF, "other-end")
    play = Decimal("0.2")
    return Figure(
        f"{side} size", "mm", f"{side} size", play, play, bound, bound, "the ball, the pin or the thread"
    )


def _end(side: str) -> Trait:
    forms = tuple((f"{side} {form}", words(rf"\b{side} {form}\b")) for form in ENDS)
    return Trait(f"{side} end", forms, {}, f"the form of the {side}'s end")


_OPEN: Final = Figure(
    "open", "mm", r"(?:open|extended)(?: length)?", Decimal(4), Decimal(4),
    Bound(_OFF, "opens-less"), Bound(_TRAP, "opens-far", "tell-open"), "middle to middle of its ends, right out",
)  # fmt: skip
_CLOSED: Final = Figure(
    "closed", "mm", r"(?:closed|compressed)(?: length)?", Decimal(1000), Decimal("0.1"),
    Bound(_OK, "service-agrees"), Bound(_TRAP, "too-long", "tell-closed"), "middle to middle of its ends, pushed right in",
)  # fmt: skip
_STROKE: Final = Figure(
    "stroke", "mm", "stroke", Decimal(0), Decimal(0), Bound(_OFF, "stroke"), Bound(_OFF, "stroke"), "how far it moves",
)  # fmt: skip
FORCE: Final = Figure(
    "force", "N", "force", Decimal(0), Decimal(0),
    Bound(_TRAP, "weak", "tell-force"), Bound(_OFF, "strong"), "what is printed on the tube",
)  # fmt: skip
SHAPE: Final = Shape(
    "gas-strut",
    "gas strut",
    words(
        r"\b(?:(?:tailgate|bonnet|boot|hatch|hood|liftgate) )?(?:gas (?:struts?|springs?|lifts?)|lift supports?)\b"
        r"|\b(?:tailgate|bonnet|boot|hatch|hood|liftgate) struts?\b"
    ),
    (_OPEN, _CLOSED, _size("rod"), _size("tube"), FORCE),
    (_end("rod"), _end("tube")),
    ("rod end", "tube end", "rod size", "tube size"),
    EXAMPLES,
)
_AS_WRITTEN: Final = SHAPE._replace(figures=(_OPEN, _CLOSED, _STROKE, _size("rod"), _size("tube")))
"""What is read word by word: the force has units and a temperature of its own."""


def read_strut(text: str, standards: Standards) -> Made | Unreadable:
    """The strut a text names: open and closed length in mm, force at 20 degrees in N, form and size of both ends."""
    force = _FORCE.search(text[:300])
    spelt = _FORCE.sub(", ", text[:300], count=1)
    spelt = _LENGTHS.sub(_as_lengths, _END.sub(_as_end, _PAIR.sub(_as_end, spelt)))
    found = read_made(spelt, _AS_WRITTEN, standards)
    if isinstance(found, Unreadable):
        return Unreadable(text, found.reason, found.readings, found.expected)
    lengths = _lengths(found.figures)
    if isinstance(lengths, str):
        return Unreadable(text, lengths, expected=EXAMPLES)
    if force is None:
        return Unreadable(text, "gas-strut-no-force", expected=EXAMPLES)
    ends = {name: found.figures[name] for name in ("rod size", "tube size")}
    return found._replace(shape=SHAPE, figures={**lengths, **ends, "force": _newtons(force)})


def _lengths(figures: dict[str, Decimal]) -> dict[str, Decimal] | str:
    """Open and closed length from any two of the three; or the reason why there are none.

    Closed, the rod is inside of the tube: the closed length is more than half of the open one.
    """
    opened, closed, stroke = (figures.get(name) for name in ("open", "closed", "stroke"))
    if opened is None and closed is not None and stroke is not None:
        opened = closed + stroke
    if closed is None and opened is not None and stroke is not None:
        closed = opened - stroke
    if opened is None or closed is None:
        return "gas-strut-no-open" if opened is None else "gas-strut-no-closed"
    if stroke is not None and abs(opened - closed - stroke) > _AGREE:
        return "gas-strut-lengths"
    return {"open": opened, "closed": closed} if opened / 2 < closed < opened else "gas-strut-lengths"


def _newtons(match: re.Match[str]) -> Decimal:
    value = Decimal(match["size"].replace(",", ".")) * Decimal(_NEWTONS[match["unit"].casefold()])
    return round(force_at_20(value, Decimal(match["at"])) if match["at"] else value, 1)


def _as_end(match: re.Match[str]) -> str:
    """`both ends ball 10 mm` as the shape has it."""
    form = (
        match["form"]
        .casefold()
        .partition(" ")[0]
        .replace("socket", "")
        .replace("joint", "")
        .replace("cup", "")
    )
    form = _FORMS.get(form, form)
    thread = match.groupdict().get("thread")
    size = f"{thread} mm" if thread else match["size"]
    bare = size and match.re is _PAIR
    sides = _SIDES.get((match["end"] or "both").casefold(), ("tube",))
    return ", ".join(
        f"{side} {form}" + (f", {side} size {size}{' mm' if bare else ''}" if size else "") for side in sides
    ) + ", "  # fmt: skip


def _as_lengths(match: re.Match[str]) -> str:
    """Two figures: the bigger is the open length; the other is the closed one where it is more than its half."""
    one, two = (Decimal(match[name].replace(",", ".")) for name in ("one", "two"))
    small, big = sorted((one, two))
    return f" open {big} mm, {'closed' if small * 2 > big else 'stroke'} {small} mm, "
