"""The README and DEVELOPERS.md show real output: every command in them is run and its output compared.

`python tests/house/test_pages.py` writes the outputs anew.
"""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

REPO = Path(__file__).resolve().parents[2]
PAGES = ("README.md", "DEVELOPERS.md")
STAMP = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\+00:00")
"""The journal notes the second a write happened; the pages show one of the story's day."""
BLOCK = re.compile(r"(?ms)^```console\n(.*?)^```$")


def calls(block: str) -> list[tuple[str, str]]:
    """Each `$ command` line of a block with the output under it."""
    rows: list[tuple[str, list[str]]] = []
    for line in block.splitlines():
        if line.startswith("$ "):
            rows.append((line[2:], []))
        elif rows:
            rows[-1][1].append(line)
    return [(command, "\n".join(output)) for command, output in rows]


def run(command: str, shop: Path) -> str:
    """What a command prints in a copy of the demo shop, both streams, 100 columns wide."""
    words = shlex.split(command)
    assert words[0] == "fitlore", f"only fitlore is run, not {words[0]}"
    env = {**os.environ, "COLUMNS": "100", "FITLORE_CACHE": str(shop.parent / "cache"), "NO_COLOR": "1"}
    env["PYTHONPATH"] = str(REPO / "src")
    env["FITLORE_TODAY"] = "2026-12-03"  # the day of the story
    done = subprocess.run(
        [sys.executable, "-m", "fitlore", *words[1:]],
        cwd=shop, env=env, capture_output=True, text=True, check=False, stdin=subprocess.DEVNULL, timeout=300,
    )  # fmt: skip
    assert "Traceback" not in done.stderr, done.stderr
    return STAMP.sub("2026-12-03T18:00:00+00:00", done.stdout + done.stderr).rstrip("\n")


def shown(page: Path, folder: Path) -> str:
    """The page with every output written anew, the commands run in order in one copy of the shop."""
    shop = folder / "lowbarn"
    shutil.copytree(REPO / "demo" / "lowbarn", shop, ignore=shutil.ignore_patterns(".fitlore"))

    def anew(match: re.Match[str]) -> str:
        rows = [
            f"$ {command}\n{output}"
            for command, _ in calls(match[1])
            if (output := run(command, shop)) or True
        ]
        return "```console\n" + "".join(row.rstrip("\n") + "\n" for row in rows) + "```"

    return BLOCK.sub(anew, page.read_text("utf-8"))


@pytest.mark.parametrize("name", PAGES)
def test_the_page_shows_real_output(name: str, tmp_path: Path) -> None:
    """Every command on the page, run in order in a fresh copy of the demo shop, prints what the page shows."""
    page = REPO / name
    assert page.is_file()
    assert shown(page, tmp_path) == page.read_text("utf-8")


def test_the_readme_runs_every_command() -> None:
    """No command of the counter is missing from the README."""
    from fitlore.cli.books import Books
    from fitlore.cli.root import COMMANDS

    text = (REPO / "README.md").read_text("utf-8")
    run_there = [shlex.split(c)[1:] for block in BLOCK.findall(text) for c, _ in calls(block)]
    assert set(COMMANDS) <= {words[0] for words in run_there if words}
    assert set(Books.names) <= {words[1] for words in run_there if words[:1] == ["books"]}


if __name__ == "__main__":
    for each in PAGES:
        with tempfile.TemporaryDirectory() as place:
            (REPO / each).write_text(shown(REPO / each, Path(place)), "utf-8")
