"""What a mechanic sees, 80 columns wide: every screen is kept in `screens/` and compared whole.

`python tests/cli/test_screens.py` writes them anew; read the difference before keeping it.
"""

from __future__ import annotations

import itertools
import re
import sys
import tempfile
from datetime import date
from pathlib import Path

import pytest

SCREENS = Path(__file__).with_name("screens")
REPO = Path(__file__).resolve().parents[2]
if __name__ == "__main__":
    sys.path[:0] = [str(REPO), str(REPO / "src")]

from tests.demo.shop import Shop, copy_of_the_demo  # noqa: E402  (the path is set above when run as a script)

CALLS = {
    "car-green": "car green",
    "fits-rear-wheel-cylinder": "fits rear wheel cylinder",
    "fits-switch": "fits OS 7133 04 in stop lamp switch",
    "fits-track-rod-end-left": "fits track rod end left",
    "fits-rear-brakes": "fits rear brakes",
    "fits-whole-car": "fits whole car",
    "fits-a-part-alone": "fits TC 330 118",
    "where-radiator": "where radiator --on 2026-12-03",
    "where-track-rod-end-left": "where track rod end left --on 2026-12-03",
    "plan": "plan",
    "plan-17-hours": "plan --hours 17",
    "plan-by-friday": "plan by 2026-12-04",
    "donor": "donor",
    "donor-corva-at-165": "donor Corva at 165",
    "what-two-holes-of-five": "what 52 mm across two holes of five",
    "what-thread": "what thread 9.9 outside, 60 degrees",
    "compare-threads": "compare M10x1 with 3/8-24 UNF",
    "compare-radiators": "compare KT 21 0440 with TC 330 118",
    "why-1-after-fits": "why 1",
}
FIRST = {"why-1-after-fits": "fits rear wheel cylinder"}
"""What was asked before a screen."""
WIDTH = 80
YEAR = 2026
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
SHORT_DAY = re.compile(r"\b(Mon|Tue|Wed|Thu|Fri|Sat|Sun) (\d{1,2}) ([A-Z][a-z]{2})\b")


def screen(shop: Shop, name: str) -> str:
    """What the call prints."""
    if name in FIRST:
        shop.call(*FIRST[name].split())
    said = shop.call(*CALLS[name].split(), COLUMNS=str(WIDTH))
    assert said.err == ""
    return said.out


def kept(name: str) -> str:
    """The screen as it is kept."""
    return (SCREENS / f"{name}.txt").read_text("utf-8")


@pytest.mark.parametrize("name", CALLS)
def test_the_screen_is_as_it_is_kept(name: str, asked: Shop) -> None:
    """Word for word."""
    assert screen(asked, name) == kept(name)


def test_no_screen_is_kept_for_nothing() -> None:
    """Every file belongs to a call."""
    assert {file.stem for file in SCREENS.glob("*.txt")} == set(CALLS)


@pytest.mark.parametrize("name", CALLS)
def test_a_screen_is_no_wider_than_the_terminal(name: str) -> None:
    """No line runs over the edge, none ends in spaces, and no part's number is cut in two by an end of line."""
    lines = kept(name).splitlines()
    assert [line for line in lines if len(line) > WIDTH or line != line.rstrip()] == []
    ends = re.compile(r"\b(?:KT|VP|OS|TC|MW|BR|PB)(?: \d+)*$|\b\d+(?:\.\d+)?$")
    cut = [
        (a, b)
        for a, b in itertools.pairwise(lines)
        if ends.search(a) and re.match(r"\s*(\d{3}|mm|GBP|min)\b", b)
    ]
    assert cut == []


@pytest.mark.parametrize("name", [name for name in CALLS if not name.startswith("car")])
def test_danger_stands_before_everything_but_what_was_asked(name: str) -> None:
    """Above the first candidate, source or sum there are only the car, what was asked, and dangers; none is further down."""
    blocks = kept(name).split("\n\n")
    for block in blocks:
        rows = [row for row in block.splitlines() if not row.startswith("  ")]
        dangers = [n for n, row in enumerate(rows) if row.startswith("! ")]
        numbered = [n for n, row in enumerate(rows) if re.match(r" ?\d+[ .]", row)]
        if dangers and numbered:
            assert max(dangers) < min(numbered)
    assert "TRAP" not in kept(name) or "\n! " in f"\n{kept(name)}"


@pytest.mark.parametrize("name", [name for name in CALLS if name.startswith(("where", "plan"))])
def test_days_have_their_names_and_the_names_are_right(name: str) -> None:
    """Each short day is on that day of the week in the calendar (standard library), each long one too."""
    text = kept(name)
    short = [(m[1], date(YEAR, MONTHS.index(m[3]) + 1, int(m[2]))) for m in SHORT_DAY.finditer(text)]
    assert [(said, day) for said, day in short if f"{day:%a}" != said] == []
    long = re.findall(r"\b([A-Z][a-z]+day) (\d{1,2}) ([A-Z][a-z]+) (\d{4})\b", text)
    days = [(said, date(int(y), MONTHS.index(m[:3]) + 1, int(d))) for said, d, m, y in long]
    assert [(said, day) for said, day in days if f"{day:%A}" != said] == []
    assert short if name.startswith("where") else short and days


def test_figures_stand_under_figures() -> None:
    """The last digit of every price of a plan is in one column, and of every landed sum in another."""
    prices = [m.end(1) for m in re.finditer(r"(?m)^ +\d+ x .*?  +(\d+\.\d\d)  ", kept("plan"))]
    starts = [m.start() for m in re.finditer(r"(?m)^ +\d+ x .*?  +(\d+\.\d\d)  ", kept("plan"))]
    assert len(prices) >= 10
    assert len({end - start for end, start in zip(prices, starts, strict=True)}) == 1
    for name in ("where-radiator", "where-track-rod-end-left"):
        rows = [re.match(r" ?\d+ +(\d+\.\d\d) GBP", line) for line in kept(name).splitlines()]
        assert len({row.end() for row in rows if row}) == 1


def main() -> None:
    """Write every screen anew."""
    with tempfile.TemporaryDirectory() as place:
        shop = copy_of_the_demo(Path(place))
        SCREENS.mkdir(exist_ok=True)
        for file in SCREENS.glob("*.txt"):
            file.unlink()
        shop.call("car", "green")
        for name in CALLS:
            (SCREENS / f"{name}.txt").write_text(screen(shop, name), "utf-8")


if __name__ == "__main__":
    main()
