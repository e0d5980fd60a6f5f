"""The verdict table: the first row that applies, per way; the best way leads."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

import msgspec

from fitlore.fitting.agreement import Agreed, agreements
from fitlore.fitting.companions import forbidden_pairs, kept_apart, still_to_buy
from fitlore.fitting.law import lawful
from fitlore.fitting.open_points import Hand, hand_of, open_points
from fitlore.fitting.parts import identity
from fitlore.fitting.shape import Ask, Check, State, Verdict, Way, Word
from fitlore.fitting.ways import Setting
from fitlore.model.because import Because
from fitlore.model.choices import Role, SafetyClass
from fitlore.model.kleene import Tri
from fitlore.model.part import Part

_MUST_KNOW_SAFE = frozenset(
    {SafetyClass.BRAKING, SafetyClass.STEERING, SafetyClass.RESTRAINT, SafetyClass.FUEL}
)
_HARD = frozenset({Role.MATES, Role.WORKS, Role.SAFE})
_STOPS = _HARD | {Role.JOINS}
_KINDS = ["original", "successor", "claim", "place-claim", "measure", "book", "asked"]


class Judged(NamedTuple):
    """One way's verdict, with what is left to ask and the step of the proof that decided."""

    word: Word
    way: Way
    asks: tuple[Ask, ...]
    missing: tuple[str, ...]
    because: Because


class _Case(NamedTuple):
    """Everything the rows of the table look at, for one way."""

    way: Way
    checks: tuple[Check, ...]
    setting: Setting
    claimed: bool
    """Somebody's word stands that it does this job, here."""
    off: tuple[str, ...]
    """What is off and taken care of by nothing that is stated for here."""
    by_dimensions: bool
    """Every required feature is known and satisfied, of a part of the right kind."""
    missing: tuple[str, ...]
    asks: tuple[Ask, ...]
    forbidden: bool
    hand: Hand
    own_trial: frozenset[str]


def judge(
    part: Part, ways: Iterable[Way], checks: tuple[Check, ...], setting: Setting, own_trial: frozenset[str]
) -> Verdict:
    """One verdict per way; the best leads, but what speaks against the part itself counts for all ways.

    `own_trial`: what the shop's own trials of the part say, `shop` and `outweighed` as in `Weighed.against`.
    """
    all_ways = tuple(ways)
    judged = [_way(part, way, checks, setting, own_trial) for way in all_ways]
    judged += _whichever(part, all_ways, checks, setting, own_trial)
    judged.sort(key=_rank)
    best = judged[0]
    law = lawful(part, best.way, setting)
    danger = tuple(check.because for check in checks if check.state is State.TRAP)
    under = (
        best.because,
        setting.requirement.because,
        *(check.because for check in checks),
        *(j.because for j in judged[1:]),
    )
    values = {
        "part": part.part,
        "maker": part.maker,
        "word": best.word.value,
        "place": setting.resolved.place.full_path,
    }
    return Verdict(
        part=part,
        word=best.word,
        way=msgspec.structs.replace(best.way, law=law.says),
        others=tuple(j.way for j in judged[1:]),
        other_words=tuple(j.word for j in judged[1:]),
        checks=checks,
        asks=best.asks,
        missing=best.missing,
        danger=danger,
        because=Because("verdict", values, (part.origin,), under=under),
        asks_country=law.asks_country,
    )


def _rank(judged: Judged) -> tuple[object, ...]:
    way = judged.way
    names = [claim.crossfit for claim in way.claims]
    return judged.word.rank, _KINDS.index(way.kind), way.minutes, len(judged.asks), len(names), names


def _whichever(
    part: Part, ways: tuple[Way, ...], checks: tuple[Check, ...], setting: Setting, own_trial: frozenset[str]
) -> list[Judged]:
    """Where it goes in place of each original that may be right for this car, it does not matter which one is."""
    listed, otherwise = setting.requirement.listed, setting.requirement.otherwise
    if len(listed) < 2 or otherwise is not None:
        return []
    best: dict[object, Judged] = {}
    for way in (way for way in ways if way.start is not None):
        free = msgspec.structs.replace(way, condition=way.own_condition, asks=way.own_asks)
        found = _way(part, free, checks, setting, own_trial)
        best[way.start] = min(best.get(way.start, found), found, key=_rank)
    rows = sorted(best.values(), key=_rank)
    needs = {(row.way.companions, row.way.extras, row.way.work) for row in rows if row.word is not Word.FITS}
    if {identity(row.part) for row in listed} - set(best) or rows[-1].word.rank > Word.FITS_WITH_WORK.rank:
        return []
    worst, under = rows[-1], tuple(row.because for row in rows)
    because = Because(worst.because.code, worst.because.values, under=under)
    return [worst._replace(because=because)] if len(needs) < 2 else []


def _way(
    part: Part, way: Way, checks: tuple[Check, ...], setting: Setting, own_trial: frozenset[str]
) -> Judged:
    hand = hand_of(part, way, setting)
    way = msgspec.structs.replace(way, work=(*way.work, *hand.work), minutes=way.minutes + hand.minutes)
    agreed = agreements(part, way, checks, setting)
    nevers = forbidden_pairs(part, setting, way.claims)
    listed = way.kind in ("original", "successor")
    pairs = kept_apart(nevers, way.companions, setting, by_the_book=listed)
    case = _case(part, way, checks, setting, agreed, own_trial)
    case = case._replace(
        forbidden=way.forbidden or pairs.never,
        hand=hand,
        asks=open_points(
            way,
            checks,
            setting,
            _waived(case),
            (hand.asks, pairs.asks, _asked(agreed), _unseen(way, setting)),
        ),
    )
    word, code = _word(case)
    if code.startswith("row-measure"):
        way = msgspec.structs.replace(way, waives=frozenset())
    values = _values(case, way, word, part)
    there = setting.resolved.there
    gone = there.steps if there.value is Tri.FALSE else ()
    steps = (
        way.because,
        *gone,
        *hand.steps,
        *pairs.steps,
        *(row.because for row in agreed),
        *map(_open, case.asks),
    )
    return Judged(word, way, case.asks, case.missing, Because(code, values, under=steps))


def _values(case: _Case, way: Way, word: Word, part: Part) -> dict[str, str]:
    """What the sentence of the row says, and what the reasons against it go by."""
    setting = case.setting
    return {
        "word": word.value,
        "way": way.kind,
        "off": ", ".join(case.off),
        "missing": ", ".join(case.missing),
        "waives": ", ".join(sorted(way.waives)),
        "class": setting.interface.safety.value,
        "least": " or ".join(how.value for how in setting.rules.least),
        "side": part.side.value if part.side else "",
    }


def _open(ask: Ask) -> Because:
    values = {"name": ask.name, "look": ask.look, "choices": " or ".join(ask.choices)}
    return Because(f"open-{ask.about}", values)


def _case(
    part: Part,
    way: Way,
    checks: tuple[Check, ...],
    setting: Setting,
    agreed: tuple[Agreed, ...],
    own_trial: frozenset[str],
) -> _Case:
    stands = way.kind in ("original", "successor") or way.spoken_for
    here = way.applies and not way.changed and stands and way.kind not in ("measure", "book", "asked")
    apart = [row.feature for row in agreed if row.value is Tri.FALSE]
    off = [c for c in checks if c.state is State.OFF and c.definition.role in _STOPS]
    unknown = [c for c in checks if c.state is State.UNKNOWN and not c.differs and _must_be_known(c)]
    kind = part.is_ in setting.graph.narrower(setting.interface.category.category)
    enough = kind and bool(setting.requirement.alternatives) and any(c.required for c in checks)
    return _Case(
        way=way,
        checks=checks,
        setting=setting,
        claimed=here and not way.hint,
        off=tuple(dict.fromkeys([*(c.feature for c in off if not (here and _waives(way, c))), *apart])),
        by_dimensions=enough and not off and not unknown and not apart,
        missing=tuple(c.feature for c in unknown if not (here and not way.hint and _waives(way, c))),
        asks=(),
        forbidden=False,
        hand=Hand(Tri.TRUE),
        own_trial=own_trial,
    )


def _must_be_known(check: Check) -> bool:
    """An optional feature only where both sides state it, and it cannot be told whether they agree."""
    both = bool(check.needed and check.offered) and check.definition.role in _HARD
    return check.required or both


def _waives(way: Way, check: Check) -> bool:
    """Whether stated work or companions take care of a feature; of one that protects only on first-hand evidence."""
    return check.feature in (way.vouched if check.definition.role is Role.SAFE else way.waives)


def _waived(case: _Case) -> frozenset[str]:
    if not case.claimed:
        return frozenset()
    return frozenset(c.feature for c in case.checks if _waives(case.way, c))


def _asked(agreed: tuple[Agreed, ...]) -> tuple[Ask, ...]:
    return tuple(row.ask for row in agreed if row.value is Tri.ASK)


def _unseen(way: Way, setting: Setting) -> tuple[Ask, ...]:
    """Where somebody may come to harm, nothing but what the maker put there goes onto what nobody has looked at."""
    by_the_book = way.kind in ("original", "successor")
    return setting.unseen if setting.rules.trap_stands and not by_the_book else ()


def _word(case: _Case) -> tuple[Word, str]:
    """The rows of the table, first that applies."""
    way, rules = case.way, case.setting.rules
    if any(c.state is State.TRAP for c in case.checks):
        soft = not rules.trap_stands and case.claimed and way.first_hand
        return (Word.DISPUTED, "row-trap-disputed") if soft else (Word.DOES_NOT_FIT, "row-trap")
    if case.setting.resolved.there.value is Tri.FALSE:
        return Word.DOES_NOT_FIT, "way"
    if case.hand.fits is Tri.FALSE:
        return Word.DOES_NOT_FIT, "row-other-hand"
    if case.forbidden:
        return Word.DOES_NOT_FIT, "row-forbidden"
    if "shop" in case.own_trial:
        return Word.DOES_NOT_FIT, "row-own-trial"
    if case.off:
        return (Word.DISPUTED, "row-claimed-but-off") if case.claimed else (Word.DOES_NOT_FIT, "row-off")
    if way.changed and case.missing:
        return Word.DOES_NOT_FIT, "row-changed"
    if case.own_trial:
        return Word.DISPUTED, "row-own-trial-answered"
    if way.spoken_against == "taken-back":
        return Word.UNPROVEN, "row-taken-back"
    if way.spoken_against:
        return (Word.DISPUTED, "row-disputed") if way.spoken_for else (Word.UNPROVEN, "row-others-say-no")
    if case.claimed:
        return _claimed(case)
    if not case.by_dimensions:
        return Word.UNPROVEN, "row-missing"
    return (Word.DEPENDS, "row-measure-asks") if case.asks else (Word.BY_MEASURE, "row-measure")


def _claimed(case: _Case) -> tuple[Word, str]:
    """Somebody's word stands and nothing speaks against it: is it enough, and does it hold here?"""
    way, setting = case.way, case.setting
    if not way.proven:
        return Word.UNPROVEN, "row-too-little-evidence"
    if way.kind != "original":
        if not way.measured and case.missing:
            return Word.UNPROVEN, "row-scope-unknown"
        safe = [c for c in case.checks if c.definition.role is Role.SAFE and c.required]
        unknown = [c for c in safe if c.state is State.UNKNOWN and not _waives(way, c)]
        if unknown and setting.interface.safety in _MUST_KNOW_SAFE:
            return Word.UNPROVEN, "row-safe-unknown"
    if way.condition is Tri.ASK or case.asks:
        return Word.DEPENDS, "row-depends"
    work = bool(way.work or way.minutes or way.extras or still_to_buy(way.companions, setting))
    work = work or any(c.state is State.WORK and c.feature not in way.waives for c in case.checks)
    return (Word.FITS_WITH_WORK, "row-fits-with-work") if work else (Word.FITS, "row-fits")
