"""What every test may ask for."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

# On a checking machine the same examples every time, and no verdict by the clock; at home new ones at every run.
settings.register_profile(
    "checking", derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow], print_blob=True
)
if os.environ.get("CI"):
    settings.load_profile("checking")


@pytest.fixture(scope="session")
def repo() -> Path:
    """The checkout's top folder."""
    return Path(__file__).resolve().parent.parent
