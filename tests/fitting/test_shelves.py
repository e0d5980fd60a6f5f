"""What another shop's shelf lists as the book counts for no more than the shelf is trusted with."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlore.fitting import Question, Word, answer
from fitlore.model.choices import SafetyClass
from tests.upkeep.lowbarn import graph_at

KINDS = """\
- category: hose
  safety: {safety}
  features:
    bore: {{kind: length, role: mates}}
"""
THEIRS = """\
- platform: ostra-50
  maker: Ostra
  assemblies:
    front:
      places:
        hose: {is: hose, original: OS 1}
- part: OS 1
  maker: Ostra
  is: hose
  features: {bore: 32 mm}
  replaced-by: {number: OS 2, reason: improved}
- part: OS 2
  maker: Ostra
  is: hose
  features: {bore: 32 mm}
"""
POLICY = """\
- policy: lowbarn
  classes:
    - {safety: braking, least: [fitted, measured, printed]}
    - {safety: none, least: [fitted, offered-up, measured, printed, told]}
"""


ALIAS = """\
- part: BR 7
  maker: Brede
  is: hose
  same-as: OS 1
"""


def shop(folder: Path, trust: str, safety: SafetyClass, *, ours: str, theirs: str) -> None:
    """A shop with a club's shelf of such trust."""
    for name in ("books", "club"):
        (folder / name).mkdir()
    shelves = f"shelves:\n  - {{shelf: shop, folder: books}}\n  - {{shelf: club, folder: club{trust}}}\n"
    (folder / "fitlore.yaml").write_text(f"shop: lowbarn\n{shelves}", "utf-8")
    (folder / "books" / "kinds.yaml").write_text(POLICY + KINDS.format(safety=safety.value) + ours, "utf-8")
    (folder / "club" / "book.yaml").write_text(theirs, "utf-8")


def word_of(folder: Path, trust: str, safety: SafetyClass) -> list[Word]:
    """The verdicts on the original and its successor, as a club's shelf of such trust lists them."""
    shop(folder, trust, safety, ours="", theirs=THEIRS)
    graph = graph_at(folder)
    (place,) = graph.places("ostra-50")
    found = {verdict.part.part: verdict.word for verdict in answer(graph, Question(place)).verdicts}
    return [found["OS 1"], found["OS 2"]]


def test_a_second_number_by_hearsay_is_none(tmp_path: Path) -> None:
    """A friend who says that his part is ours under another number is no proof of it, where the class wants one."""
    for trust, word in (("", Word.FITS), (", trust: printed", Word.FITS), (", trust: told", Word.UNPROVEN)):
        folder = tmp_path / (trust[-5:] or "own")
        folder.mkdir()
        shop(folder, trust, SafetyClass.BRAKING, ours=THEIRS, theirs=ALIAS)
        graph = graph_at(folder)
        (place,) = graph.places("ostra-50")
        found = {verdict.part.part: verdict.word for verdict in answer(graph, Question(place)).verdicts}
        assert (found["OS 1"], found["BR 7"]) == (Word.FITS, word)


@pytest.mark.parametrize(
    ("trust", "safety", "word"),
    [
        ("", SafetyClass.BRAKING, Word.FITS),
        (", trust: printed", SafetyClass.BRAKING, Word.FITS),
        (", trust: told", SafetyClass.BRAKING, Word.UNPROVEN),
        (", trust: told", SafetyClass.NONE, Word.FITS),
    ],
)
def test_hearsay_is_no_book(tmp_path: Path, trust: str, safety: SafetyClass, word: Word) -> None:
    """A friend's list of a brake hose is no proof while his shelf counts as told; of a trim clip hearsay is enough."""
    assert word_of(tmp_path, trust, safety) == [word, word]
