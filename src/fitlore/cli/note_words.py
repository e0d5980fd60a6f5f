"""The phrases of `note` behind the first comma: how it is known, on whose word, when, how long, with which work.

Only words are read here; what they mean in the books is found in `noting`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Final

import msgspec

from fitlore.cli.failure import CouldNot
from fitlore.cli.note_days import COUNT, Lasted, counted, day_ago, said_day
from fitlore.cli.note_head import COMMA, Stance
from fitlore.model.choices import How
from fitlore.model.dates import read_period

_HOW: Final[tuple[tuple[str, How], ...]] = (
    (r"offered[- ]up|held (?:it )?(?:up|against)(?: it)?|tried(?: on)?|laid (?:one )?on the other", How.OFFERED_UP),
    (r"works?|worked|working|fitted|went (?:straight )?(?:in|on)|goes (?:straight )?(?:in|on)", How.FITTED),
    (r"measured", How.MEASURED),
    (r"printed|read(?= in\b)", How.PRINTED),
    (r"told|heard|hearsay", How.TOLD),
)  # fmt: skip
_LEAD: Final = r"(?:(?:i|we|it|they|was|were|has|have|had|been|just|now|still)\s+)*"
_HOWS: Final = tuple((re.compile(rf"{_LEAD}(?:{words})\b", re.IGNORECASE), how) for words, how in _HOW)
_SAYS: Final = re.compile(
    r"(?P<who>.{2,40}?) (?:says?|said|reckons?|swears|(?:tells|told) (?:me|us))\b(?: that)?\s*(?P<rest>.*)",
    re.IGNORECASE,
)
_NO: Final = re.compile(
    r"\b(?:not|never|but|too \w+|no (?:good|use)|useless|wrong|bad|dead|scrap|junk|loose|bent|burnt|blew|blown)\b|n't\b"
    r"|\b(?:does|did|would|could|will|wo|has|is|was|ca)nt\b|\b(?:came|come|fell|went) (?:off|back|out|over)\b"
    r"|(?<!no )\b(?:leak(?:s|ed)?|foul(?:s|ed)?|fail(?:s|ed)|brok?en?|broke|rub(?:s|bed)|jam(?:s|med)|bind(?:s|ing)?"
    r"|slip(?:s|ped)|strip(?:s|ped)|snap(?:s|ped)|crack(?:s|ed)|melt(?:s|ed)|seiz(?:es|ed)|boil(?:s|ed)|split|warp(?:s|ed)"
    r"|overheat(?:s|ed)|twist(?:s|ed)|return(?:s|ed))\b",
    re.IGNORECASE,
)
"""Words that hardly stand in what is said for a part."""
_FINE: Final = re.compile(r"^(?:fine|well|good|ok|all right|so far|now)$", re.IGNORECASE)


class Told(msgspec.Struct, frozen=True):
    """What the phrases say. Empty: nothing was said of it."""

    how: How | None = None
    by: str = ""
    source: str = ""
    date: str = ""
    """As ISO 8601-2, to what precision it was said."""
    lasted: str = ""
    on_car: str = ""
    do: str = ""
    minutes: int = 0
    both_ways: bool | None = None
    beside: tuple[str, ...] = ()
    """`PART at PLACE` that must be changed with it."""
    no_number: bool = False
    marks: str = ""
    note: str = ""
    """What no phrase of these was."""


def told(tail: str, today: date, stance: Stance = "for") -> Told:
    """What the phrases after the comma say; raises CouldNot where they say the contrary of what is noted."""
    reader = _Reader(today)
    for clause in filter(None, (clause.strip() for clause in COMMA.split(tail))):
        reader.take(clause)
    found = reader.found()
    if stance == "against" and reader.praise:
        raise CouldNot(f"`not` and {reader.praise!r} speak against each other; say one of them")
    if stance == "for" and (no := _NO.search(found.note)) is not None:
        raise CouldNot(
            f"{no[0]!r} in {found.note!r} may speak against it. If it does not go: `note not ...`; if it does all the same,"
            f" say so apart from the line: --note {found.note!r}"
        )
    return found


def work_said(text: str) -> Told:
    """The work that an option says: `25 min: bend the brackets`, or what has to be done alone."""
    reader = _Reader(date.min)
    if text and not _work(reader, text):
        reader.said["do"] = text
    return reader.found()


def how_said(text: str) -> How | None:
    """What an option calls how it is known; None for no text. Raises CouldNot for another word."""
    how = next((how for pattern, how in _HOWS if pattern.fullmatch(text.strip())), None)
    if text and how is None:
        raise CouldNot(f"how: {text!r}; write one of {', '.join(h.value for h in How)}")
    return how


def date_said(text: str, today: date) -> str:
    """The day an option says, as ISO 8601-2; raises CouldNot where it is none."""
    found = said_day(text, today)
    if not text or (found is not None and not found.rest):
        return found.text if found else ""
    if read_period(text) is None:
        raise CouldNot(f"{text!r} is no day; write `3 dec`, `may 2024`, `2024` or `2026-12-09`")
    return text


class _Reader:
    """Takes one phrase after the other; the first word on a thing counts, what says nothing else is the remark."""

    def __init__(self, today: date) -> None:
        self.today = today
        self.said: dict[str, object] = {}
        self.remarks: list[str] = []
        self.lasted: Lasted | None = None
        self.praise = ""

    def found(self) -> Told:
        """All that was said; what was fitted so long ago was fitted then."""
        if self.lasted is not None and "date" not in self.said and self.said.get("how") is How.FITTED:
            self.said["date"] = day_ago(self.lasted, self.today)
        return msgspec.convert({**self.said, "note": ", ".join(self.remarks)}, Told, from_attributes=True)

    def take(self, clause: str) -> None:
        """One phrase."""
        text = re.sub(r"^and\s+", "", clause, flags=re.IGNORECASE)
        if any(known(self, text) for known in _WHOLE):
            return
        rest = self._how(text)
        if rest is None and "how" not in self.said and (says := _SAYS.fullmatch(text)) is not None:
            self.said |= {"how": How.TOLD}
            self.said.setdefault("by", says["who"])
            self._remark(says["rest"])
            return
        self._remark(self._beyond(text if rest is None else rest, own=rest is None))

    def _remark(self, text: str) -> None:
        if text and not _FINE.match(text):
            self.remarks.append(text)

    def _how(self, text: str) -> str | None:
        """What follows the words for how; None where there are none, or it was said before."""
        if "how" in self.said:
            return None
        for pattern, how in _HOWS:
            if (match := pattern.match(text)) is not None:
                self.said["how"] = how
                self.praise = match[0] if re.search(r"\bwork", match[0], re.IGNORECASE) else ""
                return text[match.end() :].strip(" :")
        return None

    def _beyond(self, text: str, *, own: bool) -> str:
        """Takes by whom, from where, when and how long off the front of a phrase, as often as there is one; the rest.

        `own`: the phrase stands by itself, so only a whole one counts: `in the other order` is no date.
        """
        rest = text
        while rest:
            shorter = next((left for ask in _FRONT if (left := ask(self, rest)) is not None), None)
            if shorter is None:
                break
            rest = shorter
        return text if own and rest and rest != text else rest


def _direction(reader: _Reader, text: str) -> bool:
    match = re.fullmatch(
        r"(?:goes )?(?:(both ways|either way(?: round)?)|(one[- ]way(?: only)?))", text, re.IGNORECASE
    )
    if match is not None:
        reader.said.setdefault("both_ways", match[1] is not None)
    return match is not None


def _work(reader: _Reader, text: str) -> bool:
    pattern = rf"(?:with |takes |another |work:? )?({COUNT}) ?(min(?:ute)?s?|h(?:ou)?rs?|h)\b(?: of)?(?: work)?:?\s*(.*)"
    match = re.fullmatch(pattern, text, re.IGNORECASE)
    if match is None:
        only = re.fullmatch(r"work:? (.+)", text, re.IGNORECASE)
        if only is not None:
            reader.said.setdefault("do", only[1])
        return only is not None
    minutes = counted(match[1]) * (60 if match[2][0] in "hH" else 1)
    reader.said.setdefault("minutes", minutes)
    if match[3]:
        reader.said.setdefault("do", match[3])
    return True


def _with(reader: _Reader, text: str) -> bool:
    match = re.fullmatch(r"(?:only )?with (.+ (?:at|in) .+)", text, re.IGNORECASE)
    if match is not None:
        reader.said["beside"] = (*_texts(reader.said.get("beside")), match[1])
    return match is not None


def _texts(value: object) -> tuple[str, ...]:
    return tuple(str(one) for one in value) if isinstance(value, tuple) else ()


def _no_number(reader: _Reader, text: str) -> bool:
    pattern = r"no number(?: on it)?|without(?: a)? number|number (?:gone|worn off|unreadable)"
    if re.fullmatch(pattern, text, re.IGNORECASE) is None:
        return False
    reader.said["no_number"] = True
    return True


def _marks(reader: _Reader, text: str) -> bool:
    match = re.fullmatch(r"mark(?:s|ed)?:? (.+)", text, re.IGNORECASE)
    if match is not None:
        reader.said.setdefault("marks", match[1])
    return match is not None


def _source(reader: _Reader, text: str) -> bool:
    match = re.fullmatch(r"source:? (.+)", text, re.IGNORECASE)
    if match is not None:
        reader.said.setdefault("source", match[1])
    return match is not None


_TIME: Final = rf"(?:{COUNT}) (?:day|week|month|year)s?"
_END: Final = rf"(?=\s+(?:in|on|for|since|lasted|{_TIME})\b|$)"


def _by(reader: _Reader, text: str) -> str | None:
    word = "by|from" if reader.said.get("how") is How.TOLD else "by"
    match = re.match(rf"(?:{word}) (.+?){_END}", text, re.IGNORECASE)
    if match is None or "by" in reader.said:
        return None
    name = re.split(r"\s+(?:that|it|they|this|one)\b", match[1])[0]
    reader.said["by"] = name
    return text[match.end() if name == match[1] else match.start(1) + len(name) :].strip()


def _printed_in(reader: _Reader, text: str) -> str | None:
    match = re.match(r"(?:in|from|on) (.+)", text, re.IGNORECASE)
    if match is None or "source" in reader.said or reader.said.get("how") is not How.PRINTED:
        return None
    reader.said["source"] = match[1]
    return ""


def _when(reader: _Reader, text: str) -> str | None:
    found = said_day(text, reader.today)
    if found is None or "date" in reader.said:
        return None
    reader.said["date"] = found.text
    return found.rest


def _how_long(reader: _Reader, text: str) -> str | None:
    match = re.match(
        rf"(?:(?:lasted|for|about|over|has done)\s+)*({COUNT}) (day|week|month|year)s?\b(?: now| so far| ago)?",
        text,
        re.IGNORECASE,
    )
    if match is None or reader.lasted is not None:
        return None
    reader.lasted = Lasted(counted(match[1]), match[2].casefold())
    reader.said["lasted"] = str(reader.lasted)
    return text[match.end() :].strip()


def _on_car(reader: _Reader, text: str) -> str | None:
    match = re.fullmatch(r"on ((?:the|an?|his|her|their|my|our|\w+'s) .+)", text, re.IGNORECASE)
    if match is None or "on_car" in reader.said:
        return None
    reader.said["on_car"] = match[1]
    return ""


_WHOLE: Final[tuple[Callable[[_Reader, str], bool], ...]] = (
    _direction, _work, _with, _no_number, _marks, _source,
)  # fmt: skip
_FRONT: Final[tuple[Callable[[_Reader, str], str | None], ...]] = (
    _by, _printed_in, _when, _how_long, _on_car,
)  # fmt: skip
