"""Texts into pipe unions."""

from __future__ import annotations

from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import FIGURE, Words, in_mm, shown, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.thread.reading import read as read_thread
from fitlore.trade.thread.value import Thread, normal

EXAMPLES: Final = ("M10x1 bubble, 4.75 mm pipe", "3/8-24 UNF double, 4.75 mm pipe", "7/16-20 UNF 37 deg")
SAME_PIPE: Final = Decimal("0.02")
"""How far two names of one pipe may be apart, in mm: 3/16 in is 4.7625 and is sold as 4.75 and 4.76."""
_DEG: Final = r"\s*-?\s*deg(?:rees?)?"
_END: Final = r"(?![\w/])"
_FLARES: Final = (
    ("banjo", words(r"\bbanjo(?: bolt| union| eye)?\b")),
    ("bubble", words(r"\b(?:(?:ISO|DIN|metric) )?(?:bubble|convex)(?: flared?)?\b|\b(?:ISO|DIN) flare\b|\bform F\b")),
    ("double", words(rf"\b(?:SAE )?(?:45(?:{_DEG})? )?(?:double|inverted)(?: (?:45(?:{_DEG})? ?)?flared?)?\b")),
    ("single", words(rf"\b(?:SAE )?(?:45(?:{_DEG})? )?single(?: (?:45(?:{_DEG})? ?)?flared?)?\b")),
    ("37 deg", words(rf"(?<![\w/.-])(?:JIC )?37(?:{_DEG})?(?: flared?)?{_END}|\b(?:JIC|AN)(?: flared?)?{_END}")),
    ("24 deg cone", words(rf"(?<![\w/.-])24(?:{_DEG}(?: cone)?| cone){_END}|\bcutting ring\b")),
    ("60 deg cone", words(rf"(?<![\w/.-])60(?:{_DEG}(?: cone)?| cone){_END}")),
)  # fmt: skip
_FORTY_FIVE: Final = words(
    rf"(?<![\w/.-])(?:SAE )?45(?:{_DEG})?(?: flared?)?{_END}|\bSAE flared?\b|\bflared?\b"
)
_PIPE: Final = words(
    rf"(?<![\w/.-])(?P<size>{FIGURE})\s*(?P<unit>mm|\"|in(?:ch)?\b)?\s*(?:pipe|tube)\b"
    rf"|\b(?:pipe|tube)\s+(?P<after>{FIGURE})\s*(?P<unit2>mm|\"|in(?:ch)?\b)?"
    rf"|(?<![\w/.-])(?<!x )(?P<mm>{FIGURE})\s*mm\b"
)
_NUTS: Final = (
    ("plain lead", words(r"\b(?:(?:with )?(?:a )?plain lead|lead-in)(?: nut)?\b")),
    ("full thread", words(r"\b(?:full(?:y)? thread(?:ed)?|all thread)(?: nut)?\b")),
)
_FILLER: Final = words(r"\b(?:brake|fuel|clutch|hydraulic|pipe|tube|union|nut|fitting|male|female)\b")
_LOOKS: Final = words(
    r"SAE 45|form F|flare|bubble|banjo|union|double|single|JIC|\bAN\b|\b(?:24|37|45|60)\s*deg|\b37\b|cone|cutting ring"
)


class Union(NamedTuple):
    """A union: its thread, the form of its flare, the pipe's outside diameter in mm and the nut where they are said."""

    thread: Thread
    flare: str
    pipe: Decimal | None = None
    nut: str = ""

    def __str__(self) -> str:
        parts = [f"{normal(self.thread)} {self.flare}"]
        parts += [f"{shown(self.pipe)} mm pipe"] if self.pipe is not None else []
        return ", ".join([*parts, self.nut] if self.nut else parts)


def read(text: str, standards: Standards) -> Union | Unreadable:
    """The union a text names. Without a flare, or with `45 deg` alone (single or double?), it is a question."""
    found = Words(text)
    if found.too_long or not _LOOKS.search(found.rest):
        return Unreadable(text, "pipe-union-unknown", expected=EXAMPLES)
    flare = next((name for name, pattern in _FLARES if found.take(pattern)), "")
    either = bool(found.take(_FORTY_FIVE)) and not flare
    pipe = _pipe(found)
    nut = next((name for name, pattern in _NUTS if found.take(pattern)), "")
    while found.take(_FILLER):
        pass
    thread = read_thread(found.bare(), standards)
    if isinstance(thread, Unreadable):
        rest = f" {flare}" if flare else ""
        return Unreadable(
            text,
            "pipe-union-thread",
            tuple(f"{one}{rest}" for one in thread.readings if flare),
            thread.expected or thread.readings,
        )
    outside = _listed(pipe, standards) if pipe is not None else None
    if pipe is not None and outside is None:
        near = sorted(standards.table("pipe").rows, key=lambda row: abs(row.number("outside") - pipe))
        expected = tuple(f"{shown(row.number('outside'))} mm pipe" for row in near[:3])
        return Unreadable(text, "pipe-union-pipe-unlisted", expected=expected)
    if not flare:
        flares = ("double", "single") if either else _usual(thread, standards)
        readings = tuple(str(Union(thread, name, outside, nut)) for name in flares)
        return Unreadable(text, "pipe-union-no-flare", readings, readings or EXAMPLES)
    return Union(thread, flare, outside, nut)


def _pipe(found: Words) -> Decimal | None:
    match = found.take(_PIPE)
    if not match:
        return None
    if match["mm"]:
        return in_mm(match["mm"], "mm")
    return in_mm(match["size"] or match["after"], match["unit"] or match["unit2"])


def _listed(pipe: Decimal, standards: Standards) -> Decimal | None:
    sizes = (row.number("outside") for row in standards.table("pipe").rows)
    return next((size for size in sizes if abs(size - pipe) <= SAME_PIPE), None)


def _usual(thread: Thread, standards: Standards) -> tuple[str, ...]:
    rows = standards.table("union-size").find(thread=normal(thread))
    return tuple(dict.fromkeys(row.word("flare") for row in rows))
