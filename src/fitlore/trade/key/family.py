"""Keys as a family of standards: form, width, height or disc, length."""

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
from fitlore.trade.table import TableRow, plain

_OK, _WORK, _ASK = FamilyState.OK, FamilyState.OK_WITH_WORK, FamilyState.UNREADABLE
_OFF, _TRAP = FamilyState.OFF, FamilyState.TRAP
EXAMPLES: Final = ("A 6x6x20", "Woodruff 4x6.5", "Woodruff 405")
NEAR: Final = Decimal("0.1")
"""Share of the width within which a key seems to fill its way. Common practice."""
_N: Final = r"(\d{1,3}(?:[.,]\d{1,2})?)"
_WOODRUFF: Final = words(r"\b(?:woodruff|half[- ]?moon|DIN ?6888|ISO ?3912)(?: key)?\b")
_NAME: Final = words(r"\b(?:parallel|DIN ?6885(?:-1)?|feather|shaft|key|form|no\.?|mm)\b")
_PARALLEL: Final = words(
    rf"(?:\b([AB]) ?)?(?<![\d.,]){_N} ?x ?{_N} ?x ?{_N}(?: ?mm)?(?: ?\b([AB])\b)?(?![\w.,])"
)
_PAIR: Final = words(rf"(?<![\w.,/]){_N} ?x ?{_N}(?: ?mm)?(?![\w.,/])")
_NUMBER: Final = words(r"(?<![\w.,/])(\d{3,4})(?![\w.,/x])")
_DASH: Final = words(r"(?:(?<=\s)|^)-(?:(?=\s|\w)|$)")


class Key(NamedTuple):
    """A key: parallel with a length and perhaps a form (A round ends, B square), or Woodruff with a disc. Sizes in mm."""

    row: TableRow
    length: Decimal | None = None
    ends: str = ""
    number: str = ""

    @property
    def width(self) -> Decimal:
        """The width of the way."""
        return self.row.number("width")

    @property
    def woodruff(self) -> bool:
        """Whether it is cut from a disc."""
        return "disc" in self.row.numbers

    def __str__(self) -> str:
        if self.number:
            return f"Woodruff {self.number}"
        figures = f"{plain(self.width)}x{plain(self.row.number('height'))}"
        if self.length is None:
            return f"Woodruff {figures}"
        return f"{self.ends} {figures}x{plain(self.length)}".strip()


def read(text: str, standards: Standards) -> Key | Unreadable:
    """The key a text names. Three figures are a parallel key; two figures or a number need the word Woodruff."""
    found = Words(text)
    if found.too_long:
        return Unreadable(text, "key-unknown", expected=EXAMPLES)
    woodruff = found.take(_WOODRUFF)
    while found.take(_NAME) or found.take(_DASH):
        pass
    match = found.take(_PARALLEL) if not woodruff else found.take(_PAIR) or found.take(_NUMBER)
    if not match or found.bare():
        return Unreadable(text, "key-unknown", expected=EXAMPLES)
    if not woodruff:
        width, height, length = (Decimal(match[part].replace(",", ".")) for part in (2, 3, 4))
        rows = standards.table("parallel-key").find(width=plain(width), height=plain(height))
        if not rows or not width <= length <= width * 30:
            return _unlisted(text, "parallel-key", width, standards)
        return Key(rows[0], length, (match[1] or match[5] or "").upper())
    if match.re is _NUMBER:
        rows = standards.table("woodruff-number").find(number=match[1])
        near = tuple(f"Woodruff {row.word('number')}" for row in standards.table("woodruff-number").rows[:3])
        return Key(rows[0], number=match[1]) if rows else Unreadable(text, "key-unlisted", expected=near)
    width, height = (Decimal(figure.replace(",", ".")) for figure in match.groups())
    rows = standards.table("woodruff-key").find(width=plain(width), height=plain(height))
    return Key(rows[0]) if rows else _unlisted(text, "woodruff-key", width, standards)


def _unlisted(text: str, section: str, width: Decimal, standards: Standards) -> Unreadable:
    rows = sorted(standards.table(section).rows, key=lambda row: abs(row.number("width") - width))
    length = Decimal(20) if section == "parallel-key" else None
    near = tuple(
        str(Key(row, None if length is None else max(length, row.number("width")))) for row in rows[:3]
    )
    return Unreadable(text, "key-unlisted", expected=near)


class KeyFamily:
    """The family of kind `key`."""

    about = About(
        title="keys in shafts",
        standards=("DIN 6885-1", "DIN 6888", "ISO 3912", "ANSI B17.2", "BS 46"),
        spellings=(
            "6x6x20", "A 6x6x20", "DIN 6885 - A6x6x20", "6 x 6 x 20 mm B", "parallel key 8x7x32", "Woodruff 4x6.5",
            "DIN 6888 - 4 x 6,5", "half moon key 3x5", "Woodruff key No 405",
        ),
        not_said=("how worn the way is: an old key never tells it", "how hard it is", "the fit of its sides"),
        gaps=("tapered keys", "inch parallel keys", "stepped keys for worn ways"),
    )  # fmt: skip

    def read(self, text: str, standards: Standards) -> Reading | Unreadable:
        """The normal form `A 6x6x20` or `Woodruff 4x6.5`, with width and length or disc in mm."""
        found = read(text, standards)
        if isinstance(found, Unreadable):
            return found
        other = (
            {"disc": found.row.number("disc")} if found.woodruff else {"length": found.length or Decimal(0)}
        )
        return Reading(str(found), keys={"width": found.width, **other})

    def sizes(self, standards: Standards) -> Iterable[Sized]:
        """Each Woodruff key, by width and disc. Parallel keys are cut to length: width and height, for a key as long."""
        for row in standards.table("parallel-key").rows:
            key = Key(row, row.number("width") * 3)
            yield _sized(
                key,
                {
                    "width": Band(key.width, key.width, "down"),
                    "height": Band.around(row.number("height"), Decimal("0.1")),
                },
            )
        for section in ("woodruff-key", "woodruff-number"):
            for row in standards.table(section).rows:
                key = Key(row, number=row.word("number"))
                bands = {
                    "width": Band(key.width, key.width, "down"),
                    "diameter": Band.around(row.number("disc"), Decimal("0.3")),
                }
                if "height" in row.numbers:
                    bands["height"] = Band.around(row.number("height"), Decimal("0.1"))
                yield _sized(key, bands)

    def compare(self, needed: str, offered: str, end: End, standards: Standards) -> FamilyResult:
        """Form, width, height or disc, length, ends."""
        wanted, had = read(needed, standards), read(offered, standards)
        if isinstance(wanted, Unreadable) or isinstance(had, Unreadable):
            return question(wanted, had)
        if str(wanted) == str(had):
            return verdict(_OK, "key-same", {"needed": str(wanted), "offered": str(had)})
        return together("key", str(wanted), str(had), _pieces(wanted, had))


def _sized(key: Key, bands: dict[str, Band]) -> Sized:
    values = {"key": str(key), "certainty": key.row.certainty.value}
    return Sized("key", str(key), bands, Because("key-size", values, (key.row.origin,), (key.row.source,)))


def _pieces(wanted: Key, had: Key) -> Iterator[Piece]:
    rows = (wanted.row, had.row) if wanted.row != had.row else (wanted.row,)
    if wanted.woodruff != had.woodruff:
        yield Piece("form", verdict(_OFF, "key-form-off", {"needed": str(wanted), "offered": str(had)}, rows))
        return
    yield Piece("width", _width(wanted.width, had.width, rows))
    third = "disc" if wanted.woodruff else "height"
    need, have = wanted.row.number(third), had.row.number(third)
    if need != have:
        values = {"needed": f"{shown(need)} mm", "offered": f"{shown(have)} mm", "what": third}
        yield Piece(third, verdict(_OFF, "key-third-off", values, rows))
    if wanted.length and had.length and wanted.length != had.length:
        values = {"needed": f"{shown(wanted.length)} mm", "offered": f"{shown(had.length)} mm"}
        longer = had.length > wanted.length
        yield Piece(
            "length",
            verdict(
                _WORK if longer else _OFF, f"key-{'longer' if longer else 'shorter'}", values, (), (PRACTICE,)
            ),
        )
    if wanted.ends and wanted.ends != had.ends:
        code, state = "key-ends-unsaid", _ASK
        if had.ends:
            code, state = ("key-ends-file", _WORK) if had.ends == "B" else ("key-ends-round", _ASK)
        yield Piece(
            "ends", verdict(state, code, {"needed": wanted.ends, "offered": had.ends}, (), (PRACTICE,))
        )


def _width(need: Decimal, have: Decimal, rows: tuple[TableRow, ...]) -> FamilyResult:
    values = {"needed": f"{shown(need)} mm", "offered": f"{shown(have)} mm"}
    if need == have:
        return verdict(_OK, "key-width-same", values)
    if have > need:
        return verdict(_OFF, "key-wide", values, rows)
    if need - have > need * NEAR:
        return verdict(_OFF, "key-narrow", values, rows)
    tell = Because("key-tell-rock", {})
    return verdict(_TRAP, "key-slack", values, rows, (PRACTICE,), (tell,))


FAMILIES: Final = {"key": KeyFamily()}
