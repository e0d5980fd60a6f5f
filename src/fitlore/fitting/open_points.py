"""What is left to ask: of the car, of the part, of the place, and which side a part is for."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.conditions import merge_asks
from fitlore.fitting.interface import HANDED
from fitlore.fitting.numbered import number_side
from fitlore.fitting.place import on_a_side
from fitlore.fitting.shape import Ask, Check, State, Way
from fitlore.model.because import Because
from fitlore.model.choices import Role, SafetyClass, Side, Sides
from fitlore.model.kleene import Tri
from fitlore.model.part import Part

if TYPE_CHECKING:
    from fitlore.fitting.ways import Setting

_MATTERS = frozenset({Role.MATES, Role.WORKS, Role.SAFE, Role.JOINS})
_BOTH = (Side.LEFT.value, Side.RIGHT.value)


class Hand(NamedTuple):
    """Whether the part is for the side asked about, what to ask where that is unknown, and the work that makes it so."""

    fits: Tri
    asks: tuple[Ask, ...] = ()
    work: tuple[str, ...] = ()
    minutes: int = 0
    steps: tuple[Because, ...] = ()
    """What the part's number says of its side."""


_ASK_PART = Hand(Tri.ASK, (Ask("feature", "side", "hold it up against the old one", _BOTH),))


def open_points(
    way: Way,
    checks: Iterable[Check],
    setting: Setting,
    waived: frozenset[str],
    more: Iterable[Iterable[Ask]],
) -> tuple[Ask, ...]:
    """Every question that a yes would still hang on; what is waived is not asked, except where it may be a trap."""
    asks = [way.asks, setting.resolved.there.asks]
    for check in checks:
        unread = check.feature in setting.interface.look_first
        if check.state is State.UNKNOWN and (check.perhaps_trap or unread or check.feature not in waived):
            asks.append(about(check, way, setting))
    return merge_asks([*asks, *more])


def hand_of(part: Part, way: Way, setting: Setting) -> Hand:
    """Left and right: a part marked for the other side is none for this one, unless its kind can be changed over.

    Where the part's number says another side than its record, or than the one asked about, that is a question at least.
    """
    said, hand = number_side(setting.graph, part), _hand(part, way, setting)
    if said is None:
        return hand
    differs = part.side in (Side.LEFT, Side.RIGHT) and part.side is not said
    other = _wanted_side(setting) not in ("", said.value) and way.kind != "original"
    step = Because("number-says-side", {"part": part.part, "side": said.value}, (part.origin,))
    doubtful = hand.fits is Tri.TRUE and not hand.work and (differs or other)
    return _ASK_PART._replace(steps=(step,)) if doubtful else hand._replace(steps=(step, *hand.steps))


def _hand(part: Part, way: Way, setting: Setting) -> Hand:
    sides, wanted, mine = setting.interface.sides, _wanted_side(setting), _left_or_right(part.side)
    if mine and wanted and mine != wanted:
        if sides is Sides.CHANGEABLE:
            return _changed_over(setting, wanted)
        return _ASK_PART if sides is Sides.SAME_BOTH_SIDES else Hand(Tri.FALSE)
    known = part.side is Side.EITHER or (mine and wanted) or sides not in HANDED
    if known or (way.kind == "original" and not setting.resolved.place.sides):
        return Hand(Tri.TRUE)
    if mine:
        return Hand(Tri.ASK, (Ask("place", "side", "which side is asked about", _BOTH),))
    return _ASK_PART


def _changed_over(setting: Setting, wanted: str) -> Hand:
    """What the nearest category says of it, its work before its note."""
    chain = [setting.graph.category(name) for name in setting.interface.names]
    work = next((one.sides_work for one in chain if one and one.sides_work), None)
    note = next((one.sides_note for one in chain if one and one.sides_note), "")
    do = (work.do if work else "") or note or f"change it over to the {wanted} side"
    minutes = work.minutes if work else 0
    step = Because("takes-work", {"do": do, "minutes": str(minutes or "")})
    return Hand(Tri.TRUE, (), (do,), minutes, (step,))


def _left_or_right(side: Side | None) -> str:
    return side.value if side in (Side.LEFT, Side.RIGHT) else ""


def _wanted_side(setting: Setting) -> str:
    """The side asked about; at a place without sides the one its originals are marked for."""
    if on_a_side(setting.side):
        return setting.side
    marked = {part.side.value for part in setting.requirement.valid if part.side in (Side.LEFT, Side.RIGHT)}
    return marked.pop() if len(marked) == 1 and not setting.resolved.place.sides else ""


def about(check: Check, way: Way, setting: Setting) -> tuple[Ask, ...]:
    """What to ask about a feature that is unknown; nothing where somebody's trial, or the book, answers for it."""
    matters = check.definition.role in _MATTERS
    if check.differs and matters and (check.conflict or way.kind != "original"):
        if not check.offered:
            return (Ask("feature", check.feature, check.definition.look),)
        return setting.requirement.asks or (Ask("place", check.feature, check.definition.look),)
    claimed = way.kind in ("claim", "place-claim") and setting.interface.safety is not SafetyClass.NONE
    if claimed and check.feature in setting.interface.look_first and not check.differs:
        return (Ask("feature", check.feature, check.definition.look),)
    return ()
