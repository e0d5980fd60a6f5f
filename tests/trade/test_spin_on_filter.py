"""Oil filters that screw on: what holds by hand and does not hold oil."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitlore.trade.thread.reading import read as read_thread
from fitlore.trade.thread.value import Thread, normal
from tests.trade.families import STANDARDS, ask, codes, refused
from tests.trade.families import normal as form

KIND = "spin-on-filter"
NEEDED = "oil filter 3/4-16 UNF, gasket 72 mm, height 98 mm, bypass 1 bar, anti-drain"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("Oil Filter 3/4-16, gasket 72", "oil filter 3/4-16 UNF, gasket 72 mm"),
        ("filter M20 × 1,5 seal 62,5mm", "oil filter M20x1.5, gasket 62.5 mm"),
        ('spin-on filter 13/16-16 UN gasket 2 13/16" 4 in tall', "oil filter 13/16-16 UN, gasket 71.44 mm, height 101.6 mm"),
        ("oil filter M22x1.5 ring diameter 62 mm, bypass valve opens 100 kPa", "oil filter M22x1.5, gasket 62 mm, bypass 1 bar"),
        ("oil filter M22x1.5, gasket 62, bypass 14.5 psi", "oil filter M22x1.5, gasket 62 mm, bypass 1 bar"),
        ("oil filter M18x1.5, 62 mm gasket, no by-pass", "oil filter M18x1.5, no bypass, gasket 62 mm"),
        ("oil filter 3/4 UNF gasket 72 without anti drain back valve", "oil filter 3/4-16 UNF, no anti-drain, gasket 72 mm"),
    ],
)  # fmt: skip
def test_filters_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Fractions, commas, old and new units of pressure, either order of noun and figure."""
    assert form(KIND, text) == read


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("oil filter 3/4-16 UNF", "spin-on-filter-no-gasket"),
        ("oil filter, gasket 72 mm", "spin-on-filter-no-thread"),
        ("oil filter 3/4, gasket 72 mm", "spin-on-filter-thread"),
        ("oil filter 3/4-16 UNF, gasket 72 mm, bypass 1", "spin-on-filter-thread"),
        ("oil filter 3/4-16 UNF, gasket 72 mm, no bypass, bypass 1 bar", "spin-on-filter-unknown"),
        ("oil filter 3/4-16 UNF 71 mm gasket 98 mm height", "spin-on-filter-unknown"),
        ("oil filter", "spin-on-filter-unknown"),
    ],
)
def test_what_leaves_half_of_the_fit_open_is_a_question(text: str, reason: str) -> None:
    """The thread alone is no fit; a pressure without a unit and figures between two nouns could be either."""
    assert refused(KIND, text).reason == reason


@pytest.mark.parametrize(
    ("offered", "state", "code"),
    [
        # Thread dimensions after ISO 724 and ASME B1.1; the rest is common practice.
        ("oil filter M20x1.5, gasket 72 mm, height 98 mm, bypass 1 bar, anti-drain", "trap", "thread-trap-loose"),
        ("oil filter 3/4-16 UNF, gasket 70 mm, height 98 mm, bypass 1 bar, anti-drain", "trap", "spin-on-filter-trap-ring-small"),
        ("oil filter 3/4-16 UNF, gasket 75 mm, height 98 mm, bypass 1 bar, anti-drain", "trap", "spin-on-filter-trap-ring-big"),
        ("oil filter 3/4-16 UNF, gasket 92 mm, height 98 mm, bypass 1 bar, anti-drain", "off", "service-other-size"),
        ("oil filter 3/4-16 UNF, gasket 72 mm, height 75 mm, bypass 1 bar, anti-drain", "ok", "spin-on-filter-height"),
        ("oil filter 3/4-16 UNF, gasket 72 mm, height 120 mm, bypass 1 bar, anti-drain", "off", "spin-on-filter-tall"),
        (
            "oil filter 3/4-16 UNF, gasket 72 mm, height 98 mm, bypass 0.5 bar, anti-drain",
            "trap",
            "spin-on-filter-trap-bypass-low",
        ),
        (
            "oil filter 3/4-16 UNF, gasket 72 mm, height 98 mm, bypass 2.5 bar, anti-drain",
            "trap",
            "spin-on-filter-trap-bypass-high",
        ),
        ("oil filter 3/4-16 UNF, gasket 72 mm, height 98 mm, no bypass, anti-drain", "trap", "spin-on-filter-trap-no-bypass"),
        ("oil filter 3/4-16 UNF, gasket 72 mm, height 98 mm, bypass 1 bar, no anti-drain", "trap", "spin-on-filter-trap-drains"),
        ("oil filter 3/4-16 UNF, gasket 72 mm, height 98 mm, anti-drain", "unreadable", "service-not-said"),
        ("oil filter 3/4-16 UNF, gasket 72 mm, height 98 mm, bypass 1 bar", "unreadable", "service-not-said"),
        ("oil filter 3/4-16 UNF", "unreadable", "spin-on-filter-no-gasket"),
        ("oil filter 3/4-16 UNF, gasket 72.4 mm, height 98 mm, bypass 15 psi, anti-drain", "ok", "service-agrees"),
    ],
)  # fmt: skip
def test_each_piece_decides_by_itself(offered: str, state: str, code: str) -> None:
    """Thread, ring, height, valve past the paper and valve against draining; less said than needed is a question."""
    result = ask(KIND, NEEDED, offered)
    assert result.state == state
    assert code in codes(result)


def test_a_filter_on_a_spigot_of_the_other_inch_and_metric_thread() -> None:
    """3/4-16 in M20x1.5 spins on loosely, the reverse jams (common practice); +5.8 % of pitch by ISO 261 and ASME B1.1."""
    loose = ask(KIND, "oil filter 3/4-16 UNF, gasket 72 mm", "oil filter M20x1.5, gasket 72 mm")
    jams = ask(KIND, "oil filter M20x1.5, gasket 72 mm", "oil filter 3/4-16 UNF, gasket 72 mm")
    assert (loose.state, jams.state) == ("trap", "off")
    assert "thread-trap-loose" in codes(loose)
    assert round((INCH / 16 / Decimal("1.5") - 1) * 100, 1) == Decimal("5.8")


def test_a_second_valve_is_to_be_asked_about() -> None:
    """Some engines have the valve in the block; a can with one is then acceptable or not, by engine (common practice)."""
    result = ask(
        KIND, "oil filter M20x1.5, gasket 72 mm, no bypass", "oil filter M20x1.5, gasket 72 mm, bypass 1 bar"
    )
    assert result.state == "unreadable"
    assert "spin-on-filter-second-bypass" in codes(result)


def test_every_thread_of_filters_is_a_listed_thread_in_its_normal_form() -> None:
    """Ten threads, each in the thread tables (ISO 261, ASME B1.1) and usable in a designation."""
    rows = STANDARDS.table("filter-thread").rows
    assert len(rows) == 10
    for row in rows:
        thread = read_thread(row.word("thread"), STANDARDS)
        assert isinstance(thread, Thread)
        assert normal(thread) == row.word("thread")
        assert form(KIND, f"oil filter {row.word('thread')}, gasket 72 mm")
    assert refused(KIND, "oil filter, gasket 72 mm").expected == tuple(row.word("thread") for row in rows)


INCH = Decimal("25.4")
