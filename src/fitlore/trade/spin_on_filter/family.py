"""Oil filters that screw on, as a family: the thread is the first gate only; ring, height and valves decide with it."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.measured import Bound, Figure, Made, Shape, Trait, figure_piece, pieces, read_made
from fitlore.trade.pieces import PRACTICE, Piece, question, shown, together, verdict, words
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Sized
from fitlore.trade.standards import Standards
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.family import ThreadFamily
from fitlore.trade.thread.value import normal

_OK, _OFF, _TRAP, _ASK = FamilyState.OK, FamilyState.OFF, FamilyState.TRAP, FamilyState.UNREADABLE
EXAMPLES: Final = (
    "oil filter 3/4-16 UNF, gasket 72 mm, height 98 mm, bypass 1 bar, anti-drain",
    "oil filter M20x1.5, gasket 65 mm, no bypass",
)
_RING: Final = Decimal(1)
"""How far the middle of the ring may lie from that of its seat, in mm (common practice)."""
_FAR: Final = Decimal(8)
"""From this difference of rings on nobody takes the one for the other."""
_BYPASS: Final = Figure(
    "bypass", "bar", r"(?:bypass|by-pass|relief)(?: valve)?(?: opens| opening)?", Decimal("0.2"), Decimal("0.2"),
    Bound(_TRAP, "bypass-low", "tell-bypass"), Bound(_TRAP, "bypass-high", "tell-bypass"),
    "the opening pressure on the can, or in the engine's book",
)  # fmt: skip
SHAPE: Final = Shape(
    "spin-on-filter",
    "oil filter",
    words(r"\b(?:spin[- ]on )?(?:oil )?filter(?: cartridge)?\b"),
    (
        Figure(
            "gasket", "mm", r"(?:gasket|sealing ring|seal|ring)(?: (?:dia(?:meter)?|middle))?", _RING, _RING,
            Bound(_TRAP, "ring-small", "tell-ring", _FAR), Bound(_TRAP, "ring-big", "tell-ring", _FAR),
            "across the middle of the ring on the can",
        ),
        Figure(
            "height", "mm", "height", Decimal(0), Decimal(0), Bound(_OK, "height"), Bound(_OFF, "tall"),
            "the can from its plate to its end, and the room below", "high|tall",
        ),
        _BYPASS,
    ),
    (
        Trait(
            "bypass valve", (("no bypass", words(r"\b(?:no|without(?: a)?) (?:bypass|by-pass|relief)(?: valve)?\b")),), {},
            "look through the middle hole for a spring-loaded plate at the far end",
        ),
        Trait(
            "anti-drain",
            (
                ("no anti-drain", words(r"\b(?:no|without(?: an?)?) anti[- ]?drain(?:[- ]?back)?(?: valve)?\b")),
                ("anti-drain", words(r"\banti[- ]?drain(?:[- ]?back)?(?: valve)?\b")),
            ),
            {("anti-drain", "no anti-drain"): Bound(_TRAP, "drains", "tell-drain")},
            "look for a rubber disc under the ring of small holes",
        ),
    ),
    ("thread", "gasket"),
    EXAMPLES,
    threaded=True,
)  # fmt: skip


class SpinOnFilterFamily:
    """The family of kind `spin-on-filter`."""

    about = About(
        title="oil filters that screw on",
        standards=("ISO 261", "ASME B1.1"),
        spellings=(
            *EXAMPLES,
            "spin-on filter 3/4 UNF gasket 71,5 mm 98 mm high by-pass 15 psi with anti-drain valve",
            "oil filter M22 x 1.5, sealing ring 62 mm, without bypass, without anti-drainback valve",
            "filter 13/16-16 UN, 72 mm gasket, 100 mm tall",
        ),
        not_said=(
            "how fine the paper is",
            "whether the can bursts before the pump's own valve opens",
            "the room below and beside it",
        ),
        gaps=(
            "sizes of sealing rings: they are the engine's own, in no standard",
            "inserts without a can",
            "fuel filters that screw on",
        ),
        ended=False,
    )

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `oil filter 3/4-16 UNF, anti-drain, gasket 72 mm, height 98 mm, bypass 1 bar`."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        assert found.thread is not None
        sizes = dimensions(found.thread)
        keys = {"major": round(sizes.major, 4), "pitch": round(sizes.pitch, 4)}
        return Reading(str(found), keys=keys | {"gasket": found.figures["gasket"]})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """None: rings and heights are the engine's own; the spigot is told by its thread."""
        return ()

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Thread, ring, height and valves, each by itself. The filter has the nut; `end` is not needed."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        if str(wanted) == str(had):
            return verdict(_OK, "spin-on-filter-same", {"needed": str(wanted), "offered": str(had)})
        assert wanted.thread is not None
        assert had.thread is not None
        threads = ThreadFamily().compare(normal(wanted.thread), normal(had.thread), End.FEMALE, standards)
        found = [Piece("thread", threads), *pieces(wanted, had, ("bypass", "bypass valve"))]
        return together("spin-on-filter", str(wanted), str(had), [*found, *_bypass(wanted, had)])


def read(text: str, standards: Standards) -> Made | Unreadable:
    """The filter a text names. Without its ring it is a question; one with and without a valve is none."""
    found = read_made(text, SHAPE, standards)
    if isinstance(found, Unreadable):
        listed = tuple(row.word("thread") for row in standards.table("filter-thread").rows)
        bare = found.reason.endswith("-no-thread")
        return Unreadable(text, found.reason, found.readings, listed) if bare else found
    if found.says("bypass valve") and found.says("bypass"):
        return Unreadable(text, "spin-on-filter-unknown", expected=EXAMPLES)
    return found


def _bypass(wanted: Made, had: Made) -> list[Piece]:
    """Where the valve is belongs to the engine: a can without one starves it, a second one is to be asked about."""
    need, have = _said(wanted), _said(had)
    values = {"what": "bypass", "needed": need, "offered": have, "look": _BYPASS.look}
    if not need:
        return []
    if not have:
        return [Piece("bypass", verdict(_ASK, "service-not-said", values))]
    if "bypass" in wanted.figures and "bypass" in had.figures:
        return [figure_piece("spin-on-filter", _BYPASS, wanted.figures["bypass"], had.figures["bypass"])]
    if need == have:
        return [Piece("bypass", verdict(_OK, "service-agrees", values))]
    if have != "no bypass":
        return [Piece("bypass", verdict(_ASK, "spin-on-filter-second-bypass", values, sources=(PRACTICE,)))]
    tells = (Because("spin-on-filter-tell-bypass", values),)
    return [Piece("bypass", verdict(_TRAP, "spin-on-filter-trap-no-bypass", values, (), (PRACTICE,), tells))]


def _said(made: Made) -> str:
    figure = made.figures.get("bypass")
    return made.traits.get("bypass valve", "") if figure is None else f"{shown(figure)} bar"


FAMILIES: Final = {"spin-on-filter": SpinOnFilterFamily()}
