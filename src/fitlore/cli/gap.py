"""What a line leaves open, with its readings: listed where nobody can be asked, asked once on a terminal."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from typing import Final

import click

from fitlore.cli.failure import CouldNot

MOST: Final = 8
"""So many readings are listed."""


class Gap(CouldNot):
    """A piece of the line that is missing or may be several things. `choices` are words that each mean one of them."""

    def __init__(self, says: str, piece: str, choices: Iterable[str], remedy: str = "say which") -> None:
        self.says, self.piece = says, piece
        self.choices: Sequence[str] = tuple(dict.fromkeys(choices))
        more = f" and {len(self.choices) - MOST} more" if len(self.choices) > MOST else ""
        super().__init__(f"{says} {', '.join(self.choices[:MOST])}{more}; {remedy}")


def answered(gap: Gap) -> str:
    """The reading that somebody at the terminal picks, by number or in words of his own; raises the gap where nobody can."""
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        raise gap
    click.echo(gap.says, err=True)
    for number, choice in enumerate(gap.choices[:MOST], 1):
        click.echo(f"{number:>2}  {choice}", err=True)
    reply = str(click.prompt("which", err=True)).strip()
    if reply.isascii() and reply.isdecimal() and 1 <= int(reply) <= len(gap.choices[:MOST]):
        return gap.choices[int(reply) - 1]
    return reply
