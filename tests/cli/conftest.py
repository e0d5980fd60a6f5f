"""A copy of the demo shop with the green estate picked: one for all who only ask, and a fresh one for those who break things."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.demo.shop import Shop, copy_of_the_demo


@pytest.fixture(scope="session")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Shop:
    """For questions only: nothing is written into its books."""
    shop = copy_of_the_demo(tmp_path_factory.mktemp("asked"))
    assert shop.call("car", "green").code == 0
    return shop


@pytest.fixture
def shop(tmp_path: Path, asked: Shop) -> Shop:
    """A fresh copy that may be written into; the green estate is picked."""
    fresh = copy_of_the_demo(tmp_path)
    assert fresh.call("car", "green").code == 0
    return fresh
