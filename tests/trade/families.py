"""Families over all built-in tables, and what every comparison in these tests has to keep: each step has its sentence."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Final

from fitlore.model.because import Because
from fitlore.report.sentences import SENTENCES, say
from fitlore.trade.family import FAMILIES, FamilyResult, FamilyState, Reading, Unreadable, compare_texts
from fitlore.trade.registry import KINDS
from tests.trade.loading import TABLE, load_every

FOLDER: Final = TABLE.parent
STANDARDS, PROBLEMS = load_every()
YES: Final = (FamilyState.OK, FamilyState.OK_WITH_WORK)

BOLTED: Final = ("pipe_union", "wheel_fixing", "property_class", "spanner", "bolt")
ROLLING: Final = ("tyre", "wheel", "vin")
"""What rolls, and the number on the car."""
TURNING: Final = ("bearing", "shaft_seal", "o_ring", "circlip", "key", "belt", "toothed_belt")
"""What turns and what seals it."""
ELECTRIC: Final = ("lamp", "fuse", "relay", "terminal", "cable", "sender", "ignition_coil", "battery")
FLUIDS: Final = ("brake_fluid", "oil", "coolant")
PLUGS: Final = ("spark_plug", "gas_strut", "fuel_hose")
SERVICE: Final = ("spin_on_filter", "hose", "thermostat", "radiator_cap", "lambda_probe", "damper")


def kinds_of(packages: Iterable[str]) -> tuple[str, ...]:
    """The kinds that these packages read."""
    wanted = set(packages)
    return tuple(kind for kind, package in KINDS.items() if package in wanted)


_FULL: Final = (*kinds_of(PLUGS), *kinds_of(SERVICE), "service-")
"""Kinds of which a sentence never leaves out what it names (of others a part that is not known is left out whole)."""


def read(kind: str, text: str) -> Reading:
    """The reading of a designation that has to be readable."""
    found = FAMILIES[kind].read(text, STANDARDS)
    assert isinstance(found, Reading), found
    return found


def normal(kind: str, text: str) -> str:
    """The normal form of a designation that has to be readable."""
    return read(kind, text).normal


def refused(kind: str, text: str) -> Unreadable:
    """A designation that has to be refused; its sentence is there, and each reading it may have can be read."""
    found = FAMILIES[kind].read(text, STANDARDS)
    assert isinstance(found, Unreadable), found
    assert found.reason in SENTENCES
    for reading in found.readings:
        read(kind, reading)
    return found


def ask(kind: str, needed: str, offered: str, end: str = "male") -> FamilyResult:
    """One designation held against another; every step of the proof has its sentence."""
    result = compare_texts(kind, needed, offered, end, STANDARDS)
    said(result.because)
    return result


def said(because: Because) -> None:
    """Every step of a proof has a sentence without holes; of some kinds every value that the sentence names is there."""
    for _, step in because.walk():
        assert step.code in SENTENCES, step.code
        assert "  " not in say(step), step
        assert "{" not in say(step), step
        if step.code.startswith(_FULL):
            assert set(re.findall(r"\{([^}]+)\}", SENTENCES[step.code])) <= step.values.keys(), step


def codes(result: FamilyResult) -> set[str]:
    """All codes of a proof."""
    return {step.code for _, step in result.because.walk()}
