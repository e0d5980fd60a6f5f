"""Who waits more than a second for a build is told how far it is, on a terminal only."""

from __future__ import annotations

import os
import re
import select
import subprocess
import sys
from pathlib import Path

import pytest

from tests.demo.shop import REPO, Shop, copy_of_the_demo

SLOW = """
import time
from fitlore.graph import build
real = build.read_book
def slow(*given):
    time.sleep(PAUSE)
    return real(*given)
build.read_book = slow
from fitlore.cli import main
main()
"""

SLOWLY = 0.02
"""Seconds for each of the shop's books; there are more than fifty, so a build takes longer than `build.PATIENCE`."""


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    """The demo shop, without a snapshot."""
    return copy_of_the_demo(tmp_path)


def environment(shop: Shop) -> dict[str, str]:
    """Where the snapshot is kept, and which program is called."""
    return {**os.environ, "FITLORE_CACHE": str(shop.folder.parent / "cache"), "PYTHONPATH": str(REPO / "src")}


def on_terminal(shop: Shop, pause: float) -> str:
    """What a call prints to a terminal on its standard error while reading a book takes so long."""
    pty = pytest.importorskip("pty")
    holder, terminal = pty.openpty()
    command = [sys.executable, "-c", SLOW.replace("PAUSE", str(pause)), "car"]
    with subprocess.Popen(
        command, cwd=shop.folder, env=environment(shop), stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=terminal
    ) as process:  # fmt: skip
        os.close(terminal)
        said = b""
        while select.select([holder], [], [], 60)[0]:
            try:
                piece = os.read(holder, 4096)
            except OSError:  # the other end is closed
                break
            if not piece:
                break
            said += piece
        assert process.wait(60) in (0, 1)
    os.close(holder)
    return said.decode()


def test_a_slow_build_is_told_on_a_terminal_and_a_quick_one_is_not(shop: Shop) -> None:
    """Lines with rising figures come while the books are read; the next call, which reads nothing, says nothing of it, and
    neither does one that reads one changed book within a moment.
    """
    said = on_terminal(shop, SLOWLY)
    figures = [
        (int(done), int(all_)) for done, all_ in re.findall(r"reading the books: (\d+) of (\d+)", said)
    ]
    assert len(figures) >= 1
    assert figures == sorted(figures)
    assert all(0 < done < all_ for done, all_ in figures)
    assert "reading" not in on_terminal(shop, SLOWLY)
    (shop.folder / "books" / "more.yaml").write_text("- {part: ZZ 1, maker: Brede, is: radiator}\n", "utf-8")
    assert "reading" not in on_terminal(shop, 0.0)


def test_nothing_is_told_where_there_is_no_terminal(shop: Shop) -> None:
    """Standard error goes into a file or a pipe: a script gets no lines that it did not ask for."""
    command = [sys.executable, "-c", SLOW.replace("PAUSE", str(SLOWLY)), "car"]
    done = subprocess.run(
        command,
        cwd=shop.folder,
        env=environment(shop),
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode in (0, 1)
    assert done.stderr == ""
