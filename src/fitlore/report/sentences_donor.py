"""The sentences of what a donor gives, and of what is left on it."""

from __future__ import annotations

from typing import Final

DONOR: Final[dict[str, str]] = {
    "donor-book": "by its book {part} is at {at} of {vehicle}; on this one: {condition}",
    "donor-seen": "{number} was seen at {at} of {vehicle}[: {note}]",
    "donor-seen-place": "{at} was seen to be there[: {note}]",
    "donor-gone": "{at} is gone from it",
    "donor-sold-with": "{from} sells {number} with the {offer}",
    "donor-inside": "{part} is inside {whole}",
    "donor-pull": "{part} off {vehicle} for {need}: {count} of {wanted}",
    "donor-leave": "{part} stays on {vehicle}; it is nothing for {need}",
    "donor-used-never": "{category}: used ones are never taken[ (class {class})]",
    "donor-class-takes-none": "{class}: used ones are never taken",
    "donor-always-new": "{category}: always renewed",
    "donor-job-takes-none": "the job takes no used one for {need}",
    "donor-job-names-others": "the job names the parts it takes for {need}, and this is none of them",
    "donor-wrong-car": "claim {claim} is not for parts off such a car",
    "donor-never-with": "{use} must never meet {part}[: {why}]",
    "donor-keep": "keep {keep}",
    "donor-keeps": "what of your own stays when {part} goes to {need}",
    "donor-serves": "{vehicle} serves {count} of {all}",
}
"""By code, as in `sentences`."""
