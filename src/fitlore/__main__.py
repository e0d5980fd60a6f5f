"""Lets `python -m fitlore` do what the command `fitlore` does."""

from __future__ import annotations

from fitlore.cli import main

if __name__ == "__main__":
    main()
