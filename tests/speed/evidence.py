"""The benchmark of chances: `python tests/speed/evidence.py`, a table on stdout; kept in `evidence.json` and README.

Networks of sixty claims are asked of fitlore and of ProbLog (general-purpose probabilistic logic programming), each in turn
and each question in a process of its own, in the same run. Only the answer is timed, in processor seconds, not the start of
Python or the import of a library. Where ProbLog has not answered in --limit of them its time is `over` that limit.

--limit S   processor seconds for ProbLog (default 20)
"""

# ruff: noqa: E402  (this file is run as a script: it has to say where the packages are)
from __future__ import annotations

import argparse
import contextlib
import os
import random
import re
import resource
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from importlib.metadata import version
from itertools import pairwise
from pathlib import Path
from typing import Final

_REPO = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(_REPO / "src"), str(_REPO)]

import msgspec

from fitlore.fitting.chance import Arc, Network, chance
from tests.speed.measure import machine, table

KEPT: Final = Path(__file__).with_name("evidence.json")
README: Final = _REPO / "README.md"
BEGIN, END = "<!-- evidence: python tests/speed/evidence.py -->", "<!-- /evidence -->"
CLAIMS: Final = 60


class Asked(msgspec.Struct, frozen=True):
    """One network: processor seconds of both, and what was found."""

    network: str
    claims: int
    pieces: int
    fitlore: float
    problog: float
    answered: bool
    """ProbLog answered within the limit."""
    low: float
    high: float
    exact: bool

    @property
    def ratio(self) -> float:
        """How many times as fast, at least."""
        return self.problog / self.fitlore


class Figures(msgspec.Struct, frozen=True):
    """All of one run."""

    machine: str
    limit: int
    rows: list[Asked]


def cluster(rng: random.Random) -> Network:
    """What books hold: families of parts in a chain of claims, a few letters behind many of them, dead ends."""
    nodes = ["a", "b"]
    claims = [("a", "b")]
    while len(claims) < CLAIMS:
        if rng.random() < 0.6:
            nodes.append(f"n{len(nodes)}")
            claims.append((rng.choice(nodes[:-1]), nodes[-1]))
        else:
            tail, head = rng.sample(nodes, 2)
            claims.append((tail, head))
    return _told(claims, rng, letters=4)


def ladder(rng: random.Random) -> Network:
    """Two rows of parts, each claimed for the next and for its neighbour: twenty-one rungs, no letters."""
    claims = [(f"u{at}", f"v{at}") for at in range(21)]
    claims += [(f"{row}{at}", f"{row}{at + 1}") for row in "uv" for at in range(20)]
    renamed = {"u0": "a", "v20": "b"}
    return _told([(renamed.get(t, t), renamed.get(h, h)) for t, h in claims[:61]], rng, letters=0)


def chains(rng: random.Random) -> Network:
    """Fifteen chains of four links between the same two parts, three letters behind some of the links."""
    claims = []
    for chain in range(15):
        nodes = ["a", *(f"n{chain}.{at}" for at in range(3)), "b"]
        claims += list(pairwise(nodes))
    return _told(claims, rng, letters=3)


def mesh(rng: random.Random) -> Network:
    """Sixty claims drawn at random between thirty parts, half of them one-way, four letters: the hard case."""
    nodes = ["a", "b", *(f"n{at}" for at in range(28))]
    drawn = [rng.sample(nodes, 2) for _ in range(CLAIMS)]
    return _told([(tail, head) for tail, head in drawn], rng, letters=4)


def _told(claims: list[tuple[str, str]], rng: random.Random, letters: int) -> Network:
    """A piece of evidence for each claim, and a letter behind every third."""
    arcs: list[Arc] = []
    events = {f"letter{at}": 0.4 for at in range(letters)}
    for number, (tail, head) in enumerate(claims):
        both = rng.random() < 0.5
        events[f"word{number}"] = rng.choice((0.97, 0.9, 0.85, 0.75, 0.4))
        arcs.append(Arc(tail, head, frozenset({f"word{number}"}), both))
        if letters and number % 3 == 0:
            arcs.append(Arc(tail, head, frozenset({f"letter{rng.randrange(letters)}"}), both))
    return Network("a", "b", tuple(arcs), events)


NETWORKS: Final[dict[str, Callable[[random.Random], Network]]] = {
    "chains of four": chains,
    "ladder": ladder,
    "cluster with dead ends": cluster,
    "mesh of thirty parts": mesh,
}


def program(made: Network) -> str:
    """The same network as ProbLog reads it."""
    lines = [f"{likely:.17f}::{name}." for name, likely in made.events.items()]
    node = {name: "n" + re.sub(r"\W", "_", name) for arc in made.arcs for name in arc[:2]}
    for arc in made.arcs:
        body = ", ".join(sorted(arc.events)) or "true"
        lines.append(f"arc({node[arc.tail]},{node[arc.head]}) :- {body}.")
        if arc.both:
            lines.append(f"arc({node[arc.head]},{node[arc.tail]}) :- {body}.")
    lines += ["path(X,X).", "path(X,Y) :- arc(X,Z), path(Z,Y).", "query(path(na,nb))."]
    return "\n".join(lines)


def by_problog(made: Network) -> tuple[float, float]:
    """Its chance and the processor seconds it took, those of the compiler that it starts among them."""
    from problog import get_evaluatable
    from problog.program import PrologString

    text = program(made)
    begun = _processor()
    found = get_evaluatable().create_from(PrologString(text)).evaluate()
    return float(sum(found.values())), _processor() - begun


def _processor() -> float:
    """Processor seconds of this process and of those it has started and waited for."""
    return sum(sum(resource.getrusage(who)[:2]) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))


def by_fitlore(made: Network) -> tuple[float, float, bool, float]:
    """Bounds, whether exact, and the processor seconds: the median of five."""
    seconds = []
    for _ in range(5):
        begun = time.process_time()
        found = chance(made)
        seconds.append(time.process_time() - begun)
    return found.low, found.high, found.exact, sorted(seconds)[2]


def asked(name: str, limit: int) -> Asked:
    """One network asked of both. ProbLog, and the compiler it starts, are each ended after so many processor seconds."""
    made = NETWORKS[name](random.Random(name))
    low, high, exact, seconds = by_fitlore(made)
    words = [sys.executable, str(Path(__file__)), "--only", name, "--limit", str(limit)]
    with subprocess.Popen(
        words, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, start_new_session=True
    ) as process:
        try:
            said = process.communicate()[0].split()
        finally:
            with contextlib.suppress(ProcessLookupError):
                os.killpg(process.pid, signal.SIGKILL)
    answered = process.returncode == 0
    if answered:
        assert low - 1e-9 <= float(said[0]) <= high + 1e-9, (name, low, high, said)
    theirs = float(said[1]) if answered else float(limit)
    claims = len({(arc.tail, arc.head, arc.both) for arc in made.arcs})
    return Asked(name, claims, len(made.events), seconds, theirs, answered, low, high, exact)


def table_of(found: Figures) -> str:
    """README's table, and under it where and when it was measured."""
    head = ["| sixty claims, processor time | fitlore | ProbLog | times as fast (wanted: at least 100) | chance |",
            "| --- | ---: | ---: | ---: | ---: |"]  # fmt: skip
    rows = [
        f"| {row.network} | {row.fitlore * 1000:,.1f} ms | {'' if row.answered else 'over '}{row.problog:,.1f} s |"
        f" {'' if row.answered else 'over '}{row.ratio:,.0f} |"
        f" {f'{row.low:.6f}' if row.exact else f'{row.low:.4f} to {row.high:.4f}'} |"
        for row in found.rows
    ]
    return "\n".join([*head, *rows, "", f"Measured: {found.machine}."])


def kept() -> Figures:
    """What the last run found."""
    return msgspec.json.decode(KEPT.read_bytes(), type=Figures)


def with_table(page: str, found: Figures) -> str:
    """The page with this table between its marks."""
    place = re.search(f"(?s){re.escape(BEGIN)}\n.*?{re.escape(END)}", page)
    assert place, f"no {BEGIN} in the page"
    return f"{page[: place.start()]}{BEGIN}\n{table_of(found)}\n{END}{page[place.end() :]}"


def main() -> None:
    """Reads the options and runs."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--limit", type=int, default=20)
    parser.add_argument("--only", choices=NETWORKS, help=argparse.SUPPRESS)
    chosen = parser.parse_args()
    if chosen.only:
        resource.setrlimit(resource.RLIMIT_CPU, (chosen.limit, chosen.limit))
        print(*by_problog(NETWORKS[chosen.only](random.Random(chosen.only))))
        return
    rows = [asked(name, chosen.limit) for name in NETWORKS]
    found = Figures(f"{machine()}, problog {version('problog')}", chosen.limit, rows)
    KEPT.write_bytes(msgspec.json.format(msgspec.json.encode(found)) + b"\n")
    shown = [
        (r.network, f"{r.fitlore:.4f}", f"{r.problog:.2f}", f"{r.ratio:.0f}", str(r.answered)) for r in rows
    ]
    print(
        table("Chances over sixty claims", ("network", "fitlore s", "ProbLog s", "ratio", "answered"), shown)
    )
    page = README.read_text("utf-8")
    if BEGIN in page:
        README.write_text(with_table(page, found), "utf-8")


if __name__ == "__main__":
    main()
