"""The line of `note` as words: what each phrase says, that nothing is lost, and that a no is never taken for a yes."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.cli.failure import CouldNot
from fitlore.cli.note_days import said_day
from fitlore.cli.note_head import head_of
from fitlore.cli.note_words import date_said, how_said, told, work_said
from fitlore.model.choices import How
from fitlore.model.dates import read_period

TODAY = date(2026, 12, 3)
"""A Thursday."""

HEADS: list[tuple[str, dict[str, Any]]] = [
    ("A for B, works", {"stance": "for", "part": "A", "target": "B", "tail": "works"}),
    ("A instead of B, works", {"part": "A", "target": "B"}),
    ("A in place of B, works", {"part": "A", "target": "B"}),
    ("not A for B, too long", {"stance": "against", "part": "A", "target": "B", "tail": "too long"}),
    ("A for B does not fit, too long", {"stance": "against", "part": "A", "target": "B"}),
    ("A doesn't go, too long", {"stance": "against", "part": "A", "target": ""}),
    ("take back A for B, other car", {"stance": "taken-back", "part": "A", "target": "B"}),
    ("A off the field-corva for B, works", {"part": "A", "off": "field-corva", "target": "B"}),
    ("A for B off field-corva, works", {"part": "A", "off": "field-corva", "target": "B"}),
    ("off side lamp for B, works", {"part": "off side lamp", "off": ""}),
    ("A with C at D for B, works", {"part": "A", "target": "B", "beside": ("C at D",)}),
    ("A for B with C at D, works", {"part": "A", "target": "B", "beside": ("C at D",)}),
    ("A for B works two years", {"target": "B", "tail": "works two years"}),
    ("A 1,5 for B, works", {"part": "A 1,5", "target": "B"}),
]


@pytest.mark.parametrize(("line", "parts"), HEADS, ids=[line for line, _ in HEADS])
def test_the_head_is_cut_at_its_small_words(line: str, parts: dict[str, Any]) -> None:
    """Part, donor, target and companions, whichever comes first; a comma inside a figure parts nothing."""
    found = head_of(line)
    assert {name: getattr(found, name) for name in parts} == parts


@pytest.mark.parametrize("line", [line for line, _ in HEADS])
def test_a_head_written_out_reads_as_itself(line: str) -> None:
    """What a dialogue puts together is understood as what it was put together from."""
    found = head_of(line)
    assert head_of(found.line) == found


TAILS: list[tuple[str, dict[str, Any]]] = [
    ("works", {"how": How.FITTED}),
    ("works fine", {"how": How.FITTED}),
    ("works, no leak", {"how": How.FITTED, "note": "no leak"}),
    ("fitted, two years", {"how": How.FITTED, "lasted": "2 years", "date": "2024"}),
    ("worked for 7 months", {"how": How.FITTED, "lasted": "7 months", "date": "2026-05"}),
    ("fitted 3 weeks ago", {"how": How.FITTED, "lasted": "3 weeks", "date": "2026-11-12"}),
    ("fitted in may 2024, lasted a year", {"how": How.FITTED, "lasted": "1 year", "date": "2024-05"}),
    ("fitted by friend Hale in May 2024", {"how": How.FITTED, "by": "friend Hale", "date": "2024-05"}),
    ("fitted by Hale 3 weeks", {"by": "Hale", "lasted": "3 weeks"}),
    ("fitted on his own Tolland", {"how": How.FITTED, "on_car": "his own Tolland"}),
    ("I offered it up", {"note": "I offered it up"}),
    ("offered up", {"how": How.OFFERED_UP}),
    ("tried on", {"how": How.OFFERED_UP}),
    ("held against it, holes agree", {"how": How.OFFERED_UP, "note": "holes agree"}),
    ("measured, 22,2 mm", {"how": How.MEASURED, "note": "22,2 mm"}),
    ("measured yesterday", {"how": How.MEASURED, "date": "2026-12-02"}),
    ("measured on 3 dec", {"how": How.MEASURED, "date": "2026-12-03"}),
    ("measured on 4 dec", {"how": How.MEASURED, "date": "2025-12-04"}),
    ("measured last monday", {"how": How.MEASURED, "date": "2026-11-30"}),
    ("printed in club letter 38", {"how": How.PRINTED, "source": "club letter 38"}),
    ("heard from Hale", {"how": How.TOLD, "by": "Hale"}),
    ("told by the owner before in 2024", {"how": How.TOLD, "by": "the owner before", "date": "2024"}),
    ("Hale says it runs fine", {"how": How.TOLD, "by": "Hale", "note": "it runs fine"}),
    ("told, source club letter 41", {"how": How.TOLD, "source": "club letter 41"}),
    ("fitted, 25 min: bend the brackets", {"minutes": 25, "do": "bend the brackets"}),
    ("fitted, 2 hours work", {"minutes": 120, "do": ""}),
    ("fitted, work: drill two holes", {"minutes": 0, "do": "drill two holes"}),
    ("measured, both ways", {"both_ways": True}),
    ("measured, one way only", {"both_ways": False}),
    ("fitted, with C at D", {"beside": ("C at D",)}),
    ("fitted, no number on it, marked VP 7", {"no_number": True, "marks": "VP 7"}),
    ("fitted, in the other order", {"note": "in the other order", "date": ""}),
    ("fitted, 12 mm of play taken up", {"minutes": 0, "note": "12 mm of play taken up"}),
    ("by Hale, fitted, may 2024", {"how": How.FITTED, "by": "Hale", "date": "2024-05"}),
]


@pytest.mark.parametrize(("tail", "parts"), TAILS, ids=[tail for tail, _ in TAILS])
def test_each_phrase_says_what_it_says(tail: str, parts: dict[str, Any]) -> None:
    """How, by whom, from where, when, how long, work, direction, companions; all else is the remark, as typed."""
    found = told(tail, TODAY)
    assert {name: getattr(found, name) for name in parts} == parts


@pytest.mark.parametrize(
    "tail",
    [
        "does not work", "works not", "fitted but leaks", "fitted, too long closed", "measured, never again",
        "fitted, it leaked", "offered up, fouls the arm", "fitted, slipped off", "fitted, doesn't reach",
    ],
)  # fmt: skip
def test_a_no_is_never_taken_for_a_yes(tail: str) -> None:
    """Words that speak against it in a line for it: nothing is read, and both ways to say it are named."""
    with pytest.raises(CouldNot, match=r"note not .*--note"):
        told(tail, TODAY)
    if tail != "works not":
        assert told(tail, TODAY, "against").note


def test_not_and_works_are_no_line() -> None:
    """A line against it that says that it works says two things."""
    with pytest.raises(CouldNot, match="speak against each other"):
        told("works", TODAY, "against")


REMARK = st.lists(st.text("qxzjv\u00e9\u00df", min_size=1, max_size=8), min_size=1, max_size=6).map(" ".join)


@given(st.lists(REMARK, max_size=3), st.sampled_from(["fitted", "measured, both ways", "Hale says", ""]))
def test_what_no_phrase_knows_is_kept_as_typed(remarks: list[str], known: str) -> None:
    """Nothing that was typed is lost: remarks stand in their order, whatever was said before them."""
    found = told(", ".join(filter(None, [known, *remarks])), TODAY)
    assert found.note == ", ".join(remarks)


@given(st.text(max_size=60))
def test_no_text_breaks_the_reading(text: str) -> None:
    """Any text is read, or asked about; a date that is read is one of ISO 8601-2 (`read_period`)."""
    try:
        found = told(head_of(text).tail, TODAY)
    except CouldNot:
        return
    assert not found.date or read_period(found.date) is not None


@given(
    st.dates(date(2000, 1, 1), TODAY), st.sampled_from(["%d %B %Y", "%d %b %Y", "%Y-%m-%d", "on %d %B %Y"])
)
def test_a_day_is_read_as_the_calendar_writes_it(day: date, form: str) -> None:
    """Against the names and forms of the standard library's calendar (C locale)."""
    found = said_day(day.strftime(form), TODAY)
    assert found is not None
    assert (found.text, found.rest) == (day.isoformat(), "")


@given(st.dates(date(2025, 12, 4), TODAY))
def test_a_day_without_its_year_is_the_last_such_one(day: date) -> None:
    """Every day of the last twelve months comes back as itself."""
    found = said_day(day.strftime("%d %b"), TODAY)
    assert found is not None
    assert found.text == day.isoformat()


def test_options_say_the_same_as_phrases() -> None:
    """--how, --date and --work are read as the phrases are."""
    assert [how_said(word) for word in ("works", "offered-up", "told", "")] == [
        How.FITTED,
        How.OFFERED_UP,
        How.TOLD,
        None,
    ]
    with pytest.raises(CouldNot, match="write one of fitted"):
        how_said("guessed")
    assert date_said("may 2024", TODAY) == "2024-05"
    assert date_said("2024-05/2024-07", TODAY) == "2024-05/2024-07"
    with pytest.raises(CouldNot, match="is no day"):
        date_said("someday", TODAY)
    work = work_said("25 min: drill, then bend")
    assert (work.minutes, work.do) == (25, "drill, then bend")
    assert work_said("bend the brackets").do == "bend the brackets"
