"""Bolts as a whole: thread, length, strength, head and shank."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.trade.families import STANDARDS, ask, codes, normal, refused

KIND = "bolt"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("M8x25-8.8", "M8x1.25 x 25 mm, 8.8"),
        ("m8 × 25 8,8", "M8x1.25 x 25 mm, 8.8"),
        ("hex bolt M10x1.25x30 10.9", "M10x1.25 x 30 mm, 10.9, hexagon head"),
        ("M10 x 1,5 x 45", "M10x1.5 x 45 mm"),
        ("7/16 UNF x 1 1/2 grade 5", "7/16-20 UNF x 38.1 mm, SAE grade 5"),
        ("3/8-24 UNF x 1 in setscrew", "3/8-24 UNF x 25.4 mm, full thread"),
        ("5/16 UNC x 1", "5/16-18 UNC x 25.4 mm"),
        ("M6x20 socket head A2-70", "M6x1 x 20 mm, A2-70, socket head"),
        ("countersunk screw M5 x 16", "M5x0.8 x 16 mm, countersunk head"),
        ("bolt M12x1.75 shank 12.7 mm 40 mm long", "M12x1.75 x 40 mm, shank 12.7 mm"),
        ("M10 bolt", "M10x1.5, bolt"),
    ],
)
def test_bolts_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """A figure that the thread lists is its pitch, any other is a length; inch threads have inch lengths."""
    assert normal(KIND, text) == read


def test_what_is_no_bolt_or_only_half_of_one_is_refused() -> None:
    """A thread alone is a thread; a pitch that no table lists is no length; an ambiguous inch thread is a question."""
    assert refused(KIND, "M10x1").reason == "bolt-unknown"
    assert refused(KIND, "M14x1.55").expected[0] == "M14x1.5"
    assert refused(KIND, "1/4-20 x 3/4").readings == ("1/4-20 UNC x 3/4", "1/4-20 BSW x 3/4")
    assert refused(KIND, "10.9").reason == "bolt-unknown"
    assert refused(KIND, "M8x25/30").reason == "bolt-thread"


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("M8x25-8.8", "M8x25 8.8", "ok", "bolt-proof"),
        ("M8x25-8.8", "M8x25-10.9", "ok-with-work", "property-class-stronger"),
        ("M8x25-8.8", "M8x25-5.8", "off", "property-class-weaker"),
        ("M8x25-8.8", "M8x25", "unreadable", "bolt-unsaid"),
        ("M8x25", "M8x25-8.8", "ok", "bolt-length-ok"),
        ("M8x25", "M8x30", "off", "bolt-long"),
        ("M8x25", "M8x20", "off", "bolt-short"),
        ("7/16 UNF x 1 1/2", "7/16 UNF x 38 mm", "ok", "bolt-length-ok"),
        ("M8x25", "M8x1x25", "off", "thread-jams"),
        ("M8x25", "5/16 UNC x 25 mm", "trap", "thread-trap-tight"),
        ("M8x25 hexagon", "M8x25 socket head", "ok-with-work", "bolt-head-work"),
        ("M8x25 hexagon", "M8x25 countersunk", "off", "bolt-head-off"),
        ("M12x40 shank 12.7 mm", "M12x40 shank 11.1 mm", "trap", "bolt-shank-thin"),
        ("M12x40 shank 11.1 mm", "M12x40 shank 12.7 mm", "off", "bolt-shank-thick"),
        ("M12x40 shank 12.7 mm", "M12x40 full thread", "trap", "bolt-no-shank"),
        ("M12x40 shank 12.7 mm", "M12x40", "unreadable", "bolt-unsaid"),
        ("M8x25 full thread", "M8x25", "unreadable", "bolt-unsaid"),
        ("M8x25-8.8", "M8x25-8.8 shank 10 mm", "unreadable", "bolt-shank-unasked"),
        ("M8x25-8.8", "M8x25-8.8 shank 8 mm", "ok", "bolt-length-ok"),
        ("M8x25-8.8", "M8x25-8.8 countersunk", "unreadable", "bolt-head-unasked"),
        ("M8x25-8.8", "M8x25-8.8 hexagon", "ok", "bolt-length-ok"),
    ],
)
def test_each_piece_decides_by_itself(needed: str, offered: str, state: str, code: str) -> None:
    """Lengths within ISO 4759-1 (js15), strength after ISO 898-1; heads and shanks by common practice."""
    result = ask(KIND, needed, offered)
    assert result.state == state
    assert code in codes(result)


def test_two_bolts_of_one_thread_whose_shanks_differ_are_a_trap() -> None:
    """Mounting bolts of an early and a late caliper: one thread, shanks of 7/16 and 1/2 inch (common practice)."""
    result = ask(KIND, "bolt M12x1.75 shank 1/2 in", "bolt M12x1.75 shank 7/16 in")
    assert (result.state, result.because.values["what"]) == ("trap", "shank")


@pytest.mark.parametrize(
    ("over", "play"),
    [("3", "0.48"), ("6", "0.58"), ("10", "0.70"), ("18", "0.84"), ("30", "1.00"), ("50", "1.20"), ("80", "1.40"),
     ("120", "1.60"), ("180", "1.85")],
)  # fmt: skip
def test_the_play_of_a_length_is_half_of_it15(over: str, play: str) -> None:
    """ISO 286-1, IT15 in mm (9 values): js15 is half of it either way."""
    row = STANDARDS.table("bolt-length").find(over=over)[0]
    assert row.number("play") * 2 == Decimal(play)


@pytest.mark.parametrize(
    ("over", "to", "it6"),
    [(10, 18, 11), (18, 30, 13), (30, 50, 16), (50, 80, 19), (80, 120, 22), (120, 180, 25)],
)
def test_it15_follows_from_the_formula_of_the_standard(over: int, to: int, it6: int) -> None:
    """ISO 286-1: i = 0.45 D^(1/3) + 0.001 D in um with D the mean of the step; IT15 is 640 i (printed values are rounded)."""
    mean = (over * to) ** 0.5
    unit = 0.45 * mean ** (1 / 3) + 0.001 * mean
    row = STANDARDS.table("bolt-length").find(over=str(over))[0]
    assert float(row.number("play")) * 2 * 1000 == pytest.approx(640 * unit, rel=0.04)
    assert 10 * unit == pytest.approx(it6, rel=0.06)
