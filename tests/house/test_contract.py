"""The import contract of pyproject.toml holds for the tree, and refuses what it should refuse."""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOMS = "Rooms look down only, and no room stands outside the house"
HEAVY = {"highspy", "networkx", "numpy", "pyshacl", "rdflib", "rich"}
# The one name on either side that differs: package -> what is imported.
IMPORTED_AS = {"pyyaml": "yaml"}


def lint(folder: Path) -> subprocess.CompletedProcess[str]:
    """Runs the import linter over `folder`, a checkout's pyproject.toml and src."""
    run = [sys.executable, "-c", "from importlinter.cli import lint_imports_command; lint_imports_command()"]
    # Its output is folded at the terminal's width, which would cut a sentence in two.
    surroundings = {**os.environ, "PYTHONPATH": str(folder / "src"), "COLUMNS": "200"}
    return subprocess.run(
        [*run, "--no-cache", "--no-logo"],
        cwd=folder,
        env=surroundings,
        capture_output=True,
        text=True,
        check=False,
    )


def imports(tree: ast.AST, *, late: bool) -> Iterator[str]:
    """Top-level names that are imported; with `late`, inside functions too. Leaves out imports for types only."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name.partition(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are written from the top"
            yield (node.module or "").partition(".")[0]
        elif isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test):
            yield from (name for other in node.orelse for name in imports(other, late=late))
        elif late or not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            yield from imports(node, late=late)


def libraries(folder: Path, *, late: bool = True) -> dict[str, set[str]]:
    """Which library is imported by which files below `folder`; neither the standard library nor fitlore count."""
    found: dict[str, set[str]] = {}
    for path in sorted(folder.rglob("*.py")):
        for name in imports(ast.parse(path.read_text("utf-8")), late=late):
            if name not in sys.stdlib_module_names and name != "fitlore":
                found.setdefault(name, set()).add(path.relative_to(folder).as_posix())
    return found


def test_the_tree_keeps_the_contract(repo: Path) -> None:
    """The linter finds nothing to say about the tree as it is."""
    done = lint(repo)
    assert done.returncode == 0, done.stdout + done.stderr
    assert f"{ROOMS} KEPT" in done.stdout


@pytest.mark.parametrize(
    ("file", "line", "contract", "said"),
    [
        (
            "fitting/spoilt.py",
            "import click",
            "click is used in cli only",
            "fitlore.fitting.spoilt -> click (l.1)",
        ),
        (
            "sourcing/spoilt.py",
            "import fitlore.upkeep",
            ROOMS,
            "fitlore.sourcing.spoilt -> fitlore.upkeep (l.1)",
        ),
        (
            "upkeep/spoilt.py",
            "import fitlore.sourcing",
            ROOMS,
            "fitlore.upkeep.spoilt -> fitlore.sourcing (l.1)",
        ),
        ("model/spoilt.py", "import fitlore.trade", ROOMS, "fitlore.model.spoilt -> fitlore.trade (l.1)"),
        (
            "trade/spoilt.py",
            "import yaml",
            "yaml is read in books.nodes only",
            "fitlore.trade.spoilt -> yaml (l.1)",
        ),
        (
            "model/spoilt.py",
            "def late() -> None:\n    import networkx",
            "networkx is used in graph.view, sourcing.paths and fitting.evidence only",
            "fitlore.model.spoilt -> networkx (l.2)",
        ),
        (
            "model/spoilt.py",
            "import numpy.linalg",
            "model knows no library but msgspec",
            "fitlore.model.spoilt -> numpy (l.1)",
        ),
        (
            "books/spoilt.py",
            "import pyoxigraph",
            "pyoxigraph is used in graph.store and books.rdf only",
            "fitlore.books.spoilt -> pyoxigraph (l.1)",
        ),
        (
            "graph/spoilt.py",
            "from rdflib import Graph",
            "rdflib and pyshacl are used in upkeep.shapes only",
            "fitlore.graph.spoilt -> rdflib (l.1)",
        ),
        (
            "fitting/spoilt.py",
            "import highspy",
            "highspy and numpy are used in sourcing.door only",
            "fitlore.fitting.spoilt -> highspy (l.1)",
        ),
        (
            "cli/spoilt.py",
            "import rich.table",
            "rich is used in report only",
            "fitlore.cli.spoilt -> rich (l.1)",
        ),
        (
            "trade/spoilt.py",
            "import pint",
            "pint is for the tests only",
            "fitlore.trade.spoilt -> pint (l.1)",
        ),
        (
            "trade/spoilt.py",
            "import scipy",
            "scipy is for the tests only",
            "fitlore.trade.spoilt -> scipy (l.1)",
        ),
        (
            "books/spoilt.py",
            "import pyld",
            "pyld is for the tests only",
            "fitlore.books.spoilt -> pyld (l.1)",
        ),
        ("shed/__init__.py", "", ROOMS, "fitlore.shed"),
    ],
)
def test_a_breach_is_caught_by_name(
    repo: Path, tmp_path: Path, file: str, line: str, contract: str, said: str
) -> None:
    """Each breach, planted in a copy of the tree, breaks its own contract and is named with its line."""
    shutil.copy(repo / "pyproject.toml", tmp_path)
    shutil.copytree(repo / "src", tmp_path / "src", ignore=shutil.ignore_patterns("__pycache__"))
    planted = tmp_path / "src" / "fitlore" / file
    planted.parent.mkdir(exist_ok=True)
    planted.write_text(line + "\n", "utf-8")
    done = lint(tmp_path)
    assert done.returncode == 1, done.stdout + done.stderr
    assert f"{contract} BROKEN" in done.stdout
    assert said in done.stdout


def test_model_needs_the_standard_library_and_msgspec_only(repo: Path) -> None:
    """Whatever the contract's list of libraries may lack: model imports no other one."""
    assert set(libraries(repo / "src" / "fitlore" / "model")) <= {"msgspec"}


def test_every_imported_library_is_a_stated_dependency(repo: Path) -> None:
    """What the package imports is what pyproject.toml says it needs (numpy comes with highspy), and the reverse."""
    project = tomllib.loads((repo / "pyproject.toml").read_text("utf-8"))["project"]
    packages = {need.partition(">=")[0] for need in project["dependencies"]}
    stated = {IMPORTED_AS.get(package, package) for package in packages}
    assert set(libraries(repo / "src" / "fitlore")) - {"numpy"} == stated


def test_heavy_libraries_are_imported_late(repo: Path) -> None:
    """A library that is slow to start is imported in the function that needs it, so that nobody else pays for it."""
    early = libraries(repo / "src" / "fitlore", late=False)
    assert "msgspec" in early
    assert {name: files for name, files in early.items() if name in HEAVY} == {}


def test_rdflib_has_one_door(repo: Path) -> None:
    """It is one file, the one the contract names."""
    found = libraries(repo / "src" / "fitlore")
    assert found["rdflib"] | found["pyshacl"] == {"upkeep/shapes.py"}
