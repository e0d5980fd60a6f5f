"""One process that answers many calls and lays each answer out for several widths at once.

`python -m tests.cli.drawing` reads `{"widths": [..], "calls": [[word, ..], ..]}` and hands back a list of `Drawn` as JSON. To
start the program anew for every screen would cost some ten times as much; `test_screens` compares a few of both.
"""

from __future__ import annotations

import contextlib
import io
import json
import os
import subprocess
import sys
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple, TextIO

from tests.demo.shop import REPO, Shop

TODAY = "2026-12-03"
"""The day on which the demo shop's story is told."""
_MARK = "\0"


class Drawn(NamedTuple):
    """What one call printed, by the width it is laid out for, its exit code, and what it told on the other stream."""

    code: int
    out: dict[int, str]
    err: str


def drawn(shop: Shop, calls: Iterable[Sequence[str]], widths: Sequence[int]) -> list[Drawn]:
    """Every call in its turn, in one process, without colour."""
    env = {
        **os.environ,
        "NO_COLOR": "1",
        "FITLORE_TODAY": TODAY,
        "FITLORE_CACHE": str(shop.folder.parent / "cache"),
        "PYTHONPATH": os.pathsep.join((str(REPO / "src"), str(REPO))),
    }
    ask = json.dumps({"widths": list(widths), "calls": [list(call) for call in calls]})
    done = subprocess.run(
        [sys.executable, "-m", "tests.cli.drawing"],
        cwd=shop.folder, env=env, input=ask, capture_output=True, text=True, check=False, timeout=400,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return [
        Drawn(code, {int(width): text for width, text in out.items()}, err)
        for code, out, err in json.loads(done.stdout)
    ]


def main() -> None:
    """Answers what stands on standard input."""
    from fitlore.report import text
    from fitlore.report.text import Line, plain

    asked, widths = json.load(sys.stdin), list[int]()
    widths += asked["widths"]
    shown: list[dict[int, str]] = []

    def show(lines: Iterable[Line], stream: TextIO | None = None) -> None:
        every = list(lines)
        shown.append({width: plain(every, width) for width in widths})
        (stream or sys.stdout).write(f"{_MARK}{len(shown) - 1}{_MARK}")

    text.show = show  # before any command is imported: each takes it from here
    from fitlore.cli.root import run

    found = []
    for call in asked["calls"]:
        sys.argv[1:] = call
        with _caught() as (out, err):
            code = run()
        laid = {width: _filled(out.getvalue(), shown, width) for width in widths}
        found.append(Drawn(code, laid, _filled(err.getvalue(), shown, widths[0])))
    json.dump(found, sys.stdout)


@contextlib.contextmanager
def _caught() -> Iterator[tuple[io.StringIO, io.StringIO]]:
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        yield out, err


def _filled(text: str, shown: Sequence[dict[int, str]], width: int) -> str:
    pieces = text.split(_MARK)
    return "".join(piece if n % 2 == 0 else shown[int(piece)][width] for n, piece in enumerate(pieces))


if __name__ == "__main__":
    main()
