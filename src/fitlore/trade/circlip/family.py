"""Circlips as a family of standards: where it sits, for what size, how thick.

The same figure names a ring for a shaft, one for a bore and an E-clip for a groove; all three are sold in one box.
"""

from __future__ import annotations

import re
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
from fitlore.trade.table import TableRow, plain

_OK, _OFF, _TRAP = FamilyState.OK, FamilyState.OFF, FamilyState.TRAP
EXAMPLES: Final = ("DIN 471 20x1.2", "DIN 472 52x2", "E-clip 6")
NEAR: Final = Decimal("0.06")
"""Share of the size within which a wrong ring still goes on or in (one size up or down; common practice)."""
_N: Final = r"\d{1,3}(?:[.,]\d{1,2})?"
_OF_RING: Final = r"(?= (?:circlip|clip|(?:snap|retaining) ?ring|ring)\b)"
"""`outer circlip` names the sort; `20 outside` may be a measure of either, and stays, to be refused."""
_SITS: Final = (
    (
        "shaft",
        words(
            rf"\bDIN ?471\b|\bexternal\b|\b(?:outer|outside){_OF_RING}"
            r"|\b(?:for (?:a |the )?|on (?:a |the )?)?shaft\b"
        ),
    ),
    (
        "bore",
        words(
            rf"\bDIN ?472\b|\binternal\b|\b(?:inner|inside){_OF_RING}"
            r"|\b(?:for (?:a |the )?|in (?:a |the )?)?(?:bore|hole|housing)\b"
        ),
    ),
    ("groove", words(r"\bDIN ?6799\b|\bE[- ]?(?:clip|ring)\b")),
)
_NAME: Final = words(r"\b(?:circlip|(?:snap|retaining) ?ring|ring|clip|for|mm)\b")
_SIZE: Final = words(rf"(?<![\w/.,])({_N})(?: ?mm)?(?: ?x ?({_N}))?(?: ?mm)?(?![\w/.,])")
_DASH: Final = words(r"(?:(?<=\s)|^)-(?:(?=\s|\d)|$)")
_LOOKS: Final = re.compile(r"DIN|clip|ring|ternal|shaft|bore|hole|^\d", re.IGNORECASE)


class Clip(NamedTuple):
    """A ring: `sits` on a shaft, in a bore, or (E-clip) in a groove, which then names its size. Sizes in mm."""

    sits: str
    size: Decimal
    thickness: Decimal
    rows: tuple[TableRow, ...]

    @property
    def ordinary(self) -> TableRow:
        """The row of the ordinary ring of this size."""
        return self.rows[0]

    def __str__(self) -> str:
        figures = f"{plain(self.size)}x{plain(self.thickness)}"
        return {"shaft": f"DIN 471 {figures}", "bore": f"DIN 472 {figures}"}.get(
            self.sits, f"DIN 6799 {plain(self.size)}"
        )


def read(text: str, standards: Standards) -> Clip | Unreadable:
    """The ring a text names. Without a word for shaft or bore it is a question: the figure does not say."""
    found = Words(text)
    if found.too_long or not _LOOKS.search(found.rest):
        return Unreadable(text, "circlip-unknown", expected=EXAMPLES)
    sits = {name for name, pattern in _SITS if _all(found, pattern)}
    while found.take(_NAME) or found.take(_DASH):
        pass
    size = found.take(_SIZE)
    if not size or found.bare() or len(sits) > 1:
        return Unreadable(text, "circlip-unknown", expected=EXAMPLES)
    figures = [Decimal(figure.replace(",", ".")) if figure else None for figure in size.groups()]
    if sits:
        return _listed(text, sits.pop(), figures[0] or Decimal(0), figures[1], standards)
    either = [
        _listed(text, one, figures[0] or Decimal(0), figures[1], standards) for one in ("shaft", "bore")
    ]
    readings = tuple(str(one) for one in either if isinstance(one, Clip))
    return Unreadable(
        text, "circlip-several" if readings else "circlip-unknown", readings, readings or EXAMPLES
    )


def _all(found: Words, pattern: re.Pattern[str]) -> bool:
    """Whether the text says it, however often; all of it taken out."""
    times = 0
    while found.take(pattern):
        times += 1
    return times > 0


def _listed(
    text: str, sits: str, size: Decimal, thickness: Decimal | None, standards: Standards
) -> Clip | Unreadable:
    if sits == "groove":
        rows = standards.table("e-clip-size").find(groove=plain(size))
    else:
        rows = standards.table("circlip-size").find(sits=sits, size=plain(size))
    heavy = standards.table("circlip-heavy").find(sits=sits, size=plain(size))
    for row in (*rows, *heavy):
        if thickness in (None, row.number("thickness")):
            return Clip(sits, size, row.number("thickness"), (*rows, row) if row not in rows else rows)
    near = _near(sits, size, standards)
    return Unreadable(text, "circlip-thickness" if rows else "circlip-unlisted", expected=near)


def _near(sits: str, size: Decimal, standards: Standards) -> tuple[str, ...]:
    section, column = ("e-clip-size", "groove") if sits == "groove" else ("circlip-size", "size")
    rows = [row for row in standards.table(section).rows if row.words.get("sits", "groove") == sits]
    rows.sort(key=lambda row: abs(row.number(column) - size))
    return tuple(str(Clip(sits, row.number(column), row.number("thickness"), (row,))) for row in rows[:3])


class CirclipFamily:
    """The family of kind `circlip`."""

    about = About(
        title="circlips",
        standards=("DIN 471", "DIN 472", "DIN 6799"),
        spellings=(
            "DIN 471 20x1.2", "DIN 471 - 20 x 1,2", "DIN471-20", "DIN 472 52x2", "circlip 20 mm shaft", "external circlip 20",
            "internal circlip 52", "52 bore", "E-clip 6", "DIN 6799 6", "DIN 471 20x1.75",
        ),
        not_said=(
            "whether the groove is still sharp",
            "what it is made of",
            "which way its round edge looks: towards what it holds",
        ),
        gaps=("rings of round wire", "heavy rings for bores", "inch circlips", "rings with lugs all round"),
    )  # fmt: skip

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `DIN 471 20x1.2`, with its size and thickness in mm."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        return Reading(str(found), keys={found.sits: found.size, "thickness": found.thickness})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each listed ring, unfitted: inside of a shaft ring, outside of a bore ring, an E-clip by its thickness and gap."""
        for row in standards.table("circlip-size").rows:
            measure = "inside" if row.word("sits") == "shaft" else "outside"
            wears = "up" if measure == "inside" else "down"
            yield _sized(Clip(row.word("sits"), row.number("size"), row.number("thickness"), (row,)), {
                measure: Band(row.number("free") - 1, row.number("free"), wears)
                if measure == "inside" else Band(row.number("free"), row.number("free") + 1, wears),
                "thickness": Band(row.number("thickness") - Decimal("0.06"), row.number("thickness"), "down"),
            })  # fmt: skip
        for row in standards.table("e-clip-size").rows:
            yield _sized(
                Clip("groove", row.number("groove"), row.number("thickness"), (row,)),
                {
                    "outside": Band.around(row.number("outside"), Decimal("0.5")),
                    "thickness": Band.around(row.number("thickness"), Decimal("0.03"), "down"),
                },
            )

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Where it sits, its size and its thickness."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        if str(wanted) == str(had):
            return verdict(_OK, "circlip-same", {"needed": str(wanted), "offered": str(had)})
        return together("circlip", str(wanted), str(had), _pieces(wanted, had))


def _sized(clip: Clip, bands: dict[str, Band]) -> Sized:
    row = clip.ordinary
    values = {"clip": str(clip), "certainty": row.certainty.value}
    return Sized("circlip", str(clip), bands, Because("circlip-size", values, (row.origin,), (row.source,)))


def _pieces(wanted: Clip, had: Clip) -> Iterator[Piece]:
    rows = (*wanted.rows, *had.rows)
    if wanted.sits != had.sits:
        values = {"needed": wanted.sits, "offered": had.sits}
        e_clip = "groove" in (wanted.sits, had.sits)
        tell = Because("circlip-tell-groove" if e_clip else "circlip-tell-eyes", {})
        near = abs(had.size - wanted.size) <= wanted.size * NEAR
        yield Piece(
            "seat",
            verdict(
                _TRAP if near else _OFF,
                "circlip-other-seat",
                values,
                rows,
                (PRACTICE,),
                (tell,) if near else (),
            ),
        )
        return
    if wanted.size != had.size:
        yield Piece("size", _size(wanted, had))
    if wanted.thickness != had.thickness:
        yield Piece("thickness", _thickness(wanted, had))


def _size(wanted: Clip, had: Clip) -> FamilyResult:
    gap = had.size - wanted.size
    values = {"needed": f"{shown(wanted.size)} mm", "offered": f"{shown(had.size)} mm", "seat": wanted.sits}
    rows = (*wanted.rows, *had.rows)
    if abs(gap) > wanted.size * NEAR:
        return verdict(_OFF, "circlip-size-off", values, rows)
    slack = gap > 0 if wanted.sits != "bore" else gap < 0
    tell = Because("circlip-tell-turn", {})
    return verdict(_TRAP, f"circlip-{'slack' if slack else 'strained'}", values, rows, (PRACTICE,), (tell,))


def _thickness(wanted: Clip, had: Clip) -> FamilyResult:
    values = {"needed": f"{shown(wanted.thickness)} mm", "offered": f"{shown(had.thickness)} mm"}
    rows = (*wanted.rows, *had.rows)
    if had.thickness > wanted.thickness:
        return verdict(_OFF, "circlip-thick", values, rows)
    tell = Because("circlip-tell-thickness", {"this": values["offered"], "right": values["needed"]})
    return verdict(_TRAP, "circlip-thin", values, rows, (PRACTICE,), (tell,))


FAMILIES: Final = {"circlip": CirclipFamily()}
