"""README's table of chances is what was measured and kept; the networks are of the stated size. Nothing is measured here."""

from __future__ import annotations

import random

import pytest

from tests.speed.evidence import (
    BEGIN,
    CLAIMS,
    END,
    NETWORKS,
    README,
    Asked,
    Figures,
    kept,
    program,
    table_of,
    with_table,
)

ROW = Asked("ladder", 61, 61, 0.005, 3.0, True, 0.5, 0.5, True)


def test_readme_shows_what_was_kept() -> None:
    """Every network of the benchmark has its row."""
    page = README.read_text("utf-8")
    assert [row.network for row in kept().rows] == list(NETWORKS)
    assert with_table(page, kept()) == page


@pytest.mark.parametrize("name", NETWORKS)
def test_the_networks_hold_sixty_claims(name: str) -> None:
    """The same network at each run, about sixty pairs of parts, and each event is in the program that ProbLog reads."""
    made = NETWORKS[name](random.Random(name))
    assert made == NETWORKS[name](random.Random(name))
    assert CLAIMS <= len({frozenset((arc.tail, arc.head)) for arc in made.arcs}) + 6 <= CLAIMS + 7
    assert all(f"::{event}." in program(made) for event in made.events)


def test_what_was_not_answered_is_said_to_be_over_the_limit() -> None:
    """And bounds are shown as bounds."""
    late = Asked("mesh", 60, 64, 0.1, 20.0, False, 0.25, 0.75, False)
    table = table_of(Figures("a day", 20, [ROW, late]))
    assert "| ladder | 5.0 ms | 3.0 s | 600 | 0.500000 |" in table
    assert "| mesh | 100.0 ms | over 20.0 s | over 200 | 0.2500 to 0.7500 |" in table
    page = f"before\n{BEGIN}\nold\n{END}\nafter\n"
    assert "old" not in with_table(page, Figures("a day", 20, [ROW]))
    with pytest.raises(AssertionError):
        with_table("no marks", Figures("a day", 20, [ROW]))
