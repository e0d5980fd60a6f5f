"""What is published works without the checkout."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

import fitlore

PIP = [sys.executable, "-m", "pip", "--disable-pip-version-check", "--no-input", "--isolated"]


def run(command: list[str], cwd: Path, **surroundings: str) -> str:
    """What the command printed; fails with what it said where it fails."""
    done = subprocess.run(
        command, cwd=cwd, env={**os.environ, **surroundings}, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, f"{command}\n{done.stdout}{done.stderr}"
    return done.stdout


@pytest.fixture(scope="module")
def wheel(repo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built from a copy of the tree with the pinned backend and without any network."""
    tree = tmp_path_factory.mktemp("tree")
    for name in ("pyproject.toml", "LICENSE", "README.md"):
        shutil.copy(repo / name, tree)
    for name in ("src", "kb"):
        shutil.copytree(repo / name, tree / name, ignore=shutil.ignore_patterns("__pycache__"))
    out = tmp_path_factory.mktemp("wheel")
    run([*PIP, "wheel", "--no-index", "--no-deps", "--no-build-isolation", "-w", str(out), str(tree)], out)
    (made,) = out.glob("*.whl")
    return made


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the wheel installed in it, and nothing else."""
    target = tmp_path_factory.mktemp("installed")
    run([*PIP, "install", "--no-index", "--no-deps", "--target", str(target), str(wheel)], target)
    return target


def books(folder: Path) -> dict[str, bytes]:
    """Each file below `folder`, by its path in it."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def test_the_wheel_holds_the_code_and_the_books_and_nothing_else(repo: Path, wheel: Path) -> None:
    """Every module, data file and book is inside under its own name, the pages for `man` where it looks; tests, demo and
    set-up are not."""
    with zipfile.ZipFile(wheel) as opened:
        every = {name for name in opened.namelist() if ".dist-info/" not in name}
    man = {name for name in every if ".data/data/share/man/man1/" in name}
    assert {Path(name).name for name in man} == set(books(repo / "src" / "fitlore" / "cli" / "man"))
    inside = every - man
    code = {f"fitlore/{name}" for name in books(repo / "src" / "fitlore") if "__pycache__/" not in name}
    knowledge = {f"fitlore/kb/{name}" for name in books(repo / "kb")}
    assert knowledge
    assert inside == code | knowledge


def test_the_wheel_says_what_it_needs_and_offers_the_command(repo: Path, wheel: Path) -> None:
    """Needs, version, licence and command are those of pyproject.toml; no test package is asked for."""
    project = tomllib.loads((repo / "pyproject.toml").read_text("utf-8"))["project"]
    with zipfile.ZipFile(wheel) as opened:
        (about,) = (name for name in opened.namelist() if name.endswith(".dist-info/METADATA"))
        said = opened.read(about).decode().splitlines()
        command = opened.read(about.replace("METADATA", "entry_points.txt")).decode()
    assert sorted(line.partition(": ")[2] for line in said if line.startswith("Requires-Dist")) == sorted(
        project["dependencies"]
    )
    assert f"Version: {fitlore.__version__}" in said
    assert "License-Expression: MIT" in said
    assert command.split() == ["[console_scripts]", "fitlore", "=", "fitlore.cli:main"]


def test_the_built_in_books_are_read_from_the_wheel(repo: Path, installed: Path, tmp_path: Path) -> None:
    """Away from the checkout the built-in books are those in the wheel, byte for byte those of the checkout."""
    layout = repo / "src" / "fitlore" / "books" / "layout.py"
    if not layout.exists() or "def builtin_kb(" not in layout.read_text("utf-8"):
        pytest.skip("fitlore.books.layout.builtin_kb is not written yet")
    ask = "import fitlore.books.layout as layout; print(layout.builtin_kb())"
    found = Path(run([sys.executable, "-c", ask], tmp_path, PYTHONPATH=str(installed)).strip())
    assert found == installed / "fitlore" / "kb"
    assert books(found) == books(repo / "kb")


def test_the_command_runs_away_from_the_checkout(installed: Path, tmp_path: Path) -> None:
    """`python -m fitlore --version` from the wheel, in an empty folder, says the version."""
    where = "import fitlore; print(fitlore.__file__)"
    assert run([sys.executable, "-c", where], tmp_path, PYTHONPATH=str(installed)).startswith(str(installed))
    said = run([sys.executable, "-m", "fitlore", "--version"], tmp_path, PYTHONPATH=str(installed))
    assert fitlore.__version__ in said.split()
