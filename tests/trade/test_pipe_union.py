"""Pipe unions: thread, flare, pipe and nut, each by itself."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitlore.trade.thread.rows import INCH
from tests.trade.families import STANDARDS, ask, codes, normal, refused

KIND = "pipe-union"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("m10 × 1,0 iso bubble", "M10x1 bubble"),
        ("M10x1 DIN flare 4,75mm", "M10x1 bubble, 4.75 mm pipe"),
        ("M10x1 form F", "M10x1 bubble"),
        ("M10x1 convex flare 4.76 mm pipe", "M10x1 bubble, 4.75 mm pipe"),
        ("brake union 3/8-24 UNF SAE 45° double flare", "3/8-24 UNF double"),
        ("3/8 UNF inverted flare 3/16 tube", "3/8-24 UNF double, 4.75 mm pipe"),
        ('3/8-24 double 3/16" pipe full thread', "3/8-24 UNF double, 4.75 mm pipe, full thread"),
        ("7/16-20 UNF 37 deg", "7/16-20 UNF 37 deg"),
        ("7/16-20 UNF JIC", "7/16-20 UNF 37 deg"),
        ("1/2-20 UNF single flare", "1/2-20 UNF single"),
        ("M14x1.5 cutting ring 8 mm", "M14x1.5 24 deg cone, 8 mm pipe"),
        ("G1/4 60 degree cone 5/16 pipe", "G1/4 60 deg cone, 7.94 mm pipe"),
        ("M10x1 banjo bolt", "M10x1 banjo"),
        ("M10x1 LH bubble, plain lead", "M10x1 LH bubble, plain lead"),
    ],
)
def test_unions_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Upper and lower case, degrees, commas, inch marks, old and new names of flares; 3/16 in, 4.75 and 4.76 are one pipe."""
    assert normal(KIND, text) == read


def test_a_union_without_its_flare_is_a_question() -> None:
    """The same nut thread is used with both flares (common practice): the thread alone proves nothing."""
    assert refused(KIND, "M10x1 union").readings == ("M10x1 double", "M10x1 bubble")
    assert refused(KIND, "3/8-24 UNF SAE 45").readings == ("3/8-24 UNF double", "3/8-24 UNF single")
    assert refused(KIND, "M10x1 bubble 5 mm pipe").reason == "pipe-union-pipe-unlisted"
    assert refused(KIND, "bubble flare").reason == "pipe-union-thread"


@pytest.mark.parametrize(
    ("needed", "offered", "end", "state", "code"),
    [
        ("M10x1 bubble", "M10x1 double", "male", "trap", "pipe-union-flare-trap"),
        ("M10x1 double", "M10x1 bubble", "male", "trap", "pipe-union-flare-trap"),
        ("M10x1 bubble", "3/8-24 UNF bubble", "male", "trap", "thread-trap-loose"),
        ("3/8-24 UNF double", "M10x1 double", "male", "off", "thread-never-starts"),
        ("7/16-20 UNF 37 deg", "7/16-20 UNF single", "male", "trap", "pipe-union-angle-trap"),
        ("1/2-20 UNF double", "1/2-20 UNF 37 deg", "female", "trap", "pipe-union-angle-trap"),
        ("7/16-20 UNF double", "7/16-20 UNF single", "male", "trap", "pipe-union-single"),
        ("7/16-20 UNF single", "7/16-20 UNF double", "male", "trap", "pipe-union-double"),
        ("M10x1 bubble, plain lead", "M10x1 bubble, full thread", "male", "trap", "pipe-union-nut-bottoms"),
        ("M10x1 bubble", "M10x1 bubble, full thread", "male", "trap", "pipe-union-nut-bottoms"),
        ("M10x1 double, full thread", "M10x1 double, plain lead", "male", "off", "pipe-union-nut-lead"),
        ("M10x1 banjo", "M10x1 bubble", "male", "off", "pipe-union-flare-off"),
        ("M12x1 bubble, 6 mm pipe", "M12x1 bubble, 1/4 in pipe", "male", "trap", "pipe-union-pipe-trap"),
        ("M12x1 bubble, 6 mm pipe", "M12x1 bubble, 4.75 mm pipe", "male", "off", "pipe-union-pipe-off"),
        ("M10x1 bubble, 4.75 mm pipe", "M10x1 bubble", "male", "unreadable", "pipe-union-pipe-unsaid"),
        ("M10x1 bubble, plain lead", "M10x1 bubble", "male", "unreadable", "pipe-union-nut-unsaid"),
        ("M10x1 bubble", "M10x1 bubble, 3/16 pipe, plain lead", "male", "ok", "pipe-union-flare-same"),
        ("M10x1 bubble", "M10x1 LH bubble", "male", "off", "thread-wrong-hand"),
        ("M10x1 bubble", "M10x1", "male", "unreadable", "pipe-union-unknown"),
        ("G1/8 60 deg cone", "R1/8 60 deg cone", "male", "off", "pipe-union-taper"),
        ("G1/8 banjo", "R1/8 banjo", "male", "off", "pipe-union-taper"),
    ],
)
def test_each_piece_decides_by_itself(needed: str, offered: str, end: str, state: str, code: str) -> None:
    """Flares after SAE J533, J514 and DIN 74234; nuts and pipes by common practice; less said than needed is a question."""
    result = ask(KIND, needed, offered, end)
    assert result.state == state
    assert code in codes(result)


def test_a_new_pipe_that_weeps_however_hard_it_is_tightened() -> None:
    """A bubble on a seat for a double flare: the proof says why, and how the two ends look (common practice)."""
    result = ask(KIND, "3/8-24 UNF double", "3/8-24 UNF bubble")
    assert result.state == "trap"
    tells = [step.values["flare"] for _, step in result.because.walk() if step.code == "pipe-union-tell"]
    assert tells == ["bubble", "double"]


INVERTED = {"5/16": 28, "3/8": 24, "7/16": 24, "1/2": 20, "5/8": 18, "11/16": 18, "3/4": 18}
FLARED = {"5/16": 24, "3/8": 24, "7/16": 20, "1/2": 20, "5/8": 18, "3/4": 16}


@pytest.mark.parametrize(("flare", "printed"), [("double", INVERTED), ("single", FLARED)])
def test_threads_of_flare_nuts_are_those_printed(flare: str, printed: dict[str, int]) -> None:
    """SAE J512 by way of a fittings supplier's printed thread chart (13 values): inverted flare, and 45 degree flare."""
    rows = STANDARDS.table("union-size").find(flare=flare)
    listed = {row.word("thread").split()[0] for row in rows}
    assert {f"{size}-{tpi}" for size, tpi in printed.items()} <= listed


@pytest.mark.parametrize(
    ("pipe", "light", "heavy"),
    [("6", "M12x1.5", "M14x1.5"), ("8", "M14x1.5", "M16x1.5"), ("10", "M16x1.5", "M18x1.5"), ("12", "M18x1.5", "M20x1.5"),
     ("15", "M22x1.5", "")],
)  # fmt: skip
def test_threads_of_cutting_rings_are_those_printed(pipe: str, light: str, heavy: str) -> None:
    """DIN 3902 by way of a supplier's printed list of 24 degree fittings, light and heavy series (9 values)."""
    rows = STANDARDS.table("union-size").find(flare="24 deg cone", pipe=pipe)
    assert [row.word("thread") for row in rows] == [thread for thread in (light, heavy) if thread]


def test_inch_pipes_are_their_names() -> None:
    """3/16 in is 4.7625 mm and sold as 4.75 (DIN 74234); every inch name is its diameter by the inch's definition."""
    for row in STANDARDS.table("pipe").rows:
        if name := row.word("named"):
            top, bottom = name.removesuffix(" in").split("/")
            assert abs(Decimal(top) / Decimal(bottom) * INCH - row.number("outside")) <= Decimal("0.0125")
