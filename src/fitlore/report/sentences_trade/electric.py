"""Sentences on lamps, fuses, relays, terminals, cable, switches, senders, machines and batteries."""

from __future__ import annotations

from typing import Final

ELECTRIC: Final[dict[str, str]] = {}
