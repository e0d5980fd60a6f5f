"""O-rings: numbers and sizes, sections that are nearly right, and rubbers in the wrong fluid."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.choices import End
from fitlore.trade.family import FAMILIES
from fitlore.trade.o_ring.family import NEAR
from fitlore.trade.o_ring.reading import nominal
from fitlore.trade.result import FamilyState, Reading
from fitlore.trade.rows import Certainty
from tests.trade.families import PROBLEMS, STANDARDS, YES, ask, codes, normal, refused
from tests.trade.loading import table

AS568 = STANDARDS.table("as568-ring")
RUBBERS = STANDARDS.table("rubber")
INCHES = [
    ("006", "0.114"), ("008", "0.176"), ("010", "0.239"), ("011", "0.301"), ("012", "0.364"), ("013", "0.426"),
    ("014", "0.489"), ("016", "0.614"), ("020", "0.864"), ("110", "0.362"), ("111", "0.424"), ("112", "0.487"),
    ("113", "0.549"), ("114", "0.612"), ("116", "0.737"), ("120", "0.987"), ("210", "0.734"), ("211", "0.796"),
    ("212", "0.859"), ("214", "0.984"), ("218", "1.234"), ("222", "1.484"), ("225", "1.859"), ("228", "2.234"),
    ("325", "1.475"), ("330", "2.100"),
]  # fmt: skip
SECTIONS = {"0": "0.070", "1": "0.103", "2": "0.139", "3": "0.210", "4": "0.275"}


@st.composite
def rings(draw: st.DrawFn) -> str:
    """Listed and unlisted rings, with and without a rubber or a fluid."""
    size = draw(
        st.sampled_from([f"-{row.word('dash')}" for row in AS568.rows])
        | st.sampled_from([row.word("code") for row in STANDARDS.table("jis-ring").rows])
        | st.builds(
            "{}x{}".format,
            st.integers(9, 80),
            st.sampled_from(["1.5", "1.78", "1.8", "2", "2.5", "2.62", "3", "3,53"]),
        )
    )
    rubber = draw(st.sampled_from(["", " NBR", " EPDM", " FKM", " silicone", " HNBR"]))
    return f"{size}{rubber}{draw(st.sampled_from(['', ' for oil', ' for brake fluid', ' for petrol']))}"


def test_every_row_is_usable_and_can_be_read() -> None:
    """Each number of each table is read, no two numbers of one table name one ring."""
    assert PROBLEMS == []
    assert len({normal("o-ring", f"-{row.word('dash')}") for row in AS568.rows}) == len(AS568.rows)
    codes_read = {normal("o-ring", row.word("code")) for row in STANDARDS.table("jis-ring").rows}
    assert len(codes_read) == len(STANDARDS.table("jis-ring").rows)
    for row in STANDARDS.table("rubber-name").rows:
        assert normal("o-ring", f"20x2.5 {row.word('name')}") == f"20x2.5 {row.word('rubber')}"


@pytest.mark.parametrize(("dash", "inches"), INCHES)
def test_dash_numbers_are_the_inches_of_the_standard(dash: str, inches: str) -> None:
    """AS568 inside diameters and sections in inches as printed in handbooks, against the mm listed here: 52 values."""
    row = AS568.find(dash=dash)[0]
    assert abs(row.number("inside") - Decimal(inches) * Decimal("25.4")) <= Decimal("0.006")
    assert abs(row.number("section") - Decimal(SECTIONS[dash[0]]) * Decimal("25.4")) <= Decimal("0.006")


@pytest.mark.parametrize(
    ("dash", "fraction"),
    [("010", "1/4"), ("014", "1/2"), ("020", "7/8"), ("110", "3/8"), ("112", "1/2"), ("116", "3/4"), ("210", "3/4"),
     ("214", "1"), ("222", "3/2"), ("325", "3/2"), ("330", "17/8")],
)  # fmt: skip
def test_nominal_inches_lead_to_the_number(dash: str, fraction: str) -> None:
    """AS568 nominal sizes in inches as printed beside the dash numbers in handbooks: 11 values."""
    assert nominal(AS568.find(dash=dash)[0]) == Fraction(fraction)


def test_the_table_is_the_librarys() -> None:
    """bd-warehouse 0.4.0, o-ring_parameters.csv: a sample of its rows, inside, section and both tolerances."""
    for line in table("o_rings.csv"):
        row = AS568.find(dash=line["dash"])[0]
        assert {name: row.number(name) for name in row.numbers} == {
            name: Decimal(line[name]) for name in row.numbers
        }


@pytest.mark.parametrize(
    "line", table("o_ring_glands.csv"), ids=lambda line: f"{line['use']} {line['section']}"
)
def test_a_section_within_tolerance_keeps_its_squeeze_and_a_trap_may_lose_it(line: dict[str, str]) -> None:
    """Least squeeze in per cent in grooves after ISO 3601-2 (bd-warehouse 0.4.0, gland tables): 16 values.

    What is called within tolerance stays below it, so that the ring still seals; what is called a trap may reach it.
    """
    least = Decimal(line["squeeze-low"])
    rows = [row for row in AS568.rows if row.cell("section") == line["section"]]
    assert rows
    assert all(row.number("section-tolerance") / row.number("section") * 100 < least for row in rows)
    assert least <= NEAR * 100 or line["use"] == "still"


@pytest.mark.parametrize(
    ("code", "inside", "section"),
    [("P3", "2.8", "1.9"), ("P5", "4.8", "1.9"), ("P8", "7.8", "1.9"), ("P10", "9.8", "1.9"),
     ("P10A", "9.8", "2.4"), ("P11", "10.8", "2.4"), ("P11.2", "11", "2.4")],
)  # fmt: skip
def test_jis_rings_are_as_printed(code: str, inside: str, section: str) -> None:
    """JIS B 2401 as printed in an open table, read in November 2026: 14 values."""
    row = STANDARDS.table("jis-ring").find(code=code)[0]
    assert (row.cell("inside"), row.cell("section")) == (inside, section)


@pytest.mark.parametrize(
    ("rubber", "fluid", "bears"),
    [("NBR", "oil", "yes"), ("NBR", "petrol", "yes"), ("NBR", "brake-fluid", "no"), ("EPDM", "oil", "no"),
     ("EPDM", "petrol", "no"), ("EPDM", "brake-fluid", "yes"), ("EPDM", "coolant", "yes"), ("FKM", "oil", "yes"),
     ("FKM", "petrol", "yes")],
)  # fmt: skip
def test_rubbers_bear_what_public_guides_say(rubber: str, fluid: str, bears: str) -> None:
    """Two public material guides that agree, read in November 2026: 9 values."""
    assert RUBBERS.find(rubber=rubber)[0].word(fluid) == bears


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("20x2.5", "20x2.5"), ("20 x 2,5", "20x2.5"), ("20×2.50 mm", "20x2.5"), ("O-ring 20x2.5", "20x2.5"),
        ("o ring 20 X 2.5 nitrile", "20x2.5 NBR"), ("20x2,5 FPM", "20x2.5 FKM"), ("20x2.5 NBR70", "20x2.5 NBR 70 Shore"),
        ("20x25x2.5", "20x2.5"), ("-112", "12.37x2.62"), ("AS568-112", "12.37x2.62"), ("AS 568A-112", "12.37x2.62"),
        ("BS1806-112", "12.37x2.62"), ("BS 112", "12.37x2.62"), ("dash 112", "12.37x2.62"), ("12.37x2.62", "12.37x2.62"),
        ("0.487 x 0.103 in", "12.37x2.62"), ("3/4 x 1/8", "18.64x3.53"), ("3/4 x 1/8 in", "18.64x3.53"),
        ("1 1/2 x 3/16", "37.47x5.33"), ("1/8 x 1/16", "2.9x1.78"), ("P20", "19.8x2.4"), ("JIS P10A", "9.8x2.4"),
        ("G25", "24.4x3.1"), ("20x2.5 for brake fluid", "20x2.5 for brake fluid"),
        ("20x2.5 EPDM in coolant", "20x2.5 EPDM for coolant"),
    ],
)  # fmt: skip
def test_usual_spellings_are_understood(written: str, meant: str) -> None:
    """Spellings on packets and in adverts (common practice)."""
    assert normal("o-ring", written) == meant


@pytest.mark.parametrize(
    ("written", "reason"),
    [("", "o-ring-unknown"), ("10", "o-ring-unknown"), ("112", "o-ring-unknown"), ("M10x1", "o-ring-unknown"),
     ("17x40x12", "o-ring-unknown"), ("165/70R13", "o-ring-unknown"), ("20x2.5 brown", "o-ring-unknown"),
     ("2.5x20", "o-ring-order"), ("20x25", "o-ring-outside"),
     ("38x52x7", "o-ring-outside"), ("-999", "o-ring-unlisted"), ("-179", "o-ring-unlisted"),
     ("G26", "o-ring-unlisted"), ("5/7 x 1/8", "o-ring-unlisted"),
     ("7 1/2 x 3", "o-ring-unknown"), ("5 x 4 1/2", "o-ring-unknown")],
)  # fmt: skip
def test_what_is_no_ring_is_refused(written: str, reason: str) -> None:
    """A thread, a bearing, a seal and a bare figure are none; an order turned round is asked about."""
    assert refused("o-ring", written).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("-210", "3/4 x 1/8", "ok", "o-ring-same"),
        ("20x1.78", "20x1.8", "ok", "o-ring-section-within"),
        ("20x2.62", "20x2.65", "ok", "o-ring-section-within"),
        ("20x2.62", "20x2.5", "trap", "o-ring-section-thin"),
        ("20x2.5", "20x2.62", "trap", "o-ring-section-thick"),
        ("20x1.78", "20x2", "trap", "o-ring-section-thick"),
        ("20x3.53", "20x3.1", "trap", "o-ring-section-thin"),
        ("20x3", "20x4", "off", "o-ring-section-off"),
        ("20x2.5", "20.1x2.5", "ok", "o-ring-inside-within"),
        ("20x2.5", "19.5x2.5", "unreadable", "o-ring-inside-small"),
        ("20x2.5", "20.5x2.5", "unreadable", "o-ring-inside-large"),
        ("20x2.5", "25x2.5", "off", "o-ring-inside-off"),
        ("-014", "-015", "off", "o-ring-inside-off"),
        ("20x2.5 NBR", "20x2.5 EPDM", "trap", "rubber-swells"),
        ("20x2.5 EPDM", "20x2.5 NBR", "trap", "rubber-swells"),
        ("20x2.5 EPDM", "20x2.5 FKM", "trap", "rubber-swells"),
        ("20x2.5 NBR", "20x2.5 FKM", "ok", "rubber-serves"),
        ("20x2.5 FKM", "20x2.5 NBR", "unreadable", "rubber-heat"),
        ("20x2.5 for brake fluid", "20x2.5 NBR", "trap", "rubber-swells"),
        ("20x2.5 for brake fluid", "20x2.5 EPDM", "ok", "rubber-serves"),
        ("20x2.5 for oil", "20x2.5 EPDM", "trap", "rubber-swells"),
        ("20x2.5 for petrol", "20x2.5 FKM", "ok", "rubber-serves"),
        ("-112 for r134a", "-112 NBR", "trap", "rubber-swells"),
        ("-112 for r134a", "-112 HNBR", "ok", "rubber-serves"),
        ("20x2.5 for oil", "20x2.5 for brake fluid", "trap", "rubber-other-medium"),
        ("20x2.5 for oil", "20x2.5", "unreadable", "rubber-unsaid"),
        ("20x2.5 for oil", "20x2.5 70 Shore for oil", "ok", "o-ring-section-same"),
        ("20x2.5 FKM for oil", "20x2.5 for oil", "unreadable", "rubber-unsaid"),
        ("20x2.5 NBR", "20x2.5", "unreadable", "rubber-unsaid"),
        ("20x2.5", "20x2.5 NBR", "ok", "rubber-not-asked"),
        ("20x2.5", "20x2.5 EPDM", "unreadable", "rubber-special"),
        ("20x2.5", "20x2.5 for brake fluid", "unreadable", "rubber-special"),
        ("20x2.5 NBR 90 Shore", "20x2.5 NBR", "off", "o-ring-softer"),
        ("20x2.5 NBR", "20x2.5 NBR 90 Shore", "unreadable", "o-ring-harder"),
        ("20x2.5", "2.5x20", "unreadable", "o-ring-order"),
    ],
)
def test_one_ring_for_another(needed: str, offered: str, state: str, code: str) -> None:
    """Sections and insides by ISO 3601, rubbers by public guides, the rest common practice."""
    result = ask("o-ring", needed, offered)
    assert result.state == state
    assert code in codes(result)
    if state == "trap":
        assert codes(result) & {"o-ring-tell-section", "rubber-tell"}


def test_a_rubber_recalled_makes_the_answer_recalled() -> None:
    """HNBR rests on a row from memory, EPDM on published ones."""
    assert ask("o-ring", "-112 for r134a", "-112 HNBR").certainty is Certainty.MEMORY
    assert ask("o-ring", "-112 for brake fluid", "-112 EPDM").certainty is Certainty.PUBLISHED


@given(rings())
def test_reading_the_normal_form_gives_it_back(text: str) -> None:
    """A normal form stands for its ring in a store, and every ring serves for itself."""
    once = normal("o-ring", text)
    assert normal("o-ring", once) == once
    assert ask("o-ring", text, text).state is FamilyState.OK


@given(rings(), rings())
def test_a_yes_needs_sizes_within_tolerance(needed: str, offered: str) -> None:
    """Never a yes with a section or an inside that the standard's tolerances do not cover, nor over a trap."""
    result = ask("o-ring", needed, offered)
    one, other = (FAMILIES["o-ring"].read(text, STANDARDS) for text in (needed, offered))
    assert isinstance(one, Reading)
    assert isinstance(other, Reading)
    if result.state in YES:
        assert abs(one.keys["section"] - other.keys["section"]) <= Decimal("0.15")
        assert abs(one.keys["inside"] - other.keys["inside"]) <= one.keys["inside"] * Decimal("0.05")
        assert not codes(result) & {
            "rubber-swells",
            "rubber-other-medium",
            "o-ring-section-thin",
            "o-ring-section-thick",
        }


@given(st.text(max_size=60) | st.from_regex(r"[0-9xPGBAS./ \"-]{0,20}", fullmatch=True))
def test_no_text_raises(text: str) -> None:
    """Any text is read or refused with a reason."""
    found = FAMILIES["o-ring"].read(text, STANDARDS)
    assert isinstance(found, Reading) or found.reason.startswith("o-ring-")
    FAMILIES["o-ring"].compare("20x2.5", text, End.MALE, STANDARDS)


def test_the_sizes_to_measure_by_are_the_listed_ones() -> None:
    """Each listed number once, its section wearing down."""
    sizes = list(FAMILIES["o-ring"].sizes(STANDARDS))
    assert len({size.designation for size in sizes}) == len(sizes) == 349 + 73
    ring = next(size for size in sizes if size.designation == "-210")
    assert ring.bands["thickness"].wears == "down"
    assert ring.bands["inside"].low < Decimal("18.64") < ring.bands["inside"].high
