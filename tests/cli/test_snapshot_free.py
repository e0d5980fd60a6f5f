"""The snapshot is only there for speed: every answer is the same without it, and where none can be kept."""

from __future__ import annotations

import shutil

import pytest

from tests.demo.shop import Shop

CALLS = [
    ("fits", "rear wheel cylinder"),
    ("fits", "OS 7133 04 in stop lamp switch"),
    ("fits", "rear brakes"),
    ("where", "radiator", "--on", "2026-12-03"),
    ("plan",),
    ("plan", "by 2026-12-04"),
    ("check",),
]


def test_deleting_the_cache_changes_no_answer(asked: Shop) -> None:
    """Byte for byte the same JSON from the kept snapshot, and after the books were read anew."""
    kept = [asked.call(*words, "--json") for words in CALLS]
    shutil.rmtree(asked.folder.parent / "cache")
    anew = [asked.call(*words, "--json") for words in CALLS]
    assert max(said.code for said in kept) == 1
    assert {said.err for said in kept} == {""}
    assert anew == kept


@pytest.mark.parametrize("words", CALLS, ids=[" ".join(words) for words in CALLS])
def test_a_cache_that_cannot_be_written_costs_a_note(words: tuple[str, ...], asked: Shop) -> None:
    """A file stands where the cache folder should be: the same answer, and one line on standard error."""
    blocked = asked.folder.parent / "blocked"
    blocked.write_text("in the way", "utf-8")
    kept = asked.call(*words, "--json")
    unkept = asked.call(*words, "--json", FITLORE_CACHE=str(blocked / "cache"))
    assert (unkept.code, unkept.out) == (kept.code, kept.out)
    assert kept.code < 2
    assert unkept.err.startswith("note: no snapshot could be kept in ")
    assert len(unkept.err.splitlines()) == 1
