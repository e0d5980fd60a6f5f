"""What a command says when it could not answer."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from fitlore.model.diagnostic import Diagnostic

MOST: Final = 10
"""Faults that are shown one by one; how many more there are is said."""


class CouldNot(Exception):
    """No answer could be formed: one or more lines that say why and what to do. Exit code 2."""

    def __init__(self, said: str, faults: Sequence[Diagnostic] = ()) -> None:
        super().__init__(said)
        self.faults = tuple(faults)
        """Where the reason stands in a file; they are then shown instead of the words."""

    @classmethod
    def of(cls, faults: Sequence[Diagnostic]) -> CouldNot:
        """That which faults of a file stand in the way of, at least one."""
        return cls(faults[0].message, faults)


def told(code: str, said: str, faults: Sequence[Diagnostic] = (), file: str = "") -> None:
    """A failure in words on standard error; where the line asked for JSON, as one object on standard output too."""
    import click

    if faults:
        from fitlore.report.faults import fault_lines
        from fitlore.report.text import show

        for one in faults[:MOST]:
            show(fault_lines(one), sys.stderr)
        if len(faults) > MOST:
            click.echo(f"and {len(faults) - MOST} more; `fitlore check` shows them", err=True)
    elif said:
        click.echo(f"fitlore: {said}", err=True)
    in_json(code, said, faults, file)


def in_json(code: str, said: str, faults: Sequence[Diagnostic] = (), file: str = "") -> None:
    """The failure as one object on standard output, where the line asked for JSON."""
    words = sys.argv[1:]
    if "--json" not in (words[: words.index("--")] if "--" in words else words):
        return
    from fitlore.report.failures import error_json
    from fitlore.report.machine import dump

    sys.stdout.write(dump(error_json(code, said, faults, file)))
    sys.stdout.flush()
