"""What was measured, kept as `figures.json`, and the table of README that is made of it."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Final

import msgspec

KEPT: Final = Path(__file__).with_name("figures.json")
README: Final = Path(__file__).resolve().parents[2] / "README.md"
BEGIN, END = "<!-- speed: python tests/speed/run.py -->", "<!-- /speed -->"
TARGETS: Final = {"floor": 1.5, "growth": 1.25, "build": 0.5, "edit": 0.5}
PEER_NAMES: Final = {
    "fitlore": "reachability: fitlore, over the whole knowledge base",
    "oxigraph": "reachability: Oxigraph, property path, claims only",
    "sqlite": "reachability: SQLite, recursive query, claims only",
    "rdflib": "reachability: rdflib, property path, claims only",
    "ladybug": "reachability: ladybug (property graph), claims only",
}


class Figures(msgspec.Struct, frozen=True):
    """One size. Seconds are medians of whole processes; ratios are medians of runs that followed each other."""

    parts: int
    claims: int
    books: int
    megabytes: float
    statements: int
    machine: str
    """The day, the machine and the versions."""
    build: float
    memory: int
    """Bytes, of the largest process of a build."""
    throughput: float
    """Against raw bulk load of the same statements."""
    floor: float
    fits: float
    against_floor: float
    edit: float
    peers: dict[str, float]


def kept() -> list[Figures]:
    """All that are kept, the smallest size first."""
    if not KEPT.exists():
        return []
    return msgspec.json.decode(KEPT.read_bytes(), type=list[Figures])


def keep(new: list[Figures]) -> None:
    """Keeps these in place of those of the same size."""
    every = {one.parts: one for one in (*kept(), *new)}
    KEPT.write_bytes(msgspec.json.format(msgspec.json.encode([every[at] for at in sorted(every)])) + b"\n")


def table_of(every: list[Figures]) -> str:
    """README's table, and under it where and when it was measured."""
    rows = [
        ("", *(f"{one.parts:,} parts" for one in every)),
        ("---", *("---:" for _ in every)),
        ("books", *(f"{one.books:,} ({one.megabytes:,.0f} MB)" for one in every)),
        ("first build", *(f"{one.build:,.0f} s" for one in every)),
        ("memory of it", *(f"{one.memory / 1e9:.1f} GB" for one in every)),
        (
            f"its throughput against raw bulk load (wanted: at least {TARGETS['build']})",
            *(f"{one.throughput:.2f}" for one in every),
        ),
        ("cold floor", *(f"{one.floor:.3f} s" for one in every)),
        ("cold `fits`", *(f"{one.fits:.3f} s" for one in every)),
        (
            f"`fits` against the floor (wanted: at most {TARGETS['floor']})",
            *(f"{one.against_floor:.1f}" for one in every),
        ),
        (
            f"`fits` against itself at {every[0].parts:,} (wanted: at most {TARGETS['growth']})",
            *(f"{one.fits / every[0].fits:.2f}" for one in every),
        ),
        (
            f"one line edited, then opened (wanted at 100,000: under {TARGETS['edit']} s)",
            *(f"{one.edit:.2f} s" for one in every),
        ),
    ]
    for name, words in PEER_NAMES.items():
        found = [f"{one.peers[name]:.3f} s" if name in one.peers else "not run" for one in every]
        rows.append((words, *found))
    machines = dict.fromkeys(one.machine for one in every)
    under = [
        f"{' and '.join(f'{one.parts:,}' for one in every if one.machine == machine)} parts: {machine}."
        for machine in machines
    ]
    return "\n".join([*(f"| {' | '.join(row)} |" for row in rows), "", "Measured: " + " ".join(under)])


def with_table(page: str, every: list[Figures]) -> str:
    """The page with this table between its marks."""
    found = re.search(f"(?s){re.escape(BEGIN)}\n.*?{re.escape(END)}", page)
    assert found, f"no {BEGIN} in the page"
    return f"{page[: found.start()]}{BEGIN}\n{table_of(every)}\n{END}{page[found.end() :]}"
