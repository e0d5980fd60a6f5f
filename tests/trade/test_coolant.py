"""Coolants: kinds of additive, shares of glycol and the frost they stand."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.trade.coolant.frost import freezes, share_for
from tests.trade.families import STANDARDS, ask, codes, normal, refused
from tests.trade.loading import table

KIND = "coolant"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("IAT", "IAT coolant"),
        ("coolant with silicate", "IAT coolant"),
        ("OAT 50 %", "OAT coolant, 50 %"),
        ("organic acid antifreeze, ready mixed, -37 °C", "OAT coolant, -37 °C, ready mixed"),
        ("hybrid coolant concentrate", "HOAT coolant, concentrate"),
        ("Si-OAT", "Si-OAT coolant"),
        ("blue IAT anti-freeze", "IAT coolant"),
        ("antifreeze BS6580:1992 50/50", "coolant, BS 6580:1992, 50 %"),
        ("coolant 33,3 % glycol", "coolant, 33.3 %"),
        ("IAT coolant to -25C ready to fill", "IAT coolant, -25 °C, ready mixed"),
    ],
)
def test_coolants_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Additives by letters or words, papers with their year, strength as share, as halves or as frost."""
    assert normal(KIND, text) == read


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("green coolant", "coolant-colour"),
        ("coolant", "coolant-bare"),
        ("IAT OAT coolant", "coolant-several"),
        ("IAT concentrate 50 %", "coolant-both"),
        ("IAT 90 %", "coolant-strength"),
        ("IAT 50/40", "coolant-strength"),
        ("long life coolant", "coolant-unknown"),
        ("50 %", "coolant-unknown"),
    ],
)
def test_a_colour_or_half_a_word_is_a_question(text: str, reason: str) -> None:
    """Colour proves nothing (common practice)."""
    assert refused(KIND, text).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("IAT", "IAT 50 %", "ok", "coolant-additive-same"),
        ("IAT", "OAT", "unreadable", "coolant-old-system"),
        ("OAT", "IAT", "off", "coolant-short-life"),
        ("OAT", "HOAT", "unreadable", "coolant-additive-other"),
        ("IAT", "antifreeze 50 %", "unreadable", "coolant-additive-unsaid"),
        ("IAT -25 °C", "IAT 50 %", "ok", "coolant-frost-ok"),
        ("IAT 50 %", "IAT -25 °C", "off", "coolant-frost-weak"),
        ("IAT -37 °C", "IAT 50 %", "ok", "coolant-frost-ok"),
        ("IAT 50 %", "IAT concentrate", "ok-with-work", "coolant-mix"),
        ("IAT -25 °C", "IAT", "unreadable", "coolant-strength-unsaid"),
        ("IAT concentrate", "IAT 50 %", "off", "coolant-watered"),
        ("IAT ready mixed", "IAT concentrate", "ok-with-work", "coolant-mix-first"),
        ("IAT ready mixed", "IAT 50 %", "ok", "coolant-mixed"),
        ("BS 6580 antifreeze", "IAT BS 6580:1992", "unreadable", "coolant-additive-open"),
        ("BS 6580:1992 antifreeze", "IAT BS 6580", "unreadable", "coolant-no-paper"),
    ],
)
def test_kind_before_frost_and_frost_in_one_direction(
    needed: str, offered: str, state: str, code: str
) -> None:
    """Kinds are common practice, frost after the ASHRAE handbook."""
    result = ask(KIND, needed, offered)
    assert result.state == state
    assert code in codes(result)


def test_long_life_coolant_for_an_old_car_is_asked_and_never_waved_through() -> None:
    """Open system: silicate only; sealed: tellers disagree. The family asks which it is (common practice)."""
    result = ask(KIND, "IAT", "OAT, ready mixed")
    assert (result.state, result.because.values["what"]) == ("unreadable", "additive")


@pytest.mark.parametrize("row", table("glycol.csv"), ids=lambda row: row["glycol"])
def test_frost_limits_agree_with_a_library_of_fluids(row: dict[str, str]) -> None:
    """CoolProp's fluid AEG after the ASHRAE handbook, 13 shares from 10 to 58 per cent, within 0.8 degrees and 1.5 per cent."""
    share, ice = Decimal(row["glycol"]), Decimal(row["freezes"])
    found, back = freezes(share, STANDARDS), share_for(ice, STANDARDS)
    assert found
    assert back
    assert abs(found[0] - ice) <= Decimal("0.8")
    assert abs(back[0] - share) <= Decimal("1.5")


@pytest.mark.parametrize(("share", "ice"), [(25, -12), (33, -18), (40, -25), (50, -37), (60, -52)])
def test_frost_limits_agree_with_what_the_trade_prints_on_cans(share: int, ice: int) -> None:
    """Shares and frost limits as printed on cans of concentrate (memory; 5 values), to the degree."""
    found = freezes(Decimal(share), STANDARDS)
    assert found
    assert round(found[0]) == ice


@given(st.decimals(0, 60, places=1))
def test_share_to_frost_and_back_is_the_share(share: Decimal) -> None:
    """The two directions are one curve, which falls all the way."""
    ice = freezes(share, STANDARDS)
    assert ice
    back = share_for(ice[0], STANDARDS)
    assert back
    assert abs(back[0] - share) < Decimal("0.000001")


def test_beyond_the_table_nothing_is_said() -> None:
    """More glycol does not stand more frost for ever: above 60 per cent the curve turns, and no figure is made up."""
    assert freezes(Decimal(61), STANDARDS) is None
    assert share_for(Decimal(-60), STANDARDS) is None
