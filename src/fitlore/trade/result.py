"""What every family of standards hands out: a reading, a text it cannot read, and the outcome of a comparison."""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum

import msgspec

from fitlore.model.because import Because
from fitlore.trade.rows import Certainty


class FamilyState(StrEnum):
    """How an offered designation stands against the needed one; each is the word the fitting room knows."""

    OK = "ok"
    OK_WITH_WORK = "ok-with-work"
    OFF = "off"
    TRAP = "trap"
    UNREADABLE = "unreadable"


class Unreadable(msgspec.Struct, frozen=True, omit_defaults=True):
    """A text that names no listed size, or more than one.

    `reason` names the sentence; `readings` are the designations it could stand for (each is readable by itself), and
    `expected` what could have been written there instead, the nearest first.
    """

    text: str
    reason: str
    readings: tuple[str, ...] = ()
    expected: tuple[str, ...] = ()

    def because(self) -> Because:
        """The same as a step of a proof."""
        values = {"text": self.text, "expected": ", ".join(self.expected or self.readings)}
        return Because(self.reason, values)


class Reading(msgspec.Struct, frozen=True, omit_defaults=True):
    """A text understood: its normal form, what the text left unsaid, and the figures to look parts up by.

    Texts that mean the same have the same normal form, so that it serves as a key.
    `implied` is empty, or names what was filled in (`coarse-pitch`, `series`). `keys` are figures in mm by name.
    """

    normal: str
    implied: str = ""
    keys: dict[str, Decimal] = {}


class FamilyResult(msgspec.Struct, frozen=True):
    """The outcome for one feature, and its proof."""

    state: FamilyState
    because: Because
    certainty: Certainty = Certainty.PUBLISHED
    """How sure the least sure row is that the outcome rests on; two equal designations rest on none."""
