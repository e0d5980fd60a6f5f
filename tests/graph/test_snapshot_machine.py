"""A small shop to which everything happens that may happen to books: the snapshot always answers as the books do."""

from __future__ import annotations

import gc
import os
import shutil
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, precondition, rule, run_state_machine_as_test

from fitlore.graph import manifest
from fitlore.graph.open import Graph
from tests.graph.changing import FAULTS, Changing, everything

NAMES = (
    "books/new.yaml",
    "books/deep/new.yaml",
    "club/new.yaml",
    "books/parts.yaml",
    "books/crossfits.yaml",
    "books/corva.yaml",
)
TEXTS = (
    b"- part: NEW 1\n  maker: Velm\n  is: test-tyre\n",
    b"- part: NEW 2\n  maker: Velm\n  is: test-tyre\n",
    b"- part: NEW 1\n  maker: Velm\n  iss: test-tyre\n",
    b"- part: NEW 1\n  maker: Ostra\n  is: test-tyre\n\n- car: third\n  is: tarn-corva\n",
    b"",
)
LONG = os.environ.get("FITLORE_FUZZ") == "long"


class Shop(RuleBasedStateMachine):
    """What happens between two looks at the shop; every look is held against a build from nothing."""

    def __init__(self) -> None:
        super().__init__()
        self.patch = pytest.MonkeyPatch()
        self.place = tempfile.mkdtemp()
        self.world = Changing(Path(self.place), self.patch)
        self.layout = (self.world.shop / "fitlore.yaml").read_bytes()
        self.first = self.world.books()
        self.last: dict[str, bytes] = {}
        self.held: list[tuple[Graph, list[object]]] = []
        self.sound = True

    def teardown(self) -> None:
        """Lets go of everything."""
        self.held.clear()
        self.patch.undo()
        gc.collect()
        shutil.rmtree(self.place, ignore_errors=True)

    @rule(name=st.sampled_from(NAMES), text=st.sampled_from(TEXTS))
    def write(self, name: str, text: bytes) -> None:
        """A book comes, or gets another text."""
        self.world.write(name, text)

    @rule(name=st.sampled_from(NAMES))
    def revert(self, name: str) -> None:
        """A book is as it was at first, or gone where there was none."""
        if name in self.first:
            self.world.write(name, self.first[name])
        else:
            (self.world.shop / name).unlink(missing_ok=True)

    @rule(name=st.sampled_from(NAMES))
    def delete(self, name: str) -> None:
        """A book goes."""
        (self.world.shop / name).unlink(missing_ok=True)

    @rule(old=st.sampled_from(NAMES), new=st.sampled_from(NAMES))
    def rename(self, old: str, new: str) -> None:
        """A book gets another's name."""
        if (self.world.shop / old).is_file():
            (self.world.shop / new).parent.mkdir(parents=True, exist_ok=True)
            (self.world.shop / old).replace(self.world.shop / new)

    @rule(name=st.sampled_from(NAMES), figure=st.sampled_from("123456789"))
    def edit_unseen(self, name: str, figure: str) -> None:
        """One figure changes, neither size nor time does."""
        path = self.world.shop / name
        if path.is_file():
            data = path.read_bytes()
            at = next((place for place, byte in enumerate(data) if chr(byte).isdigit()), -1)
            if at >= 0:
                self.world.write_unseen(name, data[:at] + figure.encode() + data[at + 1 :])

    @rule(name=st.sampled_from(NAMES), text=st.sampled_from(TEXTS))
    def edit_during_the_build(self, name: str, text: bytes) -> None:
        """Somebody writes a book while the next build reads one."""
        self.world.during = [(name, text)]
        self.world.write("books/other.yaml", b"# again\n" * (len(self.world.read) % 7 + 1))
        self.world.opened()
        self.world.during.clear()
        self.last = {"?": b"what was read then is not known"}

    @rule(fault=st.sampled_from(FAULTS))
    def break_the_layout(self, fault: str) -> None:
        """fitlore.yaml gets a fault, or another one, or loses it."""
        self.sound = not fault
        self.world.write(
            "fitlore.yaml",
            self.layout + fault.encode() if not fault.startswith("shelves") else fault.encode(),
        )
        self.last = {"?": b"the shelves are others"}

    @rule(trust=st.sampled_from(["told", "measured", "fitted"]), club=st.booleans())
    def change_the_shelves(self, trust: str, club: bool) -> None:
        """The club's shelf goes, comes, or is trusted otherwise."""
        shelf = f"  - {{shelf: club, folder: club, trust: {trust}}}\n" if club else ""
        text = f"shop: lowbarn\nname: Lowbarn\ncountry: GB\nshelves:\n  - {{shelf: shop, folder: books}}\n{shelf}"
        self.world.write("fitlore.yaml", text.encode())
        self.sound = True
        self.last = {"?": b"the shelves are others"}

    @rule(believed=st.booleans())
    def clock(self, believed: bool) -> None:
        """Times are believed at once (a fine clock), or only when they are two seconds old (a coarse one)."""
        self.patch.setattr(manifest, "SETTLED", 0 if believed else 2_000_000_000)

    @rule()
    def look(self) -> None:
        """The snapshot answers as a build from nothing; only what changed was read; nothing is kept that nobody reads."""
        self.world.read.clear()
        graph = self.world.opened()
        read = sorted(name for name in self.world.read if not name.startswith("kb/"))
        books = self.world.books()
        if self.sound and "?" not in self.last:
            changed = {
                name.replace("books/", "shop/", 1)
                for name, data in books.items()
                if self.last.get(name) != data
            }
            assert set(read) <= changed, (read, changed)
        assert len(read) == len(set(read))
        self.last = books
        assert everything(graph) == everything(self.world.afresh())
        assert len(self.world.snapshots()) <= len(self.held) + 2

    @rule()
    def look_twice(self) -> None:
        """A second look reads nothing, and leaves the snapshot as it is."""
        self.world.opened()
        self.world.read.clear()
        before = self.world.snapshots()
        self.world.opened()
        if self.sound:
            assert [name for name in self.world.read if not name.startswith("kb/")] == []
            assert self.world.snapshots() == before
        self.last = self.world.books()

    @precondition(lambda self: len(self.held) < 2)
    @rule()
    def hold(self) -> None:
        """Somebody keeps a graph open, and has asked it nothing yet."""
        wanted = everything(self.world.afresh())
        self.held.append((self.world.opened(), wanted))
        self.last = self.world.books()

    @precondition(lambda self: self.held)
    @rule()
    def let_go(self) -> None:
        """Whatever happened since, the graph answers as when it was opened."""
        graph, wanted = self.held.pop(0)
        assert everything(graph) == wanted


def test_whatever_happens_to_the_books_the_snapshot_answers_as_they_do() -> None:
    """Books come, go, change within the clock's tick and during a build; fitlore.yaml breaks and is mended; readers stay."""
    run_state_machine_as_test(
        Shop,
        settings=settings(
            max_examples=100 if LONG else 5,
            stateful_step_count=30 if LONG else 14,
            deadline=None,
            suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
        ),
    )


@pytest.fixture
def world(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Changing:
    """A shop to change."""
    return Changing(tmp_path, monkeypatch)


def test_the_shop_file_goes_from_one_fault_to_another(world: Changing) -> None:
    """What is told is the fault that is there now, though no book changed."""
    layout = (world.shop / "fitlore.yaml").read_bytes()
    told = []
    for fault in ("colour: green\n", "color: green\n", "names: [\n", ""):
        world.write("fitlore.yaml", layout + fault.encode())
        told.append([(d.code, d.excerpt) for d in world.opened().diagnostics])
        assert world.opened().diagnostics == world.afresh().diagnostics
    assert len({repr(one) for one in told}) == 4
    assert told[0] == [("B42-unknown-key", "colour: green")]
    assert told[3] == []


def test_an_edit_of_equal_size_within_one_tick_is_seen(world: Changing) -> None:
    """As on a file system whose clock ticks every two seconds: size and all times are those of before."""
    world.write("books/new.yaml", TEXTS[0])
    assert world.opened().parts(["NEW1"])
    world.write_unseen("books/new.yaml", TEXTS[1])
    graph = world.opened()
    assert (graph.parts(["NEW1"]), len(graph.parts(["NEW2"]))) == ((), 1)


def test_old_snapshots_go_when_their_last_reader_does(world: Changing) -> None:
    """While somebody reads one it stays, and answers; the next build after that takes it away."""
    graph = world.opened()
    (first,) = world.snapshots()
    for number in range(4):
        world.write("books/new.yaml", TEXTS[0] + b"# %d\n" % number)
        world.opened()
    kept = world.snapshots()
    assert first in kept
    assert len(kept) <= 3
    assert len(graph.platforms()) == 2
    del graph
    gc.collect()
    world.write("books/new.yaml", TEXTS[1])
    world.opened()
    assert first not in world.snapshots()
