"""Lines of text with a meaning, laid out for a width; colour only supports them."""

from __future__ import annotations

import os
import re
import sys
import textwrap
from collections.abc import Iterable, Sequence
from typing import Final, Literal, NamedTuple, TextIO

Tone = Literal["plain", "head", "danger", "good", "ask", "dim"]
_STYLES: Final[dict[str, str]] = {
    "head": "bold",
    "danger": "bold red",
    "good": "green",
    "ask": "yellow",
    "dim": "dim",
}
NARROWEST: Final = 40
_TIE: Final = "\u00a0"
"""A space at which no line ends; printed as a plain one."""
_UNIT: Final = re.compile(r"(?<=\d) (?=(?:mm|m|km|g|kg|ml|l|min|h|ohm|deg|%|[ACVW]|[A-Z]{3})(?!\w))")


class Line(NamedTuple):
    """One paragraph: its text, its tone, and how far its continuation is indented."""

    text: str
    tone: Tone = "plain"
    hang: int = 0
    wrap: bool = True
    """False for text of a book: it stands as it is, so that it can be pasted."""


BLANK: Final = Line("")


def laid_out(lines: Iterable[Line], width: int) -> list[tuple[str, Tone]]:
    """Every line wrapped to the width, figure and unit on one line. Nothing is cut: a long word stands over the end."""
    rows: list[tuple[str, Tone]] = []
    for line in lines:
        if not line.wrap:
            rows.append((line.text, line.tone))
            continue
        room = max(width, NARROWEST)
        lead = len(line.text) - len(line.text.lstrip(" "))
        hang = max(line.hang, lead)
        wrapped = textwrap.wrap(
            _UNIT.sub(_TIE, line.text.strip(" ")),
            room,
            initial_indent=" " * lead,
            subsequent_indent=" " * (hang if 3 * hang <= 2 * room else lead + 4),
            break_long_words=False,
            break_on_hyphens=False,
        )
        rows += [(text.replace(_TIE, " "), line.tone) for text in wrapped or [""]]
    return rows


def tied(text: str) -> str:
    """A part's number, or a name of few words, that no end of line may cut in two."""
    return text.replace(" ", _TIE)


def plain(lines: Iterable[Line], width: int) -> str:
    """The lines as text without colour, ending in one end of line."""
    return "\n".join(text.rstrip() for text, _ in laid_out(lines, width)) + "\n"


def width_of() -> int:
    """The columns of the terminal; 100 in a pipe, unless COLUMNS says otherwise.

    As `shutil.get_terminal_size`, whose module brings four libraries of compression with it.
    """
    said = os.environ.get("COLUMNS", "")
    columns = int(said) if said.isdecimal() else 0
    if not columns:
        try:
            columns = os.get_terminal_size(sys.__stdout__.fileno()).columns if sys.__stdout__ else 0
        except (ValueError, OSError):  # it is closed, or no terminal
            columns = 0
    return max(NARROWEST, columns or 100)


def show(lines: Iterable[Line], stream: TextIO | None = None) -> None:
    """Print lines; coloured on a terminal that can, plain everywhere else (NO_COLOR and TERM=dumb are kept to)."""
    out = stream or sys.stdout
    rows = laid_out(lines, width_of())
    if not _coloured(out):
        out.write("\n".join(text.rstrip() for text, _ in rows) + "\n")
        return
    from rich.console import Console
    from rich.text import Text

    console = Console(file=out, highlight=False, soft_wrap=True)
    for text, tone in rows:
        console.print(Text(text, style=_STYLES.get(tone, "")))


def _coloured(out: TextIO) -> bool:
    import os

    return out.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM", "") not in ("", "dumb")


def columns(rows: Sequence[Sequence[str]], tones: Sequence[Tone], align: str) -> list[Line]:
    """Rows of short cells, the last one free to wrap under itself; `align` has a letter (l or r) for each but the last."""
    widths = [max((len(row[n]) for row in rows), default=0) for n in range(len(align))]
    lines = []
    for row, tone in zip(rows, tones, strict=True):
        cells = [
            tied(cell.rjust(size) if how == "r" else cell.ljust(size))
            for cell, size, how in zip(row, widths, align, strict=False)
        ]
        head = "".join(f"{cell}  " for cell in cells)
        lines.append(Line(head + row[-1], tone, hang=len(head)))
    return lines


def listed(words: Iterable[str], last: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`."""
    row = [word for word in words if word]
    return row[0] if len(row) == 1 else f"{', '.join(row[:-1])} {last} {row[-1]}" if row else ""


def minutes(count: int) -> str:
    """`45 min`, `2 h`, `17 h 43 min`."""
    hours, rest = divmod(count, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"
