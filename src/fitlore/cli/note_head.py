"""The line of `note` before its first comma, cut at its small words.

[not | take back] PART [off DONOR] [with PART at PLACE] [for NUMBER or PLACE], HOW and what else is known
"""

from __future__ import annotations

import re
from typing import Final, Literal, NamedTuple

Stance = Literal["for", "against", "taken-back"]

COMMA: Final = re.compile(r",(?!\d)|(?<!\d),")
"""A comma inside a figure (`1,5 ohm`) parts nothing."""
_TARGET: Final = re.compile(r"\s(?:for|instead[ -]of|in place of|in)\s", re.IGNORECASE)
_BEHIND: Final = re.compile(r"\s(?:for|instead[ -]of|in place of)\s", re.IGNORECASE)
_OFF: Final = re.compile(r"\s(?:off|from)\s+(?!side\b)(?:(?:the|a|an|my|our)\s+)?", re.IGNORECASE)
_BESIDE: Final = re.compile(r"\swith\s+(?=.+\s(?:at|in)\s)", re.IGNORECASE)
_REFUSED: Final = re.compile(
    r"\s+(?:does(?:n't| not) (?:fit|go|work)|did(?:n't| not) (?:fit|go|work)|will not go|won't go|is no good|no good)$",
    re.IGNORECASE,
)
_BARE_HOW: Final = re.compile(
    r"\s(?=(?:works|worked|fitted|offered[- ]up|measured|printed in|told by|heard from)\b)", re.IGNORECASE
)


class Head(NamedTuple):
    """The line before its first comma."""

    stance: Stance
    part: str
    off: str
    """The donor, car or supplier it comes off."""
    target: str
    beside: tuple[str, ...]
    tail: str

    @property
    def line(self) -> str:
        """The line that reads as this."""
        front = {"for": "", "against": "not ", "taken-back": "take back "}[self.stance]
        bits = [f"{front}{self.part}", *(f"with {one}" for one in self.beside)]
        bits += [f"off {self.off}"] if self.off else []
        bits += [f"for {self.target}"] if self.target else []
        return f"{' '.join(bits)}, {self.tail}"


def head_of(line: str) -> Head:
    """The line cut at its small words; where no comma was typed, the words for how end its head."""
    text = " ".join(line.split())
    stance, text = _stance(text)
    head, tail = [*COMMA.split(text, maxsplit=1), ""][:2]
    if not tail and (bare := _BARE_HOW.search(head)) is not None:
        head, tail = head[: bare.start()], head[bare.end() :]
    head = head.strip()
    if stance == "for" and (refused := _REFUSED.search(head)) is not None:
        stance, head = "against", head[: refused.start()]
    head, *beside = _BESIDE.split(head)
    part, target = _halves(_TARGET, head)
    if beside and not target:
        beside[-1], target = _halves(_BEHIND, beside[-1])
    part, off = _halves(_OFF, part)
    if not off:
        target, off = _halves(_OFF, target)
    return Head(stance, part, off, target, tuple(beside), tail.strip())


def _stance(text: str) -> tuple[Stance, str]:
    low = text.casefold()
    if low.startswith("not "):
        return "against", text[4:]
    for words in ("take back ", "taken back ", "withdraw "):
        if low.startswith(words):
            return "taken-back", text[len(words) :]
    return "for", text


def _halves(at: re.Pattern[str], text: str) -> tuple[str, str]:
    found = at.split(f" {text}", maxsplit=1)
    return found[0].strip(), found[1].strip() if len(found) > 1 else ""
