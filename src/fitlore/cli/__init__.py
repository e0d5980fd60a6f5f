"""The counter: options in, exit code out; one file per command, its help page beside it."""

from fitlore.cli.root import main

__all__ = ["main"]
