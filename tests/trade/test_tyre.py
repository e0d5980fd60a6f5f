"""Tyres: what a designation says, and whether one tyre goes where another is asked for."""

from __future__ import annotations

import pytest

from tests.trade.families import ask, codes, read, refused

KIND = "tyre"


@pytest.mark.parametrize(
    ("text", "normal"),
    [
        ("195/65 R15 91H", "195/65 R 15 91H"),
        ("195/65r15 91 h tubeless", "195/65 R 15 91H"),
        ("195/65R15", "195/65 R 15"),
        ("195/65/15", "195/65 R 15"),
        ("195/65VR15", "195/65 VR 15"),
        ("185/70 HR 13", "185/70 HR 13"),
        ("165HR15 86H", "165 R 15 86H"),
        ("205/55 ZR16 91W XL", "205/55 R 16 91W reinforced"),
        ("P215/75R15", "P215/75 R 15"),
        ("LT235/85R16", "LT235/85 R 16"),
        ("155 R 13", "155 R 13"),
        ("155SR13", "155 SR 13"),
        ("165/82 R 13", "165 R 13"),
        ("185 R14 C 102/100R", "185 R 14 C 102/100R"),
        ("5.60-15", "5.60-15"),
        ("5,60 x 15", "5.60-15"),
        ("560-15", "5.60-15"),
        ("6.00-16", "6.00-16"),
        ("7.50-16 8PR", "7.50-16 8 PR"),
        ("7.50-16 8 ply rating", "7.50-16 8 PR"),
        ("155-13", "6.15-13"),
        ("31x10.50R15LT", "31x10.50 R 15 LT"),
        ("220/55 VR 390", "220/55 VR 390"),
        ("T125/70D15", "T125/70-15"),
        ("FR70-14", "FR70-14"),
        ("195/65 R 15 91Q M+S", "195/65 R 15 91Q M+S"),
    ],
)
def test_tyres_are_read_in_the_spellings_people_write(text: str, normal: str) -> None:
    """Metric, commercial, American, old cross-ply and letter sizes; a speed letter in the size is kept only if it says more."""
    assert read(KIND, text).normal == normal


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("175/75/14", "tyre-no-build"),
        ("165-15", "tyre-no-build"),
        ("165 R 410", "tyre-rim-unlisted"),
        ("197/65 R 15", "tyre-size-unlisted"),
        ("195/65 R 15 30H", "tyre-load-unlisted"),
        ("195/65 R 15 91A", "tyre-speed-unlisted"),
        ("195/65 HR 15 91T", "tyre-speed-clash"),
        ("4x100", "tyre-unknown"),
        ("195/65 R 15 91V/H", "tyre-unknown"),
    ],
)
def test_what_no_standard_lists_is_refused_with_its_reason(text: str, reason: str) -> None:
    """A rim of 410 mm is a slip for 415; a size without its letter is a radial up to 70 and a question above."""
    assert refused(KIND, text).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        # UN R30: load index and speed symbol may be more, never less.
        ("195/65 R 15 91H", "195/65 R 15 95V XL", "ok", "tyre-load-ok"),
        ("195/65 R 15 91H", "195/65 R 15 88H", "off", "tyre-load-low"),
        ("195/65 R 15 91H", "195/65 R 15 91T", "off", "tyre-speed-low"),
        ("195/65 R 15 91H", "195/65 R 15", "unreadable", "tyre-load-unsaid"),
        # Unsaid on the needed side: nobody knows whether 91H is enough there.
        ("195/65 R 15", "195/65 R 15 91H", "unreadable", "tyre-load-not-known"),
        ("195/65 R 15 91", "195/65 R 15 91Q", "unreadable", "tyre-load-not-known"),
        ("195/65 R 15", "195/65 HR 15", "unreadable", "tyre-load-not-known"),
        ("6.00-16", "6.00-16 6PR", "unreadable", "tyre-load-not-known"),
        ("195/65 R 15", "195/65R15", "ok", "tyre-same"),
        ("155/80 R 13", "155 R 13", "unreadable", "tyre-load-not-known"),
        ("155/80 R 13 79T", "155 R 13 78S", "off", "tyre-load-low"),
        ("195/65 R 15 91H", "195/65 R 15 91Q M+S", "unreadable", "tyre-speed-snow"),
        ("195/65 R 15 91H", "195/65 R 15 91Q", "off", "tyre-speed-low"),
        # H is 210 km/h and stands between U and V; V and Z in the size are open upwards.
        ("185/70 R 14 88U", "185/70 R 14 88H", "ok", "tyre-speed-ok"),
        ("185/70 R 14 88H", "185/70 R 14 88U", "off", "tyre-speed-low"),
        ("185/70 HR 14", "185/70 VR 14", "ok", "tyre-speed-ok"),
        ("185/70 VR 14", "185/70 HR 14", "off", "tyre-speed-low"),
        ("185/70 VR 14", "185/70 R 14 88V", "unreadable", "tyre-speed-open"),
        ("205/55 ZR 16", "205/55 VR 16", "unreadable", "tyre-speed-open"),
        ("205/55 VR 16", "205/55 ZR 16", "ok", "tyre-speed-ok"),
        ("205/55 R 16 91W", "205/55 ZR 16", "unreadable", "tyre-speed-open"),
        # Size and rim.
        ("155 R 13", "155/80 R 13", "ok-with-work", "tyre-size-series"),
        ("165 R 13 82S", "165/80 R 13 83T", "ok-with-work", "tyre-size-series"),
        ("165 R 13", "175/70 R 13", "off", "tyre-size-off"),
        ("195/60 R 15", "205/60 R 15", "off", "tyre-size-off"),
        ("185/65 R 14", "185/65 R 15", "off", "tyre-rim-off"),
        ("220/55 R 390", "225/50 R 15", "trap", "tyre-rim-trap"),
        ("225/50 R 15", "220/55 R 390", "trap", "tyre-rim-trap"),
        ("LT235/85 R 16", "LT235/85 R 16.5", "trap", "tyre-rim-trap"),
        ("220/55 R 390", "220/55 R 365", "off", "tyre-rim-off"),
        # Build.
        ("195/75 R 15", "195/75-15", "trap", "tyre-build-trap"),
        ("5.60-15", "5.60 R 15", "trap", "tyre-build-trap"),
        ("5.90-13", "165 R 13", "unreadable", "tyre-swap"),
        ("5.90-13", "175 R 13", "off", "tyre-build-off"),
        ("165 R 13", "5.90-13", "unreadable", "tyre-swap"),
        # Service.
        ("185 R 14 C 102/100Q", "185 R 14 90S", "trap", "tyre-service-trap"),
        ("185 R 14", "185 R 14 C 102/100Q", "unreadable", "tyre-load-not-known"),
        ("185 R 14 90S", "185 R 14 C 102/100S", "ok-with-work", "tyre-service-hard"),
        ("185 R 14 C 102/100Q", "185 R 14 C 102/98Q", "off", "tyre-load-low"),
        ("195/65 R 15", "T125/70 D 15", "trap", "tyre-service-spare"),
        ("7.50-16 6PR", "7.50-16 8PR", "ok", "tyre-plies-ok"),
        ("7.50-16 8PR", "7.50-16 6PR", "off", "tyre-plies-low"),
        ("205/55 R 16 XL", "205/55 R 16", "unreadable", "tyre-reinforced-unsaid"),
        ("FR70-14", "GR70-14", "off", "tyre-size-letter"),
        # A reading that may be two things is a no only where both are.
        ("175/75/14", "195/60 R 15", "off", "tyre-no-reading-goes"),
        ("175/75/14", "175/75 R 14", "unreadable", "tyre-no-build"),
    ],
)
def test_each_demand_decides_by_itself(needed: str, offered: str, state: str, code: str) -> None:
    """UN R30 and R54 for the codes, the British rules of 2001 for builds; rims in mm and swaps are common practice."""
    result = ask(KIND, needed, offered)
    assert result.state == state
    assert code in codes(result)


def test_a_tyre_without_a_profile_is_replaced_by_the_80_series_and_not_by_the_70() -> None:
    """Asked in practice: 165 R 13 against 165/80 and 175/70; the second is lower, and the proof says by how much."""
    assert ask(KIND, "165 R 13", "165/80 R 13").state == "ok-with-work"
    lower = ask(KIND, "165 R 13", "175/70 R 13")
    told = {step.code: step.values for _, step in lower.because.walk()}
    assert lower.state == "off"
    assert told["tyre-change-outside"]["share"] == "-3.4 %"


@pytest.mark.parametrize(
    ("radial", "rims"), [("145 R 13", "4 in"), ("155 R 13", "4 in and 4.5 in"), ("175 R 13", "4.5 in")]
)
def test_the_rim_decides_which_radial_takes_the_place_of_a_cross_ply(radial: str, rims: str) -> None:
    """Told in practice: 4 in takes 135 to 165, 4.5 in takes 155 to 175; the swap itself stays a question."""
    needed = {"145 R 13": "5.20-13", "155 R 13": "5.60-13", "175 R 13": "6.40-13"}[radial]
    result = ask(KIND, needed, radial)
    told = {step.code: step.values for _, step in result.because.walk()}
    assert result.state == "unreadable"
    assert told["tyre-swap-rim"]["rims"] == rims


def test_an_inch_rim_is_never_the_answer_to_one_in_mm() -> None:
    """390 mm is 15.35 inches, 9 mm more than 15 (common practice; the tyre seems to mount, and comes off)."""
    result = ask(KIND, "190/65 R 390", "195/65 R 15")
    told = {step.code: step.values for _, step in result.because.walk()}
    assert result.state == "trap"
    assert told["tyre-rim-trap"]["apart"] == "9 mm"


@pytest.mark.parametrize(
    ("text", "normal"),
    [("DOT 2316", "DOT week 23 of 2016"), ("dot XX YY ZZZ 0804", "DOT week 8 of 2004"), ("week 8 of 2004", "DOT week 8 of 2004"),
     ("DOT 238\u25c4", "DOT week 23 of 1998"), ("DOT 5300", "DOT week 53 of 2000")],
)  # fmt: skip
def test_dates_are_read_from_the_mark(text: str, normal: str) -> None:
    """49 CFR 574.5: week and year, four figures since 2000; a triangle behind three means the nineties."""
    assert read("tyre-date", text).normal == normal


def test_three_figures_name_a_week_of_three_decades() -> None:
    """The decade is asked; but none of them is younger than 2015, and that is a no."""
    assert len(refused("tyre-date", "DOT 238").readings) == 3
    assert ask("tyre-date", "DOT 0115", "DOT 238").state == "off"
    assert ask("tyre-date", "week 1 of 1985", "DOT 238").state == "unreadable"
    assert ask("tyre-date", "DOT 0115", "DOT 0215").state == "ok"
    assert ask("tyre-date", "DOT 0215", "DOT 0115").state == "off"
    assert refused("tyre-date", "DOT 9916").reason == "tyre-date-week"
