"""Near words: what somebody may have meant."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Final

from fitlore.books.doc import Tree
from fitlore.books.schema import KINDS, OTHER_WORDS
from fitlore.model.record import Rec

if TYPE_CHECKING:
    from fitlore.books.walking import Walk


_LONGEST: Final = 80
"""No word of ours is half as long."""
_SAID: Final = {
    "Accepted": "an accepted route",
    "Affix": "signs of a number",
    "Cause": "what may be behind a symptom",
    "ClassPolicy": "the policy of a safety class",
    "Companion": "a place that changes with it",
    "Cond": "a condition",
    "Contained": "a contained thing",
    "Duty": "an import duty",
    "Established": "a fact",
    "Evidence": "a piece of evidence",
    "ExchangeRate": "an exchange rate",
    "FactRange": "a range of a fact",
    "FormerPrice": "a former price",
    "Hands": "the hands of a job",
    "Law": "a statement of law",
    "Mark": "a mark that is no number",
    "Measured": "a measured value",
    "Never": "a forbidden pair",
    "Otherwise": "a consequence",
    "PriceList": "the layout of a price list",
    "Purchase": "a bought thing",
    "Quality": "a quality note",
    "ReallyOn": "a thing really on a car",
    "Refurbish": "a way to refurbish it",
    "RenewWith": "a thing renewed with it",
    "SideDigit": "a side digit",
    "StillOn": "a thing still on a donor",
    "Stored": "a thing in stores",
    "Stores": "a stores record",
    "TakenFrom": "where a part is taken from",
    "TakesBack": "the terms of taking back",
    "Vat": "a rate of value added tax",
    "Work": "a piece of work",
}
"""Structs whose own name is no word for what people write."""


def near_word(word: str, known: Iterable[str]) -> str:
    """The known word that is most like this one; empty where none is. The search is imported late: books seldom need it."""
    from difflib import get_close_matches

    if len(word) > _LONGEST:
        return ""
    plain = word.strip().lower().replace("_", "-").replace(" ", "-")
    words = list(known)
    return next(iter(get_close_matches(plain, words, n=1, cutoff=0.7)), "")


def unknown_key(walk: Walk, holder: dict[str, Tree], key: str, cls: type[Rec], known: tuple[str, ...]) -> str:
    """Reports a key that a Struct does not have, with the best remedy there is; hands back the key that was perhaps meant."""
    near = near_word(key, known) if walk.may_search() else ""
    other = next((word for word in OTHER_WORDS.get(key, ()) if word in known), "")
    if other and not near:
        remedy = f"Did you mean `{other}`?"
    elif near:
        remedy = f"Did you mean `{near}`?"
    elif walk.source.flow(holder) and next(iter(holder)) != key:
        remedy = "If this belongs to the text before it: a comma ends a value inside { }, so put that text in quotes."
    else:
        remedy = (
            "Delete the line, or put what it says into `note`." if "note" in known else "Delete the line."
        )
    walk.add(
        "B42-unknown-key",
        walk.source.key(holder, key),
        key=key,
        known=", ".join(known),
        what=what(cls),
        remedy=remedy,
    )
    return near or other


def what(cls: type[Rec]) -> str:
    """A Struct in words: the kind of a record, or what a piece of one is called."""
    kinds = {struct: kind for kind, struct in KINDS.items()}
    said = _SAID.get(cls.__name__)
    if said:
        return said
    name = kinds.get(cls) or "".join(f" {c.lower()}" if c.isupper() else c for c in cls.__name__).strip()
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"
