"""Rules about the policy: what the shop allows that the built-in one does not, whose policy counts, and what is left open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from fitlore.books.faults import Fault, fault, register
from fitlore.books.schema import fields
from fitlore.graph.asking import shelf_of
from fitlore.graph.policy import CLASSES, Stated, counting, stated
from fitlore.model.choices import How, SafetyClass, Trade
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.policy import ClassPolicy
from fitlore.upkeep.knowing import Known
from fitlore.upkeep.policy_values import STATES, TYRE_AGE, policy_values

register(
    [
        Fault(
            "Q42-looser-for-safety",
            Severity.WARNING,
            "A policy that asks less where somebody is protected",
            "{what} is `{found}` here, and the built-in policy says `{built_in}` ({where}): looser for {whom}",
            "the built-in value or a stricter one, wherever somebody may be hurt",
            "take the line out; where it is meant, `Q42-looser-for-safety: note` in rules/profile.yaml says so",
        ),
        Fault(
            "Q43-policy-of-others",
            Severity.NOTE,
            "A policy on somebody else's shelf",
            "the policy `{policy}` stands on the shelf `{shelf}`, which is not the shop's own, and does not count",
            "a policy on the shop's own shelf: the first in fitlore.yaml without `trust:`",
            "nothing has to be done; to have one of its values, write it into a policy of your own",
        ),
        Fault(
            "Q44-policy-left-open",
            Severity.NOTE,
            "A policy that leaves something open",
            "no policy says: {missing}",
            "a word for every safety class, every kind of evidence and every kind of supplier",
            "write the missing values into `{policy}`",
        ),
    ]
)


def loosened(known: Known) -> Iterator[Diagnostic]:
    """Nothing that protects somebody is looser than the built-in policy has it."""
    for value in policy_values(known):
        if value.looser:
            yield fault(
                "Q42-looser-for-safety",
                value.now.origin,
                what=f"`{value.path[-1]}`",
                found=value.now.text,
                built_in=value.built_in.text,
                where=str(value.built_in.origin),
                whom=value.looser,
            )


def of_others(known: Known) -> Iterator[Diagnostic]:
    """A policy is the shop's own or the built-in one."""
    counts = counting(known.graph)
    for policy in known.graph.policies:
        if policy not in counts:
            yield fault("Q43-policy-of-others", policy.origin, policy=policy.policy, shelf=shelf_of(policy))


def left_open(known: Known) -> Iterator[Diagnostic]:
    """Where there is a policy at all, the policies together say everything."""
    policies = counting(known.graph)
    missing = list(unsaid(stated(policies)))
    if policies and missing:
        last = policies[-1]
        yield fault("Q44-policy-left-open", last.origin, missing=", ".join(missing), policy=last.policy)


_OF_A_CLASS: Final = tuple(
    field.key for field in fields(ClassPolicy) if field.name not in ("safety", "cautions")
)
_ALONE: Final = (TYRE_AGE, STATES, "deferral")


def unsaid(values: Iterable[Stated]) -> Iterator[str]:
    """What a whole policy has to say and these values do not, in words."""
    said = {one.path for one in values}
    for safety in SafetyClass:
        for key in _OF_A_CLASS:
            if (CLASSES, safety.value, key) not in said:
                yield f"{key} of {safety.value}"
    yield from (f"chance of {how.value}" for how in How if ("chance", how.value) not in said)
    yield from (f"stale-after of {t.value}" for t in Trade if ("stale-after", t.value) not in said)
    yield from (key for key in _ALONE if (key,) not in said)


RULES = (loosened, of_others, left_open)
