"""Setting up finds a Python that will do, says plainly when there is none, and does nothing twice."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

TOOLS = ("cat", "cksum", "dirname", "env", "sh")

# A backend that makes an empty package, so that no file has to be fetched to try the steps.
BACKEND = """
import zipfile

def build_editable(folder, config_settings=None, metadata_directory=None):
    with zipfile.ZipFile(folder + "/dummy-1-py3-none-any.whl", "w") as wheel:
        wheel.writestr("dummy-1.dist-info/METADATA", "Metadata-Version: 2.1\\nName: dummy\\nVersion: 1\\n")
        wheel.writestr("dummy-1.dist-info/WHEEL", "Wheel-Version: 1.0\\nRoot-Is-Purelib: true\\nTag: py3-none-any\\n")
        wheel.writestr("dummy-1.dist-info/RECORD", "")
    return "dummy-1-py3-none-any.whl"
"""
PROJECT = """
[build-system]
requires = []
build-backend = "backend"
backend-path = ["."]
[project]
name = "dummy"
version = "1"
"""


@pytest.fixture
def tree(repo: Path, tmp_path: Path) -> Path:
    """A checkout with the scripts in it, a project of nothing, and no packages to fetch."""
    top = tmp_path / "a checkout"
    for script in (".pins/setup.sh", "tests/run", "demo/run"):
        (top / script).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(repo / script, top / script)
    for pins in ("run", "test"):
        (top / ".pins" / f"{pins}.txt").write_text("# nothing\n", "utf-8")
    (top / "backend.py").write_text(BACKEND, "utf-8")
    (top / "pyproject.toml").write_text(PROJECT, "utf-8")
    return top


@pytest.fixture
def names(tmp_path: Path) -> Path:
    """A folder for PATH with the few tools the scripts use, and no Python yet."""
    folder = tmp_path / "bin"
    folder.mkdir()
    for tool in TOOLS:
        (folder / tool).symlink_to(shutil.which(tool) or "")
    return folder


def pretend(names: Path, name: str, change: str) -> None:
    """Puts a Python under `name` that runs `change` before whatever it is asked with -c."""
    wrapper = names / name
    script = f"import sys; {change}; exec(sys.argv[1])"
    wrapper.write_text(f"#!/bin/sh\nexec '{sys.executable}' -c '{script}' \"$2\"\n", "utf-8")
    wrapper.chmod(0o755)


def call(
    command: list[str], cwd: Path, names: Path | None = None, **more: str
) -> subprocess.CompletedProcess[str]:
    """Runs a script, with PYTHON as given in `more` or unset."""
    surroundings = {key: value for key, value in os.environ.items() if key not in {"PYTHON", "PYTHONPATH"}}
    if names:
        surroundings["PATH"] = str(names)
    return subprocess.run(
        command, cwd=cwd, env=surroundings | more, capture_output=True, text=True, check=False, timeout=120
    )


OLD = "sys.version_info = (3, 9, 18)"
BARE = 'sys.modules["ensurepip"] = None'


@pytest.mark.parametrize("script", ["tests/run", "demo/run"])
def test_a_python_that_is_not_there_is_named(tree: Path, script: str) -> None:
    """PYTHON that cannot be run: exit 2, nothing made, and the way to name another."""
    done = call(["sh", str(tree / script)], tree.parent, PYTHON="/nonexistent")
    said = done.stdout + done.stderr
    assert done.returncode == 2
    assert "PYTHON is set to /nonexistent" in said
    assert "PYTHON=/path/to/python3" in said
    assert not (tree / ".venv").exists()


@pytest.mark.parametrize("script", ["tests/run", "demo/run"])
def test_no_python_at_all(tree: Path, names: Path, script: str) -> None:
    """Exit 2, with the names that were tried."""
    done = call(["sh", str(tree / script)], tree, names)
    assert done.returncode == 2
    assert "No Python was found under the names: python3 python3.14" in done.stdout + done.stderr


@pytest.mark.parametrize(
    ("change", "reason"), [(OLD, "python3 is Python 3.9: too old"), (BARE, "without the venv module")]
)
def test_a_python_that_will_not_do_is_told_why(tree: Path, names: Path, change: str, reason: str) -> None:
    """Too old, or without its venv module: exit 2 and the reason."""
    pretend(names, "python3", change)
    done = call(["sh", str(tree / "tests" / "run")], tree, names)
    assert done.returncode == 2
    assert "needs Python 3.11 or newer" in done.stdout
    assert reason in done.stdout
    assert not (tree / ".venv").exists()


def test_a_later_name_may_do_where_the_first_does_not(tree: Path, names: Path) -> None:
    """An old python3 does not hide a good python3.12; an explicit PYTHON is the only one tried."""
    pretend(names, "python3", OLD)
    pretend(names, "python3.13", BARE)
    pretend(names, "python3.12", "pass")
    ask = ["sh", "-c", 'root=$1; . "$root/.pins/setup.sh"; find_python; echo "$base"', "sh", str(tree)]
    assert call(ask, tree, names).stdout == "python3.12\n"
    done = call(ask, tree, names, PYTHON="python3")
    assert (done.returncode, done.stdout) == (2, "")


def test_nothing_is_made_twice(tree: Path, tmp_path: Path) -> None:
    """The larger set grows from the smaller, serves for both, and only a change of the pins makes all new."""

    def steps(kind: str) -> list[str]:
        set_up = ["sh", "-ec", 'root=$1; . "$root/.pins/setup.sh"; set_up "$2"', "sh", str(tree), kind]
        done = call(set_up, tmp_path, PYTHON=sys.executable)
        assert done.returncode == 0, done.stderr
        assert done.stdout == ""
        return [line.removeprefix("set-up: ").partition(",")[0] for line in done.stderr.splitlines()]

    new, project = "new environment in .venv", "fitlore itself into .venv"
    assert steps("run") == [new, "packages of .pins/run.txt into .venv", project]
    assert steps("run") == []
    assert steps("test") == ["packages of .pins/test.txt into .venv"]
    assert steps("test") == steps("run") == []
    (tree / "pyproject.toml").write_text(PROJECT + "# changed\n", "utf-8")
    assert steps("run") == [project]
    (tree / ".pins" / "run.txt").write_text("# changed\n", "utf-8")
    assert steps("test") == [new, "packages of .pins/test.txt into .venv", project]
    assert steps("run") == []


def test_a_failing_step_shows_what_it_said(tree: Path) -> None:
    """Exit 2 with the installer's own words; the step is not taken for done, and no story is told."""
    (tree / ".pins" / "run.txt").write_text("no-such-package @ nowhere\n", "utf-8")
    done = call(["sh", str(tree / "demo" / "run")], tree, PYTHON=sys.executable)
    assert (done.returncode, done.stdout) == (2, "")
    assert "no-such-package" in done.stderr
    assert not (tree / ".venv" / "made-for-run").exists()


def test_the_demo_hands_over_to_its_story(tree: Path) -> None:
    """The story gets the arguments, the command on its PATH, and the standard output to itself."""
    (tree / "demo" / "story.sh").write_text('command -v python; echo "$@"\n', "utf-8")
    done = call(["sh", "run", "one", "two"], tree / "demo", PYTHON=sys.executable)
    assert done.returncode == 0, done.stderr
    assert done.stdout.splitlines() == [str(tree / ".venv" / "bin" / "python"), "one two"]
