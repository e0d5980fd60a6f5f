"""Sentences of what stands against a yes, and of what would change it."""

from __future__ import annotations

from typing import Final

AGAINST: Final[dict[str, str]] = {
    "over-what-is-off": "over {part}, which by its own measures does not go here ({off}): only a hint",
    "takes-work": "work: [{do}][, {minutes} min]",
    "takes-extra": "also needs {what}",
    "way-other-kind": "{part} is a {is}, and this is the place of a {wanted}; nobody claims that it goes here",
    "open-fact": "open: the car's {name}[: {choices}][ ({look})]",
    "open-feature": "open: its {name}[: {choices}][ ({look})]",
    "open-place": "open: what is at {name}[: {choices}][ ({look})]",
    "open-other-side": "open: whether {name} is the same on the other side[ ({look})]",
    "change-trap": "nothing that is claimed turns a trap into a fit",
    "change-measure-again": "measure {feature} again, if {offered} or {needed} may be wrong",
    "change-work": "work or a piece between that takes care of it, by somebody who made it: a claim that waives {feature}",
    "change-both-places": "change the one at {at} as well, for one with {feature} {offered}",
    "change-look-which": "look which it is: {needed} or {offered}",
    "change-measure": "measure {feature} of {of}[ ({look})]",
    "change-other-car": "a car with {fact} in {wanted}",
    "change-find-out": "find out {fact}: whether it is in {wanted}[ ({look})]",
    "change-try-here": "try or measure it here, and note it as a claim for this place",
    "change-later-trial": "a later first-hand trial that says yes, or its author taking it back",
    "change-new-trial": "somebody's own trial or measurement",
    "change-other-piece": "another piece in place of {use}[ at {at}]",
    "change-look-beside": "look whether {use} is there[, at {at}]",
    "change-package": "buy them together: {part} with {use}",
    "change-car-itself": "nothing about the part: the car would have to be as the book has it",
    "change-claim": "try it or measure it, and note that: `fitlore note {part} for {place}, measured`",
    "change-other-kind": "nothing but somebody's own trial, noted as a claim: measures alone never pass a part of another kind",
    "change-hold-up": "hold it up against the old one",
    "change-other-side": "the other side: it is a {side} one",
    "change-measure-missing": "measure what is missing[: {missing}]",
    "change-enough-evidence": "evidence that counts in class {class}: {least}",
    "change-do-work": "do it[ ({minutes} min)]; only a part that goes without would save it",
    "change-buy-extra": "buy it with the part",
    "change-answer": "the answer to it",
    "change-as-elsewhere": "as claim {claim} does it for {for}[: {do}][, with {extras}]: try that here",
}
