"""What the table of dampers' mountings looks like."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitlore.trade.table import Section

MOUNTS: Final = ("stud", "eye", "bar pin", "fork")

SECTIONS: Final[Mapping[str, Section]] = {
    "damper-mount": Section(
        family="damper", key=("mount",), words={"mount": MOUNTS, "tell": (), "size": ("outside", "hole")}
    ),
}
"""Section name to its shape. `size` says what the figure of a mounting is: the outside of a stud, or a hole for a bolt."""
