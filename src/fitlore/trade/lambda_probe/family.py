"""Lambda probes as a family: what they work by decides first, then wires, heater and thread."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.family import About
from fitlore.trade.measured import Bound, Figure, Made, Shape, Trait, read_made
from fitlore.trade.measured_family import MeasuredFamily
from fitlore.trade.pieces import PRACTICE, Piece, verdict, words
from fitlore.trade.result import FamilyState, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import plain, weakest
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.reading import read as read_thread
from fitlore.trade.thread.value import Thread

_OK, _OFF, _TRAP, _ASK = FamilyState.OK, FamilyState.OFF, FamilyState.TRAP, FamilyState.UNREADABLE
EXAMPLES: Final = (
    "lambda probe M18x1.5, zirconia, wires 4, heater 4 ohm",
    "lambda probe titania, 3 wires",
)
_COUNTS: Final = {"one": "1", "single": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6"}
_COUNT: Final = words(rf"\b(?P<count>{'|'.join(_COUNTS)})(?=[- ]wires?\b)")
_HEATED: Final = words(r"\b(?P<un>un)?heated\b")


class LambdaProbeFamily(MeasuredFamily):
    """The family of kind `lambda-probe`."""

    about = About(
        title="lambda probes",
        standards=("ISO 261",),
        spellings=(
            *EXAMPLES,
            "4-wire zirconia oxygen sensor M18x1.5",
            "heated three-wire zirconia lambda sensor",
            "M12 x 1.25 titania O2 sensor, 4 wires, heater 5.5 ohm",
            "wideband lambda probe M18x1.5, 5 wires",
            "zirconia lambda probe 1 wire",
        ),
        not_said=(
            "the colours of the wires and the plug",
            "how long the cable is",
            "how far it reaches into the pipe",
            "whether it still swings",
        ),
        gaps=(
            "what each engine's control feeds and expects",
            "probes held by a flange",
            "probes behind a catalyst",
        ),
        ended=False,
    )
    shape = Shape(
        "lambda-probe",
        "lambda probe",
        words(r"\b(?:lambda|oxygen|O2) (?:probe|sensor)\b"),
        (
            Figure(
                "wires", "", r"wires", Decimal(0), Decimal(0), Bound(_OFF, "few-wires"), Bound(_ASK, "more-wires"),
                "how many wires leave it", r"[- ]?wires?",
            ),
            Figure(
                "heater", "ohm", r"heater", Decimal(3), Decimal(3), Bound(_OFF, "heater"), Bound(_OFF, "heater"),
                "between the two wires of one colour, cold",
            ),
        ),
        (
            Trait(
                "works by",
                (
                    ("zirconia", words(r"\bzircon(?:ia|ium)(?: dioxide)?\b|\bZrO2\b")),
                    ("titania", words(r"\btitan(?:ia|ium)(?: dioxide)?\b|\bTiO2\b")),
                    ("wide band", words(r"\bwide[- ]?band\b")),
                ),
                {},
                "the box, or whether it makes a voltage in a flame",
            ),
            Trait(
                "signal earth",
                (
                    ("earth by its own wire", words(r"\b(?:signal )?earth by (?:its )?own wire\b")),
                    ("earth through the body", words(r"\b(?:signal )?earth (?:through|by) (?:the )?body\b")),
                ),
                {
                    ("earth by its own wire", "earth through the body"): Bound(_OFF, "earth-body"),
                    ("earth through the body", "earth by its own wire"): Bound(_ASK, "earth-wire"),
                },
                "whether a wire measures through to the body",
            ),
        ),
        ("works by", "wires"),
        EXAMPLES,
        threaded=True,
    )  # fmt: skip
    apart = ("works by",)

    def made(self, text: str, standards: Standards) -> Made | Unreadable:
        """What a text says; a number of wires that no probe of its kind has is refused, and so is a heater on none."""
        said = _COUNT.sub(lambda match: _COUNTS[match["count"].casefold()], text[:200])
        heated = _HEATED.search(said)
        found = read_made(_HEATED.sub(" ", said), self.shape, standards)
        if isinstance(found, Unreadable):
            return Unreadable(text, found.reason, found.readings, found.expected)
        works, wires = found.traits["works by"], plain(found.figures["wires"])
        rows = standards.table("probe-wires").find(works=works, wires=wires)
        clash = heated is not None and rows and rows[0].word("heated") != ("no" if heated["un"] else "yes")
        if rows and not clash:
            return found
        counts = [row.cell("wires") for row in standards.table("probe-wires").find(works=works)]
        return Unreadable(
            text, "lambda-probe-wires", expected=tuple(f"{works}, {count} wires" for count in counts)
        )

    def more(self, wanted: Made, had: Made, standards: Standards) -> list[Piece]:
        """What they work by: another kind gives the control unit a signal that it cannot read."""
        need, have = wanted.traits["works by"], had.traits["works by"]
        values = {"what": "works by", "needed": need, "offered": have}
        if need == have:
            return [Piece("works by", verdict(_OK, "service-agrees", values))]
        table = standards.table("probe-kind")
        rows = (*table.find(works=need), *table.find(works=have))
        tells = [
            Because(
                "lambda-probe-tell-kind",
                {"works": row.word("works"), "signal": row.word("signal"), "tell": row.word("tell")},
            )
            for row in rows
        ]
        return [Piece("works by", verdict(_TRAP, "lambda-probe-trap-kind", values, rows, (PRACTICE,), tells))]

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each kind by its wires and the outside and pitch of its thread."""
        for kind in standards.table("probe-thread").rows:
            thread = read_thread(kind.word("thread"), standards)
            if not isinstance(thread, Thread):
                continue
            across = dimensions(thread)
            for row in standards.table("probe-wires").find(works=kind.word("works")):
                figures, traits = {"wires": row.number("wires")}, {"works by": row.word("works")}
                designation = str(Made(self.shape, figures, traits, thread))
                bands = {
                    "outside": Band(across.major - across.pitch * Decimal("0.15"), across.major, "down"),
                    "pitch": Band.around(across.pitch),
                    "strands": Band.around(row.number("wires")),
                }
                values = {"probe": designation, "certainty": weakest((kind, row)).value}
                because = Because(
                    "lambda-probe-size", values, (kind.origin, row.origin), (kind.source, row.source)
                )
                yield Sized("lambda-probe", designation, bands, because)


FAMILIES: Final = {"lambda-probe": LambdaProbeFamily()}
