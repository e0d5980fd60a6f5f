"""The examples of DEVELOPERS.md that use the program as a library say what they print."""

from __future__ import annotations

import doctest
from pathlib import Path

REPO = Path(__file__).resolve().parents[2]


def test_the_library_example_is_true() -> None:
    """Every line of it is run, in order, and prints what stands there."""
    text = (REPO / "DEVELOPERS.md").read_text("utf-8")
    example = doctest.DocTestParser().get_doctest(text, {}, "DEVELOPERS.md", "DEVELOPERS.md", 0)
    assert len(example.examples) > 15
    said: list[str] = []
    found = doctest.DocTestRunner(verbose=False).run(example, out=said.append)
    assert found.failed == 0, "".join(said)
