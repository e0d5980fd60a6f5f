"""What a schema can say of the sense of one record: which keys go together. `books.sound` says all of it, with remedies."""

from __future__ import annotations

from typing import Final

from fitlore.books.jsonschema_words import Schema, whole
from fitlore.books.schema import LANGUAGE
from fitlore.model.category import FalseFriend, Feature, RenewWith
from fitlore.model.issuer import Affix
from fitlore.model.job import Cause, Finding, Otherwise, Purchase, Route
from fitlore.model.part import CrossFit, Quality
from fitlore.model.platform import Contained, ReallyOn
from fitlore.model.record import Rec
from fitlore.model.shop import Shelf
from fitlore.model.supply import Carriage, Offer, Step, Stored


def _exactly_one(*keys: str) -> Schema:
    return {"oneOf": [{"required": [key]} for key in keys]}


def _at_least_one(*keys: str) -> Schema:
    return {"anyOf": [{"required": [key]} for key in keys]}


def _needs(key: str, other: str) -> Schema:
    return {"if": {"required": [key]}, "then": {"required": [other]}}


def _not_both(key: str, other: str) -> Schema:
    return {"not": {"required": [key, other]}}


def _says(key: str, word: str) -> Schema:
    return {"required": [key], "properties": {key: {"const": word}}}


_SIDE_ONCE: Final[Schema] = {
    "not": {"required": ["at", "side"], "properties": {"at": {"type": "string", "pattern": "@"}}}
}

RULES: Final[dict[type[Rec], tuple[Schema, ...]]] = {
    Offer: (
        _exactly_one("number", "any", "service", "whole-car"),
        {
            "if": _says("said", "none"),
            "then": {"not": {"required": ["price"]}},
            "else": {"required": ["price"]},
        },
        _needs("scrap-back", "whole-car"),
        _needs("old-unit", "surcharge"),
    ),
    Contained: (_exactly_one("number", "is", "service"),),
    RenewWith: (_exactly_one("is", "number"),),
    ReallyOn: (_exactly_one("from", "number"),),
    Step: (_exactly_one("from-spend", "up-to-weight"),),
    CrossFit: (
        _at_least_one("instead-of", "at"),
        _at_least_one("evidence", "against"),
        {
            "if": _says("goes", "both-ways"),
            "then": {
                "required": ["instead-of"],
                "not": _at_least_one("only-if", "work", "with", "extras"),
            },
        },
    ),
    Feature: (
        {"if": _says("rule", "within"), "then": {"required": ["tolerance"]}},
        {"if": _says("rule", "agrees-with"), "then": {"required": ["with"]}},
        {"if": _says("kind", "choice"), "then": {"required": ["choices"]}},
        {"if": {"required": ["choices"]}, "then": _says("kind", "choice")},
    ),
    Carriage: (
        _not_both("steps", "fixed"),
        _not_both("steps", "free-from"),
        _needs("free-from", "fixed"),
    ),
    Route: (_needs("else", "succeeds"),),
    Otherwise: (_at_least_one("money", "minutes", "route"),),
    Purchase: (_exactly_one("number", "is", "service"), _needs("old-unit-back-by", "surcharge")),
    Shelf: (_exactly_one("folder", "endpoint"),),
    Stored: (_exactly_one("number", "is"),),
    Quality: (_at_least_one("from", "maker", "batch"),),
    Affix: ({"if": {"required": ["side"]}, "then": _says("means", "side")},),
    Cause: (_SIDE_ONCE,),
    Finding: (
        _SIDE_ONCE,
        {"if": _says("only-these-routes", "yes"), "then": {"required": ["routes"]}},
    ),
}
"""For each Struct what holds between its keys."""

EXTRA: Final[dict[tuple[type[Rec], str], Schema]] = {
    (Shelf, "endpoint"): {
        "description": "the address of a SPARQL endpoint",
        "type": "string",
        "pattern": r"^https?://[^\s/?#]+([/?][^\s#]*)?$",
    },
    (Cause, "side"): {"enum": ["left", "right", "both"]},
    (FalseFriend, "language"): {"type": "string", "pattern": whole(LANGUAGE.pattern)},
    (Finding, "side"): {"enum": ["left", "right", "both"]},
    (Feature, "tolerance"): {
        "description": "as 0.5 mm (both ways, limits included) or -0.2/+0 mm",
        "type": "string",
        "pattern": "[0-9]",
    },
    (Feature, "wears"): {
        "description": "as down 1 mm or up 0.3 mm",
        "type": "string",
        "pattern": "^(?:up|down) .*[0-9]",
    },
}
"""Fields (Struct, field) whose text has a shape of its own."""
