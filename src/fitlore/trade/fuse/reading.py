"""Texts into fuses: the form, the figure, and whether the figure is what it carries or what blows it."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.trade.pieces import INCH, Words, size, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow, plain

EXAMPLES: Final = (
    "blade 10 A",
    "mini blade 7.5 A",
    "torpedo 8 A",
    "glass 6.3x32 carries 15 A",
    "glass 35 A blows",
)
_NUM: Final = r"\d{1,3}(?:[.,]\d{1,2})?"
_FORM: Final = words(
    r"(?P<low>low[- ]profile mini(?:[- ]blade)?|low mini(?:[- ]blade)?)|(?P<mini>mini(?:[- ]blade)?\b|blade mini)"
    r"|(?P<maxi>maxi(?:[- ]blade)?\b|blade maxi)|(?P<blade>(?:regular |flat )?blade)"
    r"|(?P<torpedo>(?:ceramic )?torpedo|ceramic)|(?P<glass>glass|cartridge)|(?P<strip>strip)"
)
_SIZE: Final = words(
    rf"(?P<d>1/4|{_NUM})(?:\s?in)?\s?x\s?(?P<l>1 1/4|1 5/32|{_NUM})\s?(?P<unit>mm|in\b|\")?|(?P<only>\d{{2}}(?:[.,]\d)?)\s?mm"
)
_SLOW: Final = words(
    r"\b(?:(?P<slow>slow(?:[- ]blow)?|time[- ]lag|delayed)|(?P<quick>quick(?:[- ](?:blow|acting))?"
    r"|fast(?:[- ](?:blow|acting))?))\b"
)
_BLOWS: Final = words(
    rf"\(?blow(?:s|ing)?(?: at| rating)?\)? (?P<n>{_NUM})\s?A(?:mps?)?\b|(?P<after>{_NUM})\s?A(?:mps?)? "
    rf"\(?blow(?:s|ing)?(?: rating)?\)?"
)
_CARRIES: Final = words(
    rf"\(?(?:carries|continuous(?:ly)?)\)? (?P<n>{_NUM})\s?A(?:mps?)?\b|(?P<after>{_NUM})\s?A(?:mps?)? "
    rf"\(?(?:carried|carries|continuous(?:ly)?)\)?"
)
_AMPS: Final = words(rf"(?<![\w.,/])(?P<n>{_NUM})\s?A(?:mps?)?(?!\w)")
_COLOUR: Final = words(
    r"\b(?:(?:red|green|purple|yellow) on (?:yellow|green|black|brown|red)|blue[- ]green|(?:nut|light) brown"
    r"|black|gr[ae]y|violet|pink|tan|brown|red|blue|yellow|clear|green|orange|white)\b"
)
_FILLING: Final = words(r"\b(?:fuses?|fuse-link|rated|old british|british|DIN 72581|type [CEF])\b")
_TABLE: Final = {"blade": "fuse-blade", "mini blade": "fuse-blade", "low mini blade": "fuse-blade",
                 "maxi blade": "fuse-maxi", "torpedo": "fuse-torpedo"}  # fmt: skip
_LENGTHS: Final = {
    "glass 5x20": Decimal(20),
    "glass 6.3x29.4": Decimal("29.4"),
    "glass 6.3x32": Decimal("31.8"),
}
_NEAR: Final = Decimal("0.8")
"""By how many mm a glass fuse's length may be written otherwise and still mean the listed one (30 for 29.4)."""


class Fuse(NamedTuple):
    """A fuse. `amps` is its marking; `blows` says that the marking is what blows it; `carries` is what it carries, in A."""

    name: str
    form: str
    amps: Decimal
    carries: Decimal
    blows: bool = False
    speed: str = ""
    rows: tuple[TableRow, ...] = ()

    @property
    def family(self) -> str:
        """Forms that are of one kind: their steps of rating are the same."""
        return self.form.split(" ")[-1] if "blade" in self.form else self.form.split(" ")[0]


def read(text: str, standards: Standards) -> Fuse | Unreadable:
    """The fuse a text names. A glass fuse of which the basis is not said is refused with both of its readings."""
    said = Words(text)
    match = None if said.too_long else said.take(_FORM)
    if not match:
        return Unreadable(text, "fuse-unknown", expected=EXAMPLES)
    form = {"low": "low mini blade", "mini": "mini blade", "maxi": "maxi blade"}.get(
        match.lastgroup or "", match.lastgroup or ""
    )
    if form == "glass" and (span := said.take(_SIZE)):
        form = _glass(span)
    speed = said.take(_SLOW)
    blows, carries = said.take(_BLOWS), said.take(_CARRIES)
    amps = said.take(_AMPS) if not (blows or carries) else None
    colour = said.take(_COLOUR)
    while said.take(_FILLING):
        pass
    if said.bare() or not form or not (blows or carries or amps or colour):
        return Unreadable(text, "fuse-unknown", expected=EXAMPLES)
    figures = [_figure(one) for one in (blows, carries, amps)]
    pace = (speed.lastgroup or "") if speed else ""
    return _made(
        text, form, figures, colour[0].lower().replace("gray", "grey") if colour else "", pace, standards
    )


def _made(
    text: str, form: str, figures: list[Decimal | None], colour: str, speed: str, standards: Standards
) -> Fuse | Unreadable:
    blows, carries, amps = figures
    if not form.startswith("glass"):
        return _marked(text, form, carries or amps, colour, speed, standards, blows)
    british = standards.table("fuse-british")
    if colour:
        row = next(iter(british.find(colour=colour)), None)
        if row is None or any(
            f not in (None, row.number(c)) for f, c in ((blows, "blows"), (carries, "carries"))
        ):
            return Unreadable(text, "fuse-colour", expected=EXAMPLES)
        if amps not in (None, row.number("blows")):
            return Unreadable(text, "fuse-colour", expected=(f"glass {row.cell('blows')} A blows",))
        blows = row.number("blows")
    if blows is None and carries is None and amps is not None:
        readings = tuple(_name(form, amps, blown, speed) for blown in (False, True))
        return Unreadable(text, "fuse-basis", readings, readings)
    if blows is not None:
        rows = british.find(blows=plain(blows))[:1]
        own = rows[0].number("carries") if rows else blows / 2
        if carries is not None and abs(carries - own) > 1:
            return Unreadable(text, "fuse-clash", expected=(_name(form, blows, True, speed),))
        return Fuse(_name(form, blows, True, speed), form, blows, own, True, speed, rows)
    assert carries is not None
    return Fuse(_name(form, carries, False, speed), form, carries, carries, False, speed)


def _marked(
    text: str,
    form: str,
    amps: Decimal | None,
    colour: str,
    speed: str,
    standards: Standards,
    blows: Decimal | None,
) -> Fuse | Unreadable:
    """Blade, ceramic and strip fuses: the figure is what they carry; the colour has to be its own."""
    if blows is not None:
        return Unreadable(text, "fuse-blows", expected=EXAMPLES)
    if form == "strip":
        if amps is None or colour:
            return Unreadable(text, "fuse-unknown", expected=EXAMPLES)
        return Fuse(_name(form, amps, False, speed), form, amps, amps, False, speed)
    rows = standards.table(_TABLE[form]).rows
    fitting = [
        row for row in rows if amps in (None, row.number("amps")) and colour in ("", row.word("colour"))
    ]
    if len(fitting) != 1:
        near = sorted(rows, key=lambda row: abs(row.number("amps") - (amps or 0)))
        reason = "fuse-unlisted" if amps is not None and not colour else "fuse-colour"
        return Unreadable(text, reason, expected=tuple(f"{form} {row.cell('amps')} A" for row in near[:3]))
    own = fitting[0].number("amps")
    return Fuse(_name(form, own, False, speed), form, own, own, False, speed, tuple(fitting))


def _glass(span: re.Match[str]) -> str:
    """The listed size that a written one means; nothing where it is none."""
    text = span["l"] or span["only"]
    length = size(text) * INCH if "/" in text or span["unit"] in ("in", '"') else size(text)
    return next((form for form, own in _LENGTHS.items() if abs(own - length) <= _NEAR), "")


def _figure(match: re.Match[str] | None) -> Decimal | None:
    if match is None:
        return None
    groups = match.groupdict()
    return size(groups["n"] or groups.get("after") or "")


def _name(form: str, amps: Decimal, blows: bool, speed: str) -> str:
    figure = f"{plain(amps)} A blows" if blows else f"{plain(amps)} A"
    basis = "carries " if form.startswith("glass") and not blows else ""
    return f"{form} {basis}{figure}" + (f" {speed}" if speed else "")
