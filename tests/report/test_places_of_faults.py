"""A fault told with files in place of shown names."""

from __future__ import annotations

from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin
from fitlore.report.faults import with_files

FILES = {"shop/parts.yaml": "../books/parts.yaml", "club/heard/x.yaml": "club/heard/x.yaml"}


def test_every_book_that_a_fault_names_is_told_as_its_file() -> None:
    """In the place, the message, what was expected and the remedy; shares, units and other words with a stroke stay."""
    fault = Diagnostic(
        "Q99-any",
        Severity.NOTE,
        Origin("shop/parts.yaml", 3, 5),
        "as in shop/parts.yaml:4:2, or `shop/parts.yaml` (see shop/parts.yaml). 3/8-24 UNF and rear/left stay.",
        "nothing in shop/parts.yaml, shop/parts.yaml.",
        "see club/heard/x.yaml and shop/parts.yaml.old",
        "- part: shop/parts.yaml",
    )
    said = with_files(fault, lambda shown: FILES.get(shown, shown))
    assert said.origin == Origin("../books/parts.yaml", 3, 5)
    assert said.message == (
        "as in ../books/parts.yaml:4:2, or `../books/parts.yaml` (see ../books/parts.yaml). "
        "3/8-24 UNF and rear/left stay."
    )
    assert said.expected == "nothing in ../books/parts.yaml, ../books/parts.yaml."
    assert said.remedy == "see club/heard/x.yaml and shop/parts.yaml.old"
    assert said.excerpt == fault.excerpt
