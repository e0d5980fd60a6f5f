"""Dampers: closed length as much as open, and both mountings."""

from __future__ import annotations

import pytest

from tests.trade.families import STANDARDS, ask, codes, normal, refused

KIND = "damper"
NEEDED = "damper, upper stud, lower eye, oil, open 520 mm, closed 330 mm, upper size 10 mm, lower size 12 mm"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("rear damper 330/520, top stem, bottom loop", "damper, upper stud, lower eye, open 520 mm, closed 330 mm"),
        ("shock absorber 520-330 mm top stud 10mm bottom eye 12,2 mm",
         "damper, upper stud, lower eye, open 520 mm, closed 330 mm, upper size 10 mm, lower size 12.2 mm"),
        ("damper extended length 520 mm, compressed length 330 mm, upper bar-pin, lower clevis",
         "damper, upper bar pin, lower fork, open 520 mm, closed 330 mm"),
        ("gas damper 520/330 top stud bottom eye", "damper, upper stud, lower eye, gas, open 520 mm, closed 330 mm"),
        ("damper open 20.5 in closed 13 in upper eye 1/2 in lower eye 5/8 in",
         "damper, upper eye, lower eye, open 520.7 mm, closed 330.2 mm, upper size 12.7 mm, lower size 15.88 mm"),
    ],
)  # fmt: skip
def test_dampers_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Either order of lengths, inches, old words for mountings."""
    assert normal(KIND, text) == read


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("damper open 520 mm, top stud, bottom eye", "damper-no-closed"),
        ("damper 520/330 mm, top stud", "damper-no-lower-mounting"),
        ("damper 520/330 mm, bottom eye", "damper-no-upper-mounting"),
        ("damper, closed 330 mm, top stud, bottom eye", "damper-no-open"),
        ("damper open 330 mm closed 520 mm top stud bottom eye", "damper-lengths"),
        ("damper open 520 mm closed 150 mm top stud bottom eye", "damper-lengths"),
        ("damper", "damper-unknown"),
        ("520/330", "damper-unknown"),
    ],
)
def test_the_open_length_alone_is_no_designation(text: str, reason: str) -> None:
    """Everybody compares them pulled out; without closed length and both mountings it is a question."""
    assert refused(KIND, text).reason == reason


@pytest.mark.parametrize(
    ("change", "state", "code"),
    [
        (("closed 330", "closed 342"), "trap", "damper-trap-bottoms"),
        (("closed 330", "closed 310"), "ok", "damper-closed-short"),
        (("open 520", "open 524"), "ok", "service-agrees"),
        (("open 520", "open 500"), "trap", "damper-trap-tops-out"),
        (("open 520", "open 545"), "trap", "damper-trap-droops"),
        (("upper stud", "upper eye"), "off", "damper-other-mount"),
        (("lower eye", "lower fork"), "off", "damper-other-mount"),
        (("upper size 10", "upper size 9"), "trap", "damper-trap-loose-outside"),
        (("upper size 10", "upper size 12"), "off", "damper-tight-outside"),
        (("upper size 10", "upper size 6"), "off", "service-other-size"),
        (("lower size 12 mm", "lower size 1/2 in"), "trap", "damper-trap-loose-hole"),
        (("lower size 12", "lower size 10"), "off", "damper-tight-hole"),
        ((", lower size 12 mm", ""), "unreadable", "service-not-said"),
        (("oil", "gas"), "ok-with-work", "damper-lifts"),
        ((" oil,", ""), "unreadable", "service-not-said"),
    ],
)
def test_each_piece_decides_by_itself(change: tuple[str, str], state: str, code: str) -> None:
    """Lengths with their directions, form and size of mountings, gas that lifts the car (common practice)."""
    result = ask(KIND, NEEDED, NEEDED.replace(*change))
    assert result.state == state
    assert code in codes(result)


def test_gas_taken_out_lowers_the_car() -> None:
    """The other direction (common practice)."""
    gas = NEEDED.replace("oil", "gas")
    assert "damper-sinks" in codes(ask(KIND, gas, NEEDED))


def test_lengths_in_inches_are_those_worked_out_by_hand() -> None:
    """21.92 and 13.92 in are 556.8 and 353.6 mm, the stroke 203.2 (a case of practice, 3 values)."""
    inches = "damper open 21.92 in, closed 13.92 in, upper eye, lower eye"
    result = ask(KIND, inches, "damper open 556.8 mm, closed 353.6 mm, upper eye, lower eye")
    assert result.state == "ok"
    assert round((21.92 - 13.92) * 25.4, 1) == 203.2


def test_a_trap_rests_on_practice_and_a_mounting_on_its_rows() -> None:
    """The proof of another mounting names both rows; their certainty is shown."""
    result = ask(KIND, NEEDED, NEEDED.replace("upper stud", "upper eye"))
    (step,) = [step for _, step in result.because.walk() if step.code == "damper-other-mount"]
    assert len(step.origins) == 2
    assert result.certainty.value == "memory"
    assert {row.word("mount") for row in STANDARDS.table("damper-mount").rows} == {
        "stud",
        "eye",
        "bar pin",
        "fork",
    }
