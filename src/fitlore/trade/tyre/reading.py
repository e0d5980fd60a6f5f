"""Texts into tyres."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final

from fitlore.trade.pieces import Words, size, words
from fitlore.trade.result import Unreadable
from fitlore.trade.standards import Standards
from fitlore.trade.tyre.value import Build, Tyre

EXAMPLES: Final = ("195/65 R 15 91H", "155 R 13", "5.60-15", "185 R 14 C 102/100Q")
_RIM: Final = r"(?P<rim>[1-4]\d\d|[12]?\d(?:[.,]5)?)"
_R: Final = r"(?P<old>[SHVZ])?\s?(?P<build>R)(?:F|UN)?"
_METRIC: Final = words(
    rf"^(?P<front>P|LT|T)?\s?(?P<width>\d{{3}})\s?[/ -]\s?(?P<profile>\d\d)\s?(?:/|\s)?\s?"
    rf"(?:{_R}|(?P<other>[BD-])|(?P<none>[/ x])?)\s?-?{_RIM}\s?(?P<behind>C|LT)?(?![\w.,])"
)
_PLAIN: Final = words(
    rf"^(?P<width>[1-3]\d5)\s?/?\s?(?:{_R}|(?P<other>-))\s?-?{_RIM}\s?(?P<behind>C|LT)?(?![\w.,])"
)
_INCH: Final = words(
    rf"^(?P<width>\d{{1,2}}[.,]\d\d|[4-9][0-9]0)\s?(?:{_R}|(?P<other>[-x/D]))\s?-?{_RIM}\s?(?P<behind>LT|C)?(?![\w.,])"
)
_FLOAT: Final = words(
    rf"^(?P<front>LT)?\s?(?P<outside>[23]\d(?:[.,]5)?)\s?x\s?(?P<width>\d{{1,2}}[.,]\d\d?)\s?"
    rf"(?:{_R}|(?P<other>-))\s?-?{_RIM}\s?(?P<behind>LT)?(?![\w.,])"
)
_LETTER: Final = words(
    r"^(?P<letter>[A-HJLN])\s?(?P<build>R)?\s?(?P<profile>78|70|60|50)\s?[-x]\s?(?P<rim>1[3-6])(?![\w.,])"
)
_SERVICE: Final = words(
    r"^(?P<load>\d{2,3})(?:\s?/\s?(?P<dual>\d{2,3}))?\s?(?P<speed>[A-Z])?(?![\w.,])|^(?P<alone>[B-HJ-NP-Y])$"
)
_PLIES: Final = words(r"\b(?P<plies>\d\d?)[ -]?(?:PR|ply(?: rating)?)\b")
_REINFORCED: Final = words(r"\b(?:reinforced|reinf|rf|rft|xl|extra load|extra-load)\b\.?")
_SNOW: Final = words(r"(?<!\w)(?:m ?[+&] ?s|ms|3pmsf|winter)(?!\w)")
_FILLER: Final = words(r"\b(?:tubeless|tube type|tl|tt|sl|tyres?|tires?|radial|sta?ndard load)\b")
_FIRST: Final = re.compile(r"\s*\(?\s*(?:tyres?|tires?|radial|lt|[ptlt]|[a-hjln]r?)?\s*[0-9]", re.IGNORECASE)
"""A quick look before anything else: a tyre starts with a figure, or a letter or two and a figure."""


def read(text: str, standards: Standards) -> Tyre | Unreadable:
    """The tyre a text names.

    A profile without a letter (`195/65/15`) is a radial up to 70 and a question above; `-` and D are cross-ply, as ISO
    4000-1 has them. A rim, load index or speed letter that no table lists is refused, and so is a width no car tyre has.
    """
    unknown = Unreadable(text, "tyre-unknown", expected=EXAMPLES)
    if not _FIRST.match(text):
        return unknown
    found = Words(text)
    if found.too_long:
        return unknown
    found.rest = found.rest.replace("(", " ").replace(")", " ").strip()
    plies, reinforced, snow = found.take(_PLIES), found.take(_REINFORCED), found.take(_SNOW)
    while found.take(_FILLER):
        pass
    made = _size(found, text, standards)
    if isinstance(made, Unreadable):
        return made
    service = _service(found, made, text, standards)
    if isinstance(service, Unreadable):
        return service
    if found.bare():
        return unknown
    return service._replace(
        plies=int(plies["plies"]) if plies else None, reinforced=bool(reinforced), snow=bool(snow)
    )


def _size(found: Words, text: str, standards: Standards) -> Tyre | Unreadable:
    for pattern, made in (
        (_FLOAT, _metric),
        (_METRIC, _metric),
        (_PLAIN, _metric),
        (_INCH, _inch),
        (_LETTER, _letter),
    ):
        if match := pattern.match(found.rest):
            tyre = made(match, text, standards)
            if isinstance(tyre, Tyre):
                found.rest = found.rest[match.end() :].strip()
            return tyre
    return Unreadable(text, "tyre-unknown", expected=EXAMPLES)


def _metric(match: re.Match[str], text: str, standards: Standards) -> Tyre | Unreadable:
    given = match.groupdict()
    width, rim = size(given["width"]), size(given["rim"])
    profile = Decimal(given["profile"]) if given.get("profile") else None
    outside = size(given["outside"]) if given.get("outside") else None
    service = (given.get("front") or given["behind"] or "").upper()
    old = (given["old"] or "").upper()
    build = _build(given)
    if build is None and not re.match(r"(?:P|LT|T)?\s?\d{3}\s?/", match[0], re.IGNORECASE):
        return Unreadable(text, "tyre-unknown", expected=EXAMPLES)
    made = Tyre(
        width,
        None if profile == 82 else profile,
        build or Build.RADIAL,
        rim,
        bool(outside),
        outside,
        "",
        service,
        old,
    )
    if wrong := _unlisted(made, text, standards):
        return wrong
    if build is None and profile is not None and profile > 70:
        choices = tuple(str(made._replace(build=one)) for one in (Build.RADIAL, Build.CROSS_PLY))
        return Unreadable(text, "tyre-no-build", choices, choices)
    if build is Build.CROSS_PLY and profile is None and outside is None:
        return _by_metric_name(made, text, standards)
    return made._replace(implied="" if build else "radial")


def _build(given: dict[str, str | None]) -> Build | None:
    """What the text says of the cords: R, B, D or a dash; None where it says nothing."""
    if given.get("build"):
        return Build.RADIAL
    other = (given.get("other") or "").upper()
    return None if not other else Build.BIAS_BELTED if other == "B" else Build.CROSS_PLY


def _by_metric_name(made: Tyre, text: str, standards: Standards) -> Tyre | Unreadable:
    """`155-13` is the cross-ply size 6.15-13 by its other name."""
    rows = standards.table("cross-ply-tyre").find(metric=made.size)
    if not rows:
        radial = made._replace(build=Build.RADIAL)
        return Unreadable(text, "tyre-no-build", expected=(str(radial),))
    width, _, rim = rows[0].word("size").partition("-")
    return Tyre(Decimal(width), None, Build.CROSS_PLY, Decimal(rim), inches=True)


def _inch(match: re.Match[str], text: str, standards: Standards) -> Tyre | Unreadable:
    bare = match["width"].isdigit()
    width = Decimal(match["width"]) / 100 if bare else size(match["width"])
    build = Build.RADIAL if match["build"] else Build.CROSS_PLY
    service, old = (match["behind"] or "").upper(), (match["old"] or "").upper()
    made = Tyre(width, None, build, size(match["rim"]), inches=True, service=service, old_speed=old)
    listed = standards.table("cross-ply-tyre").find(size=made._replace(service="").size)
    loose = bare or (match["other"] or "-") not in "-"
    if made.rim >= 30 or (loose and not listed) or not 3 <= width <= 14:
        return Unreadable(text, "tyre-unknown", expected=EXAMPLES)
    return _unlisted(made, text, standards) or made


def _letter(match: re.Match[str], text: str, standards: Standards) -> Tyre | Unreadable:
    build = Build.RADIAL if match["build"] else Build.CROSS_PLY
    letter, profile = match["letter"].upper(), Decimal(match["profile"])
    return Tyre(Decimal(0), profile, build, Decimal(match["rim"]), letter=letter)


def _unlisted(made: Tyre, text: str, standards: Standards) -> Unreadable | None:
    """What is wrong with a size: a rim nobody lists, a width or profile that no car tyre has."""
    table = standards.table("millimetre-rim" if made.millimetre_rim else "rim-code")
    column = "diameter" if made.millimetre_rim else "code"
    if not any(row.number(column) == made.rim for row in table.rows):
        near = sorted(table.rows, key=lambda row: abs(row.number(column) - made.rim))[:3]
        expected = tuple(made._replace(rim=row.number(column)).size for row in near)
        return Unreadable(text, "tyre-rim-unlisted", expected=expected)
    if made.inches:
        return None
    ends = "0" if made.millimetre_rim else "5"
    usual = 105 <= made.width <= 385 and (str(made.width).endswith(ends))
    high = made.profile is None or (
        20 <= made.profile <= 95 and (made.profile % 5 == 0 or made.profile == 78)
    )
    return None if usual and high else Unreadable(text, "tyre-size-unlisted", expected=EXAMPLES[:2])


def _service(found: Words, made: Tyre, text: str, standards: Standards) -> Tyre | Unreadable:
    """The tyre with its load index and speed symbol, as far as the rest of the text gives them."""
    match = _SERVICE.match(found.bare())
    if not match:
        return made
    found.rest = found.bare()[match.end() :].strip()
    loads = [int(match[name]) if match[name] else None for name in ("load", "dual")]
    speed = (match["speed"] or match["alone"] or "").upper()
    listed = standards.table("load-index")
    if any(load is not None and not listed.find(index=str(load)) for load in loads):
        return Unreadable(text, "tyre-load-unlisted", expected=("40 to 126",))
    if speed and not standards.table("speed-symbol").find(symbol=speed, **{"in": "service"}):
        return Unreadable(text, "tyre-speed-unlisted", expected=("Q, S, T, H, V, W, Y",))
    made = made._replace(load=loads[0], dual=loads[1], speed=speed)
    if speed and made.old_speed:
        return _one_speed(made, text, standards)
    return made


def _one_speed(made: Tyre, text: str, standards: Standards) -> Tyre | Unreadable:
    """The letter in the size says no more than the service description does, and is dropped; if they clash, it is told."""
    table = standards.table("speed-symbol")
    size_row = table.find(symbol=made.old_speed, **{"in": "size"})[0]
    kmh = table.find(symbol=made.speed, **{"in": "service"})[0].number("kmh")
    above = size_row.word("means") == "above"
    agree = kmh > size_row.number("kmh") if above else kmh == size_row.number("kmh")
    if not agree:
        expected = (str(made._replace(old_speed="")), str(made._replace(speed="")))
        return Unreadable(text, "tyre-speed-clash", expected=expected)
    return made._replace(old_speed="")
