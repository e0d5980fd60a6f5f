"""Why a part is not simply a yes: every reason out of its proof, not only the one that decided, and what would change it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Final, NamedTuple

import msgspec

from fitlore.fitting.parts import alike, keys_of
from fitlore.fitting.shape import Word
from fitlore.model.because import Because
from fitlore.model.choices import SafetyClass
from fitlore.model.part import Part

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

_WORDS: Final = {word.value: word for word in Word}
_ROWS: Final = frozenset(
    {
        "row-other-hand",
        "row-changed",
        "row-too-little-evidence",
        "row-scope-unknown",
        "row-safe-unknown",
        "row-from-memory",
    }
)
"""Rows of the verdict table that say more than the steps under them."""
_GENTLE: Final = frozenset({SafetyClass.NONE.value, SafetyClass.LIGHTING.value})
"""Classes in which work that makes a part go may be thought of: nobody comes to harm by it."""
_NOBODY: Final = frozenset({"way-asked", "way-measure", "way-other-kind"})
"""That nobody claims it is no reason beside something that is off: then it is not to be tried."""


class Reason(NamedTuple):
    """One thing that stands in the way, its proof under it, and what would change it."""

    because: Because
    changes: tuple[Because, ...]


class OtherWay(NamedTuple):
    """Another way to the part, with the verdict by it and the step that decided."""

    word: Word
    because: Because


class Against(NamedTuple):
    """All that stands against a plain yes, the gravest first, and the ways that did not lead."""

    word: Word
    reasons: tuple[Reason, ...]
    others: tuple[OtherWay, ...]
    said_for: tuple[Because, ...] = ()
    """Claims along the way that leads, where they count for nothing: it does not go all the same."""


def against(proof: Because) -> Against:
    """Out of the proof of one verdict. ValueError for any other proof."""
    if proof.code != "verdict" or not proof.under:
        raise ValueError(f"{proof.code} is no proof of a verdict")
    lead, *rest = proof.under
    checks = [step for step in rest if step.code.startswith("feature-")]
    decided = [step for step in rest if step.values.get("way") and step is not lead]
    demands = next((step for step in rest if step.code == "requirement"), None)
    waived = lead.values.get("waives", "").split(", ")
    gone = _WORDS[proof.values["word"]] is Word.DOES_NOT_FIT
    steps = [
        *_named(checks, ("feature-trap",), None),
        *_named(checks, ("feature-off",), lead.values.get("off", "")),
        *([lead] if lead.code in _ROWS else []),
        *(step for step in _inside(lead.under) if not (gone and step.code in _NOBODY)),
        *(_not_for_this_car(demands, proof.values["part"]) if demands else ()),
        *_named(checks, ("feature-unknown",), lead.values.get("missing", "")),
        *(
            step
            for step in _named(checks, ("feature-ok-with-work",), None)
            if step.values["feature"] not in waived
        ),
    ]
    codes = {step.code for step in steps}
    for stronger, idle in (("way-other-kind", "feature-unknown"), ("row-other-hand", "number-says-side")):
        steps = [step for step in steps if step.code != idle or stronger not in codes]
    looks = {step.values["name"]: step.values["look"] for step in steps if step.code.startswith("open-")}
    once = {_mark(step): step for step in reversed(_without_repeats(steps))}
    reasons = [Reason(step, _changes(step, proof, looks)) for step in reversed(once.values())]
    others = tuple(OtherWay(_WORDS[step.values["word"]], step) for step in decided)
    said = [step for inner in lead.under for _, step in inner.walk() if step.code == "claim"] if gone else []
    return Against(_WORDS[proof.values["word"]], tuple(reasons), others, tuple(said))


def with_claims_elsewhere(found: Against, graph: Graph, part: Part) -> Against:
    """The same, and for what is off the claims, made for other places, whose work or extras take care of that."""
    claims, reasons = graph.claims_to(alike(graph, keys_of(part))), []
    if any(reason.because.code == "feature-trap" for reason in found.reasons):
        return found
    for reason in found.reasons:
        feature = reason.because.values.get("feature", "") if reason.because.code == "feature-off" else ""
        for claim in (claim for claim in claims if feature in claim.waives):
            values = {
                "claim": claim.crossfit,
                "for": claim.instead_of or claim.at or "",
                "do": claim.work.do if claim.work else "",
                "extras": ", ".join(
                    extra.number or extra.service or extra.is_ or "" for extra in claim.extras
                ),
            }
            change = Because("change-as-elsewhere", values, (claim.origin,))
            reason = reason._replace(changes=(*reason.changes, change))
        reasons.append(reason)
    return found._replace(reasons=tuple(reasons))


def _without_repeats(steps: list[Because]) -> list[Because]:
    """Without the questions whose condition or feature stands there already, with its lines."""
    conditions = {step.values["fact"] for step in steps if step.code == "condition-ask"}
    features = {step.values["feature"] for step in steps if step.code == "feature-unknown"}
    told = {"open-fact": conditions, "open-feature": features}
    return [step for step in steps if step.values.get("name") not in told.get(step.code, ())]


def _mark(step: Because) -> tuple[str, tuple[tuple[str, str], ...]]:
    return step.code, tuple(sorted(step.values.items()))


def _named(checks: Iterable[Because], codes: tuple[str, ...], names: str | None) -> Iterator[Because]:
    """The rows of the interface table in such a state; only those of these features, where some are named."""
    wanted = None if names is None else set(names.split(", "))
    for step in checks:
        if step.code in codes and (wanted is None or step.values["feature"] in wanted):
            yield step


def _inside(steps: Iterable[Because]) -> Iterator[Because]:
    """What speaks against it along the way that leads: conditions, trials, pieces beside it, work, questions."""
    for step in steps:
        if step.code in _CHANGES:
            yield step
        elif not step.code.startswith(("feature-ok", "chance-")):
            yield from _inside(step.under)


def _not_for_this_car(demands: Because, number: str) -> Iterator[Because]:
    """The book lists this very number here, but for other cars."""
    for step in demands.under:
        listed = step.code == "original-of-place" and step.values["number"] == number
        if listed and step.values["condition"] == "false":
            yield step


def _changes(step: Because, proof: Because, looks: Mapping[str, str]) -> tuple[Because, ...]:
    """What would change one reason; `looks`: where to look, by the name of a fact or feature."""
    make = _CHANGES.get(step.code)
    about = step.values.get("fact") or step.values.get("feature") or ""
    if looks.get(about) and not step.values.get("look"):
        step = msgspec.structs.replace(step, values={**step.values, "look": looks[about]})
    return make(step, proof) if make else ()


def _trap(step: Because, proof: Because) -> tuple[Because, ...]:
    return (
        Because("change-trap", step.values),
        Because("change-measure-again", step.values),
    )


def _off(step: Because, proof: Because) -> tuple[Because, ...]:
    if step.values.get("remark", "").partition("@")[0].count("/"):
        return (Because("change-both-places", {**step.values, "at": step.values["remark"]}),)
    again = Because("change-measure-again", step.values)
    lead = proof.under[0]
    gentle = lead.values.get("class") in _GENTLE and not lead.code.startswith("row-trap")
    return (again, Because("change-work", step.values)) if gentle else (again,)


def _unknown(step: Because, proof: Because) -> tuple[Because, ...]:
    missing = step.values.get("missing", "")
    part, place = proof.values["part"], proof.values["place"]
    who = {"offered": part, "needed": f"what belongs at {place}"}.get(missing, f"{part} and at {place}")
    if not missing:
        return (Because("change-look-which", step.values),)
    return (Because("change-measure", {**step.values, "of": who}),)


def _other_car(step: Because, proof: Because) -> tuple[Because, ...]:
    return (Because("change-other-car", step.values),)


def _listed_for_others(step: Because, proof: Because) -> tuple[Because, ...]:
    facts = [inner for inner in step.under if inner.code == "condition-false"]
    return tuple(Because("change-other-car", inner.values) for inner in facts)


def _simply(code: str) -> Callable[[Because, Because], tuple[Because, ...]]:
    """One sentence that takes the values of the reason and those of the whole proof."""
    return lambda step, proof: (Because(code, {**proof.values, **step.values}),)


_CHANGES: Final[dict[str, Callable[[Because, Because], tuple[Because, ...]]]] = {
    "feature-trap": _trap,
    "feature-off": _off,
    "feature-unknown": _unknown,
    "feature-ok-with-work": _simply("change-do-work"),
    "condition-false": _other_car,
    "original-of-place": _listed_for_others,
    "condition-ask": _simply("change-find-out"),
    "over-what-is-off": _simply("change-try-here"),
    "claim-elsewhere": _simply("change-try-here"),
    "evidence-against": _simply("change-later-trial"),
    "evidence-withdrawn": _simply("change-new-trial"),
    "evidence-gone-with-source": _simply("change-new-trial"),
    "never-with-false": _simply("change-other-piece"),
    "never-with-ask": _simply("change-look-beside"),
    "with": _simply("change-package"),
    "way-book": _simply("change-car-itself"),
    "way-other-kind": _simply("change-other-kind"),
    "number-says-side": _simply("change-hold-up"),
    "row-other-hand": _simply("change-other-side"),
    "row-changed": _simply("change-measure-missing"),
    "row-too-little-evidence": _simply("change-enough-evidence"),
    "row-scope-unknown": _simply("change-measure-missing"),
    "row-safe-unknown": _simply("change-measure-missing"),
    "takes-work": _simply("change-do-work"),
    "takes-extra": _simply("change-buy-extra"),
    "way-asked": _simply("change-claim"),
    "way-measure": _simply("change-claim"),
    "open-fact": _simply("change-answer"),
    "open-feature": _simply("change-answer"),
    "open-place": _simply("change-answer"),
    "open-other-side": _simply("change-answer"),
}
