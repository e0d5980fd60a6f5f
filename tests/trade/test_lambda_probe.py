"""Lambda probes: the kind decides first; thread and wires look alike."""

from __future__ import annotations

import pytest

from fitlore.trade.family import FAMILIES
from tests.trade.families import STANDARDS, ask, codes, normal, refused

KIND = "lambda-probe"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("zirconia oxygen sensor, four wires, M18x1.5", "lambda probe M18x1.5, zirconia, wires 4"),
        ("lambda sensor zirconium dioxide 1-wire", "lambda probe, zirconia, wires 1"),
        ("heated 3 wire zirconia lambda probe heater 4,5 ohm", "lambda probe, zirconia, wires 3, heater 4.5 ohm"),
        ("O2 sensor TiO2 4-wire M12 x 1,25", "lambda probe M12x1.25, titania, wires 4"),
        ("wide-band lambda probe five wires", "lambda probe, wide band, wires 5"),
        ("zirconia lambda probe 4 wires earth by own wire", "lambda probe, zirconia, earth by its own wire, wires 4"),
        ("zirconia lambda probe 3 wires signal earth through the body",
         "lambda probe, zirconia, earth through the body, wires 3"),
    ],
)  # fmt: skip
def test_probes_are_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """Counts in words or figures, the kind by name or formula."""
    assert normal(KIND, text) == read


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("lambda probe M18x1.5, 4 wires", "lambda-probe-no-works-by"),
        ("lambda probe zirconia", "lambda-probe-no-wires"),
        ("lambda probe zirconia 5 wires", "lambda-probe-wires"),
        ("titania lambda probe 1 wire", "lambda-probe-wires"),
        ("heated zirconia lambda probe 1 wire", "lambda-probe-wires"),
        ("unheated zirconia lambda probe 4 wires", "lambda-probe-wires"),
        ("zirconia titania lambda probe 4 wires", "lambda-probe-unknown"),
        ("universal lambda probe zirconia 4 wires", "lambda-probe-thread"),
        ("lambda probe", "lambda-probe-unknown"),
    ],
)
def test_what_leaves_kind_or_wires_open_is_a_question(text: str, reason: str) -> None:
    """`Cheap universal four-wire` says nothing of what it works by."""
    assert refused(KIND, text).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("zirconia, wires 4", "titania, wires 4", "trap", "lambda-probe-trap-kind"),
        ("titania, wires 3", "zirconia, wires 3", "trap", "lambda-probe-trap-kind"),
        ("zirconia, wires 4", "wide band, wires 5", "trap", "lambda-probe-trap-kind"),
        ("zirconia, wires 4", "zirconia, wires 3", "off", "lambda-probe-few-wires"),
        ("zirconia, wires 1", "zirconia, wires 3", "unreadable", "lambda-probe-more-wires"),
        ("zirconia, wires 4, heater 4 ohm", "zirconia, wires 4, heater 6 ohm", "ok", "service-agrees"),
        ("zirconia, wires 4, heater 4 ohm", "zirconia, wires 4, heater 12 ohm", "off", "lambda-probe-heater"),
        ("zirconia, wires 4, heater 4 ohm", "zirconia, wires 4", "unreadable", "service-not-said"),
        ("zirconia, earth by its own wire, wires 4",
         "zirconia, earth through the body, wires 4", "off", "lambda-probe-earth-body"),
        ("zirconia, earth through the body, wires 3",
         "zirconia, earth by its own wire, wires 3", "unreadable", "lambda-probe-earth-wire"),
        ("zirconia, wires 4", "zirconia, wires 4, heater 4 ohm", "ok", "service-agrees"),
    ],
)  # fmt: skip
def test_never_across_kinds_and_within_one_by_wires_and_heater(
    needed: str, offered: str, state: str, code: str
) -> None:
    """Voltage, resistance and pump current are three signals; within one kind wires and heater decide (common practice)."""
    result = ask(KIND, f"lambda probe M18x1.5, {needed}", f"lambda probe M18x1.5, {offered}")
    assert result.state == state
    assert code in codes(result)


def test_the_trap_says_how_the_kinds_are_told_apart() -> None:
    """Both signals are in the proof, with the rows they are from."""
    result = ask(KIND, "lambda probe zirconia 4 wires", "lambda probe titania 4 wires")
    tells = {
        step.values["works"]: step
        for _, step in result.because.walk()
        if step.code == "lambda-probe-tell-kind"
    }
    assert "0.1 to 0.9 V" in tells["zirconia"].values["signal"]
    assert "under 1 kohm rich and over 20 kohm lean" in tells["titania"].values["signal"]


@pytest.mark.parametrize(
    ("needed", "offered", "state"),
    [
        ("lambda probe M18x1.5, titania, wires 4", "lambda probe M12x1.25, titania, wires 4", "off"),
        ("lambda probe M18x1.5, zirconia, wires 4", "lambda probe, zirconia, wires 4", "unreadable"),
        ("lambda probe, zirconia, wires 4", "lambda probe M18x1.5, zirconia, wires 4", "ok"),
    ],
)
def test_the_thread_is_held_against_the_boss(needed: str, offered: str, state: str) -> None:
    """ISO 261 sizes; an unsaid thread is a question where one is needed."""
    assert ask(KIND, needed, offered).state == state


@pytest.mark.parametrize(("works", "least", "most"), [("zirconia", "2", "6.5"), ("titania", "4", "7")])
def test_heaters_measure_what_the_open_page_says(works: str, least: str, most: str) -> None:
    """Resistances of heaters by an open page on probes and its wires: 1 to 4 and 3 to 4 (4 + 6 values)."""
    (row,) = STANDARDS.table("probe-heater").find(works=works)
    assert (row.cell("least"), row.cell("most")) == (least, most)
    counts = {"zirconia": ["1", "2", "3", "4"], "titania": ["3", "4"]}[works]
    assert [row.cell("wires") for row in STANDARDS.table("probe-wires").find(works=works)] == counts


def test_sizes_tell_a_thin_titania_probe_by_its_thread() -> None:
    """A probe of 12 mm with four wires is listed as titania only."""
    thin = [
        sized.designation for sized in FAMILIES[KIND].sizes(STANDARDS)
        if sized.bands["outside"].low <= 12 <= sized.bands["outside"].high and sized.bands["strands"].low == 4
    ]  # fmt: skip
    assert thin == ["lambda probe M12x1.25, titania, wires 4"]
