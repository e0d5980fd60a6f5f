"""Spoilt books on a shop's shelf, and the whole command line over them."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.books.fuzz.bounds import tried_in_child
from tests.books.fuzz.counter import SLOWEST, Sound, called, check, sound_shop
from tests.books.fuzz.seeds import records

SEED = int(os.environ.get("FITLORE_FUZZ_SEED", "20261125"))
COUNT = 500 if os.environ.get("FITLORE_FUZZ") == "long" else 3
pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="children are forked")


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Sound:
    """A sound shop with its snapshot."""
    return sound_shop(tmp_path_factory.mktemp("counter"))


def test_every_command_answers_over_spoilt_books(shop: Sound) -> None:
    """`check` says what is wrong with exit 0 or 1, the others answer with 0, 1 or 2; never a traceback, never silence."""
    records()
    tried = tried_in_child(lambda number: check(shop, SEED, number), range(COUNT), seconds=SLOWEST)
    assert not tried.failed, "\n".join(
        f"--seed {SEED} --case {one.number}\n{one.how}" for one in tried.failed
    )
    assert tried.total == COUNT


def test_a_book_whose_name_is_no_text_is_told_and_left_out(shop: Sound) -> None:
    """A name in Latin-1 cannot be shown or kept: the fault says so with the name escaped, and all else answers."""
    before = called(shop, ("fits", "radiator"))
    odd = Path(os.fsdecode(os.fsencode(shop.folder / "books") + b"/gr\xfcn.yaml"))
    odd.write_text("- car: gruen\n  is: tarn-corva\n", "utf-8")
    try:
        said = called(shop, ("check",))
        assert "shop/gr\\xfcn.yaml: error: " in said.out
        assert "its name is no UTF-8" in said.out
        assert said.code == 1
        after = called(shop, ("fits", "radiator"))
        assert (after.code, after.out) == (before.code, before.out)
    finally:
        odd.unlink()
    assert "xfcn" not in called(shop, ("check",)).out


def test_a_shop_in_a_folder_whose_name_is_no_text_answers(tmp_path: Path) -> None:
    """No snapshot can be kept of it; the answers are the same, and a note says so."""
    place = Path(os.fsdecode(os.fsencode(tmp_path) + b"/caf\xe9"))
    place.mkdir()
    odd = sound_shop(place)
    said = called(odd, ("fits", "radiator"))
    assert (said.code, said.out.splitlines()[0]) == (0, "the green estate (kestin-tolland)")
    assert "no snapshot could be kept" in said.err
