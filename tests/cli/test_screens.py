"""What a mechanic sees: every screen is kept in `screens/` 80 columns wide, one of each command also at 60 and 120.

They are compared whole. `python tests/cli/test_screens.py` writes them anew; read the difference before keeping it.
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

from tests.cli.drawing import TODAY, Drawn, drawn  # noqa: E402  (the path is set above when run as a script)
from tests.demo.shop import Shop, copy_of_the_demo  # noqa: E402

CALLS = {
    "today": "",
    "car-green": "car green",
    "fits-rear-wheel-cylinder": "fits rear wheel cylinder",
    "fits-switch": "fits OS 7133 04 in stop lamp switch",
    "fits-track-rod-end-left": "fits track rod end left",
    "fits-rear-brakes": "fits rear brakes",
    "fits-whole-car": "fits whole car",
    "fits-a-part-alone": "fits TC 330 118",
    "fits-window-winder-right": "fits window winder right",
    "fits-ostra-switch": "fits Ostra stop lamp switch",
    "fits-nut-on-stud": "fits M12x1.25 nut on 7/16-20 stud",
    "where-radiator": "where radiator --on 2026-12-03",
    "where-track-rod-end-left": "where track rod end left --on 2026-12-03",
    "plan": "plan",
    "plan-17-hours": "plan --hours 17",
    "plan-by-friday": "plan by 2026-12-04",
    "impossible-plan-with-300": "plan --cash 300",
    "plan-trade-offs": "plan --trade-offs",
    "why-2-after-plan-by-friday": "why 2",
    "donor": "donor",
    "donor-corva-at-165": "donor Corva at 165",
    "what-two-holes-of-five": "what 52 mm across two holes of five",
    "what-thread": "what thread 9.9 outside, 60 degrees",
    "what-alternator": "what alternator",
    "compare-threads": "compare M10x1 with 3/8-24 UNF",
    "compare-radiators": "compare KT 21 0440 with TC 330 118",
    "why-1-after-fits": "why 1",
    "why-2-after-fits": "why 2",
    "why-not-3-after-fits": "why not 3",
    "why-not-a-drum": "why not TC 531 480 in rear brake drum",
    "why-not-a-switch": "why not OS 7133 04 in stop lamp switch",
    "why-not-a-rod-end": "why not KT 48 0090 in track rod end left",
    "note-dry-run": "note VP 84 310 R for window winder right, measured --dry-run",
    "check": "check",
    "tidy-dry-run": "tidy --dry-run",
    "undo": "undo",
    "books-policy": "books policy",
    "books-count": "books count",
    "books-query": "books query",
    "books-query-spoken-against": "books query spoken-against",
    "books-query-in-the-stores": "books query in-the-stores",
    "books-shelf": "books shelf",
}
FIRST = {
    "why-1-after-fits": "fits rear wheel cylinder",
    "why-2-after-fits": "fits radiator",
    "why-not-3-after-fits": "fits rear wheel cylinder",
    "why-2-after-plan-by-friday": "plan by 2026-12-04",
}
"""What was asked before a screen."""
WIDTH = 80
WIDTHS = (60, WIDTH, 120)
WIDE = (
    "today", "car-green", "fits-rear-wheel-cylinder", "fits-switch", "fits-whole-car", "where-radiator", "plan",
    "impossible-plan-with-300", "donor-corva-at-165", "what-thread", "compare-threads", "why-1-after-fits", "why-not-a-switch",
    "note-dry-run", "check", "tidy-dry-run", "undo", "books-policy", "books-count",
)  # fmt: skip
"""Of each command what is kept at the other widths as well."""
KEPT = [(name, width) for width in WIDTHS for name in CALLS if width == WIDTH or name in WIDE]
FROM_A_BOOK = re.compile(r"^[ +-]*(?:- \{how:|\^+$)")
"""A line that stands as it does in a book, so that it can be found there: it may run over."""
YEAR = 2026
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
SHORT_DAY = re.compile(r"\b(Mon|Tue|Wed|Thu|Fri|Sat|Sun) (\d{1,2}) ([A-Z][a-z]{2})\b")


def screens(shop: Shop) -> dict[str, Drawn]:
    """What every call prints, each after what is asked before it."""
    calls = [call for name in CALLS for call in (FIRST.get(name), CALLS[name]) if call is not None]
    found = iter(drawn(shop, [call.split() for call in calls], WIDTHS))
    rows = {name: [next(found) for _ in range(2 if name in FIRST else 1)][-1] for name in CALLS}
    assert {name: row.err for name, row in rows.items() if row.err} == {}
    return rows


@pytest.fixture(scope="module")
def every(asked: Shop) -> dict[str, Drawn]:
    """All of them, drawn by one process."""
    return screens(asked)


def file_of(name: str, width: int = WIDTH) -> Path:
    """Where a screen is kept."""
    return SCREENS / ("" if width == WIDTH else str(width)) / f"{name}.txt"


def kept(name: str, width: int = WIDTH) -> str:
    """The screen as it is kept."""
    return file_of(name, width).read_text("utf-8")


@pytest.mark.parametrize(("name", "width"), KEPT)
def test_the_screen_is_as_it_is_kept(name: str, width: int, every: dict[str, Drawn]) -> None:
    """Word for word."""
    assert every[name].out[width] == kept(name, width)


@pytest.mark.parametrize("name", ["fits-switch", "where-radiator", "why-1-after-fits"])
@pytest.mark.parametrize("width", WIDTHS)
def test_a_process_of_its_own_prints_the_same(name: str, width: int, asked: Shop) -> None:
    """The whole way, from the shell's COLUMNS on."""
    env = {"COLUMNS": str(width), "FITLORE_TODAY": TODAY}
    if name in FIRST:
        asked.call(*FIRST[name].split(), **env)
    said = asked.call(*CALLS[name].split(), **env)
    assert (said.out, said.err) == (kept(name, width), "")


def test_no_screen_is_kept_for_nothing() -> None:
    """Every file belongs to a call, and every command has a screen at each width."""
    assert set(SCREENS.rglob("*.txt")) == {file_of(name, width) for name, width in KEPT}
    verbs = {CALLS[name].split()[0] if CALLS[name] else "" for name in WIDE}
    assert verbs == {CALLS[name].split()[0] if CALLS[name] else "" for name in CALLS}


@pytest.mark.parametrize("width", WIDTHS)
def test_a_screen_is_no_wider_than_the_terminal(width: int, every: dict[str, Drawn]) -> None:
    """No line runs over the edge, none ends in spaces, and no part's number is cut in two by an end of line."""
    number, figure = re.compile(r"\b(?:KT|VP|OS|TC|MW|BR|PB)(?: \d+)*$"), re.compile(r"\b\d+(?:\.\d+)?$")
    for name, one in every.items():
        lines = one.out[width].splitlines()
        over = [line for line in lines if len(line) > width and not FROM_A_BOOK.match(line)]
        assert (name, over, [line for line in lines if line != line.rstrip()]) == (name, [], [])
        cut = [
            (a, b)
            for a, b in itertools.pairwise(lines)
            if (number.search(a) and re.match(r"\s*\d{3}\b", b))
            or (figure.search(a) and re.match(r"\s*(mm|GBP|min)\b", b))
        ]
        assert (name, cut) == (name, [])


def test_no_width_says_less(every: dict[str, Drawn]) -> None:
    """The same words in the same order, dangers among them: a narrow screen is longer and never shorter of anything."""
    for name, one in every.items():
        assert len({" ".join(text.split()) for text in one.out.values()}) == 1, name
    dangers = [name for name, one in every.items() if "\n! " in one.out[WIDTH]]
    assert len(dangers) >= 5


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
        shop.call("car", "green")
        made = screens(shop)
    for file in SCREENS.rglob("*.txt"):
        file.unlink()
    for name, width in KEPT:
        file_of(name, width).parent.mkdir(parents=True, exist_ok=True)
        file_of(name, width).write_text(made[name].out[width], "utf-8")


if __name__ == "__main__":
    main()
