"""README's table of speeds is what was measured and kept; nothing is measured here."""

from __future__ import annotations

import msgspec
import pytest

from tests.speed.figures import BEGIN, END, README, Figures, kept, table_of, with_table

ONE = Figures(
    parts=10_000,
    claims=2_000,
    books=48,
    megabytes=5.3,
    statements=700_000,
    machine="a day, a machine",
    build=12.0,
    memory=800_000_000,
    throughput=0.6,
    floor=0.06,
    fits=0.15,
    against_floor=2.5,
    edit=0.4,
    peers={"fitlore": 0.1, "sqlite": 0.03},
)


def test_readme_shows_what_was_kept() -> None:
    """`python tests/speed/run.py` without a size writes the table from `figures.json` and changes nothing."""
    page = README.read_text("utf-8")
    assert kept()
    assert with_table(page, kept()) == page


def test_sizes_stand_beside_each_other_with_what_was_not_run() -> None:
    """One column for each size; growth is told against the smallest; a peer that was not there is `not run`."""
    large = msgspec.structs.replace(ONE, parts=100_000, fits=0.3, machine="another day")
    table = table_of([ONE, large])
    assert "|  | 10,000 parts | 100,000 parts |" in table
    assert "against itself at 10,000 (wanted: at most 1.25) | 1.00 | 2.00 |" in table
    assert "ladybug (property graph), claims only | not run | not run |" in table
    assert "10,000 parts: a day, a machine. 100,000 parts: another day." in table


def test_only_what_is_between_the_marks_is_written_anew() -> None:
    """The page around the table stays; a page without the marks is refused."""
    page = f"# before\n\n{BEGIN}\nof last year\n{END}\nafter\n"
    written = with_table(page, [ONE])
    assert written.startswith(f"# before\n\n{BEGIN}\n|  | 10,000 parts |")
    assert written.endswith(f"{END}\nafter\n")
    assert "last year" not in written
    with pytest.raises(AssertionError):
        with_table("# no marks\n", [ONE])
