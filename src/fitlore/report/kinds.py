"""A kind of part on one card: what it is called, what decides, what to look at, what goes wrong and how it is mended."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from fitlore.fitting.kind import Kind
from fitlore.model.category import Category, Fault, Feature, Refurbish, RenewWith
from fitlore.model.choices import Renew, Role, Rule, SafetyClass, Sides, UsedOnes
from fitlore.report.machine import Json
from fitlore.report.text import Line, Tone, columns, listed, minutes

LANGUAGES: Final = {"en-us": "American", "de": "German", "fr": "French", "es": "Spanish"}
_SIDES: Final = {
    Sides.NONE: "",
    Sides.MIRROR: "left and right ones differ",
    Sides.SAME_BOTH_SIDES: "the same on both sides",
    Sides.CHANGEABLE: "one side's can be changed over to the other",
    Sides.OTHER_LENGTH: "left and right ones differ in length",
}
_USED: Final = {
    UsedOnes.SENSIBLE: "a used one is sensible",
    UsedOnes.IF_SOUND: "a used one if it is sound",
    UsedOnes.NEVER: "never a used one",
}
_RULES: Final = {
    Rule.SAME: "the same",
    Rule.WITHIN: "within",
    Rule.AT_LEAST: "at least",
    Rule.AT_MOST: "at most",
    Rule.RANGE_HOLDS: "its range holds it",
    Rule.ONE_OF: "one of them",
    Rule.AGREES_WITH: "as the other side's",
}
_ROLES: Final = {
    Role.MATES: "goes together",
    Role.WORKS: "does its task",
    Role.SAFE: "protects",
    Role.JOINS: "can be adapted",
    Role.LOOKS: "matters to the eye",
}


def kind_lines(kind: Kind) -> list[Line]:
    """The card: cautions first, then names, what decides, buying, faults with the cheapest test first, mending."""
    category, interface = kind.category, kind.interface
    safety = f", {interface.safety.value}" if interface.safety is not SafetyClass.NONE else ""
    name = _name(category)
    lines = [Line(f"{name} ({category.category}{safety})  [{category.origin}]", "head", hang=2)]
    lines += [Line(text, "danger") for text in interface.cautions]
    lines += _names(category)
    lines += [
        Line(f"  not always: {friend.word!r} also means a {friend.means}{_note(friend.note)}", "ask", hang=4)
        for friend in kind.false_friends
    ]
    if kind.about:
        lines.append(Line(f"  {kind.about}", hang=4))
    lines += _features(interface.features, interface.look_first)
    lines += _buying(kind)
    lines += _faults(kind.faults)
    lines += _mending(kind.refurbish)
    lines += [Line(f"law ({law.country}, {law.occasion}): {law.says}", "ask", hang=4) for law in kind.law]
    if kind.narrower:
        lines.append(Line(f"kinds of it: {', '.join(_name(one) for one in kind.narrower)}", hang=4))
    if kind.places:
        lines.append(Line(f"on the car: {', '.join(kind.places)}; `fitlore fits` asks there", hang=4))
    return lines


def kind_json(kind: Kind) -> Json:
    """The same for programs; its shape is on the help page."""
    category, interface = kind.category, kind.interface
    tags = dict.fromkeys((*category.names, *category.also))
    return {
        "kind": str(category.category),
        "broader": [str(name) for name in interface.names[1:]],
        "safety": interface.safety.value,
        "names": {tag: [*_first(category, tag), *category.also.get(tag, ())] for tag in tags},
        "false-friends": [
            {"word": one.word, "means": str(one.means), "note": one.note} for one in kind.false_friends
        ],
        "about": kind.about,
        "sides": interface.sides.value,
        "features": [_feature_json(name, one) for name, one in interface.features.items()],
        "look-first": list(interface.look_first),
        "always-new": interface.always_new,
        "renew": interface.renew.value,
        "renew-with": [_with_json(one) for one in interface.renew_with],
        "used": interface.used.value,
        "inspect": list(kind.inspect),
        "keep": list(interface.keep),
        "shares": list(interface.shares),
        "faults": [
            {"fault": one.fault, "test": one.test, "minutes": one.minutes, "line": str(one.origin)}
            for one in kind.faults
        ],
        "refurbish": [_mending_json(one) for one in kind.refurbish],
        "law": [{"country": one.country, "occasion": one.occasion, "says": one.says} for one in kind.law],
        "cautions": list(interface.cautions),
        "narrower": [str(one.category) for one in kind.narrower],
        "places": list(kind.places),
        "line": str(category.origin),
    }


def _name(category: Category) -> str:
    return category.names.get("en-gb") or category.category


def _names(category: Category) -> list[Line]:
    own = category.also.get("en-gb", ())
    lines = [Line(f"  also called {', '.join(own)}", hang=4)] if own else []
    british = {_name(category), *own}
    said = []
    for tag, language in LANGUAGES.items():
        words = [*_first(category, tag), *category.also.get(tag, ())]
        if words and not set(words) <= british:
            said.append(f"{language} {', '.join(words)}")
    return [*lines, *([Line(f"  {'; '.join(said)}", "dim", hang=4)] if said else [])]


def _first(category: Category, tag: str) -> list[str]:
    return [category.names[tag]] if tag in category.names else []


def _features(features: dict[str, Feature], first: Sequence[str]) -> list[Line]:
    """What decides, what must be known first of all on top; what can be done without last."""
    order = sorted(features, key=lambda name: (name not in first, features[name].optional))
    rows = [(f"  {name}", _rule(features[name]), _of(features[name])) for name in order]
    tones: list[Tone] = ["ask" if name in first else "plain" for name in order]
    head = f"what decides{f' (look first at {listed(first)})' if first else ''}"
    return [Line(head, "head", hang=2), *columns(rows, tones, "ll")] if rows else []


def _rule(feature: Feature) -> str:
    said = _RULES[feature.rule]
    return f"{said} {feature.tolerance}".strip() if feature.tolerance else said


def _of(feature: Feature) -> str:
    said = [_ROLES[feature.role]]
    said += [f"one of {', '.join(feature.choices)}"] if feature.choices else []
    said += ["compared where both are known"] if feature.optional else []
    said += [feature.look] if feature.look else []
    return "; ".join(said)


def _buying(kind: Kind) -> list[Line]:
    interface = kind.interface
    said = [
        "always new" if interface.always_new else _USED[interface.used],
        "renewed across the axle" if interface.renew is Renew.ACROSS_AXLE else "",
        _SIDES[interface.sides],
    ]
    words = ", ".join(part for part in said if part)
    lines = [Line("buying", "head"), Line(f"  {words}{_note(kind.category.sides_note)}", hang=4)]
    if kind.inspect and not interface.always_new and interface.used is not UsedOnes.NEVER:
        lines.append(Line(f"  look at: {'; '.join(kind.inspect)}", hang=4))
    if interface.renew_with:
        lines.append(Line(f"  renewed with it: {', '.join(map(_with, interface.renew_with))}", hang=4))
    if interface.keep:
        lines.append(Line(f"  keep your own: {', '.join(interface.keep)}", hang=4))
    if interface.shares:
        lines.append(Line(f"  once for all of them: {', '.join(interface.shares)}", hang=4))
    return lines


def _with(one: RenewWith) -> str:
    count = f"{one.quantity} x " if one.quantity > 1 else ""
    once = " (one use)" if one.one_use else ""
    return f"{count}{one.is_ or one.number}{once}"


def _faults(faults: Sequence[Fault]) -> list[Line]:
    """The usual faults; the test that costs least comes first."""
    lines = []
    for one in sorted(faults, key=lambda one: (not one.test, one.minutes)):
        took = f" ({minutes(one.minutes)})" if one.minutes else ""
        lines.append(Line(f"  {one.fault}{f': {one.test}{took}' if one.test else ''}", hang=4))
    return [Line("usual faults, the cheapest test first", "head"), *lines] if lines else []


def _mending(routes: Iterable[Refurbish]) -> list[Line]:
    lines = []
    for one in routes:
        took = f", {minutes(one.minutes)}" if one.minutes else ""
        good = f", succeeds {one.succeeds}" if one.succeeds else ""
        wants = f"; takes {', '.join(map(_with, one.materials))}" if one.materials else ""
        looks = f"; look first: {one.look}" if one.look else ""
        tries = f"; then: {one.test}" if one.test else ""
        lines.append(Line(f"  {one.do}{took}{good}{wants}{looks}{tries}{_note(one.note)}", hang=4))
    return [Line("making it good again", "head"), *lines] if lines else []


def _note(text: str) -> str:
    return f" ({text})" if text else ""


def _feature_json(name: str, feature: Feature) -> Json:
    return {
        "name": name,
        "kind": feature.kind,
        "rule": feature.rule.value,
        "tolerance": feature.tolerance,
        "role": feature.role.value,
        "required": not feature.optional,
        "choices": list(feature.choices),
        "look": feature.look,
    }


def _with_json(one: RenewWith) -> Json:
    return {
        "is": str(one.is_ or ""),
        "number": str(one.number or ""),
        "quantity": one.quantity,
        "one-use": one.one_use,
        "note": one.note,
    }


def _mending_json(one: Refurbish) -> Json:
    return {
        "do": one.do,
        "minutes": one.minutes,
        "succeeds": str(one.succeeds) if one.succeeds else None,
        "materials": [_with_json(part) for part in one.materials],
        "look": one.look,
        "test": one.test,
        "note": one.note,
        "line": str(one.origin),
    }
