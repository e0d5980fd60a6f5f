"""Gas struts: as people write them, what goes for what, and the force in the cold."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.trade.family import FAMILIES, Reading
from fitlore.trade.gas_strut.gas import force_at, force_at_20
from tests.trade.families import STANDARDS, ask, codes, normal, refused

KIND = "gas-strut"
BASE = (
    "gas strut, rod ball, tube ball, open 505 mm, closed 305 mm, rod size 10 mm, tube size 10 mm, force 380 N"
)


@pytest.mark.parametrize(
    "text",
    [
        "gas strut 505/305 mm, 380 N, both ends ball 10 mm",
        "gas spring 505/200, F1=380N, 10 mm balls both ends",
        "tailgate strut open 505 mm closed 305 mm force 380 N rod ball 10 mm tube ball 10 mm",
        "lift support, extended length 505 mm, stroke 200 mm, 38 daN, 10 mm ball ends",
        "Gas Lift, compressed 305 mm, stroke 200 mm, push 0,38 kN, rod end ball socket 10 mm, cylinder end ball joint 10 mm",
        "gas strut extended 505 mm, compressed 305 mm, stroke 200 mm, 380 N at 20 °C, both ends ball 10 mm",
        "380 N gas strut 305-505 mm, rod ball 10 mm, tube ball 10 mm",
    ],
)  # fmt: skip
def test_one_strut_in_the_spellings_people_write_has_one_normal_form(text: str) -> None:
    """Any two of open, closed and stroke; newtons by any prefix; ends by one word or two."""
    assert normal(KIND, text) == BASE


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("gas strut", "gas-strut-unknown"),
        ("gas strut 505 mm, 380 N, both ends ball 10 mm", "gas-strut-unknown"),
        ("gas strut open 505 mm, 380 N, both ends ball 10 mm", "gas-strut-no-closed"),
        ("gas strut closed 305 mm, 380 N, both ends ball 10 mm", "gas-strut-no-open"),
        ("gas strut 505/305 mm, both ends ball 10 mm", "gas-strut-no-force"),
        ("gas strut 505/305 mm, force 380, both ends ball 10 mm", "gas-strut-unknown"),
        ("gas strut 505/305 mm, 380 N", "gas-strut-no-rod-end"),
        ("gas strut 505/305 mm, 380 N, rod ball 10 mm", "gas-strut-no-tube-end"),
        ("gas strut 505/305 mm, 380 N, both ends ball", "gas-strut-no-rod-size"),
        ("gas strut 505/252.5 mm, 380 N, both ends ball 10 mm", "gas-strut-lengths"),
        ("gas strut open 505 mm, closed 305 mm, stroke 180 mm, 380 N, both ends ball 10 mm", "gas-strut-lengths"),
        ("gas strut open 305 mm, closed 505 mm, 380 N, both ends ball 10 mm", "gas-strut-lengths"),
    ],
)  # fmt: skip
def test_what_says_too_little_or_cannot_be_is_refused(text: str, reason: str) -> None:
    """The rod is inside when it is closed: the closed length is over half of the open one, and no stroke is."""
    assert refused(KIND, text).reason == reason


@pytest.mark.parametrize(
    ("offered", "state", "code"),
    [
        ("505/305 mm, 400 N, both ends ball 10 mm", "ok", "service-agrees"),
        ("505/298 mm, 380 N, both ends ball 10 mm", "ok", "service-agrees"),
        ("505/318 mm, 380 N, both ends ball 10 mm", "trap", "gas-strut-trap-too-long"),
        ("508/305 mm, 380 N, both ends ball 10 mm", "ok", "service-agrees"),
        ("520/305 mm, 380 N, both ends ball 10 mm", "trap", "gas-strut-trap-opens-far"),
        ("490/305 mm, 380 N, both ends ball 10 mm", "off", "gas-strut-opens-less"),
        ("505/305 mm, 330 N, both ends ball 10 mm", "trap", "gas-strut-trap-weak"),
        ("505/305 mm, 430 N, both ends ball 10 mm", "off", "gas-strut-strong"),
        ("505/305 mm, 380 N, both ends ball 13 mm", "trap", "gas-strut-trap-loose"),
        ("505/305 mm, 380 N, both ends ball 8 mm", "off", "gas-strut-end-size"),
        ("505/305 mm, 380 N, rod ball 10 mm, tube eye 10 mm", "off", "gas-strut-other-end"),
        ("505/305 mm, 380 N, rod stud M8, tube ball 10 mm", "unreadable", "gas-strut-screw-on"),
        ("505/305 mm, both ends ball 10 mm", "unreadable", "gas-strut-no-force"),
    ],
)
def test_each_piece_is_judged_in_its_direction(offered: str, state: str, code: str) -> None:
    """Common practice: closed no longer, force within a tenth, cups of one size. What falls or bends is a trap."""
    result = ask(KIND, BASE, f"gas strut {offered}")
    assert result.state == state
    assert code in codes(result)


def test_a_thread_of_another_size_is_no_trap_for_it_does_not_screw_on() -> None:
    """M6 in a cup for M8 is seen at once."""
    result = ask(
        KIND,
        "gas strut 505/305 mm, 380 N, both ends stud M6",
        "gas strut 505/305 mm, 380 N, both ends stud M8",
    )
    assert result.state == "off"


def test_the_case_of_a_strut_in_inches_comes_out_right() -> None:
    """Two lengths, a stroke of 203.2 mm, a force and a ball by the inch of 25.4 mm and the pound-force (definitions)."""
    inches = "gas spring extended 21.92 in, compressed 13.92 in, 90 lbf, both ends ball 10 mm"
    found = FAMILIES[KIND].read(inches, STANDARDS)
    assert isinstance(found, Reading)
    assert abs(found.keys["open"] - Decimal("556.8")) <= Decimal("0.05")
    assert abs(found.keys["closed"] - Decimal("353.6")) <= Decimal("0.05")
    assert abs(found.keys["open"] - found.keys["closed"] - Decimal("203.2")) <= Decimal("0.01")
    assert abs(found.keys["force"] - 400) <= Decimal("0.5")
    needed = "gas strut open 556.8 mm, closed 353.6 mm, 400 N, both ends ball 10 mm"
    assert ask(KIND, needed, inches).state == "ok"
    assert ask(KIND, needed, inches.replace("13.92", "13.95")).state == "trap"
    assert ask(KIND, needed, inches.replace("13.92 in", "13.92 in, stroke 7 in")).state == "unreadable"


@pytest.mark.parametrize(
    ("ball", "thread"),
    [("8", "M5"), ("10", "M6"), ("13", "M8"), ("16", "M10"), ("16", "M12"), ("19", "M14x1.5")],
)
def test_ball_studs_are_listed_with_their_threads(ball: str, thread: str) -> None:
    """Six pairs after DIN 71802 and DIN 71803, in three dealers' printed tables."""
    assert [row.certainty.value for row in STANDARDS.table("strut-ball").find(ball=ball, thread=thread)] == [
        "published"
    ]


@pytest.mark.parametrize(("celsius", "force"), [(40, 530), (0, 470)])
def test_force_goes_with_temperature_as_a_maker_prints_it(celsius: int, force: int) -> None:
    """Two values of a strut of 500 N after a strut maker's open page, which rounds 3 to 4 per cent for each ten degrees."""
    assert abs(force_at(Decimal(500), Decimal(celsius)) - force) <= 5


@pytest.mark.parametrize("celsius", [-30, -10, 10, 30, 60])
def test_ten_degrees_are_three_to_four_per_cent(celsius: int) -> None:
    """Five steps; the share is that of a strut maker's open page."""
    change = force_at(Decimal(100), Decimal(celsius + 10)) - force_at(Decimal(100), Decimal(celsius))
    assert 3 <= change <= 4


@given(st.decimals(50, 2000, places=1), st.integers(-40, 80))
def test_a_force_at_another_temperature_and_back_is_the_force(force: Decimal, celsius: int) -> None:
    """Both directions are one law."""
    there = force_at(force, Decimal(celsius))
    assert abs(force_at_20(there, Decimal(celsius)) - force) < Decimal("0.000001")


def test_a_force_stated_cold_is_read_as_that_at_twenty_degrees() -> None:
    """By the law of ideal gases: 380 N at 20 degrees are 354 N at nought."""
    cold = "gas strut 505/305 mm, 354 N at 0 C, both ends ball 10 mm"
    found = FAMILIES[KIND].read(cold, STANDARDS)
    assert isinstance(found, Reading)
    assert abs(found.keys["force"] - 380) <= 1


def test_a_weak_strut_is_told_by_a_bathroom_scale_and_its_force_in_the_cold() -> None:
    """The proof of the trap carries the bench test in kilograms and the force at ten degrees of frost."""
    result = ask(KIND, BASE, BASE.replace("380", "300"))
    weak = next(step for _, step in result.because.walk() if step.code == "gas-strut-trap-weak")
    assert (weak.values["cold"], weak.values["kg"], weak.values["needed-kg"]) == (
        "269 N at -10 °C",
        "31 kg",
        "39 kg",
    )
