"""Signs that a terminal's code page does not have, in signs that every one has; none is lost."""

from __future__ import annotations

from typing import Final

NAME: Final = "plainer"
"""By this name the streams know it."""
_INSTEAD: Final = {
    **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"),
    **dict.fromkeys("\u2018\u2019\u201a\u2032", "'"),
    **dict.fromkeys("\u201c\u201d\u201e\u2033", '"'),
    **dict.fromkeys("\u00a0\u2009\u202f", " "),
    "\u00d7": "x", "\u00f7": "/", "\u00b1": "+/-", "\u2026": "...", "\u2265": ">=", "\u2264": "<=", "\u2192": "->",
    "\u00b0": "deg ", "\u00b5": "u", "\u03bc": "u", "\u03a9": "ohm", "\u2126": "ohm", "\u2300": "dia ", "\u20ac": "EUR",
    "\u00df": "ss", "\u00e6": "ae", "\u00c6": "Ae", "\u00f8": "oe", "\u00d8": "Oe", "\u0153": "oe", "\u0152": "Oe",
}  # fmt: skip


def plainer(fault: UnicodeError) -> tuple[str, int]:
    """What is written instead, and from where to go on: a handler of faults for `codecs`.

    Accents are left out where there is no letter with them; a sign for which there is nothing like stands as its code.
    """
    if not isinstance(fault, UnicodeEncodeError):
        raise fault
    return "".join(map(_instead, fault.object[fault.start : fault.end])), fault.end


def _instead(sign: str) -> str:
    if sign in _INSTEAD:
        return _INSTEAD[sign]
    import unicodedata

    bare = "".join(c for c in unicodedata.normalize("NFKD", sign) if not unicodedata.combining(c))
    return bare if bare and bare.isascii() else sign.encode("ascii", "backslashreplace").decode("ascii")
