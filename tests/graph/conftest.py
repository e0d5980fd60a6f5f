"""The small graph, made once."""

from __future__ import annotations

import pytest

from fitlore.graph.open import Graph
from tests.graph import small


@pytest.fixture(scope="session")
def small_graph() -> Graph:
    """The small shop's graph, in memory."""
    return small.graph()
