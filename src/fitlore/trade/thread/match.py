"""Two threads put together: the same, equivalent, going with work, different, or a trap.

Yes comes only from designations: the same size of the same series, or a pair that a standard itself puts together. The
geometry can only say no, and which kind of no:

- A *trap* can be started by hand or with little force and gets some hold: the threads overlap at all; crests and flanks
  let at least one whole turn in with the loosest ordinary tolerances (less is felt at once as cross-threading; from M3 on
  no two listed metric pitches of one diameter reach one); and the male is at most 12 % smaller than the hole (beyond that
  the eye sees it: 1.2 mm on 10; common practice). A taper is meant to jam, so that jamming warns nobody: there any start
  at all makes a trap.
- Everything else that is not a yes is *different*: it never starts, jams within the first turn, finds no hold, or is
  plainly too small.

Whitworth and Unified of one size and equal pitch (1/4-20) go together by the one number people look at; some shops do it
(common practice), others forbid it. The angles differ, so that the flanks touch along a line: it is a trap here.
"""

from __future__ import annotations

from decimal import Decimal
from enum import Enum
from typing import Final

import msgspec

from fitlore.model.choices import End
from fitlore.trade.thread.dimensions import ThreadDimensions, dimensions
from fitlore.trade.thread.engagement import SOURCE, Engagement, engage
from fitlore.trade.thread.rows import METRIC, NATIONAL_PIPE, TAPER_55, UNIFIED, WHITWORTH, Family
from fitlore.trade.thread.tell import Tell, tells
from fitlore.trade.thread.value import Thread

PRACTICE: Final = "common practice"
"""The source of what the trade does and no standard says."""
SEEN_BY_EYE: Final = Decimal("0.12")
"""Share of the diameter from which a male thread is plainly too small for the hole. Common practice."""


class Outcome(Enum):
    """What becomes of the pair."""

    SAME = "same"
    EQUIVALENT = "equivalent"
    WITH_WORK = "with-work"
    DIFFERENT = "different"
    TRAP = "trap"


class Direction(Enum):
    """How a pair that is no fit feels in the hand."""

    LOOSE = "loose"
    """Starts by hand, holds loosely, then fails."""
    TIGHT = "tight"
    """Jams after a few turns, and can be forced."""
    NEVER_STARTS = "never-starts"
    NO_HOLD = "no-hold"
    """Slides in without touching."""


class Why(Enum):
    """What decided."""

    DESIGNATION = "designation"
    STANDARD_PAIR = "standard-pair"
    SAME_FORM = "same-form"
    SEAL_THREAD = "seal-thread"
    SEAL_FACE = "seal-face"
    WRONG_HAND = "wrong-hand"
    GEOMETRY = "geometry"


class ThreadMatch(msgspec.Struct, frozen=True):
    """A male thread in a female one. Lengths in mm; `overlap` and `pitch_error` in per cent.

    `gap` is positive where the male is smaller; `overlap` is the share of the full thread depth that holds (below about
    75 % is weak); `turns` is None where nothing limits them, and counts at basic size, `turns_loosest` with the loosest
    ordinary tolerances. `tells` show on the bench which is which; `not_said` is what the designations leave open.
    """

    male: Thread
    female: Thread
    outcome: Outcome
    why: Why
    direction: Direction | None
    gap: Decimal
    overlap: Decimal
    pitch_error: Decimal
    clearance: Decimal
    turns: Decimal | None
    turns_loosest: Decimal | None
    tells: tuple[Tell, ...]
    not_said: tuple[str, ...]
    sources: tuple[str, ...]

    @property
    def fits(self) -> bool:
        """Whether the threads as such go together."""
        return self.outcome in (Outcome.SAME, Outcome.EQUIVALENT, Outcome.WITH_WORK)


def compare(male: Thread, female: Thread) -> ThreadMatch:
    """Put a male thread to a female one. A male called Rc is the R that goes into an Rc."""
    if male.family is Family.RC and not _same(male, female):
        male = _male_mate(male)
    outer, inner = dimensions(male), dimensions(female)
    found = engage(outer, inner)
    outcome, why, direction = _decide(male, female, outer, inner, found)
    return _match(male, female, (outcome, why, direction), found, tells(outer, inner, End.MALE))


def as_replacement(needed: Thread, offered: Thread, end: End) -> ThreadMatch:
    """Does the offered part's thread go where the needed part's thread went? `end` says which half both parts have.

    The other half, which stays on the car, is the needed thread's own mate. A taper male (R) may have stood in a taper
    or a parallel hole: the taper one is assumed, which lets less through.
    """
    plainly = end is End.MALE or _same(needed, offered)
    made = compare(offered, needed) if plainly else compare(_male_mate(needed), offered)
    shown = tells(dimensions(offered), dimensions(needed), end)
    return msgspec.structs.replace(made, tells=() if made.fits else shown)


def _male_mate(female: Thread) -> Thread:
    """The male thread that a female one is made for: R for Rc and Rp, else its own kind."""
    return msgspec.structs.replace(female, family=Family.R) if female.family in TAPER_55 else female


def _match(
    male: Thread,
    female: Thread,
    decided: tuple[Outcome, Why, Direction | None],
    found: Engagement,
    shown: tuple[Tell, ...],
) -> ThreadMatch:
    outcome, why, direction = decided
    no = outcome in (Outcome.DIFFERENT, Outcome.TRAP)
    grounds = {Why.GEOMETRY: (SOURCE,), Why.SEAL_THREAD: (PRACTICE,), Why.SEAL_FACE: (PRACTICE,)}
    sources = (male.form.standard, female.form.standard, *grounds.get(why, ()))
    return ThreadMatch(
        male=male,
        female=female,
        outcome=outcome,
        why=why,
        direction=direction,
        gap=_rounded(found.gap),
        overlap=_rounded(found.overlap * 100),
        pitch_error=_rounded(found.pitch_error * 100),
        clearance=_rounded(found.clearance),
        turns=None if found.turns is None else _rounded(found.turns),
        turns_loosest=None if found.turns_loosest is None else _rounded(found.turns_loosest),
        tells=shown if no else (),
        not_said=_not_said(male, female),
        sources=tuple(dict.fromkeys(sources)),
    )


def _rounded(value: Decimal) -> Decimal:
    return round(value, 4)


def _decide(
    male: Thread, female: Thread, outer: ThreadDimensions, inner: ThreadDimensions, found: Engagement
) -> tuple[Outcome, Why, Direction | None]:
    if male.hand is not female.hand:
        return Outcome.DIFFERENT, Why.WRONG_HAND, Direction.NEVER_STARTS
    known = _by_designation(male, female, outer, inner)
    if known:
        return *known, None
    outcome, direction = _by_geometry(outer, inner, found)
    return outcome, Why.GEOMETRY, direction


def _same(one: Thread, other: Thread) -> bool:
    return one.row.identity == other.row.identity and one.family is other.family and one.hand is other.hand


def _by_designation(
    male: Thread, female: Thread, outer: ThreadDimensions, inner: ThreadDimensions
) -> tuple[Outcome, Why] | None:
    """The pairs that go together: the same thread, the pairs a standard makes, and pipe threads that need a seal.

    ISO 7-1 joins its taper male to a taper or a parallel female and calls parallel males unfit to seal on the thread.
    R in a G port and NPT with NPTF are common practice, with a compound on the thread; G in Rp with a washer on the face.
    """
    if _same(male, female):
        return Outcome.SAME, Why.DESIGNATION
    if _basic(outer) != _basic(inner):
        return None  # from here on one form: each pair below lies within one group of series
    pair = (male.family, female.family)
    if pair in {(Family.R, Family.RC), (Family.R, Family.RP)}:
        return Outcome.EQUIVALENT, Why.STANDARD_PAIR
    if set(pair) == NATIONAL_PIPE or pair == (Family.R, Family.G):
        return Outcome.WITH_WORK, Why.SEAL_THREAD
    if pair == (Family.G, Family.RP):
        return Outcome.WITH_WORK, Why.SEAL_FACE
    if any(set(pair) <= group for group in (METRIC, UNIFIED, WHITWORTH)):
        return Outcome.EQUIVALENT, Why.SAME_FORM
    return None


def _basic(sizes: ThreadDimensions) -> tuple[Decimal, Decimal]:
    return sizes.major, sizes.pitch


def _by_geometry(
    outer: ThreadDimensions, inner: ThreadDimensions, found: Engagement
) -> tuple[Outcome, Direction]:
    most = found.turns_loosest
    if found.overlap <= 0:
        return Outcome.DIFFERENT, Direction.NO_HOLD
    if not found.passes or (most is not None and most <= 0):
        return Outcome.DIFFERENT, Direction.NEVER_STARTS
    if found.gap > SEEN_BY_EYE * inner.major:
        return Outcome.DIFFERENT, Direction.LOOSE
    loose = found.gap > 0 and (found.turns is None or found.turns >= 1)
    tapered = bool(outer.taper or inner.taper)
    enough = most is None or tapered or most >= 1
    return Outcome.TRAP if enough else Outcome.DIFFERENT, Direction.LOOSE if loose else Direction.TIGHT


def _not_said(male: Thread, female: Thread) -> tuple[str, ...]:
    """What no designation of a thread tells, and a joint may still fail by."""
    if male.form.taper or female.form.taper:
        return "thread-length", "sealing"
    return "thread-length", "seat", "flare", "sealing"
