"""What lies in the checkout, and what no file in it may name."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

ALLOWED = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "kb", "src", "tests", "demo"}

# Put together from pieces, so that this file does not name them itself.
REGISTRIES = [
    "py" + "pi.org",
    "python" + "hosted.org",
    "npm" + "js.org",
    "crates" + ".io",
    "proxy.go" + "lang.org",
]
MACHINE = re.compile(rb"(?<![\w.])/(work/(main|shared|\.library)|ro" + rb"ot/)")


def files(repo: Path) -> list[Path]:
    """Every file that git keeps or would keep, as paths relative to the checkout."""
    asked = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    listed = subprocess.run(asked, cwd=repo, capture_output=True, text=True, check=True).stdout
    return [path for name in listed.split("\0") if name and (repo / (path := Path(name))).is_file()]


@pytest.fixture(scope="module")
def kept(repo: Path) -> list[Path]:
    """The files git keeps; only a copy without its .git cannot be asked."""
    if not (repo / ".git").exists():
        pytest.skip("no git checkout: which files belong to it cannot be told")
    return files(repo)


def test_the_top_level_is_the_one_that_was_agreed(kept: list[Path]) -> None:
    """README.md, DEVELOPERS.md, LICENSE, pyproject.toml, kb, src, tests, demo, and dot-files: no less, no more."""
    top = {path.parts[0] for path in kept}
    assert {name for name in top if not name.startswith(".")} == ALLOWED


def test_every_room_is_a_package(kept: list[Path]) -> None:
    """A folder of Python files without __init__.py would be a room the import contract does not see."""
    folders = {path.parent for path in kept if path.parts[:2] == ("src", "fitlore") and path.suffix == ".py"}
    assert Path("src/fitlore") in folders
    assert sorted(folder for folder in folders if folder / "__init__.py" not in kept) == []


def registries_named(repo: Path, paths: list[Path]) -> list[str]:
    """Files with the host of a package index in them, as "path: host"."""
    return [
        f"{path}: {host}"
        for path in paths
        for host in REGISTRIES
        if host.encode() in (repo / path).read_bytes().lower()
    ]


def machines_named(repo: Path, paths: list[Path]) -> list[str]:
    """Files with a folder of one machine in them, as "path: folder"."""
    found = [(path, MACHINE.search((repo / path).read_bytes())) for path in paths]
    return [f"{path}: {hit[0].decode()}" for path, hit in found if hit]


def test_no_file_names_a_package_index(repo: Path, kept: list[Path]) -> None:
    """Where packages come from is the affair of whoever installs; the pins name versions and hashes only."""
    assert registries_named(repo, kept) == []


def test_no_file_names_a_folder_of_one_machine(repo: Path, kept: list[Path]) -> None:
    """A path that exists on one machine only is of no use on another."""
    assert machines_named(repo, kept) == []


def test_the_searches_find_what_they_look_for(tmp_path: Path) -> None:
    """Both searches catch a planted name, in files that git does not know yet."""
    subprocess.run(["git", "init", "--quiet"], cwd=tmp_path, check=True)
    (tmp_path / "index.txt").write_text(f"see https://{REGISTRIES[0].upper()}/simple", "utf-8")
    (tmp_path / ".path").write_text('cd "/ro' + 'ot/x"', "utf-8")
    paths = files(tmp_path)
    assert registries_named(tmp_path, paths) == [f"index.txt: {REGISTRIES[0]}"]
    assert machines_named(tmp_path, paths) == [".path: /ro" + "ot/"]
