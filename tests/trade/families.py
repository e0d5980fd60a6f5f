"""Families over all built-in tables, and what every comparison in these tests has to keep: each step has its sentence."""

from __future__ import annotations

import re
from collections.abc import Iterable

from fitlore.model.because import Because
from fitlore.report.sentences import SENTENCES
from fitlore.trade.family import FAMILIES, FamilyResult, Reading, Unreadable, compare_texts
from fitlore.trade.registry import KINDS
from tests.trade.loading import TABLE, load_every

FOLDER = TABLE.parent
STANDARDS, PROBLEMS = load_every()


def kinds_of(packages: Iterable[str]) -> tuple[str, ...]:
    """The kinds that these packages read."""
    wanted = set(packages)
    return tuple(kind for kind, package in KINDS.items() if package in wanted)


PLUGS = ("spark_plug", "gas_strut", "fuel_hose")
SERVICE = ("spin_on_filter", "hose", "thermostat", "radiator_cap", "lambda_probe", "damper")
_FULL = (*kinds_of(PLUGS), *kinds_of(SERVICE), "service-")
"""Kinds of which every value that a sentence names is there."""


def normal(kind: str, text: str) -> str:
    """The normal form of a designation that has to be readable."""
    found = FAMILIES[kind].read(text, STANDARDS)
    assert isinstance(found, Reading), found
    return found.normal


def refused(kind: str, text: str) -> Unreadable:
    """A designation that has to be refused; its sentence is there."""
    found = FAMILIES[kind].read(text, STANDARDS)
    assert isinstance(found, Unreadable), found
    assert found.reason in SENTENCES
    return found


def ask(kind: str, needed: str, offered: str) -> FamilyResult:
    """One designation held against another; every step of the proof has its sentence."""
    result = compare_texts(kind, needed, offered, "male", STANDARDS)
    said(result.because)
    return result


def said(because: Because) -> None:
    """Every step of a proof has a sentence, and of the kinds above every value that the sentence names."""
    for _, step in because.walk():
        assert step.code in SENTENCES, step.code
        if step.code.startswith(_FULL):
            assert set(re.findall(r"\{([^}]+)\}", SENTENCES[step.code])) <= step.values.keys(), step


def codes(result: FamilyResult) -> set[str]:
    """All codes of a proof."""
    return {step.code for _, step in result.because.walk()}
