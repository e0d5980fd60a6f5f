"""What `tests/speed/plans.py` found, kept in `plans.json`, and README's table of it."""

from __future__ import annotations

import re
import statistics
from pathlib import Path
from typing import Final

import msgspec

KEPT: Final = Path(__file__).with_name("plans.json")
README: Final = Path(__file__).resolve().parents[2] / "README.md"
BEGIN, END = "<!-- plans: python tests/speed/plans.py -->", "<!-- /plans -->"


class Measured(msgspec.Struct, frozen=True):
    """One way on one job: cost in coins (None: no plan), the proof, processor seconds, bytes; `limit` in seconds."""

    needs: int
    suppliers: int
    family: str
    seed: int
    way: str
    cost: float | None
    proven: bool
    seconds: float
    processor: float
    memory: int
    limit: float
    reached: bool = False
    """What the way is after was reached in time: the proof, or the proof of being within 0.1 %."""

    @property
    def key(self) -> tuple[int, int, str, int, str]:
        """What was measured."""
        return self.needs, self.suppliers, self.family, self.seed, self.way


class Second(msgspec.Struct, frozen=True):
    """All runner-ups of one job of 60 needs: how, how many were asked, processor seconds."""

    how: str
    asked: int
    processor: float


class Figures(msgspec.Struct, frozen=True):
    """The last measurement of every job and way."""

    machine: str
    rows: list[Measured]
    seconds: list[Second]


def kept() -> Figures:
    """What was found so far; nothing where nothing was kept."""
    if not KEPT.exists():
        return Figures("", [], [])
    return msgspec.json.decode(KEPT.read_bytes(), type=Figures)


def keep(machine: str, rows: list[Measured], seconds: list[Second]) -> None:
    """Put new rows in place of those of the same job and way, in the file and on the README."""
    before = kept()
    new = {row.key for row in rows}
    how = {row.how for row in seconds}
    found = Figures(
        machine,
        sorted([*(row for row in before.rows if row.key not in new), *rows], key=lambda row: row.key),
        [*(row for row in before.seconds if row.how not in how), *seconds],
    )
    KEPT.write_bytes(msgspec.json.format(msgspec.json.encode(found)) + b"\n")
    page = README.read_text("utf-8")
    if BEGIN in page:
        README.write_text(with_table(page, found), "utf-8")


def table_of(found: Figures) -> str:
    """README's tables, and under them where and when it was measured."""
    head = ["| needs x suppliers, jobs: by | processor s, median | longest | reached | dearer by | MB |",
            "| --- | ---: | ---: | ---: | ---: | ---: |"]  # fmt: skip
    rows = [line for size in _sizes(found) for line in _of_size(found, size)]
    more = [f"| {row.how} | {row.asked} | {row.processor:.1f} s |" for row in found.seconds]
    second = ["", "| every second best of a job of 60 needs | asked | processor |", "| --- | ---: | ---: |"]
    return "\n".join([*head, *rows, *([*second, *more] if more else []), "", f"Measured: {found.machine}."])


def _sizes(found: Figures) -> list[tuple[int, int]]:
    return sorted({(row.needs, row.suppliers) for row in found.rows})


def _of_size(found: Figures, size: tuple[int, int]) -> list[str]:
    mine = [row for row in found.rows if (row.needs, row.suppliers) == size]
    best: dict[tuple[str, int], float] = {}
    for row in mine:
        if row.cost is not None:
            job = (row.family, row.seed)
            best[job] = min(row.cost, best.get(job, row.cost))
    ways: dict[str, list[Measured]] = {}
    for row in mine:
        ways.setdefault(row.way, []).append(row)
    return [_line(size, way, rows, best) for way, rows in ways.items()]


def _line(size: tuple[int, int], way: str, rows: list[Measured], best: dict[tuple[str, int], float]) -> str:
    dearer = [100 * (row.cost / best[row.family, row.seed] - 1) for row in rows if row.cost is not None]
    name = f"{size[0]} x {size[1]}, {len(rows)}: {way}"
    longest = max(rows, key=lambda row: row.processor)
    over = "over " if not longest.reached and longest.seconds >= longest.limit else ""
    gap = f"{max(dearer):.2f} %" if dearer else "no plan"
    cells = (
        f"{statistics.median(row.processor for row in rows):.2f}",
        f"{over}{longest.processor:.2f}",
        f"{sum(row.reached for row in rows)} of {len(rows)}",
        gap,
        f"{max(row.memory for row in rows) / 1e6:.0f}",
    )
    return f"| {name} | {' | '.join(cells)} |"


def with_table(page: str, found: Figures) -> str:
    """The page with this table between its marks."""
    place = re.search(f"(?s){re.escape(BEGIN)}\n.*?{re.escape(END)}", page)
    assert place, f"no {BEGIN} in the page"
    return f"{page[: place.start()]}{BEGIN}\n{table_of(found)}\n{END}{page[place.end() :]}"
