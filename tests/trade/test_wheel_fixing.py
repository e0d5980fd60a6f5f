"""Wheel nuts and bolts: thread, hand, form of seat, size of seat, length."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitlore.trade.threads import dimensions
from fitlore.trade.wheel_fixing.family import LEAST_HOLD
from tests.trade.families import STANDARDS, ask, codes, normal, refused
from tests.trade.loading import thread

KIND = "wheel-fixing"
NUT = "wheel nut 7/16-20 UNF, cone 60"
BOLT = "wheel bolt M14x1.5, ball R13"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("M12x1.25 60° taper wheel nut 19 mm hex", "wheel nut M12x1.25, cone 60, hexagon 19 mm"),
        ("lug nut 1/2-20 60 degree conical", "wheel nut 1/2-20 UNF, cone 60"),
        (
            "17 mm hex 26 mm long M12x1.5 wheel bolt ball R12",
            "wheel bolt M12x1.5, ball R12, length 26 mm, hexagon 17 mm",
        ),
        (
            "Wheel Bolt M12 x 1,5 ball R12 26 mm long 17 A/F",
            "wheel bolt M12x1.5, ball R12, length 26 mm, hexagon 17 mm",
        ),
        ("wheel bolt M14x1.5 R13 length 27", "wheel bolt M14x1.5, ball R13, length 27 mm"),
        ("M12x1.5 flat wheel nut", "wheel nut M12x1.5, flat"),
        ("1/2 UNF lug nut sleeve 0.520 in", "wheel nut 1/2-20 UNF, sleeve 13.21 mm"),
        ("wheel nut M12x1.5 taper 90", "wheel nut M12x1.5, cone 90"),
        ("wheel nut 7/16 UNF LH cone 60", "wheel nut 7/16-20 UNF LH, cone 60"),
        (f"{NUT} seat 20 mm length 16 mm hexagon 3/4", f"{NUT}, seat 20 mm, length 16 mm, hexagon 19.05 mm"),
    ],
)
def test_fixings_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Degrees, radii, sleeves in inches, hands and hexagons."""
    assert normal(KIND, text) == read


def test_half_a_seat_is_a_question() -> None:
    """A cone without its angle, a ball without its radius, no seat at all, a sleeve without its diameter."""
    assert refused(KIND, "wheel nut M12x1.5 cone").readings == (
        "wheel nut M12x1.5, cone 60",
        "wheel nut M12x1.5, cone 90",
    )
    assert len(refused(KIND, "wheel bolt M12x1.5 ball").readings) == 3
    assert refused(KIND, "wheel nut M12x1.5").reason == "wheel-fixing-no-seat"
    assert refused(KIND, "wheel nut M12x1.5 sleeve").reason == "wheel-fixing-no-sleeve"
    assert refused(KIND, "M12x1.5 nut").reason == "wheel-fixing-unknown"
    assert refused(KIND, "bolt 7/16-20 UNF shank 11.1 mm 1 1/4 in long").reason == "wheel-fixing-unknown"


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("wheel nut M12x1.5 cone 60", "wheel nut M12x1.5 ball R13", "trap", "wheel-fixing-seat-trap"),
        ("wheel bolt M12x1.5 ball R13", "wheel bolt M12x1.5 cone 60", "trap", "wheel-fixing-seat-trap"),
        ("wheel nut M12x1.5 flat", "wheel nut M12x1.5 cone 60", "trap", "wheel-fixing-seat-trap"),
        ("wheel nut M12x1.5 cone 60", "wheel nut M12x1.5 cone 90", "trap", "wheel-fixing-cone-trap"),
        ("wheel bolt M12x1.5 ball R12", "wheel bolt M12x1.5 ball R13", "trap", "wheel-fixing-ball-trap"),
        ("wheel nut M12x1.5 cone 60", "wheel nut M12x1.25 cone 60", "off", "thread-jams"),
        ("wheel nut M12x1.25 cone 60", "wheel nut M12x1.5 cone 60", "off", "thread-jams"),
        (NUT, "wheel nut M12x1.25 cone 60", "trap", "thread-trap-runs-home"),
        ("wheel nut M12x1.25 cone 60", "wheel nut 1/2-20 UNF cone 60", "trap", "thread-trap-runs-home"),
        ("wheel nut 1/2-20 UNF cone 60", "wheel nut M12x1.25 cone 60", "off", "thread-never-starts"),
        (f"{NUT} seat 20 mm", f"{NUT} seat 17 mm", "trap", "wheel-fixing-seat-small"),
        (f"{NUT} seat 17 mm", f"{NUT} seat 20 mm", "off", "wheel-fixing-seat-big"),
        (f"{NUT} seat 20 mm", NUT, "unreadable", "wheel-fixing-unsaid"),
        (NUT, f"{NUT} seat 20 mm", "ok", "wheel-fixing-seat-same"),
        (f"{NUT} length 16 mm", f"{NUT} length 8 mm", "trap", "wheel-fixing-nut-few"),
        (NUT, f"{NUT} length 5 mm", "trap", "wheel-fixing-nut-few"),
        (NUT, f"{NUT} length 16 mm", "ok", "wheel-fixing-size-ok"),
        (f"{NUT} length 16 mm", f"{NUT} length 12 mm", "off", "wheel-fixing-nut-short"),
        (f"{NUT} length 16 mm", f"{NUT} length 15 mm", "ok", "wheel-fixing-size-ok"),
        (f"{BOLT} length 27 mm", f"{BOLT} length 20 mm", "trap", "wheel-fixing-short"),
        (f"{BOLT} length 27 mm", f"{BOLT} length 35 mm", "trap", "wheel-fixing-long"),
        (f"{BOLT} length 27 mm", f"{BOLT} length 28 mm", "ok", "wheel-fixing-size-ok"),
        (
            "wheel nut 1/2 UNF sleeve 0.520 in",
            "wheel nut 1/2 UNF sleeve 0.55 in",
            "off",
            "wheel-fixing-sleeve-big",
        ),
        (
            "wheel nut 1/2 UNF sleeve 0.55 in",
            "wheel nut 1/2 UNF sleeve 0.520 in",
            "trap",
            "wheel-fixing-sleeve-loose",
        ),
        (f"{NUT} 19 mm hex", f"{NUT} 21 mm hex", "ok-with-work", "wheel-fixing-hexagon"),
        (f"{NUT} 19 mm hex", f"{NUT} 3/4 hex", "ok", "wheel-fixing-size-ok"),
        (NUT, "wheel nut 7/16-20 UNF LH, cone 60", "off", "thread-wrong-hand"),
        (NUT, "wheel bolt 7/16-20 UNF, cone 60", "off", "wheel-fixing-half"),
    ],
)
def test_each_piece_decides_by_itself(needed: str, offered: str, state: str, code: str) -> None:
    """Forms of seat after DIN 74361; how much a length or a seat may differ is common practice."""
    result = ask(KIND, needed, offered)
    assert result.state == state
    assert code in codes(result)


def test_a_cone_of_the_right_angle_that_is_too_small_cracks_the_wheel() -> None:
    """Thread and angle are equal, the hexagon touches the wheel first: a trap, though two features agree (common practice)."""
    result = ask(KIND, f"{NUT} seat 22 mm", f"{NUT} seat 18 mm")
    assert (result.state, result.because.values["what"]) == ("trap", "size of seat")


@pytest.mark.parametrize(
    ("size", "turns"), [("M12x1.5", "6.5"), ("M12x1.25", "8"), ("M14x1.5", "7.5"), ("1/2-20 UNF", "8")]
)
def test_the_thread_that_has_to_hold_is_the_number_of_turns_the_trade_counts(size: str, turns: str) -> None:
    """Turns told to wheel fitters (memory, 4 values) against eight tenths of a diameter: within half a turn."""
    sizes = dimensions(thread(size))
    assert abs(LEAST_HOLD * sizes.major / sizes.pitch - Decimal(turns)) <= Decimal("0.5")


def test_rows_recalled_are_marked_in_the_outcome() -> None:
    """The radii of ball seats are recalled; a cone of 60 degrees is published."""
    assert ask(KIND, "wheel bolt M12x1.5 ball R12", "wheel bolt M12x1.5 ball R13").certainty.value == "memory"
    assert STANDARDS.table("wheel-seat").find(seat="cone 60")[0].certainty.value == "published"
