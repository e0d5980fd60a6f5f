"""The shapes over several keys of one node, in SHACL Core: what the checks inside one record (`sound`) ask."""

from __future__ import annotations

from typing import Final, NamedTuple

from fitlore.books.shape_leaves import quoted
from fitlore.model import category, issuer, job, part, platform, supply
from fitlore.model.record import Rec


class Shared(NamedTuple):
    """A constraint on several keys of one node: `sh:node`, `sh:not` or `sh:property`, and what is inside it."""

    parameter: str
    text: str
    message: str


def _has(key: str) -> str:
    return f"[ sh:path fl:{key} ; sh:minCount 1 ]"


def _is(key: str, value: str) -> str:
    return f"[ sh:path fl:{key} ; sh:hasValue {quoted(value)} ]"


def _exactly_one(thing: str, *keys: str) -> Shared:
    listed = ", ".join(f"`{key}`" for key in keys)
    return Shared(
        "sh:node", f"sh:xone ( {' '.join(map(_has, keys))} )", f"exactly one of {listed} in {thing}"
    )


def _any(message: str, *keys: str) -> Shared:
    return Shared("sh:node", f"sh:or ( {' '.join(map(_has, keys))} )", message)


def _needs(key: str, other: str) -> Shared:
    either = f"sh:or ( [ sh:path fl:{key} ; sh:maxCount 0 ] {_has(other)} )"
    return Shared("sh:node", either, f"`{key}` only together with `{other}`")


def _never_both(one: str, other: str, message: str) -> Shared:
    return Shared("sh:not", f"sh:and ( {one} {other} )", message)


def _differs(path: str, from_key: str, message: str) -> Shared:
    return Shared("sh:property", f"sh:path {path} ; sh:disjoint fl:{from_key}", message)


_SIDE_ONCE: Final = _never_both(
    _has("side"), '[ sh:path fl:at ; sh:pattern "@" ]', "a side once: beside the place or behind it"
)
_LIMITS: Final = ("only-if", "work", "with", "extras")
_SHARED: Final[dict[type[Rec], tuple[Shared, ...]]] = {
    supply.Offer: (
        _exactly_one("an offer", "number", "any", "service", "whole-car"),
        Shared(
            "sh:node",
            f"sh:or ( {_has('price')} {_is('said', 'none')} )",
            "an offer with a price, or `said: none`",
        ),
        _never_both(_has("price"), _is("said", "none"), "no price where they said they have none"),
        _needs("scrap-back", "whole-car"),
        _needs("old-unit", "surcharge"),
    ),
    platform.Contained: (_exactly_one("a thing that is contained or taken", "number", "is", "service"),),
    category.RenewWith: (_exactly_one("a thing renewed with it", "is", "number"),),
    platform.ReallyOn: (_exactly_one("a thing really on a car", "from", "number"),),
    supply.Step: (_exactly_one("a step", "from-spend", "up-to-weight"),),
    part.CrossFit: (
        _any("`instead-of` or `at`: what the claim is about", "instead-of", "at"),
        _any("`evidence` or `against`: how somebody knows", "evidence", "against"),
        _differs("fl:use", "instead-of", "another part than the one it replaces"),
        Shared(
            "sh:not",
            f"sh:and ( {_is('goes', 'both-ways')} [ sh:or ( {' '.join(map(_has, _LIMITS))} ) ] )",
            "`both-ways` without conditions, work, companions or extras: those hold in one direction",
        ),
        Shared(
            "sh:not",
            f"sh:and ( {_is('goes', 'both-ways')} [ sh:path fl:instead-of ; sh:maxCount 0 ] )",
            "`both-ways` only between two parts",
        ),
    ),
    part.Part: (
        _differs("( fl:replaced-by fl:number )", "part", "a replacement that is another part"),
        _differs("( fl:contains fl:number )", "part", "contents that are other parts"),
    ),
    category.Category: (_differs("fl:broader", "category", "a broader category that is another one"),),
    category.Feature: (
        _never_both(
            _is("rule", "within"),
            "[ sh:path fl:tolerance ; sh:maxCount 0 ]",
            "a tolerance where the rule is `within`",
        ),
        _never_both(
            _is("kind", "choice"),
            "[ sh:path fl:choices ; sh:maxCount 0 ]",
            "choices where the kind is `choice`",
        ),
        Shared(
            "sh:node",
            f"sh:or ( [ sh:path fl:choices ; sh:maxCount 0 ] {_is('kind', 'choice')} )",
            "choices only where the kind is `choice`",
        ),
        _never_both(
            _is("rule", "agrees-with"),
            "[ sh:path fl:with ; sh:maxCount 0 ]",
            "`with` where the rule is `agrees-with`",
        ),
    ),
    supply.Carriage: (
        _never_both(
            _has("steps"),
            f"[ sh:or ( {_has('fixed')} {_has('free-from')} ) ]",
            "steps, or fixed and free-from",
        ),
        Shared(
            "sh:node",
            f"sh:or ( [ sh:path fl:free-from ; sh:maxCount 0 ] {_has('fixed')} {_has('steps')} )",
            "`free-from` only together with `fixed`",
        ),
    ),
    supply.Supplier: (_differs("( fl:trip fl:joins )", "supplier", "a trip that joins another supplier's"),),
    job.Route: (
        _differs("( fl:else fl:route )", "route", "another route than the one that failed"),
        _needs("else", "succeeds"),
    ),
    job.Otherwise: (
        Shared(
            "sh:node",
            f'sh:or ( {_has("money")} {_has("route")} [ sh:path fl:minutes ; sh:minCount 1 ; sh:pattern "[1-9]" ] )',
            "money, minutes or a route: what follows",
        ),
    ),
    job.Cause: (_SIDE_ONCE,),
    job.Purchase: (
        _exactly_one("a bought thing", "number", "is", "service"),
        _needs("old-unit-back-by", "surcharge"),
    ),
    supply.Stored: (_exactly_one("a thing in stores", "number", "is"),),
    part.Quality: (_any("`from`, `maker` or `batch`: whose version is meant", "from", "maker", "batch"),),
    issuer.Affix: (
        Shared(
            "sh:node",
            f"sh:or ( [ sh:path fl:side ; sh:maxCount 0 ] {_is('means', 'side')} )",
            "`side` only where `means` is `side`",
        ),
    ),
    issuer.SideDigit: (_differs("fl:odd", "even", "odd and even with different sides"),),
    job.Finding: (
        _needs("only-these-routes", "routes"),
        _SIDE_ONCE,
    ),
}


def shared(cls: type[Rec]) -> tuple[Shared, ...]:
    """The constraints on several keys of a Struct."""
    return _SHARED.get(cls, ())
