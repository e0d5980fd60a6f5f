"""Rows of the thread tables: which series there are, what form each has, and what its table writes."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.model.late import Late
from fitlore.model.origin import Origin
from fitlore.trade.rows import BadRow, Row, certainty, check_keys, number

if TYPE_CHECKING:
    from fractions import Fraction

INCH: Final = Decimal("25.4")
"""Millimetres in an inch, by definition (international yard and pound agreement, 1959)."""
_SIZE: Final = Late(r"#\d{1,2}|\d{1,2}|(?:\d{1,2} )?\d{1,2}/\d{1,2}", re.ASCII)


class Family(Enum):
    """A series of threads, by the letters of its designation or, for metric, by how its pitch stands."""

    METRIC_COARSE = "metric-coarse"
    METRIC_FINE = "metric-fine"
    UNC = "UNC"
    UNF = "UNF"
    UNEF = "UNEF"
    UN = "UN"
    UNS = "UNS"
    BSW = "BSW"
    BSF = "BSF"
    BA = "BA"
    G = "G"
    R = "R"
    RC = "Rc"
    RP = "Rp"
    NPT = "NPT"
    NPTF = "NPTF"


METRIC: Final = frozenset({Family.METRIC_COARSE, Family.METRIC_FINE})
UNIFIED: Final = frozenset({Family.UNC, Family.UNF, Family.UNEF, Family.UN, Family.UNS})
WHITWORTH: Final = frozenset({Family.BSW, Family.BSF})
TAPER_55: Final = frozenset({Family.R, Family.RC, Family.RP})
"""The three letters of ISO 7-1: taper male, taper female, parallel female."""
NATIONAL_PIPE: Final = frozenset({Family.NPT, Family.NPTF})
PIPE: Final = TAPER_55 | NATIONAL_PIPE | {Family.G}


class Form(NamedTuple):
    """The profile of a series: angle between the flanks in degrees, taper on the diameter, the standards that say so."""

    angle: Decimal
    taper: Decimal
    standard: str


_PARALLEL, _TAPER = Decimal(0), Decimal("0.0625")
_60, _55, _47 = Decimal(60), Decimal(55), Decimal("47.5")
FORMS: Final[Mapping[Family, Form]] = {
    **dict.fromkeys(METRIC, Form(_60, _PARALLEL, "ISO 68-1, ISO 724")),
    **dict.fromkeys(UNIFIED, Form(_60, _PARALLEL, "ASME B1.1")),
    **dict.fromkeys(WHITWORTH, Form(_55, _PARALLEL, "BS 84")),
    Family.BA: Form(_47, _PARALLEL, "BS 93"),
    Family.G: Form(_55, _PARALLEL, "ISO 228-1"),
    Family.R: Form(_55, _TAPER, "ISO 7-1"),
    Family.RC: Form(_55, _TAPER, "ISO 7-1"),
    Family.RP: Form(_55, _PARALLEL, "ISO 7-1"),
    Family.NPT: Form(_60, _TAPER, "ASME B1.20.1"),
    Family.NPTF: Form(_60, _TAPER, "ASME B1.20.3"),
}


class ThreadRow(Row, frozen=True, kw_only=True):
    """One size of one series, each figure as its table writes it: mm, or inches where `inches` is true.

    `size` is the designation's own size (`10`, `3/8`, `#10`, `2` for 2 BA). Pipe rows give the diameters at the gauge
    plane, and `length` is that plane's distance from the small end. `major` of an NPT row is the pipe's outside diameter.
    """

    family: Family
    size: str
    major: Decimal
    inches: bool = False
    pitch: Decimal | None = None
    tpi: Decimal | None = None
    pitch_diameter: Decimal | None = None
    minor: Decimal | None = None
    length: Decimal | None = None
    use: str = ""

    @property
    def pitch_mm(self) -> Decimal:
        """The distance from thread to thread along the axis, in mm."""
        return self.pitch if self.pitch is not None else INCH / (self.tpi or Decimal(1))

    @property
    def major_mm(self) -> Decimal:
        """The diameter column in mm (of an NPT row: of the pipe, not of the thread)."""
        return self.major * INCH if self.inches else self.major

    @property
    def identity(self) -> tuple[Family, str, Decimal]:
        """What two rows may not share: series, size, pitch."""
        return self.family, self.size, self.pitch or self.tpi or Decimal(0)


_METRIC_KEYS: Final = {"diameter": "major", "pitch": "pitch"}
_INCH_KEYS: Final = {"major": "major", "tpi": "tpi"}
_G_KEYS: Final = {"diameter": "major", "tpi": "tpi", "pitch-diameter": "pitch_diameter", "minor": "minor"}
_COLUMNS: Final[Mapping[Family, Mapping[str, str]]] = {
    **dict.fromkeys(METRIC, _METRIC_KEYS),
    **dict.fromkeys(UNIFIED | WHITWORTH, _INCH_KEYS),
    Family.BA: _METRIC_KEYS,
    Family.G: _G_KEYS,
    Family.R: {**_G_KEYS, "length": "length"},
    Family.NPT: {"pipe": "major", "tpi": "tpi", "pitch-diameter": "pitch_diameter", "length": "length"},
}
"""Number columns of each series' table, and the field each fills."""
_IN_INCHES: Final = UNIFIED | WHITWORTH | {Family.NPT}
SECTIONS: Final[Mapping[str, Family]] = {family.value: family for family in _COLUMNS}
"""Section of the table file to the series it holds."""


def thread_row(section: str, row: Mapping[str, str], origin: Origin) -> ThreadRow:
    """One row of a section as a value. `BadRow` says what is wrong with it."""
    family = SECTIONS[section]
    columns = _COLUMNS[family]
    sized = family not in METRIC
    check_keys(row, frozenset(columns) | ({"size"} if sized else frozenset()))
    numbers = {field: number(row, key) for key, field in columns.items()}
    made = ThreadRow(
        origin=origin,
        source=row["source"],
        certainty=certainty(row),
        family=family,
        size=_size(row["size"]) if sized else plain(numbers["major"]),
        major=numbers["major"],
        inches=family in _IN_INCHES,
        pitch=numbers.get("pitch"),
        tpi=numbers.get("tpi"),
        pitch_diameter=numbers.get("pitch_diameter"),
        minor=numbers.get("minor"),
        length=numbers.get("length"),
        use=row.get("use", ""),
    )
    _plausible(made)
    return made


def plain(value: Decimal) -> str:
    """A number without trailing zeros or exponent: `1.50` is `1.5`, `10.0` is `10`."""
    return f"{value.normalize():f}"


def size_value(size: str) -> Fraction | None:
    """An inch size as a number of inches; None for a number size (`#10`)."""
    from fractions import Fraction

    return None if size.startswith("#") else sum((Fraction(part) for part in size.split()), Fraction(0))


def _fraction(value: Decimal) -> Fraction:
    from fractions import Fraction

    return Fraction(value)


def _size(text: str) -> str:
    size = " ".join(text.split())
    if not _SIZE.fullmatch(size) or size.endswith("/0"):
        raise BadRow("table-size", f"size: {text!r} is no size", 'such as 3/8, 1 1/8 or "#10"', "write it so")
    return size


def _plausible(row: ThreadRow) -> None:
    """Refuse a slip of the pen: diameters out of order, a thread deeper than its core, a size that is not its major."""
    depth = row.pitch_mm
    if depth * 3 > row.major_mm:
        raise BadRow(
            "table-thread",
            "the pitch is too coarse for the diameter",
            "pitch below a third of it",
            "look again",
        )
    if row.pitch_diameter is not None and not (row.minor or Decimal(0)) < row.pitch_diameter < row.major:
        raise BadRow("table-thread", "diameters out of order", "minor < pitch-diameter < major", "look again")
    value = size_value(row.size) if row.family in UNIFIED | WHITWORTH else None
    if value is not None and abs(value - _fraction(row.major)) > _fraction(Decimal("0.0001")):
        raise BadRow(
            "table-thread",
            "the size is not the major diameter",
            f"{float(value):.4f}",
            "correct one of the two",
        )
