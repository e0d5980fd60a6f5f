"""What the Structs leave open about how books are written: kinds, short forms, free keys, and a few words' shapes."""

from __future__ import annotations

import re
from functools import cache
from typing import Final, NamedTuple, get_args, get_origin

import msgspec

from fitlore.model import category, job, part, platform, supply
from fitlore.model.choices import How, Trade
from fitlore.model.currency_table import CURRENCIES
from fitlore.model.record import Rec

KINDS: Final[dict[str, type[Rec]]] = {
    "category": category.Category,
    "platform": platform.Platform,
    "part": part.Part,
    "crossfit": part.CrossFit,
    "supplier": supply.Supplier,
    "car": platform.Car,
    "job": job.Job,
    "shared-work": platform.SharedWork,
    "shop": job.Shop,
    "policy": job.Policy,
    "issuer": job.Issuer,
    "donor": supply.Donor,
    "quality": part.Quality,
    "stores": supply.Stores,
}
"""The kind keys; each record has exactly one of them."""

SHORT: Final[dict[type[Rec], str]] = {
    platform.Original: "number",
    platform.Contained: "number",
    platform.Established: "value",
    platform.ReallyOn: "number",
    part.Measured: "value",
    category.RenewWith: "is",
    category.Fault: "fault",
    category.Work: "do",
    category.Refurbish: "do",
    supply.StillOn: "at",
    supply.Stored: "number",
    job.Cause: "at",
    job.Otherwise: "route",
}
"""Structs for which one text (or list of texts) may stand: the key it is then read as."""

KIND_SAID_OTHERWISE: Final = {
    "category": "what a thing is, is written `is:`",
    "platform": "the platform of a car is written `is:`",
    "car": "the car of a job is written `for:`",
    "part": "a reference to a part is written `number:` or `use:`",
    "supplier": "the supplier that something is from is written `from:`",
    "donor": "the donor that an offer is taken from is written `comes-off:`",
}
"""For a kind key found beside another one: how the reference is written instead."""

OTHER_WORDS: Final = {
    "when": ("only-if",),
    "on": ("reaches", "on-car"),
    "needs": ("extras", "must-be"),
    "fitted": ("really-on-it",),
    "duty": ("safety",),
    "covers": ("enough-for",),
    "class": ("safety",),
    "type": ("is", "kind"),
    "category": ("is",),
    "cost": ("price", "money", "fixed"),
    "part": ("number", "use"),
    "position": ("at",),
    "place": ("at",),
    "title": ("name",),
    "notes": ("note",),
    "comment": ("note",),
    "brand": ("maker",),
    "both-ways": ("goes",),
    "hours": ("minutes",),
    "condition": ("state",),
    "asked": ("price",),
    "batch-number": ("batch",),
    "could-be-at": ("could-be",),
    "status": ("now",),
    "symptom": ("symptoms",),
    "vat": ("tax", "charge"),
    "stamps": ("marks", "no-numbers"),
    "yard": ("from",),
    "separators": ("ignores",),
}
"""Words people try, and the keys they may mean (those that the Struct has)."""

FULL_PATHS: Final = frozenset({(part.CrossFit, "at")})
"""Places that are always written with their platform: `platform/assembly/place`."""
EITHER_PATHS: Final = frozenset({(part.Companion, "at"), (part.Never, "at")})
"""Places that may be written with their platform."""

FROM_ONE: Final = frozenset({"quantity", "pack", "enough_for", "least_pieces", "tyre_age_years"})
"""Counts that begin at one."""

DIMENSIONS: Final = {"distance": ("mm", "a distance, as `22 km`"), "weight": ("g", "a weight, as `4.5 kg`"),
                     "up_to_weight": ("g", "a weight, as `2 kg`")}  # fmt: skip
"""Quantities that have one dimension: its base unit, and the words for it."""

DATE_FACTS: Final = frozenset({"built", "registered"})
"""Facts of a car that are dates; what is written for them are dates and periods (EDTF)."""

SERIAL_FACTS: Final = frozenset({"chassis"})
"""Facts of a car that are a series and a number in it: `KT 118430`."""

CODES: Final = "|".join(sorted(CURRENCIES))
"""The codes of ISO 4217, as a pattern."""


def money_form() -> str:
    """The pattern of an amount: no more decimals than its currency has."""
    forms = []
    for places in sorted(set(CURRENCIES.values())):
        codes = "|".join(code for code, has in sorted(CURRENCIES.items()) if has == places)
        decimals = rf"(\.[0-9]{{1,{places}}})?" if places else ""
        forms.append(rf"[0-9]{{1,12}}{decimals} ({codes})")
    return "|".join(forms)


RATE: Final = rf"(?:[0-9]*[1-9][0-9]*(?:\.[0-9]{{1,9}})?|0+\.[0-9]{{0,8}}[1-9][0-9]{{0,8}}) (?:{CODES})"
"""A rate, more than nothing."""

NAME: Final = re.compile(r"(?=[0-9-]*[a-z])[a-z0-9]+(?:-[a-z0-9]+)*")
SERIES: Final = re.compile(r"[A-Z][A-Z0-9]*")
SERIAL: Final = re.compile(r"[A-Z][A-Z0-9]* [0-9]{1,12}")
CLOCK: Final = re.compile(r"(?:[01][0-9]|2[0-3]):[0-5][0-9]")
_LOOK_SIGNS: Final = r"A-Z0-9nax ._*+:,/()\[\]#-"
LOOK: Final = re.compile(rf"[{_LOOK_SIGNS}]*[A-Z0-9nax][{_LOOK_SIGNS}]*")
LANGUAGE: Final = re.compile(
    r"[a-z]{2,3}(?:-[a-z]{4})?(?:-(?:[a-z]{2}|[0-9]{3}))?(?:-(?:[a-z0-9]{5,8}|[0-9][a-z0-9]{3}))?"
)
"""Language, script, region and one variant of RFC 5646, section 2.1, in small letters; other tags no store of RDF takes in."""
_SIDE: Final = r"(?:@(?:left|right|[1-9][0-9]?))?"
_STEP: Final = NAME.pattern
PLACE: Final = re.compile(rf"{_STEP}/{_STEP}{_SIDE}")
FULL_PLACE: Final = re.compile(rf"{_STEP}/{_STEP}/{_STEP}{_SIDE}")
ASSEMBLY_OR_PLACE: Final = re.compile(rf"{_STEP}(?:/{_STEP}{_SIDE})?")

FREE_WORDS: Final[dict[tuple[type[Rec], str], tuple[str, ...]]] = {
    (job.Policy, "chance"): tuple(how.value for how in How),
    (job.Policy, "stale_after"): tuple(trade.value for trade in Trade),
}
"""Mappings whose keys come from a closed list."""

LOOKS_TYPED: Final = re.compile(
    r"[-+]?[0-9][0-9_]*|0o[0-7]+|0x[0-9a-fA-F_]+|[-+]?(?:\.[0-9]+|[0-9][0-9_]*(?:\.[0-9_]*)?)(?:[eE][-+]?[0-9]+)?"
    r"|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)|~|null|Null|NULL"
    r"|(?i:y|n|yes|no|on|off|true|false)"
    r"|[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}|[-+]?[0-9]+(?::[0-5]?[0-9])+(?:\.[0-9]*)?"
)
"""Plain texts that other YAML tools (YAML 1.1 types, YAML 1.2 Core Schema) take for a number, a date, yes/no or null."""


class Field(NamedTuple):
    """One field of a Struct: its name in Python, its key in books, its type, and whether a book must give it."""

    name: str
    key: str
    hint: object
    required: bool


@cache
def fields(cls: type[Rec]) -> tuple[Field, ...]:
    """The fields that are written in books, in the Struct's order."""
    return tuple(
        Field(f.name, f.encode_name, f.type, f.required)
        for f in msgspec.structs.fields(cls)
        if f.name != "origin"
    )


@cache
def nested(cls: type[Rec]) -> frozenset[type[Rec]]:
    """A Struct and every Struct that can be written inside it."""
    found = {cls}
    for field in fields(cls):
        for inner in _structs(field.hint):
            found |= nested(inner)
    return frozenset(found)


def _structs(hint: object) -> set[type[Rec]]:
    if isinstance(hint, type) and get_origin(hint) is None:
        return {hint} if issubclass(hint, Rec) else set()
    return {inner for argument in get_args(hint) for inner in _structs(argument)}
