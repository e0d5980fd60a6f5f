"""Rules about claims: against the measures, over traps, both ways between unequals, and on what word they rest."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from fitlore.books.faults import fault
from fitlore.fitting.evidence import Weighed, class_policy, events, weigh
from fitlore.fitting.shape import Check, State
from fitlore.model.choices import Goes, SafetyClass
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.numbers import number_key
from fitlore.model.part import CrossFit, Evidence
from fitlore.upkeep.knowing import Known, named, off, said


def both_ways_unequal(known: Known) -> Iterator[Diagnostic]:
    """Parts that may stand for each other either way must be equal in everything that is compared."""
    for claim in known.claims:
        old, new = known.ends(claim)
        if claim.goes is not Goes.BOTH_WAYS or old is None or new is None:
            continue
        checks = (*known.checks(old, new), *known.checks(new, old))
        found = dict.fromkeys(c.feature for c in checks if _unequal(c) and c.feature not in claim.waives)
        if found:
            yield fault(
                "Q14-both-ways-unequal",
                claim.origin,
                name=claim.crossfit,
                use=named(new),
                for_=named(old),
                features=", ".join(found),
            )


def _unequal(check: Check) -> bool:
    return check.definition.role.value != "looks" and check.state in (State.OFF, State.TRAP, State.WORK)


def against_measures(known: Known) -> Iterator[Diagnostic]:
    """A claim nobody speaks against, though its part is off in a feature that no stated work takes care of."""
    for claim in known.claims:
        found = off(known.claim_checks(claim), claim.waives) if unopposed(known, claim) else []
        if found:
            yield _over("Q15-claim-against-measure", claim, found)


def over_traps(known: Known) -> Iterator[Diagnostic]:
    """A claim nobody speaks against, though it is a near miss that fails in use."""
    for claim in known.claims:
        found = known.claim_traps(claim) if unopposed(known, claim) else []
        if found:
            yield _over("Q16-claim-over-a-trap", claim, found)


def _over(code: str, claim: CrossFit, found: list[Check]) -> Diagnostic:
    return fault(code, claim.origin, name=claim.crossfit, use=claim.use, features=said(found))


def safety_of(known: Known, claim: CrossFit) -> SafetyClass:
    """The class of the part a claim brings in, or of the one it stands for: the stricter one."""
    interfaces = [known.interface(part.is_) for part in known.ends(claim) if part is not None]
    place = known.place(claim.at) if claim.at else None
    interfaces += [known.interface(place.place.is_)] if place is not None else []
    order = list(SafetyClass)
    return min((i.safety for i in interfaces if i is not None), key=order.index, default=SafetyClass.NONE)


def weighed(known: Known, claim: CrossFit) -> Weighed:
    """What the evidence on a claim comes to under the policy of its safety class."""
    rules = class_policy(known.graph.policy, safety_of(known, claim))
    return weigh(claim, rules, known.graph.shop.person)


def unopposed(known: Known, claim: CrossFit) -> bool:
    """Whether a word for it stands, and none against it: one that is spoken against is shown as that already."""
    found = weighed(known, claim)
    return found.spoken_for and found.against not in ("shop", "others")


def repeated_source(known: Known) -> Iterator[Diagnostic]:
    """Several pieces that name one source are one piece."""
    for claim in known.claims:
        by_source: dict[str, list[Evidence]] = defaultdict(list)
        for piece in claim.evidence:
            if piece.source:
                by_source[piece.source.casefold()].append(piece)
        for pieces in by_source.values():
            if len(pieces) > 1:
                second = pieces[1].origin if pieces[1].origin.book else claim.origin
                yield fault(
                    "Q17-source-repeated",
                    second,
                    name=claim.crossfit,
                    count=str(len(pieces)),
                    source=pieces[0].source,
                )


def weak_for_safety(known: Known) -> Iterator[Diagnostic]:
    """A claim for a part of a safety class that rests on less than the class asks, and that nobody has refuted."""
    for claim in known.claims:
        safety = safety_of(known, claim)
        if safety is SafetyClass.NONE:
            continue
        if weighed(known, claim).enough or not unopposed(known, claim):
            continue
        rules = class_policy(known.graph.policy, safety)
        have = ", ".join(dict.fromkeys(piece.how.value for piece in events(claim.evidence)))
        least = f"{max(1, rules.least_pieces)} of {' or '.join(how.value for how in rules.least)}"
        yield fault(
            "Q20-safety-on-weak-evidence",
            claim.origin,
            name=claim.crossfit,
            class_=safety.value,
            have=have,
            least=least,
        )


def several_makers(known: Known) -> Iterator[Diagnostic]:
    """A number without a maker that several makers have means none of their parts."""
    for claim in known.claims:
        numbers = [claim.instead_of, claim.use, *(one.number for one in claim.extras)]
        numbers += [number for companion in claim.with_ for number in companion.use]
        for number in dict.fromkeys(number for number in numbers if number):
            makers = sorted({part.maker for part in known.graph.parts([number_key(number)])})
            if len(makers) > 1:
                yield fault(
                    "Q22-number-of-several-makers",
                    claim.origin,
                    name=claim.crossfit,
                    makers=" and ".join(makers),
                    first=makers[0],
                    number=number,
                )


RULES = (both_ways_unequal, against_measures, over_traps, repeated_source, weak_for_safety, several_makers)
