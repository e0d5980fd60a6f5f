"""The proof of a thread match: every figure with its line and its standard."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.because import Because
from fitlore.model.choices import End
from fitlore.trade.thread.engagement import SOURCE
from fitlore.trade.threads import Thread, as_replacement, compare, proof
from tests.trade.loading import STANDARDS, TABLE, thread

CODES = {
    "thread-same", "thread-equivalent", "thread-seal-thread", "thread-seal-face", "thread-wrong-hand",
    "thread-no-hold",
    "thread-never-starts", "thread-too-small", "thread-jams", "thread-trap-loose", "thread-trap-runs-home",
    "thread-trap-tight",
    "thread-trap-wedges", "thread-trap-form",
}  # fmt: skip
STEPS = {
    "thread-size", "thread-not-said", "thread-implied-coarse-pitch", "thread-implied-series",
    "thread-tell-over-crests",
    "thread-tell-across-bore", "thread-tell-ten-pitches", "thread-tell-flank-angle", "thread-tell-taper",
}  # fmt: skip
ANY = st.sampled_from([Thread(row, row.family) for row in STANDARDS.threads])


def step(because: Because, code: str) -> Because:
    """The first step of a proof that has this code."""
    return next(inner for _, inner in because.walk() if inner.code == code)


def test_a_trap_tells_its_figures_rounded_for_people() -> None:
    """The killer of the brakes, as the report room gets it."""
    because = proof(compare(thread("3/8-24 UNF"), thread("M10x1")))
    assert because.code == "thread-trap-loose"
    assert because.values == {
        "male": "3/8-24 UNF", "female": "M10x1", "male-is": "smaller", "gap": "0.475 mm", "overlap": "56 %",
        "pitch-error": "+5.8 %",
        "turns": "4.6", "turns-most": "7.5",
    }  # fmt: skip
    assert step(because, "thread-tell-ten-pitches").values == {"this": "10.6 mm", "right": "10.0 mm"}
    assert step(because, "thread-tell-over-crests").values == {
        "this": "9.3 to 9.5 mm",
        "right": "9.8 to 10.0 mm",
    }


def test_the_proof_goes_down_to_the_line_of_the_table_and_the_standard() -> None:
    """Both rows are cited by file and line, and a result of the geometry says that it was derived, not measured."""
    because = proof(compare(thread("3/8-24 UNF"), thread("M10x1")))
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    cited = [lines[origin.line - 1] for origin in because.origins]
    assert [("3/8" in line, "diameter: 10" in line) for line in cited] == [(True, False), (False, True)]
    assert because.sources == ("ASME B1.1", "ISO 68-1, ISO 724", SOURCE)
    sizes = [inner for _, inner in because.walk() if inner.code == "thread-size"]
    assert [size.values["certainty"] for size in sizes] == ["published", "published"]
    assert all(size.origins and size.sources for size in sizes)


def test_a_yes_rests_on_the_designation_and_names_what_it_does_not_say() -> None:
    """No geometry stands behind a yes, and the sealing is left open in words."""
    because = proof(compare(thread("M10x1"), thread("M10x1")))
    assert (because.code, because.values) == ("thread-same", {"male": "M10x1", "female": "M10x1"})
    assert SOURCE not in because.sources
    assert step(because, "thread-not-said").values == {"what": "thread-length, seat, flare, sealing"}


def test_a_pair_that_only_practice_joins_says_so() -> None:
    """R in a G port: no standard makes the joint, so its source is common practice."""
    because = proof(compare(thread("R1/8"), thread("G1/8")))
    assert (because.code, because.sources) == (
        "thread-seal-thread",
        ("ISO 7-1", "ISO 228-1", "common practice"),
    )
    assert proof(compare(thread("R1/8"), thread("Rp1/8"))).sources == ("ISO 7-1",)


def test_what_a_text_left_unsaid_is_told_with_its_ground() -> None:
    """`M10` and `3/8-24` were completed, and the proof says by what."""
    because = proof(as_replacement(thread("M10"), thread("M10x1.5"), End.MALE))
    assert step(because, "thread-implied-coarse-pitch").sources == ("ISO 965-1",)
    assert [inner.code for _, inner in because.walk()].count("thread-size") == 1
    because = proof(compare(thread("3/8-24"), thread("M10x1")))
    assert step(because, "thread-implied-series").values == {"thread": "3/8-24 UNF"}


@pytest.mark.parametrize(
    ("male", "female", "shown"),
    [
        ("M10x1", "M10x1 LH", set()),
        ("M8x1", "M10x1", {"gap"}),
        ("M10x1", "3/8-24 UNF", {"male-is", "gap", "pitch-error"}),
        ("M10x1.5", "M10x1.25", {"male-is", "gap", "pitch-error", "turns-most"}),
        ("1/4 BSW", "1/4 UNC", {"male-is", "gap"}),
    ],
)
def test_a_no_tells_only_figures_that_mean_something(male: str, female: str, shown: set[str]) -> None:
    """Turns of what never starts, or the overlap of what slides through, would only confuse."""
    values = proof(compare(thread(male), thread(female))).values
    assert values.keys() - {"male", "female"} == shown


@given(ANY, ANY, st.sampled_from(End))
def test_every_pair_has_a_proof_with_known_codes_origins_and_sources(
    one: Thread, other: Thread, end: End
) -> None:
    """The report room has a sentence for each of these codes and no others can come."""
    because = proof(as_replacement(one, other, end))
    assert because.code in CODES
    assert because.origins
    assert because.sources
    assert {inner.code for depth, inner in because.walk() if depth} <= STEPS
