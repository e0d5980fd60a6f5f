"""Fuel hoses: as people write them, and what goes for what. The traps of this family burn cars."""

from __future__ import annotations

from decimal import Decimal

import pint
import pytest

from tests.trade.families import STANDARDS, ask, codes, normal, refused

KIND = "fuel-hose"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("8 mm fuel hose SAE J30R9", "fuel hose, SAE J30R9, bore 8 mm"),
        ("SAE 30 R9 fuel line, 8mm bore", "fuel hose, SAE J30R9, bore 8 mm"),
        ("sae j30 r-9 8 mm", "fuel hose, SAE J30R9, bore 8 mm"),
        ("30R7 5/16 in", "fuel hose, SAE J30R7, bore 7.94 mm"),
        ('fuel hose R6 1/4"', "fuel hose, SAE J30R6, bore 6.35 mm"),
        ("fuel hose 30R14T1 8 mm", "fuel hose, SAE J30R14 T1, bore 8 mm"),
        ("fuel injection hose 8 mm, 50 psi", "fuel hose, injection, bore 8 mm, pressure 3.45 bar"),
        ("EFI fuel hose, bore 8 mm", "fuel hose, injection, bore 8 mm"),
        ("low-pressure fuel hose 6 mm", "fuel hose, carburettor, bore 6 mm"),
        ("carb hose 6 mm", "fuel hose, carburettor, bore 6 mm"),
        ("petrol hose for carburettor 6,0 mm, E5", "fuel hose, carburettor, petrol with ethanol, bore 6 mm"),
        ("fuel hose for carburettor 6,0 mm, E5", "fuel hose, carburettor, petrol with ethanol, bore 6 mm"),
        ("DIN 73379 Typ 2B fuel hose 5.5 x 10.5 mm", "fuel hose, DIN 73379 2B, bore 5.5 mm, outside 10.5 mm"),
        ("DIN 73 379-1 fuel hose 7.5 mm", "fuel hose, DIN 73379, bore 7.5 mm"),
        ("submersible fuel hose R10, 8 mm", "fuel hose, SAE J30R10, in the tank, bore 8 mm"),
        ("diesel hose R9, bore 8 mm, 500 mm long", "fuel hose, SAE J30R9, diesel, bore 8 mm, length 500 mm"),
    ],
)  # fmt: skip
def test_it_is_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Type, duty, fuel, bore, pressure, each in words, letters or inches."""
    assert normal(KIND, text) == read


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("fuel hose 8 mm", "fuel-hose-no-type"),
        ("fuel hose SAE J30R9, injection", "fuel-hose-no-bore"),
        ("fuel hose R2, 8 mm", "fuel-hose-type"),
        ("R7 injection hose 8 mm", "fuel-hose-clash"),
        ("fuel hose R9 for in-tank use, 8 mm", "fuel-hose-unknown"),
        ("fuel hose R9 in tank, 8 mm", "fuel-hose-clash"),
        ("fuel hose R9, 8 mm, 10 mm", "fuel-hose-unknown"),
        ("fuel hose R9, 8 mm, E10, diesel", "fuel-hose-unknown"),
        ("SAE 100R7 hydraulic hose 8 mm", "fuel-hose-unknown"),
        ("heater hose 8 mm", "fuel-hose-unknown"),
    ],
)
def test_the_bore_alone_decides_nothing(text: str, reason: str) -> None:
    """Neither does a type that is said to be for what it is not made for."""
    assert refused(KIND, text).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("SAE J30R9, 8 mm", "30R7, 8 mm", "trap", "fuel-hose-trap-injection"),
        ("SAE J30R9, 8 mm", "30R6, 8 mm", "trap", "fuel-hose-trap-injection"),
        ("SAE J30R9, 8 mm", "30R14, 8 mm", "trap", "fuel-hose-trap-injection"),
        ("injection, 3 bar, 8 mm", "30R7, 8 mm", "trap", "fuel-hose-trap-injection"),
        ("3 bar, 8 mm", "30R7, 8 mm", "trap", "fuel-hose-trap-injection"),
        ("DIN 73379 2E, 3 bar, 8 mm", "30R7, 8 mm", "trap", "fuel-hose-trap-injection"),
        ("injection, 3 bar, 8 mm", "30R11, 8 mm", "trap", "fuel-hose-trap-injection"),
        ("injection, 3 bar, 8 mm", "30R10, 8 mm", "trap", "fuel-hose-trap-injection"),
        ("injection, 3 bar, 8 mm", "30R9, 8 mm", "ok", "service-agrees"),
        ("injection, 10 bar, 8 mm", "30R9, 8 mm", "trap", "fuel-hose-trap-bursts"),
        ("injection, 3 bar, 8 mm", "10 bar, 8 mm", "ok", "service-agrees"),
        ("injection, 3 bar, 8 mm", "50 psi, 8 mm", "unreadable", "service-not-said"),
        ("injection, 3 bar, 8 mm", "30R12, 8 mm", "unreadable", "service-not-said"),
        ("injection, 3 bar, 8 mm", "DIN 73379 2B, 8 mm", "unreadable", "service-not-said"),
        ("30R7, 8 mm", "30R9, 8 mm", "ok", "fuel-hose-serves"),
        ("carburettor, 8 mm", "30R6, 8 mm", "ok", "service-agrees"),
        ("carburettor, 8 mm", "30R11, 8 mm", "trap", "fuel-hose-trap-vent"),
        ("30R10, 8 mm", "30R9, 8 mm", "trap", "fuel-hose-trap-tank"),
        ("30R10, 8 mm", "30R10, 8 mm, 600 mm long", "ok", "service-agrees"),
        ("30R9, 8 mm", "30R10, 8 mm", "trap", "fuel-hose-trap-injection"),
        ("30R12, 8 mm", "30R9, 8 mm", "unreadable", "fuel-hose-lets-through"),
        ("30R14T1, 8 mm", "30R14T2, 8 mm", "unreadable", "fuel-hose-sub-type"),
        ("30R14T1, 8 mm", "30R14, 8 mm", "unreadable", "fuel-hose-sub-type"),
        ("30R14, 8 mm", "30R7, 8 mm", "unreadable", "fuel-hose-lets-through"),
        ("DIN 73379 2B, 8 mm", "30R9, 8 mm", "unreadable", "fuel-hose-other-type"),
        ("DIN 73379 2E, 3 bar, 8 mm", "30R9, 8 mm", "unreadable", "fuel-hose-other-type"),
        ("30R8, 8 mm", "30R7, 8 mm", "unreadable", "fuel-hose-other-type"),
        ("30R8, 8 mm", "30R9, 8 mm", "unreadable", "fuel-hose-other-type"),
        ("30R9, 8 mm", "injection, 8 mm", "unreadable", "service-not-said"),
        ("30R9, E10, 8 mm", "30R9, 8 mm", "unreadable", "service-not-said"),
        ("30R9, E10, 8 mm", "30R9, petrol, 8 mm", "trap", "fuel-hose-trap-no-ethanol"),
        ("30R9, petrol, 8 mm", "30R9, E10, 8 mm", "ok", "service-agrees"),
        ("30R9, diesel, 8 mm", "30R9, petrol, 8 mm", "unreadable", "fuel-hose-other-fuel"),
        ("30R9, 8 mm", "30R9, 5/16 in", "ok", "service-agrees"),
        ("30R9, 8 mm", "30R9, 8.6 mm", "trap", "fuel-hose-trap-loose"),
        ("30R9, 6 mm", "30R9, 1/4 in", "trap", "fuel-hose-trap-loose"),
        ("30R9, 8 mm", "30R9, 7.5 mm", "ok-with-work", "fuel-hose-bore-tight"),
        ("30R9, 8 mm", "30R9, 6 mm", "off", "fuel-hose-bore-small"),
        ("30R9, 8 mm", "30R9, 10 mm", "off", "fuel-hose-bore-big"),
        ("30R9, 8x13 mm", "30R9, 8x15 mm", "ok-with-work", "fuel-hose-other-clips"),
        ("30R9, 8 mm, 600 mm long", "30R9, 8 mm, 500 mm long", "off", "fuel-hose-short"),
        ("30R9, 8 mm", "8 mm", "unreadable", "fuel-hose-no-type"),
    ],
)  # fmt: skip
def test_what_it_is_made_for_before_pressure_fuel_and_bore(
    needed: str, offered: str, state: str, code: str
) -> None:
    """Duties after the scope of SAE J30; that ordinary hose on injection burns cars: common practice."""
    result = ask(KIND, f"fuel hose {needed}", f"fuel hose {offered}")
    assert result.state == state
    assert code in codes(result)


def test_the_trap_with_fire_carries_its_sources_and_a_bench_test() -> None:
    """Low-pressure hose on injection: the rows of both types and what to read on the hose."""
    result = ask(KIND, "fuel hose R9, bore 8 mm", "fuel hose R7, bore 8 mm")
    trap = next(step for _, step in result.because.walk() if step.code == "fuel-hose-trap-injection")
    assert len(trap.origins) == 2
    assert [step.code for step in trap.under] == ["fuel-hose-tell-print"]


def test_a_yes_by_a_recalled_pressure_says_that_it_is_recalled() -> None:
    """The figure of R9 is recalled, so that no safety-relevant fit rests on it alone."""
    result = ask(KIND, "fuel hose for injection, 3 bar, bore 8 mm", "fuel hose R9, bore 8 mm")
    assert (result.state, result.certainty.value) == ("ok", "memory")


@pytest.mark.parametrize(
    ("name", "duty"),
    [("R6", "carburettor"), ("R7", "carburettor"), ("R8", "carburettor"), ("R9", "injection"), ("R10", "in the tank"),
     ("R11", "vent"), ("R12", "injection")],
)  # fmt: skip
def test_duties_are_those_of_the_standard(name: str, duty: str) -> None:
    """Seven types after the scope of SAE J30:1998 (open preview): sections 6, 7, 8, 10 and 11."""
    row = STANDARDS.table("fuel-hose-type").find(type=f"SAE J30{name}")[0]
    assert (row.word("duty"), row.certainty.value) == (duty, "published")


@pytest.mark.parametrize(
    ("name", "column", "psi"), [("R7", "narrow", 50), ("R7", "wide", 35), ("R9", "narrow", 100)]
)
def test_pressures_are_those_said_in_pounds(name: str, column: str, psi: int) -> None:
    """R7 after an open page for the trade, R9 memory; pounds into bar by the pint library: three values."""
    bar = pint.UnitRegistry().Quantity(psi, "psi").to("bar").magnitude
    row = STANDARDS.table("fuel-hose-pressure").find(type=f"SAE J30{name}")[0]
    assert abs(row.number(column) - Decimal(str(bar))) <= Decimal("0.01")


@pytest.mark.parametrize(("bore", "state"), [("3/8 in", "ok"), ("1/2 in", "trap")])
def test_wide_hose_of_one_type_stands_less(bore: str, state: str) -> None:
    """R7 up to 3/8 in stands 50 pounds and over it 35, after an open page for the trade."""
    needed = f"fuel hose R7, bore {bore}, pressure 45 psi"
    assert ask(KIND, needed, f"fuel hose R7, bore {bore}").state == state
