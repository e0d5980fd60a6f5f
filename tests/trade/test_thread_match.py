"""Which threads go together, which do not, and which only seem to."""

from __future__ import annotations

from decimal import Decimal

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.choices import End
from fitlore.model.origin import Origin
from fitlore.trade.standards import Certainty, Family, ThreadRow
from fitlore.trade.threads import (
    Direction,
    Hand,
    Look,
    Outcome,
    Thread,
    ThreadMatch,
    Why,
    as_replacement,
    code,
    compare,
    dimensions,
    normal,
)
from tests.trade.loading import STANDARDS, table, thread

ANY = st.sampled_from([Thread(row, row.family) for row in STANDARDS.threads])
NO = {Outcome.DIFFERENT, Outcome.TRAP}


def put(male: str, female: str) -> ThreadMatch:
    """A male put to a female, both as written."""
    return compare(thread(male), thread(female))


@pytest.mark.parametrize("row", table("near_misses.csv"), ids=lambda row: f"{row['male']} in {row['female']}")
def test_pairs_confused_in_practice_are_called_what_they_are(row: dict[str, str]) -> None:
    """None of them fits; those that start by hand and hold are traps."""
    match = put(row["male"], row["female"])
    assert (match.outcome.value, code(match)) == (row["outcome"], row["code"])
    assert not match.fits


def test_a_brake_nut_of_three_eighths_in_a_ten_millimetre_port_is_the_loose_killer() -> None:
    """3/8-24 UNF male in M10x1: 0.475 mm smaller, 56 % of the thread holds, false tight after 4.6 turns (told, computed)."""
    match = put("3/8-24 UNF", "M10x1")
    assert (match.outcome, match.direction, match.gap) == (Outcome.TRAP, Direction.LOOSE, Decimal("0.4750"))
    assert round(match.overlap) == 56
    assert match.pitch_error == pytest.approx(Decimal("5.83"), abs=Decimal("0.01"))
    assert match.turns == pytest.approx(Decimal("4.58"), abs=Decimal("0.01"))
    shown = {tell.look: (tell.this, tell.right) for tell in match.tells}
    assert shown == {
        Look.OVER_CRESTS: ("9.3 to 9.5 mm", "9.8 to 10.0 mm"),
        Look.TEN_PITCHES: ("10.6 mm", "10.0 mm"),
    }


def test_the_other_way_round_it_never_starts() -> None:
    """M10x1 male in 3/8-24 UNF: the crest is 0.475 mm bigger than the root, at every limit."""
    match = put("M10x1", "3/8-24 UNF")
    assert (match.outcome, match.direction, match.gap) == (
        Outcome.DIFFERENT,
        Direction.NEVER_STARTS,
        Decimal("-0.4750"),
    )


def test_a_metric_wheel_nut_on_an_inch_stud_runs_home_and_never_feels_wrong() -> None:
    """M12x1.25 nut on a 7/16-20 UNF stud: 34 % holds, 25 turns before binding, more than any nut has."""
    match = as_replacement(thread("7/16-20 UNF"), thread("M12x1.25"), End.FEMALE)
    assert (match.outcome, match.direction, code(match)) == (
        Outcome.TRAP,
        Direction.LOOSE,
        "thread-trap-runs-home",
    )
    assert (round(match.overlap), round(match.turns or 0)) == (34, 25)
    stud = compare(thread("7/16-20 UNF"), thread("M12x1.25"))
    assert (stud.overlap, stud.turns) == (match.overlap, match.turns)
    looks = {tell.look: (tell.this, tell.right) for tell in stud.tells}
    assert looks[Look.OVER_CRESTS] == ("10.9 to 11.1 mm", "11.8 to 12.0 mm")  # ASME B1.1 2A: 10.87 to 11.08


def test_an_inch_oil_filter_on_a_metric_spigot_and_the_reverse() -> None:
    """3/4-16 UNF stud in an M20x1.5 filter: 41 %, spins on, blows off; the M20 stud never starts in the 3/4 filter."""
    assert code(put("3/4-16 UNF", "M20x1.5")) == "thread-trap-loose"
    assert round(put("3/4-16 UNF", "M20x1.5").overlap) == 41
    assert put("M20x1.5", "3/4-16 UNF").direction is Direction.NEVER_STARTS


@pytest.mark.parametrize("male", ["1/8 NPT", "G1/8", "R1/8", "M10x1"])
@pytest.mark.parametrize("female", ["1/8 NPT", "G1/8", "Rc1/8", "Rp1/8", "M10x1"])
def test_senders_of_an_eighth_and_of_ten_millimetres_go_only_where_they_belong(
    male: str, female: str
) -> None:
    """ASME B1.20.1, ISO 228-1, ISO 7-1, ISO 261: four threads that are sold as one; every other pairing is refused."""
    right = {
        ("1/8 NPT", "1/8 NPT"): Outcome.SAME,
        ("G1/8", "G1/8"): Outcome.SAME,
        ("M10x1", "M10x1"): Outcome.SAME,
        ("R1/8", "Rc1/8"): Outcome.EQUIVALENT,
        ("R1/8", "Rp1/8"): Outcome.EQUIVALENT,
        ("R1/8", "G1/8"): Outcome.WITH_WORK,
        ("G1/8", "Rp1/8"): Outcome.WITH_WORK,
    }
    match = put(male, female)
    assert match.outcome is right.get((male, female), match.outcome)
    assert match.fits is ((male, female) in right)
    if male != "M10x1" and not match.fits:
        assert match.outcome is Outcome.TRAP  # every pipe thread of this size starts in every hole of it


@pytest.mark.parametrize("size", ["1/2", "3/4"])
def test_pipe_threads_of_equal_threads_per_inch_wedge_and_do_not_seal(size: str) -> None:
    """NPT and G or R at 1/2 and 3/4: both 14 per inch, 60 against 55 degrees; they screw together and leak."""
    for male, female in (
        (f"{size} NPT", f"G{size}"),
        (f"G{size}", f"{size} NPT"),
        (f"{size} NPT", f"Rc{size}"),
        (f"R{size}", f"{size} NPT"),
    ):
        match = put(male, female)
        assert match.pitch_error == 0
        assert code(match) == "thread-trap-wedges"
        assert Look.FLANK_ANGLE in {tell.look for tell in match.tells}


@pytest.mark.parametrize(
    ("size", "tpi"), [("1/8", "28"), ("1/4", "19"), ("3/8", "19"), ("1/2", "14"), ("3/4", "14"), ("1", "11")]
)
def test_threads_per_inch_of_the_two_pipe_systems_differ_except_at_two_sizes(size: str, tpi: str) -> None:
    """ISO 228-1 against ASME B1.20.1 (27, 18, 18, 14, 14, 11.5): a claim often repeated says they are always equal."""
    ours, theirs = thread(f"G{size}").row.tpi, thread(f"{size} NPT").row.tpi
    assert ours == Decimal(tpi)
    assert (ours == theirs) is (size in {"1/2", "3/4"})


@pytest.mark.parametrize("size", ["3/16", "1/4", "5/16", "3/8", "7/16", "9/16", "5/8", "3/4", "7/8", "1"])
def test_whitworth_and_unified_of_equal_pitch_are_a_trap_and_never_the_same(size: str) -> None:
    """Equal diameter and threads per inch, 55 against 60 degrees: some shops mix them, others forbid it (common practice)."""
    whitworth = thread(f"{size} BSW")
    unified = thread(f"{'#10' if size == '3/16' else size}-{whitworth.row.tpi} UNC")
    for male, female in ((whitworth, unified), (unified, whitworth)):
        match = compare(male, female)
        assert match.outcome in NO
        if size != "3/16":  # 0.1875 and 0.190 inch: near, not equal
            assert code(match) == "thread-trap-form"


def test_half_inch_is_the_size_where_even_the_threads_per_inch_differ() -> None:
    """1/2 BSW has 12, 1/2 UNC 13 threads per inch."""
    assert put("1/2 BSW", "1/2 UNC").direction is Direction.TIGHT


@pytest.mark.parametrize(
    ("male", "female"),
    [("M10x1.25", "M10x1.5"), ("M10x1.5", "M10x1.25"), ("M12x1.5", "M12x1.25"), ("M14x1.25", "M14x1.5")],
)
def test_a_neighbouring_pitch_jams_at_once_and_is_plainly_different(male: str, female: str) -> None:
    """Equal diameter: less than a turn goes in, which a hand feels; only force spoils both."""
    match = put(male, female)
    assert (match.outcome, match.direction, code(match)) == (
        Outcome.DIFFERENT,
        Direction.TIGHT,
        "thread-jams",
    )


@pytest.mark.parametrize(
    ("male", "female"), [("M16x2", "5/8-11 BSW"), ("M8x0.75", "M8x1.25"), ("M5x0.5", "3/16-32 BSF")]
)
def test_a_crest_that_does_not_pass_the_other_root_never_starts(male: str, female: str) -> None:
    """Flanks with play do not help where a crest is bigger than the root it has to enter, at every limit."""
    match = put(male, female)
    assert match.turns_loosest is not None
    assert match.turns_loosest > 0
    assert (match.outcome, match.direction) == (Outcome.DIFFERENT, Direction.NEVER_STARTS)


def test_a_much_too_small_thread_is_different_not_a_trap() -> None:
    """Beyond 12 % of the diameter the eye sees it; without overlap it slides through."""
    assert code(put("M8", "3/8 UNC")) == "thread-too-small"
    assert code(put("M8x1", "M10x1")) == "thread-no-hold"


def test_left_hand_never_goes_with_right_hand() -> None:
    """The same size of the other hand does not start, and the proof says the hand and no figures."""
    match = put("M14x1.5", "M14x1.5 LH")
    assert (match.outcome, match.why, match.direction) == (
        Outcome.DIFFERENT,
        Why.WRONG_HAND,
        Direction.NEVER_STARTS,
    )
    assert put("M14x1.5 LH", "M14x1.5 LH").outcome is Outcome.SAME


@pytest.mark.parametrize(
    ("needed", "offered", "end", "outcome"),
    [
        ("M10x1", "3/8-24 UNF", End.MALE, Outcome.TRAP), ("M10x1", "3/8-24 UNF", End.FEMALE, Outcome.DIFFERENT),
        ("3/8-24 UNF", "M10x1", End.FEMALE, Outcome.TRAP), ("M12x1.25", "7/16-20 UNF", End.FEMALE, Outcome.DIFFERENT),
        ("M10", "M10x1.5", End.MALE, Outcome.SAME), ("M10x1-6g", "M10x1", End.MALE, Outcome.SAME),
        ("R1/8", "G1/8", End.MALE, Outcome.TRAP), ("G1/8", "R1/8", End.MALE, Outcome.WITH_WORK),
        ("Rc1/8", "Rp1/8", End.FEMALE, Outcome.EQUIVALENT), ("Rp1/8", "Rp1/8", End.FEMALE, Outcome.SAME),
        ("Rc1/8", "Rc1/8", End.MALE, Outcome.SAME), ("G1/8", "Rp1/8", End.MALE, Outcome.TRAP),
        ("G1/8", "Rc1/8", End.FEMALE, Outcome.TRAP),
        ("Rp1/8", "G1/8", End.FEMALE, Outcome.WITH_WORK), ("1/8 NPT", "1/8 NPTF", End.FEMALE, Outcome.WITH_WORK),
    ],
)  # fmt: skip
def test_a_replacement_meets_the_mate_that_stays_on_the_car(
    needed: str, offered: str, end: End, outcome: Outcome
) -> None:
    """A male offered goes into what the needed male went into; a female offered takes what the needed one took."""
    assert as_replacement(thread(needed), thread(offered), end).outcome is outcome


def test_one_size_listed_in_two_series_is_equivalent() -> None:
    """ASME B1.1 lists 7/16-20 both as UNF and in the 20-thread series: one profile, one diameter, one pitch."""
    row = ThreadRow(
        origin=Origin("shop/threads.yaml", 3), source="ASME B1.1 20-thread series", certainty=Certainty.PUBLISHED,
        family=Family.UN, size="7/16", major=Decimal("0.4375"), inches=True, tpi=Decimal(20),
    )  # fmt: skip
    match = compare(Thread(row, Family.UN), thread("7/16-20 UNF"))
    assert (match.outcome, match.why) == (Outcome.EQUIVALENT, Why.SAME_FORM)


@given(ANY, st.sampled_from(Hand))
def test_every_thread_goes_with_itself(one: Thread, hand: Hand) -> None:
    """Comparing is reflexive, for either half and either hand."""
    same = msgspec.structs.replace(one, hand=hand)
    assert compare(same, same).outcome is Outcome.SAME
    assert {as_replacement(same, same, end).outcome for end in End} == {Outcome.SAME}


@given(ANY, ANY)
def test_a_yes_needs_equal_diameter_pitch_and_angle(male: Thread, female: Thread) -> None:
    """A trap is never a fit: whatever differs in a basic figure by more than nothing is a no, with a direction."""
    match = compare(male, female)
    a, b = dimensions(male), dimensions(female)
    alike = (a.major, a.pitch, a.angle) == (b.major, b.pitch, b.angle)
    assert alike or not match.fits
    assert match.fits is (match.outcome not in NO)
    assert (match.direction is None) is match.fits


@given(ANY, ANY)
def test_a_trap_can_be_started_and_holds(male: Thread, female: Thread) -> None:
    """The rule itself, read back from the figures of any pair."""
    match = compare(male, female)
    if match.outcome is Outcome.TRAP:
        tapered = bool(male.form.taper or female.form.taper)
        assert match.overlap > 0
        assert match.turns_loosest is None or match.turns_loosest >= (0 if tapered else 1)
        assert match.gap <= Decimal("0.1201") * dimensions(female).major
        assert match.tells


@given(ANY, ANY)
def test_a_pair_that_is_no_trap_one_way_and_no_fit_is_still_a_no_the_other_way(
    one: Thread, other: Thread
) -> None:
    """Directions differ in kind of no, never in no against yes (pipe pairs that only one way round make a joint aside)."""
    pipe = {Family.G, Family.R}
    if one.family in pipe and other.family in pipe:
        return
    assert compare(one, other).fits is compare(other, one).fits


@given(ANY, ANY)
def test_the_tells_name_only_what_differs(male: Thread, female: Thread) -> None:
    """A look that shows the same on both parts would mislead."""
    assert all(tell.this != tell.right for tell in compare(male, female).tells)
    assert compare(male, female).sources


def test_the_designation_says_nothing_of_flare_seat_or_seal() -> None:
    """Case of the weeping pipe: M10x1 serves bubble and double flares, so a thread match names what it leaves open."""
    assert {"flare", "seat", "sealing"} <= set(put("M10x1", "M10x1").not_said)
    assert normal(put("M10x1", "M10x1").male) == "M10x1"
