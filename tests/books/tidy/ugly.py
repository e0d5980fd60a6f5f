"""Random small books written in the ugliest ways that are still YAML, with what each comment belongs to.

The keys are those of the Structs, in any order. No text holds the mark of a comment, so that comments can be counted
without reading the book.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin

from hypothesis import strategies as st

from fitlore.books.schema import KINDS, SHORT, fields
from fitlore.model.dates import Period
from fitlore.model.platform import Cond, FactRange
from fitlore.model.record import Name, Number, PlacePath, Rec

Path = tuple[str | int, ...]
TYPED = [
    "8.8",
    "0123",
    "no",
    "null",
    "~",
    "2026-01-02",
    "12:30",
    "1e3",
    "0x1F",
    ".5",
    "true",
    "190:20:30",
    "=",
]
PLAIN = ["TC 941 377", "a", "11.5 mm", "x-y", "M10x1", "../1986-07", "it's", "60 %", "é", "1.8i"]
LONG = ["one two three", "a: b", "a, b", "[a]", "{a}", "-x", "'", '"', "a\\b", "x:", "- y", "100 %, or so"]
FREE = ["bore", "length", "no", "on", "y", "built", "chassis", "en-gb"]


@dataclass
class Written:
    """A book, the paths that its comments stand on or above, and the paths of its texts."""

    data: bytes
    at: dict[str, tuple[str, Path]] = field(default_factory=dict)
    """For a comment what it belongs to, and its path: it stands `above` a key or item or `on` its line, on the line where
    the value begins (`header`) or ends (`behind`), or above the value where that is below its key (`value`)."""
    texts: list[Path] = field(default_factory=list)
    order: list[str] = field(default_factory=list)


class _Writer:
    def __init__(self, draw: st.DrawFn, *, commented: bool) -> None:
        self.draw = draw
        self.commented = commented
        self.lines: list[str] = []
        self.book = Written(b"")
        self.count = 0

    def chance(self, one_in: int) -> bool:
        return bool(self.draw(st.integers(0, one_in - 1)) == 0)

    def pick(self, options: list[Any]) -> Any:
        return self.draw(st.sampled_from(options))

    def comment(self, kind: str, path: Path | None) -> str:
        self.count += 1
        text = f"# c{self.count}" + self.pick(["", " more: words", "  ", " - x", "#"])
        if path is not None:
            self.book.at[f"c{self.count}"] = (kind, path)
        self.book.order.append(f"c{self.count}")
        return str(text)

    def note(self, path: Path | None, kind: str = "on") -> str:
        if not self.commented or not self.chance(5):
            return str(self.pick(["", "", "  "]))
        return str(self.pick([" ", "  ", "      ", "\t"])) + self.comment(kind, path)

    def above(self, path: Path, column: int, kind: str = "above") -> None:
        """Comments and blank lines above a key or item, set in by at most so many columns."""
        for _ in range(self.draw(st.integers(0, 2))):
            if self.chance(3):
                self.lines.append(self.pick(["", "", "  "]))
            elif self.commented and self.chance(3):
                self.lines.append(" " * self.draw(st.integers(0, column)) + self.comment(kind, path))

    # what is said

    def tree(self, hint: Any, depth: int) -> Any:
        """A value of a type: text as a pair of the text and whether it is text to every reader."""
        origin, arguments = get_origin(hint), get_args(hint)
        if origin is Union or origin is UnionType:
            return self.tree(next(a for a in arguments if a is not NoneType), depth)
        if origin is tuple:
            count = self.draw(st.integers(0, 2))
            return [self.tree(arguments[0], depth) for _ in range(count)] or self.tree(arguments[0], depth)
        if origin is dict:
            keys = self.draw(st.lists(st.sampled_from(FREE), min_size=1, max_size=3, unique=True))
            return {key: self.tree(arguments[1], depth + 1) for key in keys}
        if hint in (Cond, FactRange):
            key = self.pick(["KT", "N", "not"] if hint is Cond else ["series"])
            return self.pick([self.word(), [self.word(), self.word()], {key: self.word()}])
        if isinstance(hint, type) and issubclass(hint, Rec):
            if (hint in SHORT and self.chance(3)) or depth > 3:
                return self.word() if hint in SHORT else {"note": self.word()}
            return self.record(hint, depth + 1)
        if hint in (str, Name, Number, PlacePath):
            return self.word()
        known = {int: "2", bool: "yes", date: "2026-12-03", Period: self.pick(["1986", "1986-08"])}
        return (known.get(hint, "word"), False)

    def word(self) -> tuple[str, bool]:
        return self.pick(self.pick([TYPED, PLAIN, PLAIN, LONG])), True

    def record(self, cls: type[Rec], depth: int, kind: str = "") -> dict[str, Any]:
        chosen = self.draw(st.lists(st.sampled_from(fields(cls)), max_size=4, unique_by=lambda f: f.key))
        if kind:
            chosen = [one for one in chosen if one.key != kind]
            chosen.insert(
                self.draw(st.integers(0, len(chosen))), next(f for f in fields(cls) if f.key == kind)
            )
        row = {one.key: self.tree(one.hint, depth) for one in chosen}
        if self.chance(8) or not row:
            row["unheard-of"] = (self.pick(PLAIN), False)
        return row

    # how it is written

    def scalar(self, path: Path, said: tuple[str, bool], *, flow: bool) -> str:
        text, is_text = said
        if is_text:
            self.book.texts.append(path)
        plain = text in TYPED or text in PLAIN or (not flow and text in LONG[:1])
        if plain and not self.chance(4):
            return text
        if not is_text and plain:
            return text
        if self.chance(2):
            return "'" + text.replace("'", "''") + "'"
        return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'

    def key(self, key: str) -> str:
        return str(self.pick([key, key, key, f'"{key}"', f"'{key}'"]))

    def brackets(self, path: Path, tree: Any, newline: Callable[[], str]) -> str:
        """A value inside brackets; `newline` gives a break or nothing."""
        if isinstance(tree, tuple):
            return self.scalar(path, tree, flow=True)
        gap = self.pick(["", " ", "  "])
        if isinstance(tree, list):
            parts = [self.brackets((*path, place), one, newline) for place, one in enumerate(tree)]
            return f"[{gap}{(',' + newline() + (gap or ' ')).join(parts)}{newline()}{gap}]"
        pairs = []
        for key, one in tree.items():
            inner = self.brackets((*path, key), one, newline)
            pairs.append(f"{self.key(key)}: {gap}{inner}")
        return f"{{{gap}{(',' + newline() + (gap or ' ')).join(pairs)}{self.pick(['', ','])}{gap}}}"

    def leaf(self, path: Path, tree: Any, base: int) -> list[str]:
        """The lines of a leaf, the first without margin."""
        inset = base + self.draw(st.integers(1, 5))
        if not isinstance(tree, tuple):
            over_lines = self.chance(3)

            def newline() -> str:
                if not over_lines or not self.chance(2):
                    return ""
                return "\n" + " " * (base + self.draw(st.integers(1, 6)))

            return self.brackets(path, tree, newline).split("\n")
        text, is_text = tree
        if not is_text or not self.chance(5) or text in TYPED:
            return [self.scalar(path, tree, flow=False)]
        if self.chance(3):
            return [self.pick(["it's a", "8"]), " " * inset + "- long", "", " " * inset + "text#d"]
        if self.chance(2):
            return ['"a', "", " " * inset + "b # d \\", " " * inset + '  e"']
        figure = self.pick(["", "", "1", "3"])
        margin = " " * (base + int(figure) if figure else inset)
        body = [margin + ("  " if figure else "") + "first # d", "", margin + "  deeper", margin + "last"]
        return [self.pick(["|", ">"]) + figure + self.pick(["", "-"]) + self.note(path, "header"), *body]

    def mapping(
        self, path: Path, tree: dict[str, Any], column: int, *, on_dash: bool = False, alone: bool = False
    ) -> None:
        """The lines of a block mapping at a column; `on_dash`: the first one behind the dash that is already there;
        `alone`: that dash has its line to itself, so that comments above the first key are the whole item's."""
        for place, (key, value) in enumerate(tree.items()):
            inner = (*path, key)
            if place or not on_dash:
                self.above(path if alone and not place else inner, column)
                self.lines.append(" " * column)
            self.lines[-1] += self.key(key) + self.pick(["", "", " "]) + ":"
            self.value(inner, value, column, column + 1)

    def value(self, path: Path, tree: Any, base: int, least: int) -> None:
        """What follows a colon or a dash."""
        block = not isinstance(tree, tuple) and not self.chance(3)
        if block:
            self.lines[-1] += self.note(path)
            if isinstance(tree, list):
                self.items(path, tree, base + self.draw(st.integers(0, 3)))
            else:
                column = base + self.draw(st.integers(1, 4))
                self.mapping(path, tree, column)
                self.tail(column)
            return
        if self.chance(6):
            self.lines[-1] += self.note(path)
            self.above(path, least + 2, "value")
            self.lines.append(" " * (least + self.draw(st.integers(0, 3))))
        else:
            self.lines[-1] += self.pick([" ", " ", "  ", "      ", "\t"])
        first, *rest = self.leaf(path, tree, base)
        self.lines[-1] += first
        self.lines += rest
        if not first.startswith(("|", ">")):
            self.lines[-1] += self.note(path, "behind")

    def tail(self, column: int) -> None:
        if self.commented and self.chance(6):
            self.lines.append(" " * column + self.comment("tail", None))

    def items(self, path: Path, tree: list[Any], column: int) -> None:
        for place, one in enumerate(tree):
            inner = (*path, place)
            self.above(inner, column)
            self.lines.append(" " * column + "-")
            if isinstance(one, dict) and not self.chance(4):
                self.item(inner, one, column)
            else:
                self.item_leaf(inner, one, column)

    def item(self, path: Path, tree: dict[str, Any], column: int) -> None:
        if self.chance(5):
            note = self.note(None).replace("\t", " ")
            self.lines[-1] += note
            inset = column + self.draw(st.integers(1, 4))
            self.mapping(path, tree, inset, alone="#" not in note)
        else:
            gap = self.draw(st.integers(1, 4))
            self.lines[-1] += " " * gap
            inset = column + 1 + gap
            self.mapping(path, tree, inset, on_dash=True)
        self.tail(inset)

    def item_leaf(self, path: Path, tree: Any, column: int) -> None:
        self.lines[-1] += self.pick([" ", " ", "   "])
        first, *rest = self.leaf(path, tree, column)
        self.lines[-1] += first
        self.lines += rest
        if not first.startswith(("|", ">")):
            self.lines[-1] += self.note(path, "behind")


@st.composite
def ugly(draw: st.DrawFn, *, commented: bool = True) -> Written:
    """A book of one to three records that tidying can put in order."""
    writer = _Writer(draw, commented=commented)
    kinds = draw(st.lists(st.sampled_from(sorted(KINDS)), min_size=1, max_size=3))
    records = [writer.record(KINDS[kind], 1, kind) for kind in kinds]
    if writer.chance(8):
        writer.lines.append(writer.pick(["---", "--- ", "%YAML 1.2\n---"]))
    writer.items((), records, writer.pick([0, 0, 2, 3]))
    writer.lines += writer.pick([[], [], [""], ["", ""], ["..."]])
    text = "\n".join(writer.lines) + writer.pick(["\n", "\n", "\n", ""])
    if draw(st.booleans()) and draw(st.booleans()):
        text = text.replace("\n", "\r\n")
    writer.book.data = (b"\xef\xbb\xbf" if writer.chance(5) else b"") + text.encode()
    return writer.book
