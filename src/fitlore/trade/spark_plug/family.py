"""Spark plugs as a family: thread, seat and reach decide whether it may go in; heat only by one and the same scale."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.family import About
from fitlore.trade.measured import Bound, Figure, Made, Shape, Trait, read_made, trait_piece
from fitlore.trade.measured_family import MeasuredFamily
from fitlore.trade.pieces import PRACTICE, Piece, shown, verdict, words
from fitlore.trade.result import FamilyResult, FamilyState, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import weakest
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.reading import read as read_thread
from fitlore.trade.thread.value import Thread

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP, _ASK = FamilyState.TRAP, FamilyState.UNREADABLE
EXAMPLES: Final = (
    "spark plug M14x1.25, flat seat, reach 19 mm",
    "spark plug M14x1.25, conical seat, heat 7 of Merrow, reach 17.5 mm, hexagon 16 mm",
)
_ALIKE: Final = Decimal("0.3")
"""How far apart, in mm, two figures may be that are one reach: 3/4 in and 19 (common practice)."""
_NEAR: Final = Decimal(1)
"""Under so many mm apart it may be one reach, measured otherwise: to be measured again (common practice)."""
_HEXAGON: Final = Decimal("0.5")
_NAME: Final = r"[A-Za-z][A-Za-z-]{1,19}"
_HEAT: Final = words(
    r",?\s*\bheat(?: (?:range|value|figure|number))?:? ?(?P<figure>\d{1,3}[A-Z]?)\b"
    rf"(?: \(?(?:(?:of|on|by)(?: the)? (?P<of>{_NAME})(?:'s)?(?: scale)?|(?P<scale>{_NAME})(?:'s)? scale)\)?)?"
)
_SAID: Final = words(
    r"(?<![\w.,/])(?P<across>\d{1,2}) ?mm (?=(?:spark|sparking|ignition) ?plug|plug|thread\b)"
)
_CALLED: Final = words(r"\b(?:(?:spark|sparking|ignition) ?)?plugs?\b")
_LONG: Final = words(r"\b(?:extra |extended )?(?:long|short)[ -](?=reach\b)")
_TIP: Final = Trait(
    "tip",
    (
        ("projected tip", words(r"\b(?:projected|projecting|extended)(?: (?:tip|nose))?\b")),
        ("plain tip", words(r"\b(?:plain|standard|flush)(?: (?:tip|nose))?\b")),
    ),
    {
        ("plain tip", "projected tip"): Bound(_TRAP, "tip-long", "tell-tip"),
        ("projected tip", "plain tip"): Bound(_OFF, "tip-short"),
    },
    "whether the nose stands out of the thread",
)


class SparkPlugFamily(MeasuredFamily):
    """The family of kind `spark-plug`."""

    about = About(
        title="spark plugs",
        standards=("ISO 28741", "ISO 261"),
        spellings=(
            *EXAMPLES,
            "14 mm spark plug, 3/4 in reach, taper seat, 5/8 in hex",
            "sparking plug M14 x 1,25, gasket seat, long reach 19 mm, resistor",
            "18 mm plug, conical seat, reach 12 mm, hexagon 20,8 mm",
            "M14x1.25 spark plug, flat seat, reach 1/2, heat range 7 (Merrow scale), projected tip",
            "spark plug M12x1.25, flat seat, reach 26.5 mm, without resistor, solid terminal, gap 0.7 mm",
        ),
        not_said=(
            "the heat, where no figure with its scale is given",
            "how far the nose stands into the chamber, in mm",
            "the gap: it is set",
        ),
        gaps=(
            "makers' scales of heat against each other",
            "screened plugs",
            "conical reaches and hexagons: recalled",
            "old plugs in inch threads",
        ),
    )
    shape = Shape(
        "spark-plug",
        "spark plug",
        _CALLED,
        (
            Figure(
                "reach", "mm", "reach", _ALIKE, _ALIKE, Bound(_TRAP, "short"), Bound(_TRAP, "long"),
                "from the seat to the end of the thread, without the gasket",
            ),
            Figure(
                "hexagon", "mm", r"(?:hex(?:agon)?|across flats|a/?f|spanner)", _HEXAGON, _HEXAGON,
                Bound(_OK, "hexagon-small"), Bound(_OFF, "hexagon-big"), "across the flats, and the well",
            ),
            Figure(
                "gap", "mm", "gap", Decimal("0.05"), Decimal("0.05"), Bound(_WORK, "gap"), Bound(_WORK, "gap"),
                "between the electrodes",
            ),
        ),
        (
            Trait(
                "seat",
                (
                    ("flat seat", words(r"\b(?:flat|gasket(?:ed)?|washer)(?: seat(?:ing|ed)?)?\b")),
                    ("conical seat", words(r"\b(?:conical|cone|taper(?:ed)?)(?: seat(?:ing|ed)?)?\b")),
                ),
                {},
                "whether there is a ring under a flat shoulder",
            ),
            Trait(
                "resistor",
                (
                    ("no resistor", words(r"\b(?:no|without(?: a)?|non-?) ?resistor\b")),
                    ("resistor", words(r"\b(?:with (?:a )?)?resist(?:or|ive)\b")),
                ),
                {
                    ("resistor", "no resistor"): Bound(_OFF, "no-resistor"),
                    ("no resistor", "resistor"): Bound(_ASK, "resistor"),
                },
                "some thousand ohm from the terminal to the tip, or none",
            ),
            _TIP,
            Trait(
                "terminal",
                (
                    ("solid terminal", words(r"\b(?:solid(?: (?:nut|terminal))?|terminal solid)\b")),
                    ("terminal M4", words(r"\b(?:M4 (?:terminal|thread)|(?:terminal|thread) M4|threaded terminal)\b")),
                ),
                {
                    ("solid terminal", "terminal M4"): Bound(_WORK, "nut-on"),
                    ("terminal M4", "solid terminal"): Bound(_OFF, "nut-fixed"),
                },
                "whether the nut on top unscrews",
            ),
            Trait("heat", (), {}, "the car's book: the figure, and whose scale it is of"),
        ),
        ("thread", "seat", "reach"),
        EXAMPLES,
        threaded=True,
        filler=words(r"\b(?:with|and|of|for|a|the|reach|thread|seat)\b|(?<!\S)[&+;,](?!\S)"),
    )  # fmt: skip
    apart = ("seat", "reach", "heat", "tip")

    def made(self, text: str, standards: Standards) -> Made | Unreadable:
        """What a text says. A heat figure without the scale it is of is refused: it says nothing."""
        heat = _HEAT.search(text[:300])
        said = _LONG.sub("", _HEAT.sub(", ", text[:300]))
        if across := _SAID.search(said):
            rows = standards.table("plug-thread").find(diameter=across["across"])
            said = said.replace(across[0], f"{rows[0].word('thread')} ", 1) if rows else said
        found = read_made(said, self.shape, standards)
        if isinstance(found, Unreadable):
            threads = tuple(row.word("thread") for row in standards.table("plug-thread").rows)
            expected = threads if found.reason == "spark-plug-thread" else found.expected
            return Unreadable(text, found.reason, expected=expected)
        if heat is None:
            return found
        scale = heat["of"] or heat["scale"]
        if not scale:
            return Unreadable(text, "spark-plug-heat-scale", expected=(f"heat {heat['figure']} of Merrow",))
        figure = f"heat {heat['figure'].upper()} of {_named(scale)}"
        return found._replace(traits={**found.traits, "heat": figure})

    def more(self, wanted: Made, had: Made, standards: Standards) -> list[Piece]:
        """Seat, reach, nose and heat; nothing where the thread does not go in, for then nothing is in danger."""
        if any(piece.result.state is _OFF for piece in self._threads(wanted, had, standards)):
            return []
        found = [_seat(wanted.traits["seat"], had.traits["seat"], standards)]
        if wanted.traits["seat"] == had.traits["seat"]:
            found.append(Piece("reach", _reach(wanted.figures["reach"], had.figures["reach"])))
        if need := wanted.traits.get("tip"):
            found.append(trait_piece("spark-plug", _TIP, need, had.traits.get("tip", "")))
        if need := wanted.traits.get("heat"):
            found.append(Piece("heat", _heat(need, had.traits.get("heat", ""))))
        return found

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each listed reach, with each hexagon that is listed for its thread and seat."""
        for row in standards.table("plug-reach").rows:
            thread = read_thread(row.word("thread"), standards)
            assert isinstance(thread, Thread)
            across = dimensions(thread)
            bands = {
                "outside": Band(across.major - across.pitch * Decimal("0.15"), across.major, "down"),
                "pitch": Band.around(across.pitch),
                "length": Band.around(row.number("reach"), _ALIKE),
            }
            table = standards.table("plug-hexagon")
            listed = {
                r.number("hexagon"): r for r in table.find(thread=row.word("thread"), seat=row.word("seat"))
            }
            for hexagon, other in listed.items() or ((None, None),):
                rows = (row, other) if other else (row,)
                figures = {"reach": row.number("reach")} | ({"hexagon": hexagon} if hexagon else {})
                designation = str(Made(self.shape, figures, {"seat": row.word("seat")}, thread))
                flats = {"across-flats": Band.around(hexagon, _ALIKE)} if hexagon else {}
                values = {"plug": designation, "certainty": weakest(rows).value}
                because = Because(
                    "spark-plug-size", values, tuple(r.origin for r in rows), tuple(r.source for r in rows)
                )
                yield Sized("spark-plug", designation, bands | flats, because)


def _named(scale: str) -> str:
    """A scale's name in one spelling."""
    return scale.upper() if len(scale) <= 3 else scale.capitalize()


def _seat(need: str, have: str, standards: Standards) -> Piece:
    values = {"what": "seat", "needed": need, "offered": have}
    if need == have:
        return Piece("seat", verdict(_OK, "service-agrees", values))
    table = standards.table("plug-seat")
    rows = (*table.find(seat=need), *table.find(seat=have))
    values["seals"] = rows[0].word("seals")
    tells = [
        Because("spark-plug-tell-seat", {"seat": row.word("seat"), "tell": row.word("tell")}) for row in rows
    ]
    return Piece("seat", verdict(_TRAP, "spark-plug-trap-seat", values, rows, (PRACTICE,), tells))


def _reach(need: Decimal, have: Decimal) -> FamilyResult:
    """Longer meets the piston or carbons up its free turns; shorter burns hollow in the hole and carbons those."""
    gap = have - need
    values = {
        "what": "reach",
        "needed": f"{shown(need)} mm",
        "offered": f"{shown(have)} mm",
        "by": f"{shown(abs(gap))} mm",
    }
    if abs(gap) <= _ALIKE:
        return verdict(_OK, "service-agrees", values)
    if abs(gap) < _NEAR:
        return verdict(_ASK, "spark-plug-reach-near", values, sources=(PRACTICE,))
    code = "spark-plug-trap-long" if gap > 0 else "spark-plug-trap-short"
    return verdict(_TRAP, code, values, (), (PRACTICE,), (Because("spark-plug-tell-reach", values),))


def _heat(need: str, have: str) -> FamilyResult:
    """Figures of one scale are held against each other; of two scales, nothing is known."""
    values = {
        "what": "heat",
        "needed": need,
        "offered": have,
        "look": "the car's book, with whose scale it is",
    }
    if not have:
        return verdict(_ASK, "service-not-said", values)
    if need == have:
        return verdict(_OK, "service-agrees", values)
    if need.partition(" of ")[2] == have.partition(" of ")[2]:
        return verdict(_OFF, "spark-plug-heat", values, sources=(PRACTICE,))
    return verdict(_ASK, "spark-plug-heat-other-scale", values, sources=(PRACTICE,))


FAMILIES: Final = {"spark-plug": SparkPlugFamily()}
