"""Thermostats and radiator caps: what goes in and boils, what goes on and bursts."""

from __future__ import annotations

from decimal import Decimal

import pint
import pytest

from fitlore.trade.family import FAMILIES, Reading
from fitlore.trade.radiator_cap.boiling import MOST, boils_at, under_cap
from tests.trade.families import STANDARDS, ask, codes, normal, refused
from tests.trade.loading import table

NEEDED = "thermostat, foot plate, jiggle pin, opens 82 C, flange 54 mm, thickness 2 mm, height 30 mm"
CAP = "radiator cap, bayonet, return valve, pressure 0.9 bar, neck 52 mm, reach 18 mm"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("82°C thermostat", "thermostat, opens 82 C"),
        ("Thermostat 180 °F", "thermostat, opens 82.22 C"),
        ("thermostat 88", "thermostat, opens 88 C"),
        ("thermostat 160", "thermostat, opens 71.11 C"),
        ("thermostat opening temperature 87,5 C", "thermostat, opens 87.5 C"),
        ("thermostat 82 C, 54 mm flange, 30 mm high, 2 mm thick",
         "thermostat, opens 82 C, flange 54 mm, thickness 2 mm, height 30 mm"),
        ("coolant thermostat 82 C bypass disc with bleed hole", "thermostat, foot plate, jiggle pin, opens 82 C"),
        ("thermostat 82 C without foot plate, no jiggle pin", "thermostat, no bypass, no jiggle pin, opens 82 C"),
        ("sleeved thermostat 82 C", "thermostat, sleeve, opens 82 C"),
    ],
)  # fmt: skip
def test_thermostats_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Both scales; a bare stamp can be an opening temperature in one of them only."""
    assert normal("thermostat", text) == read


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("thermostat, flange 54 mm", "thermostat-no-opens"),
        ("thermostat", "thermostat-unknown"),
        ("thermostat 120", "thermostat-unknown"),
        ("thermostat opens 82", "thermostat-unknown"),
        ("thermostat 82 C 88 C", "thermostat-unknown"),
        ("82 C", "thermostat-unknown"),
    ],
)
def test_what_does_not_say_where_it_opens_is_refused(text: str, reason: str) -> None:
    """A figure that is a stamp in neither scale, and two of them, say nothing."""
    assert refused("thermostat", text).reason == reason


@pytest.mark.parametrize(
    ("change", "state", "code"),
    [
        (("opens 82 C", "opens 180 F"), "ok", "service-agrees"),
        (("opens 82 C", "opens 88 C"), "off", "thermostat-hot"),
        (("opens 82 C", "opens 71 C"), "off", "thermostat-cold"),
        (("flange 54", "flange 52"), "trap", "thermostat-trap-flange-small"),
        (("flange 54", "flange 48"), "off", "service-other-size"),
        (("flange 54", "flange 56"), "off", "thermostat-flange-big"),
        (("thickness 2", "thickness 1.2"), "trap", "thermostat-trap-flange-thin"),
        (("thickness 2", "thickness 3"), "trap", "thermostat-trap-flange-thick"),
        (("height 30", "height 24"), "trap", "thermostat-trap-plate-low"),
        (("height 30", "height 36"), "off", "thermostat-tall"),
        (("foot plate", "no bypass"), "trap", "thermostat-trap-bypass-open"),
        (("foot plate", "sleeve"), "off", "thermostat-other-bypass"),
        ((" jiggle pin", " no jiggle pin"), "ok-with-work", "thermostat-drill"),
        ((", foot plate", ""), "unreadable", "service-not-said"),
        ((", height 30 mm", ""), "unreadable", "service-not-said"),
    ],
)  # fmt: skip
def test_each_piece_of_a_thermostat_decides_by_itself(change: tuple[str, str], state: str, code: str) -> None:
    """Opening, flange, its thickness, height and bypass, each with its direction (common practice)."""
    result = ask("thermostat", NEEDED, NEEDED.replace(*change))
    assert result.state == state
    assert code in codes(result)


def test_where_nothing_closes_the_bypass_a_plate_meets_the_casting_and_a_low_one_is_all_right() -> None:
    """The other direction of the same pieces (common practice)."""
    plain = "thermostat, no bypass, opens 82 C, flange 54 mm, height 30 mm"
    assert ask("thermostat", plain, plain.replace("no bypass", "foot plate")).state == "off"
    assert ask("thermostat", plain, plain.replace("30", "24")).state == "ok"


def test_stamps_agree_in_both_scales_with_a_library_of_units() -> None:
    """Each listed pair of stamps is one temperature by `pint` 0.25, to the rounding of a stamp (16 values)."""
    units = pint.UnitRegistry()
    rows = STANDARDS.table("thermostat-mark").rows
    assert len(rows) == 8
    for row in rows:
        exact = units.Quantity(float(row.number("fahrenheit")), units.degF).to(units.degC).magnitude
        assert abs(exact - float(row.number("celsius"))) <= 0.6
        found = FAMILIES["thermostat"].read(f"thermostat {row.cell('fahrenheit')}", STANDARDS)
        assert isinstance(found, Reading)
        assert float(found.keys["opens"]) == pytest.approx(exact, abs=0.006)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("radiator cap 13 psi", "radiator cap, pressure 0.9 bar"),
        ("7 lb/sq in radiator cap", "radiator cap, pressure 0.48 bar"),
        ("radiator pressure cap 4 lbs", "radiator cap, pressure 0.28 bar"),
        ("radiator cap 1,1 bar, 18 mm deep", "radiator cap, pressure 1.1 bar, reach 18 mm"),
        ("radiator cap 108 kPa bayonet", "radiator cap, bayonet, pressure 1.08 bar"),
        ("radiator cap 0.9 kgf/cm2 depth 3/4 in", "radiator cap, pressure 0.88 bar, reach 19.05 mm"),
        ("expansion tank cap, screw, 1 bar, with vacuum valve", "radiator cap, screw, return valve, pressure 1 bar"),
        ("radiator cap 16 psi without return valve", "radiator cap, no return valve, pressure 1.1 bar"),
    ],
)  # fmt: skip
def test_caps_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Pounds, kilopascals, kilograms of force and bar."""
    assert normal("radiator-cap", text) == read


@pytest.mark.parametrize(
    "text", ["radiator cap 13", "radiator cap 100", "radiator cap, bayonet", "radiator cap 90 bar"]
)
def test_a_figure_without_its_unit_is_no_pressure(text: str) -> None:
    """13 may be psi, 100 may be kPa or hundredths of a bar: never guessed."""
    assert refused("radiator-cap", text).reason.startswith("radiator-cap-")


@pytest.mark.parametrize(
    ("change", "state", "code"),
    [
        (("0.9 bar", "12.5 psi"), "ok", "service-agrees"),
        (("0.9 bar", "1.1 bar"), "trap", "radiator-cap-trap-strong"),
        (("0.9 bar", "0.5 bar"), "off", "radiator-cap-weak"),
        (("reach 18", "reach 14"), "trap", "radiator-cap-trap-short"),
        (("reach 18", "reach 21"), "trap", "radiator-cap-trap-long"),
        (("neck 52", "neck 60"), "off", "radiator-cap-neck"),
        (("bayonet", "screw"), "off", "radiator-cap-fixing"),
        (("return valve", "no return valve"), "trap", "radiator-cap-trap-no-return"),
        ((", return valve", ""), "unreadable", "service-not-said"),
        ((", reach 18 mm", ""), "unreadable", "service-not-said"),
        (("pressure 0.9 bar", ""), "unreadable", "radiator-cap-no-pressure"),
    ],
)
def test_each_piece_of_a_cap_decides_by_itself(change: tuple[str, str], state: str, code: str) -> None:
    """A stronger cap bursts the matrix, a short one holds no pressure, both go on (common practice)."""
    result = ask("radiator-cap", CAP, CAP.replace(*change))
    assert result.state == state
    assert code in codes(result)


def test_a_return_valve_too_many_is_no_harm() -> None:
    """Where none is needed one does no harm (common practice)."""
    needed = "radiator cap, no return valve, pressure 0.9 bar"
    assert ask("radiator-cap", needed, needed.replace("no return", "return")).state == "ok"


def test_a_cap_of_a_higher_band_should_not_lock_and_the_proof_says_so() -> None:
    """SAE J164: the reach grows with the pressure, 14.73 mm for 6 to 8 psi and 21.34 for 12 to 16 (2 values)."""
    result = ask("radiator-cap", "7 psi radiator cap", "15 psi radiator cap")
    assert (result.state, "radiator-cap-trap-longer" in codes(result)) == ("trap", True)
    (step,) = [step for _, step in result.because.walk() if step.code == "radiator-cap-trap-longer"]
    assert (step.values["needed-reach"], step.values["offered-reach"]) == ("14.73", "21.34")
    assert len(step.origins) == 2


@pytest.mark.parametrize("figure", [4, 7, 10, 13, 14, 15, 16, 20])
def test_pressures_in_psi_agree_with_a_library_of_units(figure: int) -> None:
    """Pounds to the square inch in bar by `pint` 0.25 (8 values)."""
    units = pint.UnitRegistry()
    found = FAMILIES["radiator-cap"].read(f"radiator cap {figure} psi", STANDARDS)
    assert isinstance(found, Reading)
    exact = units.Quantity(figure, units.psi).to(units.bar).magnitude
    assert float(found.keys["pressure"]) == pytest.approx(exact, abs=0.0051)


@pytest.mark.parametrize(("bar", "kelvin"), [(1.0, 372.755919), (10.0, 453.035632)])
def test_boiling_points_are_those_of_the_standard_s_own_check_table(bar: float, kelvin: float) -> None:
    """IAPWS-IF97, table 36: 0.1 and 1 MPa (2 values, printed to nine figures)."""
    assert boils_at(bar) == pytest.approx(kelvin - 273.15, abs=1e-6)


def test_boiling_points_agree_with_a_reference_library() -> None:
    """`iapws` 1.5.5, saturation temperatures from 0.5 to 4 bar (24 values)."""
    rows = table("water_boils.csv")
    assert len(rows) == 24
    for row in rows:
        assert boils_at(float(row["absolute-bar"])) == pytest.approx(float(row["boils-c"]), abs=1e-4)


def test_water_boils_at_a_hundred_degrees_without_a_cap_and_later_under_more() -> None:
    """100 degrees at sea level; out of the range of cooling systems it says nothing."""
    assert under_cap(Decimal(0)) == pytest.approx(100, abs=0.03)
    found = [under_cap(Decimal(tenth) / 10) for tenth in range(21)]
    assert found == sorted(found)
    for bad in (0.01, MOST + 1):
        with pytest.raises(ValueError, match="no pressure"):
            boils_at(bad)
