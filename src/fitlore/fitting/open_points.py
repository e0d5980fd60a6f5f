"""What is left to ask: of the car, of the part, of the place, and which side a part is for."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.conditions import merge_asks
from fitlore.fitting.interface import HANDED
from fitlore.fitting.place import on_a_side
from fitlore.fitting.shape import Ask, Check, State, Way
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
    asks: tuple[Ask, ...]
    work: tuple[str, ...]


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
    """Left and right: a part marked for the other side is none for this one, unless its kind can be changed over."""
    sides, wanted = setting.interface.sides, _wanted_side(setting)
    mine = part.side.value if part.side in (Side.LEFT, Side.RIGHT) else ""
    ask_part = Hand(Tri.ASK, (Ask("feature", "side", "hold it up against the old one", _BOTH),), ())
    if mine and wanted and mine != wanted:
        if sides is Sides.CHANGEABLE:
            note = setting.interface.category.sides_note or f"change it over to the {wanted} side"
            return Hand(Tri.TRUE, (), (note,))
        return ask_part if sides is Sides.SAME_BOTH_SIDES else Hand(Tri.FALSE, (), ())
    known = part.side is Side.EITHER or (mine and wanted) or sides not in HANDED
    if known or (way.kind == "original" and not setting.resolved.place.sides):
        return Hand(Tri.TRUE, (), ())
    if mine:
        return Hand(Tri.ASK, (Ask("place", "side", "which side is asked about", _BOTH),), ())
    return ask_part


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
