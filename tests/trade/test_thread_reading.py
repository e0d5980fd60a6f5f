"""Designations in the spellings people use, and texts that must be refused."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from fitlore.trade.standards import Family
from fitlore.trade.threads import Hand, Thread, normal, read
from tests.trade.loading import STANDARDS, refused, thread

ROWS = st.sampled_from(STANDARDS.threads)
OTHER_LETTERS = {Family.R: (Family.R, Family.RC, Family.RP), Family.NPT: (Family.NPT, Family.NPTF)}


@st.composite
def threads(draw: st.DrawFn) -> Thread:
    """Any thread that can be written: any row, its letters, either hand, with or without a tolerance class."""
    row = draw(ROWS)
    family = draw(st.sampled_from(OTHER_LETTERS.get(row.family, (row.family,))))
    classes = ("",)
    if row.family.value.startswith("metric"):
        classes = ("", "6g", "6H", "5g6g")
    elif row.family.value.startswith("U"):
        classes = ("", "2A", "3B")
    elif family is Family.G:
        classes = ("", "A", "B")
    return Thread(row, family, draw(st.sampled_from(Hand)), draw(st.sampled_from(classes)))


@given(threads())
def test_reading_the_normal_form_gives_the_thread_back(one: Thread) -> None:
    """Reading undoes writing, so that a normal form can stand for its thread in a store."""
    assert read(normal(one), STANDARDS) == one


def test_every_row_of_the_tables_can_be_written_and_read() -> None:
    """All rows under all their letters, not a sample."""
    for row in STANDARDS.threads:
        for family in OTHER_LETTERS.get(row.family, (row.family,)):
            assert read(normal(Thread(row, family)), STANDARDS) == Thread(row, family)


@given(threads(), st.sampled_from(["upper", "lower"]), st.sampled_from(["x", "×", " x ", " X ", "*"]))
def test_case_and_times_signs_do_not_matter(one: Thread, case: str, times: str) -> None:
    """Only the tolerance class has letters whose case says something (6g is male, 6G female)."""
    plain = Thread(one.row, one.family, one.hand)
    text = normal(plain).replace("x", times)
    assert read(text.upper() if case == "upper" else text.lower(), STANDARDS) == plain


@given(st.text(max_size=80) | st.from_regex(r"[MmGRU#0-9/\- x.,NCFBSPTWhit\"]{0,20}", fullmatch=True))
@example("1/0 UNF")
@example("0/0")
@example("M" + "9" * 70)
def test_no_text_raises_and_what_is_read_names_a_listed_row(text: str) -> None:
    """Any text is either a listed thread or refused with a reason."""
    found = read(text, STANDARDS)
    if isinstance(found, Thread):
        assert found.row in STANDARDS.threads
    else:
        assert found.text == text
        assert found.reason.startswith("thread-")


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("M10x1", "M10x1"), ("m10 × 1,0", "M10x1"), ("M 10 X 1.0-6g", "M10x1-6g"), ("MF10x1", "M10x1"),
        ("M10 x 1.0 mm", "M10x1"), ("M10-1.5", "M10x1.5"), ("M12X1.25", "M12x1.25"), ("M14*1.5", "M14x1.5"),
        ("M12x1.25 - 5g6g", "M12x1.25-5g6g"), ("M10х1", "M10x1"), ("Ｍ１０x1", "M10x1"),
        ("3/8-24 UNF", "3/8-24 UNF"), ('3/8" UNF', "3/8-24 UNF"), ("3/8″ UNF", "3/8-24 UNF"), ("⅜ UNF", "3/8-24 UNF"),
        ("3/8 inch UNF", "3/8-24 UNF"), ("3/8in-24 UNF", "3/8-24 UNF"), ("UNF 3/8", "3/8-24 UNF"),
        (".375-24 UNF", "3/8-24 UNF"),
        ("3/8-24UNF-2A", "3/8-24 UNF-2A"), ("7/16 UNF", "7/16-20 UNF"), ("No. 10-32 UNF", "#10-32 UNF"),
        ("# 10 UNF", "#10-32 UNF"), ("10 UNF", "#10-32 UNF"), ("1 1/8 UNF", "1 1/8-12 UNF"),
        ("1-1/8-12 UNF", "1 1/8-12 UNF"),
        ("1½-12 UNF", "1 1/2-12 UNF"), ("1-12 UNF", "1-12 UNF"),
        ('1" UNF', "1-12 UNF"), ("13/16-16 UN", "13/16-16 UN"),
        ("7/16-24 UNS", "7/16-24 UNS"),
        ("1/4 Whit", "1/4-20 BSW"), ("1/4 Whit.", "1/4-20 BSW"), ("1/4 BSW", "1/4-20 BSW"),
        ("Whitworth 1/4", "1/4-20 BSW"),
        ("1/4 x 20 BSW", "1/4-20 BSW"), ("5/16 BSF", "5/16-22 BSF"), ("5/16 B.S.F.", "5/16-22 BSF"),
        ("2BA", "2 BA"), ("2 BA", "2 BA"), ("BA 2", "2 BA"), ("No 2 BA", "2 BA"), ("0BA", "0 BA"),
        ("G1/8", "G1/8"),
        ('G 1/8"', "G1/8"), ("G1/8A", "G1/8 A"), ("G1/8-28", "G1/8"), ("1/8 BSPP", "G1/8"), ("1/8 BSP parallel", "G1/8"),
        ("R 1/8", "R1/8"), ("1/8 BSPT", "R1/8"), ("BSPT 1/8", "R1/8"), ("Rp1/8", "Rp1/8"), ("Rc 1/8", "Rc1/8"),
        ("RC1/8", "Rc1/8"),
        ("1/8-27 NPT", "1/8-27 NPT"), ("1/8 NPT", "1/8-27 NPT"), ("NPT 1/8", "1/8-27 NPT"),
        ("1/8 NPTF", "1/8-27 NPTF"), ("1 NPT", "1-11.5 NPT"),
        ("M14x1.5 LH", "M14x1.5 LH"), ("M14x1.5-LH", "M14x1.5 LH"), ("M14x1.5LH", "M14x1.5 LH"),
        ("left-hand M14x1.5", "M14x1.5 LH"),
        ("7/16 UNF L.H.", "7/16-20 UNF LH"), ("1/2 BSF left hand", "1/2-16 BSF LH"), ("M14x1.5 RH", "M14x1.5"),
    ],
)  # fmt: skip
def test_usual_spellings_are_understood(written: str, meant: str) -> None:
    """Spellings met in adverts, books and on boxes (common practice)."""
    found = thread(written)
    assert normal(found) == meant
    assert found.implied == ""


def test_a_metric_size_alone_has_the_coarse_pitch_and_says_that_it_was_filled_in() -> None:
    """ISO 965-1: a designation without a pitch means the coarse one."""
    found = thread("M10")
    assert (normal(found), found.implied) == ("M10x1.5", "coarse-pitch")
    assert (normal(thread("M10-6g")), thread("M10-6g").implied) == ("M10x1.5-6g", "coarse-pitch")


@pytest.mark.parametrize(
    ("written", "meant"),
    [("3/8-24", "3/8-24 UNF"), ("3/8 x 24", "3/8-24 UNF"), ("3/8in-24", "3/8-24 UNF"), ("7/16-20", "7/16-20 UNF"),
     ("#10-32", "#10-32 UNF"), ("10-32", "#10-32 UNF"), ("7/16-24 tpi", "7/16-24 UNS")],
)  # fmt: skip
def test_threads_per_inch_tell_the_series_where_only_one_has_them(written: str, meant: str) -> None:
    """ASME B1.1 sizes that no British or pipe series shares; what was filled in is said."""
    found = thread(written)
    assert (normal(found), found.implied) == (meant, "series")


@pytest.mark.parametrize(
    ("written", "reason", "readings"),
    [
        ("1/8 BSP", "thread-several", {"G1/8", "R1/8"}),
        ("1/4-20", "thread-several", {"1/4-20 UNC", "1/4-20 BSW"}),
        ("1/2-14", "thread-several", {"G1/2", "R1/2", "1/2-14 NPT"}),
        ("3/4-12", "thread-several", {"3/4-12 UN", "3/4-12 BSF"}),
        ("1/8", "thread-several", {"1/8-40 BSW", "G1/8", "R1/8", "1/8-27 NPT"}),
        ("1/8-27", "thread-incomplete", {"1/8-27 NPT"}),
        ("5/8 BSP", "thread-incomplete", {"G5/8"}),
        ("M15", "thread-several", {"M15x1.5", "M15x1"}),
        ("MF10", "thread-several", {"M10x1.25", "M10x1", "M10x0.75"}),
        ("1 UNF", "thread-several", {"#1-72 UNF", "1-12 UNF"}),
        ("10x1", "thread-incomplete", {"M10x1"}),
    ],
)
def test_a_text_that_could_be_several_threads_is_refused_with_its_readings(
    written: str, reason: str, readings: set[str]
) -> None:
    """Parallel or taper, Unified or Whitworth: never guessed. Each reading is readable by itself."""
    found = refused(written)
    assert found.reason == reason
    assert set(found.readings) == readings
    assert {normal(thread(reading)) for reading in found.readings} == readings


def test_a_hand_or_class_written_with_an_unsure_text_stays_with_its_readings() -> None:
    """`1/4-20 LH` could be two threads, and both are left-hand."""
    assert refused("1/4-20 LH").readings == ("1/4-20 UNC LH", "1/4-20 BSW LH")


@pytest.mark.parametrize(
    ("written", "reason", "nearest"),
    [
        ("M14x1.55", "thread-pitch-unlisted", "M14x1.5"),
        ("M10x1.12", "thread-pitch-unlisted", "M10x1"),
        ("3/8-26 BSF", "thread-pitch-unlisted", "3/8-20 BSF"),
        ("M13x1.5", "thread-size-unlisted", "M12x1.5"),
        ("13 BA", "thread-size-unlisted", "12 BA"),
        ("#11 UNF", "thread-size-unlisted", "#12-28 UNF"),
        ("7/8 NPT", "thread-size-unlisted", "1-11.5 NPT"),
        ("R5/8", "thread-size-unlisted", "R1/2"),
        ("3/8-24 UNC", "thread-series-clash", "3/8-24 UNF"),
        ("MF10x1.5", "thread-series-clash", "M10x1.5"),
        ("M8x30", "thread-length-for-pitch", "M8x1.25"),
    ],
)
def test_what_no_table_lists_is_refused_with_the_nearest_that_is(
    written: str, reason: str, nearest: str
) -> None:
    """A slip in a pitch, a size or the letters is told where it stands, never rounded to something near."""
    found = refused(written)
    assert found.reason == reason
    assert nearest in found.expected
    assert all(isinstance(read(text, STANDARDS), Thread) for text in found.expected)


@pytest.mark.parametrize(
    "written",
    [
        "",
        " ",
        "M",
        "hello",
        "M10²",
        "M1²",
        "①/8 UNF",
        "10x32",
        "3/8 UNX",
        "UNF 3/8 UNF",
        "1/0 UNF",
        '0" UNF',
        "Tr10x2",
        "M10x1x25",
        "-3/8 UNF",
    ],
)
def test_what_is_no_designation_is_refused(written: str) -> None:
    """A raised or circled digit is not a digit, and a bare `10x32` is not guessed to be a number size."""
    assert refused(written).reason in {"thread-unknown", "thread-size-unlisted"}
    assert refused(written).expected
