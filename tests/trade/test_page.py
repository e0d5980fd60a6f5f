"""The page of families is that of the tables, and every family on it holds what it promises.

`python tests/trade/test_page.py` writes the page anew.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

REPO = Path(__file__).resolve().parents[2]
if __name__ == "__main__":
    sys.path[:0] = [str(REPO), str(REPO / "src")]

from fitlore.model.choices import End  # noqa: E402  (the path is set above when run as a script)
from fitlore.trade.family import FAMILIES, FamilyState, Reading  # noqa: E402
from fitlore.trade.page import families_page, rows_of  # noqa: E402
from fitlore.trade.registry import KINDS  # noqa: E402
from tests.trade.loading import load_every  # noqa: E402

PAGE = REPO / "kb" / "standards" / "README.md"
STANDARDS, PROBLEMS = load_every()
SPELLINGS = [(kind, text) for kind in KINDS for text in FAMILIES[kind].about.spellings]


def test_the_page_is_made_from_the_tables_as_they_are() -> None:
    """Renew it by the command above."""
    assert PAGE.read_text("utf-8") == families_page(STANDARDS)


def test_every_row_of_every_table_can_be_used() -> None:
    """No row is left out, and every table file is one of a family's."""
    assert PROBLEMS == []
    assert sum(len(rows_of(package, STANDARDS)) for package in dict.fromkeys(KINDS.values())) >= 1500


@pytest.mark.parametrize(("kind", "text"), SPELLINGS)
def test_the_spellings_on_the_page_are_read_and_their_normal_form_reads_as_itself(
    kind: str, text: str
) -> None:
    """What the page shows as readable is."""
    read = FAMILIES[kind].read(text, STANDARDS)
    assert isinstance(read, Reading), read
    again = FAMILIES[kind].read(read.normal, STANDARDS)
    assert isinstance(again, Reading), again
    assert again.normal == read.normal


@pytest.mark.parametrize(("kind", "text"), SPELLINGS)
def test_a_designation_is_never_a_no_or_a_trap_for_itself(kind: str, text: str) -> None:
    """It serves, or what is left unsaid is asked for."""
    states = {FAMILIES[kind].compare(text, text, end, STANDARDS).state for end in End}
    assert states <= {FamilyState.OK, FamilyState.UNREADABLE}


@pytest.mark.parametrize("kind", KINDS)
def test_a_family_says_what_its_designations_leave_unsaid_and_what_it_lacks(kind: str) -> None:
    """On the page, so that nobody takes the tables for more than they are."""
    about = FAMILIES[kind].about
    assert about.title
    assert about.standards or about.gaps
    assert about.spellings
    assert about.not_said


if __name__ == "__main__":
    PAGE.write_text(families_page(STANDARDS), "utf-8")
