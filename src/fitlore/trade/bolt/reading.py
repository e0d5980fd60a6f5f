"""Texts into bolts."""

from __future__ import annotations

from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import FIGURE, INCH, Words, in_mm, shown, size, words
from fitlore.trade.property_class.reading import read as read_class
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.reading import read as read_thread
from fitlore.trade.thread.rows import METRIC
from fitlore.trade.thread.value import Thread, normal

EXAMPLES: Final = ("M8x25-8.8", "hex bolt M10x1.25x30 10.9", "7/16 UNF x 1 1/2 grade 5")
_CLASS: Final = words(
    r"(?:(?<=[\s,-])|^)(?:class )?(?P<iso>\d{1,2}[.,][689])(?![\w.])|\b(?P<other>(?:SAE )?grade (?:\d(?:\.\d)?|[PRSTVX])"
    r"|A[24]-(?:50|70|80)|JIS \d{1,2}T|\d{1,2}T|BS [PRSTVX]|(?:three|five|six|[356]) (?:radial )?lines)(?![\w.])"
)
_HEADS: Final = (
    ("socket head", words(r"\b(?:socket|allen|cap)(?: head)?(?: cap)?\b")),
    ("countersunk head", words(r"\b(?:countersunk|csk)(?: head)?\b")),
    ("flange head", words(r"\b(?:hex(?:agon)? )?flanged?(?: head)?\b")),
    ("hexagon head", words(r"\bhex(?:agon)?(?: head)?\b")),
)
_FULL: Final = words(r"\b(?:set ?screw|full(?:y)? thread(?:ed)?)\b")
_SHANK: Final = words(rf"\b(?:shank|shoulder)\s+(?P<size>{FIGURE})\s*(?P<unit>mm|\"|in(?:ch)?\b)?")
_LONG: Final = words(rf"(?P<size>{FIGURE})\s*(?P<unit>mm|\"|in(?:ch)?\b)?\s*long\b")
_WORD: Final = words(r"\b(?:bolt|screw|machine)\b")
_TAIL: Final = words(rf"\s*x\s*(?P<size>{FIGURE})\s*(?P<unit>mm|\"|in(?:ch)?\b)?$")
_SHORTEST: Final = Decimal("0.5")
"""A length is at least this share of the diameter; what is shorter was meant as a pitch."""


class Bolt(NamedTuple):
    """A bolt: its thread, and what is said of length (mm), strength, head, shank (mm) and whether it is threaded through."""

    thread: Thread
    length: Decimal | None = None
    strength: str = ""
    head: str = ""
    shank: Decimal | None = None
    full: bool = False

    def __str__(self) -> str:
        length = "" if self.length is None else f" x {shown(self.length)} mm"
        parts = [f"{normal(self.thread)}{length}", self.strength, self.head]
        parts += [] if self.shank is None else [f"shank {shown(self.shank)} mm"]
        parts += ["full thread"] if self.full else []
        return ", ".join(part for part in (*parts, "" if length else "bolt") if part)


def read(text: str, standards: Standards) -> Bolt | Unreadable:
    """The bolt a text names: a thread with a length, or with a word or a class that makes it a bolt."""
    found = Words(text)
    unknown = Unreadable(text, "bolt-unknown", expected=EXAMPLES)
    if found.too_long or not any(sign.isdigit() for sign in found.rest):
        return unknown
    shank = found.take(_SHANK)
    strength = found.take(_CLASS)
    head = next((name for name, pattern in _HEADS if found.take(pattern)), "")
    full, long = bool(found.take(_FULL)), found.take(_LONG)
    named = bool(found.take(_WORD)) or bool(head) or full
    body = found.bare()
    thread = read_thread(body, standards)
    tail = None if isinstance(thread, Thread) else _TAIL.search(body)
    whole = thread
    if tail:
        thread = read_thread(body[: tail.start()].strip(" -"), standards)
    if isinstance(thread, Unreadable):
        readings = tuple(f"{one}{body[tail.start() :] if tail else ''}" for one in thread.readings)
        if not body or not (named or strength or (tail and readings)):
            return unknown
        return Unreadable(text, "bolt-thread", readings, thread.expected or thread.readings)
    if tail and "/" in tail["size"] and not tail["unit"] and thread.row.family in METRIC:
        # 25/30 is the one or the other, and no part of an inch.
        return Unreadable(text, "bolt-thread", expected=EXAMPLES)
    length = next((_length(match["size"], match["unit"], thread) for match in (long, tail) if match), None)
    if length is not None and length < _SHORTEST * dimensions(thread).major:
        return Unreadable(
            text, "bolt-thread", expected=whole.expected if isinstance(whole, Unreadable) else EXAMPLES
        )
    if length is None and not named:
        return unknown
    grade = "" if not strength else read_class(strength["iso"] or strength["other"], standards)
    if isinstance(grade, Unreadable):
        return Unreadable(text, grade.reason, grade.readings, grade.expected)
    return Bolt(thread, length, grade, head, in_mm(shank["size"], shank["unit"]) if shank else None, full)


def _length(figure: str, unit: str | None, thread: Thread) -> Decimal:
    if unit or thread.row.family in METRIC:
        return in_mm(figure, unit)
    return size(figure) * INCH
