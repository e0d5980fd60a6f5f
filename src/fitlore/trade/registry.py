"""Which families of standards there are: the kind a feature has, and the package of this room that knows it.

A package has `tables.py` with `SECTIONS` (what its rows look like; needed only when tables are read) and `family.py` with
`FAMILY`. Both are imported when first needed, so that an answer pays only for the families it meets.
"""

from __future__ import annotations

from typing import Final

KINDS: Final[dict[str, str]] = {
    "thread": "thread",
}
"""Feature kind to the package under `fitlore.trade`."""
