"""The verdict table: the first row that applies, per way; the best way leads."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from fitlore.fitting.companions import still_to_buy
from fitlore.fitting.conditions import merge_asks
from fitlore.fitting.requirement import other_side
from fitlore.fitting.shape import Ask, Check, State, Verdict, Way, Word
from fitlore.fitting.ways import Setting
from fitlore.model.because import Because
from fitlore.model.choices import Role, SafetyClass, Side, Sides
from fitlore.model.kleene import Tri
from fitlore.model.part import Part

_MUST_KNOW_SAFE = frozenset(
    {SafetyClass.BRAKING, SafetyClass.STEERING, SafetyClass.RESTRAINT, SafetyClass.FUEL}
)
_HARD = frozenset({Role.MATES, Role.WORKS, Role.SAFE})


class Judged(NamedTuple):
    """One way's verdict, with what is left to ask and the step of the proof that decided."""

    word: Word
    way: Way
    asks: tuple[Ask, ...]
    missing: tuple[str, ...]
    because: Because


def judge(part: Part, ways: Iterable[Way], checks: tuple[Check, ...], setting: Setting) -> Verdict:
    """One verdict per way; the best leads, but what speaks against the part itself counts for all ways."""
    all_ways = tuple(ways)
    own_no = any(way.spoken_against == "shop" for way in all_ways)
    judged = [_way(part, way, checks, setting, own_no=own_no) for way in all_ways]
    judged.sort(key=lambda j: (j.word.rank, _order(j.way), j.way.minutes))
    best = judged[0]
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
        way=best.way,
        others=tuple(j.way for j in judged[1:]),
        checks=checks,
        asks=best.asks,
        missing=best.missing,
        danger=danger,
        because=Because("verdict", values, (part.origin,), under=under),
    )


def _order(way: Way) -> int:
    return ["original", "successor", "claim", "place-claim", "measure", "book", "asked"].index(way.kind)


def _way(part: Part, way: Way, checks: tuple[Check, ...], setting: Setting, *, own_no: bool) -> Judged:
    off = [
        c
        for c in checks
        if c.state is State.OFF and c.definition.role in _HARD and c.feature not in way.waives
    ]
    off += [
        c
        for c in checks
        if c.state is State.OFF and c.definition.role is Role.JOINS and c.feature not in way.waives
    ]
    asks, missing = _open_points(part, way, checks, setting)
    claimed = (
        way.kind in ("claim", "place-claim", "successor", "original")
        and way.applies
        and not way.hint
        and not way.changed
    )
    hand = other_side(part, setting.side) and setting.interface.sides in (Sides.MIRROR, Sides.OTHER_LENGTH)
    word, code = _word(
        way,
        checks,
        setting,
        off=off,
        missing=missing,
        claimed=claimed,
        own_no=own_no,
        other_hand=hand,
        asks=asks,
    )
    values = {
        "word": word.value,
        "way": way.kind,
        "off": ", ".join(c.feature for c in off),
        "missing": ", ".join(missing),
        "class": setting.interface.safety.value,
        "side": part.side.value if part.side else "",
    }
    return Judged(word, way, asks, missing, Because(code, values, under=(way.because,)))


def _word(
    way: Way,
    checks: tuple[Check, ...],
    setting: Setting,
    *,
    off: list[Check],
    missing: tuple[str, ...],
    claimed: bool,
    own_no: bool,
    other_hand: bool,
    asks: tuple[Ask, ...],
) -> tuple[Word, str]:
    """The rows of the table, first that applies."""
    if any(c.state is State.TRAP for c in checks):
        soft = not setting.rules.trap_stands and claimed and way.first_hand
        return (Word.DISPUTED, "row-trap-disputed") if soft else (Word.DOES_NOT_FIT, "row-trap")
    if other_hand:
        return Word.DOES_NOT_FIT, "row-other-hand"
    if way.forbidden:
        return Word.DOES_NOT_FIT, "row-forbidden"
    if own_no:
        later = way.spoken_against == "outweighed" and way.first_hand
        return (Word.DISPUTED, "row-own-trial-answered") if later else (Word.DOES_NOT_FIT, "row-own-trial")
    if off:
        return (Word.DISPUTED, "row-claimed-but-off") if claimed else (Word.DOES_NOT_FIT, "row-off")
    if way.spoken_against:
        return (Word.DISPUTED, "row-disputed") if way.spoken_for else (Word.UNPROVEN, "row-others-say-no")
    if way.changed and missing:
        return Word.DOES_NOT_FIT, "row-changed"
    if claimed:
        return _claimed(way, checks, setting, asks=asks, missing=missing)
    if missing or not checks or not setting.requirement.alternatives:
        return Word.UNPROVEN, "row-missing"
    if way.kind != "asked":
        return (Word.DEPENDS, "row-measure-asks") if asks else (Word.BY_MEASURE, "row-measure")
    return Word.UNPROVEN, "row-missing"


def _claimed(
    way: Way, checks: tuple[Check, ...], setting: Setting, *, asks: tuple[Ask, ...], missing: tuple[str, ...]
) -> tuple[Word, str]:
    """Somebody's word stands and nothing speaks against it: is it enough, and does it hold here?"""
    if way.kind != "original":
        if not way.proven:
            return Word.UNPROVEN, "row-too-little-evidence"
        if _scopeless(way) and not way.measured and missing:
            return Word.UNPROVEN, "row-scope-unknown"
    unknown_safe = [
        c for c in checks if c.definition.role is Role.SAFE and c.required and c.state is State.UNKNOWN
    ]
    if way.kind != "original" and unknown_safe and setting.interface.safety in _MUST_KNOW_SAFE:
        return Word.UNPROVEN, "row-safe-unknown"
    if way.condition is Tri.ASK or asks:
        return Word.DEPENDS, "row-depends"
    work = bool(way.work or way.minutes or way.extras or still_to_buy(way.companions, setting))
    work = work or any(c.state is State.WORK and c.feature not in way.waives for c in checks)
    return (Word.FITS_WITH_WORK, "row-fits-with-work") if work else (Word.FITS, "row-fits")


def _scopeless(way: Way) -> bool:
    return any(not claim.reaches and claim.at is None for claim in way.claims)


def _open_points(
    part: Part, way: Way, checks: tuple[Check, ...], setting: Setting
) -> tuple[tuple[Ask, ...], tuple[str, ...]]:
    """The questions a claim leaves open, and the required features that nobody knows."""
    unknown = [c for c in checks if c.required and c.state is State.UNKNOWN and c.feature not in way.waives]
    missing = tuple(c.feature for c in unknown if not c.differs)
    asks = list(way.asks)
    for check in checks:
        if check.state is not State.UNKNOWN:
            continue
        if check.differs and way.kind != "original" and check.definition.role in _HARD:
            asks += setting.requirement.asks or (Ask("place", check.feature, check.definition.look),)
        elif way.kind in ("claim", "place-claim") and check.feature in setting.interface.look_first:
            if setting.interface.safety is not SafetyClass.NONE:
                asks.append(Ask("feature", check.feature, check.definition.look))
    asks += _side_asks(part, checks, setting)
    return merge_asks([asks]), missing


def _side_asks(part: Part, checks: tuple[Check, ...], setting: Setting) -> list[Ask]:
    """A mirror part whose side is not known, and features that must agree with what stays on the other side."""
    asks = []
    sides = setting.resolved.place.sides
    if setting.interface.sides in (Sides.MIRROR, Sides.OTHER_LENGTH) and sides and part.side is None:
        asks.append(
            Ask("feature", "side", "hold it up against the old one", (Side.LEFT.value, Side.RIGHT.value))
        )
    if setting.side and not setting.both:
        for check in checks:
            if check.definition.with_ == "other-side" and check.state in (State.OK, State.WORK):
                asks.append(Ask("other-side", check.feature, check.definition.look))
    return asks
