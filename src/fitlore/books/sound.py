"""Checks inside one record: what its types cannot say. Each names the keys that are at fault, the likeliest first."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal
from typing import Any, Final, NamedTuple

from fitlore.model.amounts import read_quantity
from fitlore.model.category import Category, Feature, RenewWith
from fitlore.model.choices import Goes, Meaning, Rule
from fitlore.model.issuer import Affix, SideDigit
from fitlore.model.job import Cause, Finding, Job, Otherwise, Purchase, Purse, Route, Symptom
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Part, Quality
from fitlore.model.platform import Contained, ReallyOn
from fitlore.model.record import Rec
from fitlore.model.shop import ExchangeRate, Shelf
from fitlore.model.supply import Carriage, Offer, Step, Stored, Supplier

_WEAR: Final = re.compile(r"(?:up|down) (\S.*)")
_ONE_SIDED: Final = re.compile(r"-\s*([0-9.,]+)\s*/\s*\+\s*([0-9.,]+)\s*(\S+)")


class Trouble(NamedTuple):
    """A fault of a record: the keys where it shows, and the values of its words."""

    code: str
    keys: tuple[str, ...]
    values: dict[str, str]


Check = Callable[[Any], Iterator[Trouble]]


def _exactly_one(what: str, given: Mapping[str, object]) -> Iterator[Trouble]:
    """One of the keys must be given, and no other."""
    there = tuple(key for key, value in given.items() if value)
    if len(there) != 1:
        found = " and ".join(f"`{key}`" for key in there) if there else "none of them"
        words = ", ".join(f"`{key}`" for key in given)
        yield Trouble("B70-exactly-one", there[1:], {"what": what, "found": found, "words": words})


def _same(key: str, what: str, one: str, other: str) -> Iterator[Trouble]:
    if number_key(one) == number_key(other):
        yield Trouble("B76-points-at-itself", (key,), {"key": key, "what": what, "found": other})


def _offer(offer: Offer) -> Iterator[Trouble]:
    given = {
        "number": offer.number,
        "any": offer.any_,
        "service": offer.service,
        "whole-car": offer.whole_car,
    }
    yield from _exactly_one("offer", given)
    if offer.price is None and offer.said != "none":
        yield Trouble("B71-offer-without-price", ("number", "any", "service", "whole-car"), {})
    if offer.price is not None and offer.said == "none":
        yield Trouble("B72-none-at-a-price", ("said",), {})
    if offer.seen and offer.until and offer.until < offer.seen:
        yield _crossed("until", str(offer.until), "seen", str(offer.seen))
    if offer.seen and offer.held_till and offer.held_till < offer.seen:
        yield _crossed("held-till", str(offer.held_till), "seen", str(offer.seen))
    if offer.scrap_back is not None and offer.whole_car is None:
        yield Trouble(
            "B86-key-without-its-pair", ("scrap-back",), {"key": "scrap-back", "needs": "whole-car"}
        )
    if offer.old_unit is not None and offer.surcharge is None:
        yield Trouble("B86-key-without-its-pair", ("old-unit",), {"key": "old-unit", "needs": "surcharge"})


def _crossed(later: str, found: str, earlier: str, than: str) -> Trouble:
    return Trouble(
        "B83-dates-crossed", (later,), {"key": later, "found": found, "other": earlier, "than": than}
    )


def _contained(one: Contained) -> Iterator[Trouble]:
    yield from _exactly_one(
        "thing that is contained or taken", {"number": one.number, "is": one.is_, "service": one.service}
    )


def _renew_with(one: RenewWith) -> Iterator[Trouble]:
    yield from _exactly_one("thing renewed with it", {"is": one.is_, "number": one.number})


def _really_on(one: ReallyOn) -> Iterator[Trouble]:
    yield from _exactly_one("thing really on a car", {"from": one.from_, "number": one.number})


def _crossfit(claim: CrossFit) -> Iterator[Trouble]:
    if claim.instead_of is None and claim.at is None:
        yield Trouble("B73-crossfit-of-what", ("use",), {})
    if claim.instead_of is not None:
        yield from _same("use", "the part it replaces", claim.instead_of, claim.use)
    if not claim.evidence and not claim.against:
        yield Trouble("B74-no-evidence", ("crossfit",), {})
    if claim.goes is Goes.BOTH_WAYS:
        limits = {
            "only-if": claim.only_if,
            "work": claim.work,
            "with": claim.with_,
            "extras": claim.extras,
            "at": claim.at if claim.instead_of is None else None,
        }
        for key in (key for key, value in limits.items() if value):
            yield Trouble("B75-both-ways-with-limits", ("goes",), {"key": key})


def _part(part: Part) -> Iterator[Trouble]:
    for replacement in part.replaced_by:
        yield from _same("replaced-by", "the part itself", part.part, replacement.number)
    for inner in part.contains:
        if inner.number is not None:
            yield from _same("contains", "the part itself", part.part, inner.number)


def _category(category: Category) -> Iterator[Trouble]:
    if category.broader is not None:
        yield from _same("broader", "the category itself", category.category, category.broader)
    unknown = [
        name for name in category.look_first if category.broader is None and name not in category.features
    ]
    for name in unknown:
        yield Trouble("B79-look-at-what", ("look-first",), {"found": name})


def _feature(feature: Feature) -> Iterator[Trouble]:
    if feature.rule is Rule.WITHIN and not feature.tolerance:
        yield Trouble("B77-no-tolerance", ("rule",), {})
    if feature.tolerance and not _tolerance(feature.tolerance):
        yield Trouble("B78-not-a-tolerance", ("tolerance",), {"found": feature.tolerance})
    if feature.kind == "choice" and not feature.choices:
        yield Trouble("B86-key-without-its-pair", ("kind",), {"key": "kind: choice", "needs": "choices"})
    if feature.choices and feature.kind != "choice":
        yield Trouble("B86-key-without-its-pair", ("choices",), {"key": "choices", "needs": "kind: choice"})
    if feature.rule is Rule.AGREES_WITH and not feature.with_:
        yield Trouble("B86-key-without-its-pair", ("rule",), {"key": "rule: agrees-with", "needs": "with"})
    wear = _WEAR.fullmatch(feature.wears)
    if feature.wears and (wear is None or read_quantity(wear[1]) is None):
        yield Trouble("B88-not-a-wear", ("wears",), {"found": feature.wears})


def _tolerance(text: str) -> bool:
    match = _ONE_SIDED.fullmatch(text.strip())
    parts = (f"{match[1]} {match[3]}", f"{match[2]} {match[3]}") if match else (text,)
    found = [read_quantity(part) for part in parts]
    return all(one is not None and one.value >= 0 for one in found)


def _carriage(carriage: Carriage) -> Iterator[Trouble]:
    for key, value in (("fixed", carriage.fixed), ("free-from", carriage.free_from)):
        if carriage.steps and value is not None:
            yield Trouble("B81-steps-and-fixed", (key,), {"key": key})
    if carriage.free_from is not None and carriage.fixed is None and not carriage.steps:
        yield Trouble("B86-key-without-its-pair", ("free-from",), {"key": "free-from", "needs": "fixed"})


def _step(step: Step) -> Iterator[Trouble]:
    yield from _exactly_one("step", {"from-spend": step.from_spend, "up-to-weight": step.up_to_weight})


def _supplier(supplier: Supplier) -> Iterator[Trouble]:
    if supplier.trip is not None and supplier.trip.joins is not None:
        yield from _same("trip", "the supplier itself", supplier.supplier, supplier.trip.joins)


def _purse(purse: Purse) -> Iterator[Trouble]:
    reserve = purse.reserve
    if reserve is not None and reserve.currency == purse.cash.currency and reserve.amount > purse.cash.amount:
        yield Trouble(
            "B85-reserve-over-cash", ("reserve",), {"reserve": str(reserve), "cash": str(purse.cash)}
        )


def _job(job: Job) -> Iterator[Trouble]:
    if job.today and job.in_hand_by and job.in_hand_by < job.today:
        yield _crossed("in-hand-by", str(job.in_hand_by), "today", str(job.today))


def _route(route: Route) -> Iterator[Trouble]:
    if route.else_ is not None and route.else_.route is route.route:
        yield Trouble("B84-else-the-same", ("else",), {"route": route.route.value})
    if route.else_ is not None and route.succeeds is None:
        yield Trouble("B86-key-without-its-pair", ("else",), {"key": "else", "needs": "succeeds"})


def _otherwise(one: Otherwise) -> Iterator[Trouble]:
    if one.money is None and not one.minutes and one.route is None:
        yield Trouble("B87-says-nothing", ("note",), {})


def _sided(finding: Finding | Cause) -> Iterator[Trouble]:
    if finding.side not in ("", "left", "right", "both"):
        yield Trouble("B80-side-of-a-finding", ("side",), {"found": finding.side})
    elif finding.side and "@" in finding.at:
        yield Trouble("B82-two-sides", ("side",), {"at": finding.at})


def _finding(finding: Finding) -> Iterator[Trouble]:
    yield from _sided(finding)
    if finding.only_these_routes and not finding.routes:
        needs = {"key": "only-these-routes", "needs": "routes"}
        yield Trouble("B86-key-without-its-pair", ("only-these-routes",), needs)


def _symptom(symptom: Symptom) -> Iterator[Trouble]:
    odds = sum((cause.odds.percent for cause in symptom.could_be if cause.odds is not None), Decimal(0))
    if odds > 100:
        yield Trouble("V08-odds-over-the-whole", ("could-be",), {"found": f"{odds.normalize():f}"})


def _purchase(one: Purchase) -> Iterator[Trouble]:
    yield from _exactly_one("bought thing", {"number": one.number, "is": one.is_, "service": one.service})
    if one.ordered and one.due and one.due < one.ordered:
        yield _crossed("due", str(one.due), "ordered", str(one.ordered))
    if one.old_unit_back_by is not None and one.surcharge is None:
        needs = {"key": "old-unit-back-by", "needs": "surcharge"}
        yield Trouble("B86-key-without-its-pair", ("old-unit-back-by",), needs)


def _stored(one: Stored) -> Iterator[Trouble]:
    yield from _exactly_one("thing in stores", {"number": one.number, "is": one.is_})


def _quality(note: Quality) -> Iterator[Trouble]:
    if not note.maker and note.from_ is None and not note.batch:
        yield Trouble("V05-whose-version", ("number",), {})


def _affix(affix: Affix) -> Iterator[Trouble]:
    if affix.side is not None and affix.means is not Meaning.SIDE:
        yield Trouble("B86-key-without-its-pair", ("side",), {"key": "side", "needs": "means: side"})


def _side_digit(digit: SideDigit) -> Iterator[Trouble]:
    if digit.odd is digit.even:
        yield Trouble(
            "V09-both-the-same", ("even",), {"key": "odd", "other": "even", "found": digit.odd.value}
        )


def _rate(rate: ExchangeRate) -> Iterator[Trouble]:
    if rate.currency == rate.rate.currency:
        yield Trouble(
            "V09-both-the-same", ("rate",), {"key": "currency", "other": "rate", "found": rate.currency}
        )


def _shelf(shelf: Shelf) -> Iterator[Trouble]:
    yield from _exactly_one("shelf", {"folder": shelf.folder, "endpoint": shelf.endpoint})


CHECKS: Final[dict[type[Rec], tuple[Check, ...]]] = {
    Offer: (_offer,),
    Contained: (_contained,),
    RenewWith: (_renew_with,),
    ReallyOn: (_really_on,),
    CrossFit: (_crossfit,),
    Part: (_part,),
    Category: (_category,),
    Feature: (_feature,),
    Carriage: (_carriage,),
    Step: (_step,),
    Supplier: (_supplier,),
    Purse: (_purse,),
    Job: (_job,),
    Route: (_route,),
    Otherwise: (_otherwise,),
    Finding: (_finding,),
    Cause: (_sided,),
    Symptom: (_symptom,),
    Purchase: (_purchase,),
    Stored: (_stored,),
    Quality: (_quality,),
    Affix: (_affix,),
    SideDigit: (_side_digit,),
    ExchangeRate: (_rate,),
    Shelf: (_shelf,),
}
