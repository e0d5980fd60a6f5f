"""An item is taken out of a list with its own lines alone, or the book is left as it is."""

from __future__ import annotations

import pytest

from fitlore.books.nodes import read_nodes
from fitlore.books.removal import without_item

BOOK = """\
# the parts
- part: KT 1
  is: hose # good
  # of the hose

# a bush
- part: KT 2
  contains:
    - {number: KT 3, quantity: 2}
    - number: KT 4
      # four
      quantity: 4
    - KT 5
- part: KT 6
  is: [a, b]
"""


@pytest.mark.parametrize(
    ("path", "gone"),
    [
        ((0,), "- part: KT 1\n  is: hose # good\n  # of the hose\n"),
        ((2,), "- part: KT 6\n  is: [a, b]\n"),
        ((1, "contains", 0), "    - {number: KT 3, quantity: 2}\n"),
        ((1, "contains", 1), "    - number: KT 4\n      # four\n      quantity: 4\n"),
        ((1, "contains", 2), "    - KT 5\n"),
    ],
)
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_exactly_its_lines_go(path: tuple[str | int, ...], gone: str, end: str, mark: str) -> None:
    """All other bytes stay, comments above it too."""
    text, lines = mark + BOOK.replace("\n", end), gone.replace("\n", end)
    assert lines in text
    assert without_item("book.yaml", text.encode(), path) == text.replace(lines, "").encode()


@pytest.mark.parametrize("text", [BOOK, BOOK.removesuffix("\n")])
def test_every_item_can_go_and_the_others_read_as_before(text: str) -> None:
    """By place, also where the last line has no end."""
    root = read_nodes("book.yaml", text.encode()).root
    assert isinstance(root, list)
    for place in range(len(root)):
        made = without_item("book.yaml", text.encode(), (place,))
        assert isinstance(made, bytes)
        assert read_nodes("book.yaml", made).root == [one for n, one in enumerate(root) if n != place]


@pytest.mark.parametrize(
    ("text", "path", "why"),
    [
        ("- a: b\n", (0,), "the only one"),
        ("- a: [b, c]\n- d\n", (0, "a", 0), "in brackets"),
        ("- a: b\n- c\n", (0, "a"), "an item of a list"),
        ("- a: b\n- c\n", (2,), "no `2`"),
        ("-\n  a: b\n- c\n", (0,), "stands apart"),
        ("", (0,), "empty"),
    ],
)
def test_what_cannot_be_taken_out_is_left(text: str, path: tuple[str | int, ...], why: str) -> None:
    """With the reason."""
    said = without_item("book.yaml", text.encode(), path)
    assert isinstance(said, str)
    assert why in said


def test_bytes_that_are_no_text_are_left() -> None:
    """Nothing is guessed about them."""
    assert without_item("book.yaml", b"- a\n- \xff\n", (0,)) == "it holds bytes that are no readable text"
