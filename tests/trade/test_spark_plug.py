"""Spark plugs: as people write them, and what goes for what."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitlore.trade.family import FAMILIES
from tests.trade.families import STANDARDS, ask, codes, normal, refused

KIND = "spark-plug"
BASE = "spark plug M14x1.25, flat seat, reach 19 mm"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("M14 × 1,25 spark plug, gasket seat, reach 19", BASE),
        ("14 mm sparking plug, flat, reach 3/4 in", "spark plug M14x1.25, flat seat, reach 19.05 mm"),
        ("18 mm plug, tapered seat, reach 12 mm", "spark plug M18x1.5, conical seat, reach 12 mm"),
        ("plug, 10 mm thread, flat seat, reach 12.7 mm", "spark plug M10x1, flat seat, reach 12.7 mm"),
        ("SPARK PLUG M12X1.25, FLAT SEAT, REACH .750", "spark plug M12x1.25, flat seat, reach 19.05 mm"),
        ("spark plug M14x1.25, flat, reach 19 mm, 13/16 hex", BASE + ", hexagon 20.64 mm"),
        ("spark plug M14x1.25, flat, reach 19 mm, spanner 21 mm", BASE + ", hexagon 21 mm"),
        ("spark plug M14x1.25, flat, extra long reach 26,5 mm", "spark plug M14x1.25, flat seat, reach 26.5 mm"),
        (f"{BASE}, heat range 7 on the MERROW scale", "spark plug M14x1.25, flat seat, heat 7 of Merrow, reach 19 mm"),
        (f"{BASE}, heat: 7e (Merrow scale)", "spark plug M14x1.25, flat seat, heat 7E of Merrow, reach 19 mm"),
        (f"{BASE}, heat 7 by mw", "spark plug M14x1.25, flat seat, heat 7 of MW, reach 19 mm"),
        (f"{BASE} without resistor, extended nose", "spark plug M14x1.25, flat seat, no resistor, projected tip, reach 19 mm"),
        (f"{BASE}, M4 terminal, gap 0,7 mm", "spark plug M14x1.25, flat seat, terminal M4, reach 19 mm, gap 0.7 mm"),
    ],
)  # fmt: skip
def test_it_is_read_in_the_spellings_people_write(text: str, read: str) -> None:
    """The thread by its diameter alone, reach in inches, the seat by its gasket."""
    assert normal(KIND, text) == read


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("spark plug", "spark-plug-unknown"),
        ("spark plug M14x1.25", "spark-plug-no-seat"),
        ("spark plug M14x1.25, flat seat, long reach", "spark-plug-no-reach"),
        ("spark plug, flat seat, reach 19 mm", "spark-plug-no-thread"),
        (f"{BASE}, heat 7", "spark-plug-heat-scale"),
        (f"{BASE}, conical", "spark-plug-unknown"),
        (f"{BASE}, reach 12.7 mm", "spark-plug-thread"),
        ("spark plug flat seat reach 19 mm M14x1,7", "spark-plug-thread"),
        ("spark plug M14x1.25, flat seat, reach 19 mm, hot", "spark-plug-thread"),
    ],
)
def test_what_says_too_little_or_two_things_is_refused(text: str, reason: str) -> None:
    """A heat figure without its scale is none; long and short are no figures."""
    assert refused(KIND, text).reason == reason


@pytest.mark.parametrize(
    ("needed", "offered", "state", "code"),
    [
        ("reach 19 mm", "reach 3/4 in", "ok", "service-agrees"),
        ("reach 12.7 mm", "reach 19 mm", "trap", "spark-plug-trap-long"),
        ("reach 19 mm", "reach 12.7 mm", "trap", "spark-plug-trap-short"),
        ("reach 26.5 mm", "reach 19 mm", "trap", "spark-plug-trap-short"),
        ("reach 12.7 mm", "reach 12 mm", "unreadable", "spark-plug-reach-near"),
        ("reach 19 mm, hexagon 20.8 mm", "reach 19 mm, hexagon 16 mm", "ok", "spark-plug-hexagon-small"),
        ("reach 19 mm, hexagon 16 mm", "reach 19 mm, hexagon 20.8 mm", "off", "spark-plug-hexagon-big"),
        ("reach 19 mm, hexagon 16 mm", "reach 19 mm", "unreadable", "service-not-said"),
        ("reach 19 mm", "reach 19 mm, hexagon 16 mm, resistor", "ok", "service-agrees"),
        ("reach 19 mm, resistor", "reach 19 mm, no resistor", "off", "spark-plug-no-resistor"),
        ("reach 19 mm, no resistor", "reach 19 mm, resistor", "unreadable", "spark-plug-resistor"),
        ("reach 19 mm, plain tip", "reach 19 mm, projected tip", "trap", "spark-plug-trap-tip-long"),
        ("reach 19 mm, projected tip", "reach 19 mm, plain tip", "off", "spark-plug-tip-short"),
        ("reach 19 mm, solid terminal", "reach 19 mm, terminal M4", "ok-with-work", "spark-plug-nut-on"),
        ("reach 19 mm, terminal M4", "reach 19 mm, solid terminal", "off", "spark-plug-nut-fixed"),
        ("reach 19 mm, gap 0.7 mm", "reach 19 mm, gap 0.9 mm", "ok-with-work", "spark-plug-gap"),
        ("reach 19 mm, heat 7 of Merrow", "reach 19 mm, heat 7 of Merrow, resistor", "ok", "service-agrees"),
        ("reach 19 mm, heat 7 of Merrow", "reach 19 mm, heat 5 of Merrow", "off", "spark-plug-heat"),
        ("reach 19 mm, heat 7 of Merrow", "reach 19 mm, heat 7 of Brede", "unreadable", "spark-plug-heat-other-scale"),
        ("reach 19 mm, heat 7 of Merrow", "reach 19 mm, heat 7", "unreadable", "spark-plug-heat-scale"),
        ("reach 19 mm, heat 7", "reach 19 mm, heat 7", "unreadable", "spark-plug-heat-scale"),
        ("reach 19 mm, heat 7 of Merrow", "reach 19 mm", "unreadable", "service-not-said"),
    ],
)  # fmt: skip
def test_each_piece_is_judged_in_its_direction(needed: str, offered: str, state: str, code: str) -> None:
    """Common practice of the trade; 3/4 in is 19.05 mm by the definition of the inch."""
    result = ask(
        KIND, f"spark plug M14x1.25, flat seat, {needed}", f"spark plug M14x1.25, flat seat, {offered}"
    )
    assert result.state == state
    assert code in codes(result)


@pytest.mark.parametrize(("needed", "offered"), [("flat", "conical"), ("conical", "flat")])
def test_the_two_seats_are_a_trap_for_each_other_whatever_the_reach(needed: str, offered: str) -> None:
    """An open glossary of plug dimensions: seats are not interchangeable, and reach is measured from each one's own."""
    result = ask(
        KIND, f"plug M14x1.25, {needed} seat, reach 19 mm", f"plug M14x1.25, {offered} seat, reach 17.5 mm"
    )
    assert result.state == "trap"
    assert {"spark-plug-trap-seat", "spark-plug-tell-seat"} <= codes(result)
    assert "spark-plug-trap-short" not in codes(result)


@pytest.mark.parametrize("thread", ["M14x1.5", "M18x1.5", "M12x1.25", "M10x1"])
def test_another_thread_does_not_go_in_and_endangers_nothing(thread: str) -> None:
    """ISO 724 by the family of threads: a long plug that does not go in is no trap."""
    result = ask(KIND, "plug M14x1.25, flat seat, reach 12.7 mm", f"plug {thread}, flat seat, reach 19 mm")
    assert result.state == "off"
    assert "spark-plug-trap-long" not in codes(result)


@pytest.mark.parametrize(
    ("said", "thread"),
    [("8", "M8x1"), ("10", "M10x1"), ("12", "M12x1.25"), ("14", "M14x1.25"), ("18", "M18x1.5")],
)
def test_a_diameter_stands_for_the_thread_that_plugs_of_it_have(said: str, thread: str) -> None:
    """Five threads after an open glossary of plug dimensions; four of them after an open page on ISO 28741 too."""
    assert normal(KIND, f"{said} mm spark plug, flat seat, reach 12.7 mm").startswith(f"spark plug {thread},")


@pytest.mark.parametrize("reach", ["9.5", "12.7", "19", "26.5"])
def test_the_flat_reaches_of_m14_are_listed_as_published(reach: str) -> None:
    """Four reaches after an open page on ISO 28741."""
    rows = STANDARDS.table("plug-reach").find(thread="M14x1.25", seat="flat seat", reach=reach)
    assert [row.certainty.value for row in rows] == ["published"]


@pytest.mark.parametrize(("inches", "mm"), [("1/2", "12.7"), ("3/4", "19"), (".500", "12.7"), (".750", "19")])
def test_reaches_said_in_inches_are_the_listed_ones(inches: str, mm: str) -> None:
    """Four readings by the definition of the inch (25.4 mm)."""
    plug = "plug M14x1.25, flat seat, reach"
    assert ask(KIND, f"{plug} {mm} mm", f"{plug} {inches} in").state == "ok"


@pytest.mark.parametrize(
    ("socket", "hexagon"), [("5/8", "16"), ("13/16", "20.8"), ("13/16", "21"), ("3/4", "19")]
)
def test_a_hexagon_said_by_its_inch_socket_is_the_metric_one(socket: str, hexagon: str) -> None:
    """Four pairs; 16 with 5/8 in and 20.8 with 13/16 in after an open page of plug sizes, the others by the inch."""
    plug = "plug M14x1.25, flat seat, reach 19 mm, hex"
    assert ask(KIND, f"{plug} {hexagon} mm", f"{plug} {socket} in").state == "ok"


@pytest.mark.parametrize(
    ("thread", "major"), [("M10x1", 10), ("M12x1.25", 12), ("M14x1.25", 14), ("M18x1.5", 18)]
)
def test_listed_sizes_measure_as_their_threads_do(thread: str, major: int) -> None:
    """Outside over the crests after ISO 724, four threads; a worn one measures less, never more."""
    sizes = [one for one in FAMILIES[KIND].sizes(STANDARDS) if f" {thread}," in one.designation]
    assert sizes
    assert {one.bands["outside"].high for one in sizes} == {Decimal(major)}
