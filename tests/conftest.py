"""What every test may ask for."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def repo() -> Path:
    """The checkout's top folder."""
    return Path(__file__).resolve().parent.parent
