"""Files and functions stay small enough to be read at one sitting."""

from __future__ import annotations

import ast
from pathlib import Path
from typing import NamedTuple

import pytest

FILE_LIMIT = 330
FUNCTION_LIMIT = 48

# What may be larger, and why: "path" or "path::Class.function" -> reason.
EXCUSED: dict[str, str] = {}

Function = ast.FunctionDef | ast.AsyncFunctionDef


class Size(NamedTuple):
    """A file or a function, and its lines."""

    lines: int
    name: str


def docstring_lines(node: Function) -> int:
    """Lines of the docstring, 0 without one."""
    first = node.body[0]
    if ast.get_docstring(node, clean=False) is None or first.end_lineno is None:
        return 0
    return first.end_lineno - first.lineno + 1


def functions(node: ast.AST, inside: str) -> list[Size]:
    """Each function below `node` with its lines from `def` to its last, less the docstring."""
    sizes = []
    for child in ast.iter_child_nodes(node):
        if isinstance(child, Function | ast.ClassDef):
            name = f"{inside}{child.name}"
            if isinstance(child, Function):
                assert child.end_lineno is not None
                sizes.append(Size(child.end_lineno - child.lineno + 1 - docstring_lines(child), name))
            sizes += functions(child, f"{name}.")
        else:
            sizes += functions(child, inside)
    return sizes


def measure(source: Path) -> tuple[list[Size], list[Size]]:
    """The sizes of all Python files and of all functions below `source`, largest first."""
    per_file, per_function = [], []
    for path in sorted(source.rglob("*.py")):
        text = path.read_text("utf-8")
        name = path.relative_to(source).as_posix()
        per_file.append(Size(len(text.splitlines()), name))
        per_function += functions(ast.parse(text), f"{name}::")
    return sorted(per_file, reverse=True), sorted(per_function, reverse=True)


def table(title: str, sizes: list[Size], limit: int, shown: int = 8) -> str:
    """The largest few, and all that are over the limit."""
    rows = [size for at, size in enumerate(sizes) if at < shown or size.lines > limit]
    body = (f"{size.lines:6} {'!' if size.lines > limit else ' '} {size.name}" for size in rows)
    return "\n".join([f"{title} (limit {limit} lines)", *body])


def over(sizes: list[Size], limit: int) -> set[str]:
    """The names of those over the limit."""
    return {size.name for size in sizes if size.lines > limit}


def test_files_and_functions_are_small(repo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """No file has over 330 lines, no function over 48 besides its docstring; an excuse that is out of date fails."""
    per_file, per_function = measure(repo / "src" / "fitlore")
    tables = f"{table('largest files', per_file, FILE_LIMIT)}\n{table('largest functions', per_function, FUNCTION_LIMIT)}"
    with capsys.disabled():
        print(f"\n{tables}")
    too_large = over(per_file, FILE_LIMIT) | over(per_function, FUNCTION_LIMIT)
    assert sorted(too_large) == sorted(EXCUSED)
    assert all(EXCUSED.values())


def test_the_measure_is_right(tmp_path: Path) -> None:
    """Counted by hand: a nested function counts for itself and for the outer one, a docstring for nobody."""
    text = '''"""Module."""

class Box:
    def outer(self) -> int:
        """One
        two."""
        def inner() -> int:
            return 1

        return inner()

    if True:
        async def late(self) -> None: ...
'''
    (tmp_path / "room").mkdir()
    (tmp_path / "room" / "one.py").write_text(text, "utf-8")
    per_file, per_function = measure(tmp_path)
    assert per_file == [Size(13, "room/one.py")]
    assert per_function == [
        Size(5, "room/one.py::Box.outer"),
        Size(2, "room/one.py::Box.outer.inner"),
        Size(1, "room/one.py::Box.late"),
    ]
    assert over(per_function, 4) == {"room/one.py::Box.outer"}
