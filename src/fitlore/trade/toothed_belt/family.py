"""Toothed belts as a family of standards: number of teeth, form of tooth, width.

Teeth of one pitch and another form go into the wheel and look right: that is the trap. A tooth more or less is no size to
ask about, for it moves the camshaft.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.family import About
from fitlore.trade.pieces import PRACTICE, Piece, Words, question, shown, together, verdict, words
from fitlore.trade.result import FamilyResult, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import Band, Sized
from fitlore.trade.standards import Standards
from fitlore.trade.table import TableRow

_OK, _ASK, _OFF, _TRAP = FamilyState.OK, FamilyState.UNREADABLE, FamilyState.OFF, FamilyState.TRAP
EXAMPLES: Final = ("104ZA19", "129YU25.4", "104 teeth ZA 19 mm")
PLAY: Final = Decimal("0.5")
"""Difference of widths in mm that goes for one width: 25 and 25.4 (common practice)."""
_TEETH: Final = range(20, 300)
_SHORT: Final = words(
    r"(?<![\w.,])(\d{2,3}) ?([ZY][A-Z])(?: ?[x-]? ?(\d{1,2}(?:[.,]\d{1,2})?))?(?: ?mm)?(?![\w.,/])"
)
_COUNT: Final = words(r"(?<![\w.,])(\d{2,3}) ?(?:teeth|tooth)\b")
_FORM: Final = words(r"(?<![A-Z0-9])([ZY][A-Z])(?![A-Z0-9])")
_WIDTH: Final = words(r"(?<![\w.,])(\d{1,2}(?:[.,]\d{1,2})?) ?mm(?: wide)?(?![\w.,/])")
_NAME: Final = words(r"\b(?:(?:cam|timing|toothed) ?belt|belt|wide|form|ISO ?(?:9010|21342)|x)\b|,")


class Toothed(NamedTuple):
    """A toothed belt: number of teeth, form of tooth (its row), width in mm; each None where the text says nothing."""

    teeth: int | None
    form: TableRow | None
    width: Decimal | None

    def __str__(self) -> str:
        letters = self.form.word("form") if self.form else ""
        if letters and self.teeth is not None:
            return f"{self.teeth}{letters}{shown(self.width) if self.width else ''}"
        said = [f"{self.teeth} teeth" if self.teeth is not None else "", letters]
        return " ".join(one for one in (*said, f"{shown(self.width)} mm" if self.width else "") if one)


def read(text: str, standards: Standards) -> Toothed | Unreadable:
    """The belt a text names, short (`104ZA19`) or in words. A width alone names nothing."""
    found = Words(text)
    if found.too_long:
        return Unreadable(text, "toothed-belt-unknown", expected=EXAMPLES)
    short = found.take(_SHORT)
    count, letters, width = short.groups() if short else _long(found)
    while found.take(_NAME):
        pass
    if found.bare() or not (count or letters) or (count and int(count) not in _TEETH):
        return Unreadable(text, "toothed-belt-unknown", expected=EXAMPLES)
    rows = standards.table("tooth-form").find(form=letters.upper()) if letters else ()
    if letters and not rows:
        listed = tuple(row.word("form") for row in standards.table("tooth-form").rows)
        return Unreadable(text, "toothed-belt-unlisted", expected=listed)
    wide = Decimal(width.replace(",", ".")) if width else None
    if wide is not None and not 5 <= wide <= 60:
        return Unreadable(text, "toothed-belt-unknown", expected=EXAMPLES)
    return Toothed(int(count) if count else None, rows[0] if rows else None, wide)


def _long(found: Words) -> tuple[str | None, str | None, str | None]:
    taken = [found.take(pattern) for pattern in (_COUNT, _FORM, _WIDTH)]
    count, letters, width = (match[1] if match else None for match in taken)
    return count, letters, width


class ToothedBeltFamily:
    """The family of kind `toothed-belt`."""

    about = About(
        title="toothed belts of engines",
        standards=("ISO 9010", "ISO 9011", "ISO 21342"),
        spellings=(
            "104ZA19", "104 ZA 19", "129 YU 25.4 mm", "104 teeth x 19 mm", "104 teeth ZA 19 mm",
            "cam belt 104 teeth", "104ZA", "ZA",
        ),
        not_said=("how old it is", "whether it bears oil", "whether its back drives a pump"),
        gaps=("forms of tooth of single makers", "belts with teeth on both sides", "industrial belts (ISO 5296)"),
    )  # fmt: skip

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `104ZA19`, with teeth, pitch and width (mm) as far as they are said."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        keys: dict[str, Decimal] = {}
        if found.teeth is not None:
            keys["teeth"] = Decimal(found.teeth)
        if found.form:
            keys["pitch"] = found.form.number("pitch")
        if found.width is not None:
            keys["width"] = found.width
        return Reading(str(found), keys=keys)

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each form of tooth, by pitch and by height where it is known. Teeth wear down."""
        for row in standards.table("tooth-form").rows:
            bands = {"pitch": Band.around(row.number("pitch"), Decimal("0.02"))}
            if "height" in row.numbers:
                bands["height"] = Band.around(row.number("height"), Decimal("0.15"), "down")
            belt = str(Toothed(None, row, None))
            values = {
                "belt": belt, "pitch": row.cell("pitch"), "shape": row.word("shape"), "certainty": row.certainty.value,
            }  # fmt: skip
            because = Because("toothed-belt-size", values, (row.origin,), (row.source,))
            yield Sized("toothed-belt", belt, bands, because)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Teeth, form, width: each that the needed one says."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        if str(wanted) == str(had):
            return verdict(_OK, "toothed-belt-same", {"needed": str(wanted), "offered": str(had)})
        return together("toothed-belt", str(wanted), str(had), _pieces(wanted, had))


def _pieces(wanted: Toothed, had: Toothed) -> Iterator[Piece]:
    """Each that the needed one says. An engine hangs on all three, so that what it leaves unsaid is asked."""
    if wanted.teeth is not None:
        yield Piece("teeth", _teeth(wanted, had))
    elif had.teeth is not None:
        yield Piece("teeth", _unsaid("the number of teeth", "the old belt's", "count them"))
    if wanted.form:
        yield Piece("form", _form(wanted.form, had.form))
    elif had.form:
        yield Piece("form", _unsaid("the form of the teeth", "the old belt's", "lay a known belt into them"))
    if wanted.width is not None:
        yield Piece("width", _width(wanted.width, had.width))
    elif had.width is not None:
        yield Piece("width", _unsaid("the width", "the old belt's", "a caliper across it"))


def _unsaid(what: str, needed: str, look: str) -> FamilyResult:
    return verdict(
        _ASK, "toothed-belt-unsaid", {"what": what, "needed": needed, "look": look}, (), (PRACTICE,)
    )


def _teeth(wanted: Toothed, had: Toothed) -> FamilyResult:
    if had.teeth is None:
        return _unsaid("the number of teeth", str(wanted.teeth), "count them")
    values = {"needed": str(wanted.teeth), "offered": str(had.teeth)}
    if wanted.teeth == had.teeth:
        return verdict(_OK, "toothed-belt-teeth-same", values)
    gap = abs((wanted.teeth or 0) - had.teeth)
    pitch = wanted.form.number("pitch") if wanted.form else None
    values["gap"] = f"{gap} pitches" if pitch is None else f"{shown(gap * pitch)} mm"
    return verdict(_OFF, "toothed-belt-teeth-off", values, (wanted.form,) if wanted.form else (), (PRACTICE,))


def _form(wanted: TableRow, had: TableRow | None) -> FamilyResult:
    if had is None:
        return _unsaid(
            "the form of tooth", wanted.word("form"), "read the letters on its back, or lay it in the wheel"
        )
    values: dict[str, str] = {"needed": wanted.word("form"), "offered": had.word("form")}
    for name, row in (("needed", wanted), ("offered", had)):
        high = row.cell("height")
        values |= {
            f"{name}-shape": row.word("shape"),
            f"{name}-pitch": f"{row.cell('pitch')} mm",
            f"{name}-high": f"{high} mm" if high else "",
        }
    if wanted == had:
        return verdict(_OK, "toothed-belt-form-same", values)
    if wanted.number("pitch") != had.number("pitch"):
        return verdict(_OFF, "toothed-belt-pitch-off", values, (wanted, had))
    tell = Because("toothed-belt-tell-form", values)
    return verdict(_TRAP, "toothed-belt-form", values, (wanted, had), (PRACTICE,), (tell,))


def _width(need: Decimal, have: Decimal | None) -> FamilyResult:
    asked = f"{shown(need)} mm"
    if have is None:
        return _unsaid("the width", asked, "measure across the back")
    values = {"needed": asked, "offered": f"{shown(have)} mm"}
    if abs(have - need) <= PLAY:
        return verdict(_OK, "toothed-belt-width-same", values, (), () if have == need else (PRACTICE,))
    if have > need:
        return verdict(_OFF, "toothed-belt-wide", values, (), (PRACTICE,))
    tell = Because("toothed-belt-tell-width", {"this": values["offered"], "right": asked})
    return verdict(_TRAP, "toothed-belt-slim", values, (), (PRACTICE,), (tell,))


FAMILIES: Final = {"toothed-belt": ToothedBeltFamily()}
