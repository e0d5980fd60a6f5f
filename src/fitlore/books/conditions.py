"""Readers of what cars are and must be: conditions, ranges of facts, facts of one car."""

from __future__ import annotations

import re
from typing import Any, Final

from fitlore.books.doc import Holder, Tree
from fitlore.books.leaves import as_text, note_typed
from fitlore.books.schema import DATE_FACTS, SERIAL, SERIAL_FACTS, SERIES
from fitlore.books.walking import BAD, Bad, Reader, Walk
from fitlore.model.dates import read_period
from fitlore.model.platform import Cond, Established, FactRange

_BOUND: Final = re.compile(r"([0-9]{0,12})(?:\.\.)?(/?)(?:\.\.)?([0-9]{0,12})")


def condition(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
    """What one fact must be: a value, a list, `{not: ...}`, or ranges of series: `{KT: ../118000}`."""
    origin = walk.source.origin(holder, key)
    if not isinstance(value, dict):
        values = _words(value, holder, key, walk, str(key))
        return BAD if isinstance(values, Bad) else Cond(origin=origin, any_=values)
    if not value:
        return empty(walk, holder, key, str(key))
    good, lists, series = True, dict[str, tuple[str, ...]](), dict[str, str]()
    for written, item in value.items():
        if written in ("any", "not"):
            words = _words(item, value, written, walk, str(key))
            good = good and not isinstance(words, Bad)
            lists[written] = () if isinstance(words, Bad) else words
        else:
            bounds = _series(written, item, value, walk)
            good = good and not isinstance(bounds, Bad)
            series[written] = "" if isinstance(bounds, Bad) else bounds
    if good and lists and series:
        return walk.add("B64-series-and-words", walk.source.value(holder, key), key=str(key))
    return (
        Cond(origin=origin, any_=lists.get("any", ()), not_=lists.get("not", ()), series=series)
        if good
        else BAD
    )


def _series(name: str, item: Tree, holder: dict[str, Tree], walk: Walk) -> str | Bad:
    if not SERIES.fullmatch(name):
        return walk.add("B65-not-a-series", walk.source.key(holder, name), found=name)
    text = as_text(item, holder, name, walk, name)
    if isinstance(text, Bad):
        return BAD
    bounds = serial_range(text)
    if bounds is None:
        return walk.add("B66-not-a-serial-range", walk.source.value(holder, name), key=name, found=text)
    return bounds


def serial_range(text: str) -> str | None:
    """`../118000`, `120001/..`, `1/500` or one number, in this spelling; an open end may also stand beside a number
    (`1../500`) or be left out (`/500`). None for anything else, for a range open at both ends and one that is empty."""
    match = _BOUND.fullmatch(text.strip())
    if not match:
        return None
    low, slash, high = match.groups()
    if not slash:
        return low if low and not high and ".." not in text else None
    if not low and not high:
        return None
    if low and high and int(low) > int(high):
        return None
    return f"{low or '..'}/{high or '..'}"


def fact_range(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
    """Which values a platform's fact can have: a list of words, or `{series: [KT]}`."""
    origin = walk.source.origin(holder, key)
    if not isinstance(value, dict):
        words = _words(value, holder, key, walk, str(key))
        return BAD if isinstance(words, Bad) else FactRange(origin=origin, any_=words)
    good, series = True, tuple[str, ...]()
    for written, item in value.items():
        if written != "series":
            good = False
            walk.add("B67-not-a-range-of-facts", walk.source.key(value, written), key=str(key), found=written)
            continue
        names = _words(item, value, written, walk, written)
        if isinstance(names, Bad):
            good = False
            continue
        series = names
        for place, name in enumerate(names):
            if not SERIES.fullmatch(name):
                good = False
                at = (item, place) if isinstance(item, list) else (value, written)
                walk.add("B65-not-a-series", walk.source.value(*at), found=name)
    if not value:
        return empty(walk, holder, key, str(key))
    return FactRange(origin=origin, series=series) if good else BAD


def car_fact(inner: Reader) -> Reader:
    """A fact of one car; those that are dates must be dates, those that are serial numbers such numbers."""

    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        found = inner(value, holder, key, walk)
        if isinstance(found, Established) and key in DATE_FACTS:
            wrong = next((text for text in found.value if read_period(text) is None), None)
            if wrong is not None:
                return walk.add(
                    "B68-fact-is-a-date", walk.source.value(holder, key), key=str(key), found=wrong
                )
        if isinstance(found, Established) and key in SERIAL_FACTS:
            wrong = next((text for text in found.value if not SERIAL.fullmatch(text)), None)
            if wrong is not None:
                spot = walk.source.value(holder, key)
                return walk.add("V04-not-a-serial-number", spot, key=str(key), found=wrong)
        return found

    return read


def empty(walk: Walk, holder: Holder, key: str | int, fact: str) -> Bad:
    """Reports a list or mapping with nothing in it."""
    return walk.add("B46-empty", walk.source.value(holder, key), key=fact, remedy="Leave the key out.")


def _words(value: Tree, holder: Holder, key: str | int, walk: Walk, fact: str) -> tuple[str, ...] | Bad:
    """One text or a list of different ones; dates where the fact is a date."""
    if not isinstance(value, list):
        one = _word(value, holder, key, walk, fact)
        return one if isinstance(one, Bad) else (one,)
    if not value:
        return empty(walk, holder, key, fact)
    good, found = True, list[str]()
    for place, item in enumerate(value):
        one = _word(item, value, place, walk, fact)
        if isinstance(one, Bad):
            good = False
        elif one in found:
            good = False
            walk.add("B48-item-twice", walk.source.value(value, place), key=fact, item=one)
        else:
            found.append(one)
    return tuple(found) if good else BAD


def _word(value: Tree, holder: Holder, key: str | int, walk: Walk, fact: str) -> str | Bad:
    text = as_text(value, holder, key, walk, fact)
    if isinstance(text, Bad):
        return BAD
    if fact in DATE_FACTS and read_period(text) is None:
        return walk.add("B68-fact-is-a-date", walk.source.value(holder, key), key=fact, found=text)
    note_typed(text, holder, key, walk)
    return text
