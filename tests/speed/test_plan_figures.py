"""README's table of plans is what was measured and kept. Nothing is measured here."""

from __future__ import annotations

import pytest

from tests.speed.jobs import FAMILIES
from tests.speed.plan_figures import BEGIN, END, README, Figures, Measured, Second, kept, table_of, with_table

ROWS = [
    Measured(10, 8, "plain", 0, "one way", 1000.0, True, 2.0, 1.0, 50_000_000, 60.0, True),
    Measured(10, 8, "weight", 0, "one way", 2000.0, True, 4.0, 3.0, 60_000_000, 60.0, True),
    Measured(10, 8, "plain", 0, "another", 1010.0, False, 60.0, 58.0, 70_000_000, 60.0),
    Measured(10, 8, "weight", 0, "another", None, False, 60.0, 59.0, 10_000_000, 60.0),
]


def test_readme_shows_what_was_kept() -> None:
    """Word for word, and every size of the benchmark is there."""
    page = README.read_text("utf-8")
    assert with_table(page, kept()) == page
    assert {(row.needs, row.suppliers) for row in kept().rows} >= {(10, 8), (60, 40), (300, 200)}


def test_proven_plans_of_a_job_cost_the_same_whoever_found_them() -> None:
    """And no plan of any way is cheaper than a proven one."""
    for needs, suppliers in {(row.needs, row.suppliers) for row in kept().rows}:
        for family in FAMILIES:
            jobs = [r for r in kept().rows if (r.needs, r.suppliers, r.family) == (needs, suppliers, family)]
            for seed in {row.seed for row in jobs}:
                found = [row for row in jobs if row.seed == seed and row.cost is not None]
                proven = {round(row.cost or 0) for row in found if row.proven}
                assert len(proven) <= 1
                assert all(round(row.cost or 0) >= min(proven) for row in found if proven)


def test_medians_gaps_and_what_was_not_proven() -> None:
    """Worked by hand: medians of two, the worst gap, a limit that was reached, a plan that was not found."""
    table = table_of(Figures("a day", ROWS, [Second("near by", 64, 1.26)]))
    assert "| 10 x 8, 2: one way | 2.00 | 3.00 | 2 of 2 | 0.00 % | 60 |" in table
    assert "| 10 x 8, 2: another | 58.50 | over 59.00 | 0 of 2 | 1.00 % | 70 |" in table
    assert "| near by | 64 | 1.3 s |" in table
    assert table.endswith("Measured: a day.")


def test_the_table_stands_between_its_marks() -> None:
    """What stood there goes; a page without marks is a fault."""
    page = f"before\n{BEGIN}\nold\n{END}\nafter\n"
    shown = with_table(page, Figures("a day", ROWS, []))
    assert "old" not in shown
    assert shown.startswith("before\n")
    assert shown.endswith("\nafter\n")
    with pytest.raises(AssertionError):
        with_table("no marks", Figures("a day", ROWS, []))
