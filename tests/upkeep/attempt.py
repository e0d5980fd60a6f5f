"""An attempt at a change that is objected to, or that is refused."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from fitlore.model.diagnostic import Diagnostic


class Attempt(NamedTuple):
    """The shop's one book (or the list), what is asked in words, and the same as a function of the shop's folder."""

    book: str
    asked: str
    ask: Callable[[Path], tuple[Diagnostic, ...]]
