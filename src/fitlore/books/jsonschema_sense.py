"""What a schema can say of the sense of one record: which keys go together. `books.sound` says all of it, with remedies."""

from __future__ import annotations

from typing import Final

from fitlore.books.jsonschema_words import Schema
from fitlore.model.category import Feature, RenewWith
from fitlore.model.job import Finding, Otherwise, Route
from fitlore.model.part import CrossFit
from fitlore.model.platform import Contained, ReallyOn
from fitlore.model.record import Rec
from fitlore.model.supply import Carriage, Offer, Step


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
    Finding: (
        {"not": {"required": ["at", "side"], "properties": {"at": {"type": "string", "pattern": "@"}}}},
        {"if": _says("only-these-routes", "yes"), "then": {"required": ["routes"]}},
    ),
}
"""For each Struct what holds between its keys."""

EXTRA: Final[dict[tuple[type[Rec], str], Schema]] = {
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
