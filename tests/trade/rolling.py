"""The built-in tables of what rolls, and of wheel fixings, read with a plain loader."""

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
ROLLING = ("tyre", "wheel", "vin")
"""Packages of what rolls, and of the number on the car."""
MINE = tuple(kind for kind, package in KINDS.items() if package in ROLLING)


def _load() -> tuple[Standards, list[Diagnostic]]:
    files = [FOLDER / f"{name}.yaml" for name in ("threads", "wheel_fixing", *ROLLING)]
    return standards_from(
        row
        for file in files
        if file.exists()
        for row in rows(file.read_text("utf-8"), f"kb/standards/{file.name}")
    )


STANDARDS, PROBLEMS = _load()


def read(kind: str, text: str) -> Reading:
    """The reading of a designation that has to be readable."""
    found = FAMILIES[kind].read(text, STANDARDS)
    assert isinstance(found, Reading), found
    return found


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
    """Every step of a proof has a sentence."""
    missing = {step.code for _, step in because.walk()} - SENTENCES.keys()
    assert not missing


def codes(result: FamilyResult) -> set[str]:
    """All codes of a proof."""
    return {step.code for _, step in result.because.walk()}
