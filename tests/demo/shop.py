"""A copy of the demo shop that a test may write into, and the command line on it."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any, NamedTuple

REPO = Path(__file__).resolve().parents[2]


class Said(NamedTuple):
    """What one call printed, and its exit code."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """The standard output as JSON."""
        return json.loads(self.out)


class Shop(NamedTuple):
    """A copy of the demo shop."""

    folder: Path

    def call(self, *words: str, stdin: str = "", **environment: str) -> Said:
        """Run `fitlore` in the shop's folder, 100 columns wide, without colour, its snapshot kept beside the shop."""
        env = {
            **os.environ,
            "COLUMNS": "100",
            "NO_COLOR": "1",
            "FITLORE_CACHE": str(self.folder.parent / "cache"),
            "PYTHONPATH": str(REPO / "src"),
            **environment,
        }
        done = subprocess.run(
            [sys.executable, "-m", "fitlore", *words],
            cwd=self.folder, env=env, capture_output=True, text=True, check=False, input=stdin, timeout=120,
        )  # fmt: skip
        assert "Traceback" not in done.stderr, done.stderr
        return Said(done.returncode, done.stdout, done.stderr)


def copy_of_the_demo(place: Path) -> Shop:
    """A fresh copy without anything remembered."""
    folder = place / "lowbarn"
    shutil.copytree(REPO / "demo" / "lowbarn", folder, ignore=shutil.ignore_patterns(".fitlore"))
    return Shop(folder)
