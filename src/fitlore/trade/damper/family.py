"""Dampers as a family: open and closed length, and both mountings. Everybody compares them pulled out; both count."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.damper.tables import MOUNTS
from fitlore.trade.family import About
from fitlore.trade.measured import Bound, Figure, Made, Shape, Trait, figure_piece, read_made
from fitlore.trade.measured_family import MeasuredFamily
from fitlore.trade.pieces import FIGURE, PRACTICE, Piece, verdict, words
from fitlore.trade.result import FamilyState, Unreadable
from fitlore.trade.standards import Standards

_OK, _WORK, _OFF = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.OFF
_TRAP = FamilyState.TRAP
EXAMPLES: Final = (
    "damper, upper stud, lower eye, open 520 mm, closed 330 mm, upper size 10 mm, lower size 12 mm",
    "damper 520/330 mm, top stud 10 mm, bottom eye 12 mm",
)
_ENDS: Final = {"upper": "upper", "top": "upper", "lower": "lower", "bottom": "lower"}
_MOUNT: Final = r"(?P<mount>stud|stem|pin|eye|loop|ring|bar[- ]pin|cross[- ]pin|fork|clevis)"
_SAME: Final = {"stem": "stud", "pin": "stud", "loop": "eye", "ring": "eye", "clevis": "fork"}
_AMOUNT: Final = rf"(?P<size>{FIGURE}(?: ?(?:mm|\"|in(?:ch)?))?)"
_END: Final = words(rf"\b(?P<end>upper|top|lower|bottom) (?:mount(?:ing)? )?{_MOUNT}(?: {_AMOUNT})?(?![\w/])")
_LENGTHS: Final = words(
    r"(?<![\w/.,-])(?P<one>\d{3}(?:[.,]\d)?)(?: ?mm)? ?(?:/|-|to) ?(?P<two>\d{3}(?:[.,]\d)?)(?: ?mm)?(?![\w/.,-]\d)"
)
_PLAY: Final = Decimal("0.2")
_DROOP: Final = Decimal(6)
"""How far open lengths may be apart, in mm (common practice: rubbers give so much)."""
_NEAR: Final = Decimal(3)


def _mounted(end: str) -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple((f"{end} {mount}", words(rf"\b{end} {mount}\b")) for mount in MOUNTS)


def _size(end: str) -> Figure:
    bound = Bound(_OFF, "other-mount")
    return Figure(
        f"{end} size",
        "mm",
        f"{end} size",
        _PLAY,
        _PLAY,
        bound,
        bound,
        "the stud's outside, or the hole for the bolt",
    )


class DamperFamily(MeasuredFamily):
    """The family of kind `damper`."""

    about = About(
        title="dampers by lengths and mountings",
        standards=(),
        spellings=(
            *EXAMPLES,
            "shock absorber open 556.8 mm closed 353.6 mm, upper eye 1/2 in, lower eye 1/2 in",
            "damper 330-520 mm, upper mounting stem 10 mm, lower clevis 12 mm, gas",
            "damper open 21.92 in, closed 13.92 in, top bar pin, bottom stud",
        ),
        not_said=(
            "how hard it damps",
            "where the bump stop takes over",
            "whether a spring sits on it",
            "the width of the eye's sleeve",
        ),
        gaps=("damping forces", "struts and inserts", "lever-arm dampers", "widths of sleeves"),
    )
    shape = Shape(
        "damper",
        "damper",
        words(r"\b(?:(?:front|rear|telescopic|gas) )*(?:dampers?|shock(?: absorber|er)?s?)\b"),
        (
            Figure(
                "open", "mm", r"(?:open|extended)(?: length)?", _DROOP, _DROOP,
                Bound(_TRAP, "tops-out", "tell-open"), Bound(_TRAP, "droops", "tell-droop"),
                "mount to mount pulled right out",
            ),
            Figure(
                "closed", "mm", r"(?:closed|compressed)(?: length)?", Decimal(1), Decimal(1),
                Bound(_OK, "closed-short"), Bound(_TRAP, "bottoms", "tell-closed"),
                "mount to mount pushed right in",
            ),
            _size("upper"),
            _size("lower"),
        ),
        (
            Trait("upper mounting", _mounted("upper"), {}, "the form of the upper end"),
            Trait("lower mounting", _mounted("lower"), {}, "the form of the lower end"),
            Trait(
                "filling",
                (("gas", words(r"\bgas(?:[- ](?:filled|pressure))?\b")), ("oil", words(r"\boil(?:[- ]filled)?\b"))),
                {("oil", "gas"): Bound(_WORK, "lifts"), ("gas", "oil"): Bound(_WORK, "sinks")},
                "whether it comes out by itself when pushed in",
            ),
        ),
        ("open", "closed", "upper mounting", "lower mounting"),
        EXAMPLES,
    )  # fmt: skip
    apart = ("upper mounting", "lower mounting", "upper size", "lower size")

    def made(self, text: str, standards: Standards) -> Made | Unreadable:
        """What a text says; the bigger of two lengths is the open one, and a closed one that is not shorter is none."""
        gas = " gas" if words(r"\bgas (?:damper|shock)").search(text) else ""
        spelt = _LENGTHS.sub(_as_lengths, _END.sub(_as_end, text[:300])) + gas
        found = read_made(spelt, self.shape, standards)
        if isinstance(found, Unreadable):
            return Unreadable(text, found.reason, found.readings, found.expected)
        opened, closed = found.figures["open"], found.figures["closed"]
        if not opened / 3 < closed < opened:
            return Unreadable(text, "damper-lengths", expected=EXAMPLES)
        return found

    def more(self, wanted: Made, had: Made, standards: Standards) -> list[Piece]:
        """Each mounting by its form, and where that is the same, by its size."""
        found: list[Piece] = []
        for end in ("upper", "lower"):
            form, size = f"{end} mounting", f"{end} size"
            need, have = wanted.traits[form], had.traits[form]
            values = {"what": form, "needed": need, "offered": have}
            table = standards.table("damper-mount")
            rows = [*table.find(mount=need.partition(" ")[2]), *table.find(mount=have.partition(" ")[2])]
            if need != have:
                tells = [
                    Because("damper-tell-mount", {"mount": row.word("mount"), "tell": row.word("tell")})
                    for row in rows
                ]
                found.append(
                    Piece(form, verdict(_OFF, "damper-other-mount", values, rows, (PRACTICE,), tells))
                )
                continue
            found.append(Piece(form, verdict(_OK, "service-agrees", values)))
            if size in wanted.figures:
                figure = _by_form(end, rows[0].word("size"))
                found.append(figure_piece("damper", figure, wanted.figures[size], had.figures.get(size)))
        return found


def _by_form(end: str, size: str) -> Figure:
    """A thin stud and a wide hole are loose; a thick stud and a narrow hole do not go."""
    loose, tight = Bound(_TRAP, f"loose-{size}", f"tell-loose-{size}", _NEAR), Bound(_OFF, f"tight-{size}")
    small, big = (loose, tight) if size == "outside" else (tight, loose)
    return _size(end)._replace(small=small, big=big)


def _as_end(match: re.Match[str]) -> str:
    """`top stem 10 mm` as the shape has it."""
    end, mount = _ENDS[match["end"].casefold()], match["mount"].casefold().replace("-", " ")
    mount = _SAME.get(mount, "bar pin" if " " in mount else mount)
    return f"{end} {mount}, " + (f"{end} size {match['size']}, " if match["size"] else "")


def _as_lengths(match: re.Match[str]) -> str:
    one, two = (Decimal(match[name].replace(",", ".")) for name in ("one", "two"))
    return f" open {max(one, two)} mm, closed {min(one, two)} mm, "


FAMILIES: Final = {"damper": DamperFamily()}
