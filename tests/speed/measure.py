"""Whole processes timed: seconds, processor seconds and memory, of several commands in turn so that they share the weather."""

from __future__ import annotations

import os
import platform
import statistics
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence
from datetime import date
from importlib.metadata import version
from importlib.util import find_spec
from pathlib import Path
from typing import Final, NamedTuple

REPO: Final = Path(__file__).resolve().parents[2]
LIBRARIES: Final = ("click", "msgspec", "pyoxigraph", "rdflib", "ladybug")


class Run(NamedTuple):
    """One process, from its start to its end."""

    seconds: float
    processor: float
    """Seconds of processor, its own and its children's."""
    memory: int
    """Largest resident size of it or of one of its children, bytes."""
    said: str


class Command(NamedTuple):
    """A command to be timed, and what it is called in tables."""

    name: str
    words: Sequence[str]
    folder: Path
    also_right: int = 0
    """An exit code that is as good as 0."""


def timed(command: Command, environment: Mapping[str, str]) -> Run:
    """Runs it once. A RuntimeError where it fails."""
    env = {**os.environ, "PYTHONPATH": _path(), **environment}
    env.pop("PYTHONDONTWRITEBYTECODE", None)  # an installed program has its bytecode
    begun = time.perf_counter()
    process = subprocess.Popen(command.words, cwd=command.folder, env=env, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    with process.stdout as out:
        said = out.read()
    _, status, used = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - begun
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in (0, command.also_right):
        raise RuntimeError(f"{command.name} ended with {process.returncode}: {said}")
    scale = 1 if sys.platform == "darwin" else 1024
    return Run(seconds, used.ru_utime + used.ru_stime, used.ru_maxrss * scale, said.strip())


def in_turn(
    commands: Sequence[Command], runs: int, environment: Mapping[str, str], *, warm: bool = True
) -> dict[str, list[Run]]:
    """Each command `runs` times, A B A B; before that once each, not counted, where `warm`."""
    found: dict[str, list[Run]] = {command.name: [] for command in commands}
    for at in range(-1 if warm else 0, runs):
        for command in commands:
            run = timed(command, environment)
            if at >= 0:
                found[command.name].append(run)
    return found


def middle(runs: Sequence[Run]) -> Run:
    """Medians of seconds and processor; the largest memory; what the last one said."""
    return Run(
        statistics.median(run.seconds for run in runs),
        statistics.median(run.processor for run in runs),
        max(run.memory for run in runs),
        runs[-1].said,
    )


def ratio(one: Sequence[Run], other: Sequence[Run]) -> tuple[float, float]:
    """Median of the ratios of runs that followed each other: of seconds, and of processor seconds."""
    pairs = list(zip(one, other, strict=True))
    return (
        statistics.median(a.seconds / b.seconds for a, b in pairs),
        statistics.median(a.processor / b.processor for a, b in pairs),
    )


def table(title: str, head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """A table as text: first column to the left, others to the right."""
    lines = [list(head), *[list(row) for row in rows]]
    wide = [max(len(line[at]) for line in lines) for at in range(len(head))]
    shown = ["  ".join(c.ljust(w) if not at else c.rjust(w) for at, (c, w) in enumerate(zip(line, wide, strict=True)))
             for line in lines]  # fmt: skip
    return "\n".join([f"\n{title}", shown[0], "  ".join("-" * w for w in wide), *shown[1:]])


def runs_table(title: str, found: Mapping[str, Sequence[Run]]) -> str:
    """Medians of every command."""
    rows = []
    for name, runs in found.items():
        one = middle(runs)
        rows.append(
            (name, f"{one.seconds:.3f}", f"{one.processor:.3f}", f"{one.memory / 1e6:.0f}", str(len(runs)))
        )
    return table(title, ("process", "seconds", "processor s", "MB", "runs"), rows)


def machine() -> str:
    """The machine, the day and the versions, as one paragraph."""
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    load = ", ".join(f"{one:.1f}" for one in os.getloadavg())
    parts = [f"{name} {version(name)}" for name in LIBRARIES if find_spec(name)]
    return (
        f"{date.today()}, {platform.system()} {platform.machine()}, {cores} cores,"
        f" Python {platform.python_version()}, {', '.join(parts)}; load of the machine {load}"
    )


def _path() -> str:
    before = os.environ.get("PYTHONPATH", "")
    return os.pathsep.join([str(REPO / "src"), str(REPO), *([before] if before else [])])
