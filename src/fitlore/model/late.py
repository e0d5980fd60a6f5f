"""Patterns that are compiled when they are first used: a question uses few of those there are, and to compile one takes longer
than to read in most modules."""

from __future__ import annotations

import functools
import re


class Late:
    """A regular expression, compiled on its first use. Raises re.error then, for a text that is none."""

    def __init__(self, text: str, flags: int = 0) -> None:
        self.text, self.flags = text, flags

    @functools.cached_property
    def pattern(self) -> re.Pattern[str]:
        """The compiled expression."""
        return re.compile(self.text, self.flags)

    def fullmatch(self, text: str) -> re.Match[str] | None:
        """As that of a compiled one."""
        return self.pattern.fullmatch(text)

    def search(self, text: str) -> re.Match[str] | None:
        """As that of a compiled one."""
        return self.pattern.search(text)
