"""What `note` and `undo` show, 60, 80 and 120 columns wide: every screen is kept in `note_screens/` and compared whole.

`python tests/cli/test_note_screens.py` writes them anew; read the difference before keeping it.
"""

from __future__ import annotations

import re
import sys
import tempfile
from pathlib import Path

import pytest

SCREENS = Path(__file__).with_name("note_screens")
REPO = Path(__file__).resolve().parents[2]
if __name__ == "__main__":
    sys.path[:0] = [str(REPO), str(REPO / "src")]

from tests.cli.drawing import Drawn, drawn  # noqa: E402  (the path is set above when run as a script)
from tests.demo.shop import Shop, copy_of_the_demo  # noqa: E402

CALLS = {
    "dry-run": "note Packet winder right, measured --dry-run",
    "trap-refused": "note Ostra stop lamp switch, fitted",
    "trap-as-what-it-is": "note not Ostra stop lamp switch, lets go --dry-run",
    "no-number": "note blower motor off field-forty, no number, fitted 7 months --dry-run",
    "measures-say-no": "note TC 330 118 for radiator with TC 330 207 at bottom hose, fitted, both ways --dry-run",
    "take-back": "note take back Corva winder for window winder right, other car --dry-run",
    "winder": "note Corva winder for window winder right, works",
    "damper": "note not Corva rear damper, 12 mm too long closed",
    "undo-list": "undo --list",
    "undo-both": "undo --count 2",
    "undo-nothing": "undo",
}
WIDTHS = (60, 80, 120)
STAMP = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\+00:00")
SAME = "2026-12-03T18:00:00+00:00"
KEPT = [(name, width) for name in CALLS for width in WIDTHS]
OF_A_BOOK = re.compile(r"^(?: {2}[+] |[+@ -]| {4,})")
"""A line that stands as it does in a book or in a difference of one, so that it can be pasted: it may run over."""


def screens(shop: Shop) -> dict[str, Drawn]:
    """What every call prints, one after the other; the second of a write is not kept."""
    rows = dict(zip(CALLS, drawn(shop, [call.split() for call in CALLS.values()], WIDTHS), strict=True))
    return {
        name: row._replace(out={width: STAMP.sub(SAME, text) for width, text in row.out.items()})
        for name, row in rows.items()
    }


@pytest.fixture(scope="module")
def every(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Drawn]:
    """All of them, drawn by one process in a shop of their own."""
    shop = copy_of_the_demo(tmp_path_factory.mktemp("noting"))
    assert shop.call("car", "green").code == 0
    return screens(shop)


def file_of(name: str, width: int) -> Path:
    """Where a screen is kept."""
    return SCREENS / str(width) / f"{name}.txt"


@pytest.mark.parametrize(("name", "width"), KEPT)
def test_the_screen_is_as_it_is_kept(name: str, width: int, every: dict[str, Drawn]) -> None:
    """Word for word."""
    assert every[name].out[width] == file_of(name, width).read_text("utf-8")


def test_no_screen_is_kept_for_nothing() -> None:
    """Every file belongs to a call."""
    assert set(SCREENS.rglob("*.txt")) == {file_of(name, width) for name, width in KEPT}


def test_exits_are_those_of_the_page(every: dict[str, Drawn]) -> None:
    """0 for what is written, or would be; 1 for the trap, for what a fault stands against, and where nothing is left to undo."""
    no = {name for name, row in every.items() if row.code == 1}
    assert no == {"trap-refused", "measures-say-no", "undo-nothing"}
    assert {row.code for row in every.values()} == {0, 1}


def test_danger_stands_first_and_whole(every: dict[str, Drawn]) -> None:
    """The danger line follows the car at every width, with the way to tell it on the bench, and nothing of it is cut."""
    for name in ("trap-refused", "trap-as-what-it-is"):
        for width in WIDTHS:
            lines = every[name].out[width].splitlines()
            assert lines[1].startswith("! Ostra OS 7133 04: ")
            danger = " ".join(" ".join(lines[1:]).partition("understood:")[0].split())
            assert danger.endswith("ten threads measure 10.6 mm, not 10.0 mm")


def test_no_line_is_wider_than_the_terminal(every: dict[str, Drawn]) -> None:
    """But for the text of a book, which stands as it would be pasted."""
    for name, row in every.items():
        for width, text in row.out.items():
            over = [line for line in text.splitlines() if len(line) > width and not OF_A_BOOK.match(line)]
            assert (name, width, over) == (name, width, [])


def test_no_width_says_less(every: dict[str, Drawn]) -> None:
    """The same words in the same order at every width."""
    for name, row in every.items():
        assert len({" ".join(text.split()) for text in row.out.values()}) == 1, name


def main() -> None:
    """Write every screen anew."""
    with tempfile.TemporaryDirectory() as place:
        shop = copy_of_the_demo(Path(place))
        shop.call("car", "green")
        for file in SCREENS.rglob("*.txt"):
            file.unlink()
        for name, row in screens(shop).items():
            for width, text in row.out.items():
                file_of(name, width).parent.mkdir(parents=True, exist_ok=True)
                file_of(name, width).write_text(text, "utf-8")


if __name__ == "__main__":
    main()
