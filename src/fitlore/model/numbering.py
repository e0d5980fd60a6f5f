"""Part numbers read by their issuer's own rules: when two of them say the same part, and how one may else be written.

Whatever an issuer does not say, counts: leading zeros, side digits, class letters, revisions. Numbers of two issuers are
never compared.
"""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Iterator
from functools import cache
from itertools import product
from typing import Final

from fitlore.model.choices import Ignored, Meaning, Side
from fitlore.model.issuer import Affix, Issuer
from fitlore.model.numbers import number_key
from fitlore.model.record import Name

_SIGNS: Final = {
    Ignored.STARS: "*",
    Ignored.PLUSES: "+",
    Ignored.COLONS: ":",
    Ignored.COMMAS: ",",
    Ignored.BRACKETS: "()[]",
    Ignored.HASHES: "#",
}
"""What is dropped beyond the separators that nobody's numbers count (those are gone from a look-up key already)."""
_FIGURES: Final = "0123456789"
_LETTERS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_ANY: Final = {"n": _FIGURES, "a": _LETTERS, "x": _FIGURES + _LETTERS}
_ZEROS: Final = re.compile(r"\A([A-Z]*)0+(?=[0-9])")
_MOST_ZEROS: Final = 6
_MOST: Final = 400
"""Spellings that are tried for one number."""


def has_rules(issuer: Issuer) -> bool:
    """Whether anything that others count makes no difference in this issuer's numbers."""
    more = Ignored.LEADING_ZEROS in issuer.ignores or any(sign in _SIGNS for sign in issuer.ignores)
    return more or any(not affix.significant for affix in (*issuer.prefixes, *issuer.suffixes))


def same_number(issuer: Issuer, one: str, other: str, category: str = "") -> bool:
    """Whether two numbers of this issuer, written without its name, say the same part (of this category)."""
    return normal(issuer, one, category) == normal(issuer, other, category)


def normal(issuer: Issuer, number: str, category: str | None = "") -> str:
    """The look-up key of a number without what the issuer says does not count. `category` None: of any category."""
    key = number_key(number)
    for ignored in issuer.ignores:
        key = "".join(sign for sign in key if sign not in _SIGNS.get(ignored, ""))
    key = _without(issuer, key, _uncounted(issuer.prefixes, category), front=True)
    key = _without(issuer, key, _uncounted(issuer.suffixes, category), front=False)
    return _ZEROS.sub(r"\1", key, count=1) if Ignored.LEADING_ZEROS in issuer.ignores else key


def has_look(issuer: Issuer, number: str) -> bool | None:
    """Whether a number looks as this issuer's do, with or without its signs before and behind; None where it does not say."""
    if not issuer.looks_like:
        return None
    key = number_key(number)
    looks = [_pattern(look) for look in issuer.looks_like]
    before = "|".join(["", *(_pattern(sign) for affix in issuer.prefixes for sign in affix.signs)])
    behind = "|".join(["", *(_pattern(sign) for affix in issuer.suffixes for sign in affix.signs)])
    return any(re.fullmatch(f"(?:{before})(?:{look})(?:{behind})", key) for look in looks)


def side_said(
    issuer: Issuer, number: str, categories: Container[str] = (), *, named: bool = False
) -> Side | None:
    """The side a number says by its last figure, or by signs before or behind it; None where it says none, or two.

    `categories`: those of the part, itself and broader; a rule for other ones is left aside. `named`: only rules that name
    one of them count. A number that does not look as this issuer's do says nothing.
    """
    if has_look(issuer, number) is False:
        return None
    key, found = number_key(number), set()
    for affix, front in [(one, True) for one in issuer.prefixes] + [(one, False) for one in issuer.suffixes]:
        says = affix.means is Meaning.SIDE and _speaks_of(affix.only_for, categories, named)
        if affix.side and says and _without(issuer, key, affix.signs, front=front) != key:
            found.add(affix.side)
    digit = issuer.side_digit
    if digit is not None and _speaks_of(digit.only_for, categories, named):
        figures = re.findall("[0-9]", _core(issuer, key))
        found |= {(digit.odd, digit.even)[int(figures[-1]) % 2 == 0]} if figures else set()
    return found.pop() if len(found) == 1 else None


def says_sides(issuer: Issuer) -> bool:
    """Whether any of this issuer's numbers tells a side."""
    return issuer.side_digit is not None or any(
        affix.means is Meaning.SIDE for affix in (*issuer.prefixes, *issuer.suffixes)
    )


def spellings(issuer: Issuer, number: str) -> frozenset[str]:
    """Look-up keys under which a part of this number may be written: at most some hundreds, to be compared by `same_number`."""
    bare = normal(issuer, number, None)
    found = [number_key(number), bare]
    found += [
        before + key + behind
        for key in _with_zeros(issuer, bare)
        for before in _expanded(issuer.prefixes)
        for behind in _expanded(issuer.suffixes)
    ]
    found += [key for bare in tuple(found) for key in _with_signs(issuer, bare)]
    return frozenset(found[:_MOST])


def _uncounted(affixes: Iterable[Affix], category: str | None) -> tuple[str, ...]:
    return tuple(
        sign
        for affix in affixes
        if not affix.significant and (category is None or not affix.only_for or category in affix.only_for)
        for sign in affix.signs
    )


def _without(issuer: Issuer, key: str, signs: tuple[str, ...], *, front: bool) -> str:
    """The key without the longest of these signs, if what is left still is a number (of the look, where that is said)."""
    looks = [_pattern(look) for look in issuer.looks_like]
    for sign in sorted(signs, key=len, reverse=True):
        pattern = _pattern(sign)
        match = re.fullmatch(f"(?:{pattern})(.+)" if front else f"(.+?)(?:{pattern})", key)
        rest = match[1] if match else ""
        if re.search("[0-9]", rest) and (not looks or any(re.fullmatch(look, rest) for look in looks)):
            return rest
    return key


def _speaks_of(only_for: tuple[Name, ...], categories: Container[str], named: bool) -> bool:
    return any(name in categories for name in only_for) if only_for else not named


def _core(issuer: Issuer, key: str) -> str:
    """The number itself, without a sign before it and one behind it, whether they count or not."""
    for affixes, front in ((issuer.prefixes, True), (issuer.suffixes, False)):
        key = _without(issuer, key, tuple(sign for affix in affixes for sign in affix.signs), front=front)
    return key


@cache
def _pattern(look: str) -> str:
    """A look as a pattern over look-up keys; its separators are gone, as they are from a key."""
    found = ""
    for piece in re.split("([nax])", look):
        found += f"[{_ANY[piece]}]" if piece in _ANY else re.escape(number_key(piece))
    return found


def _with_zeros(issuer: Issuer, key: str) -> Iterator[str]:
    yield key
    match = re.match("[A-Z]*", key)
    if Ignored.LEADING_ZEROS in issuer.ignores and match is not None:
        at = match.end()
        yield from (key[:at] + "0" * count + key[at:] for count in range(1, _MOST_ZEROS + 1))


def _expanded(affixes: Iterable[Affix]) -> list[str]:
    """Every way to write the signs that do not count, where they are few; and none of them."""
    found = [""]
    for sign in _uncounted(affixes, None):
        choices = [_ANY.get(one) or number_key(one) or [""] for one in sign]
        if len(found) < _MOST and sum(one in _ANY for one in sign) <= 1:
            found += ["".join(chosen) for chosen in product(*choices)]
    return found


def _with_signs(issuer: Issuer, key: str) -> Iterator[str]:
    """The key with one ignored sign put in somewhere, and with all of them where a look has them."""
    signs = "".join(_SIGNS.get(ignored, "") for ignored in issuer.ignores)
    yield from (key[:at] + sign + key[at:] for sign in signs for at in range(1, len(key)))
    for look in issuer.looks_like if signs else ():
        pieces = [piece if piece in signs else "" for piece in look if piece in signs or number_key(piece)]
        if len(pieces) - sum(map(bool, pieces)) == len(key):
            rest = iter(key)
            yield "".join(piece or next(rest) for piece in pieces)
