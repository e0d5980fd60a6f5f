"""What the table of filter threads looks like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section

SECTIONS: Final[Mapping[str, Section]] = {
    "filter-thread": Section(family="spin-on-filter", key=("thread",), words={"thread": ()}),
}
"""Section name to its shape."""
