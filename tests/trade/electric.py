"""The built-in tables of electrics, read with a plain loader, so that these tests need no other room."""

from __future__ import annotations

from pathlib import Path

from fitlore.model.because import Because
from fitlore.model.diagnostic import Diagnostic
from fitlore.report.sentences import SENTENCES
from fitlore.trade.family import FAMILIES, FamilyResult, Reading, Unreadable, compare_texts
from fitlore.trade.registry import KINDS
from fitlore.trade.standards import Standards, standards_from
from tests.trade.loading import rows

FOLDER = Path(__file__).resolve().parents[2] / "kb/standards"
PACKAGES = ("lamp", "fuse", "relay", "terminal", "cable", "sender", "ignition_coil", "battery")
"""Packages of electrics; each has a table file of its name."""
MINE = tuple(kind for kind, package in KINDS.items() if package in PACKAGES)


def _load() -> tuple[Standards, list[Diagnostic]]:
    files = [FOLDER / f"{name}.yaml" for name in PACKAGES]
    return standards_from(
        row for file in files for row in rows(file.read_text("utf-8"), f"kb/standards/{file.name}")
    )


STANDARDS, PROBLEMS = _load()


def normal(kind: str, text: str) -> str:
    """The normal form of a designation that has to be readable."""
    found = FAMILIES[kind].read(text, STANDARDS)
    assert isinstance(found, Reading), found
    return found.normal


def refused(kind: str, text: str) -> Unreadable:
    """A designation that has to be refused; its sentence is there, and each reading it may have can be read."""
    found = FAMILIES[kind].read(text, STANDARDS)
    assert isinstance(found, Unreadable), found
    assert found.reason in SENTENCES
    for reading in found.readings:
        normal(kind, reading)
    return found


def ask(kind: str, needed: str, offered: str) -> FamilyResult:
    """One designation held against another; every step of the proof has its sentence."""
    result = compare_texts(kind, needed, offered, "male", STANDARDS)
    said(result.because)
    return result


def said(because: Because) -> None:
    """Every step of a proof has a sentence, and the sentence's figures are all there."""
    missing = {step.code for _, step in because.walk()} - SENTENCES.keys()
    assert not missing


def codes(result: FamilyResult) -> set[str]:
    """All codes of a proof."""
    return {step.code for _, step in result.because.walk()}
