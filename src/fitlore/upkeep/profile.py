"""Profiles: how bad it is that a rule finds something. A file of YAML, rule to `error`, `warning`, `note` or `ignore`.

A rule that a profile does not name keeps the severity that it was written with. Built in are `shop` (what is asked when
nobody says otherwise), `strict` (for a checking machine) and `built-in` (for a shelf that others build on).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from pathlib import Path
from typing import Final, NamedTuple

import msgspec

from fitlore.books.doc import Doc, fault_at
from fitlore.books.faults import Fault, register
from fitlore.books.near import near_word
from fitlore.books.nodes import read_nodes
from fitlore.model.diagnostic import Diagnostic, Severity

FOLDER: Final = Path(__file__).with_name("profiles")
OWN: Final = "rules/profile.yaml"
"""A shop's own profile, from its folder on; it counts where no other is asked for."""
USUAL: Final = "shop"
STRICT: Final = "strict"
IGNORE: Final = "ignore"
WORDS: Final = (*(severity.value for severity in Severity), IGNORE)

register(
    [
        Fault(
            "U15-unknown-rule",
            Severity.ERROR,
            "A profile names a rule that there is not",
            "there is no rule `{rule}`",
            "the name of a rule, as `check --rules` lists them",
            "{near}",
        ),
        Fault(
            "U16-not-a-severity",
            Severity.ERROR,
            "A profile says something else than how bad it is",
            "`{rule}` is to be `{found}`",
            "one of error, warning, note, ignore",
            "write one of these four words",
        ),
        Fault(
            "U17-not-a-profile",
            Severity.ERROR,
            "A profile that is no list of rules",
            "this is no profile",
            "one line for each rule, as `Q18-stale-price: ignore`",
            "take one that comes with the program as a model, or take the file away",
        ),
    ]
)


class Profile(NamedTuple):
    """What a profile says of the rules it names (None: not to be told), and what is wrong with it."""

    name: str
    severities: dict[str, Severity | None]
    diagnostics: tuple[Diagnostic, ...] = ()

    def of(self, code: str, own: Severity) -> Severity | None:
        """How bad a finding of this rule is, which was written with severity `own`; None: it is not told."""
        return self.severities.get(code, own)

    def applied(self, found: Iterable[Diagnostic]) -> Iterator[Diagnostic]:
        """Findings with the severity that this profile gives them, without those that are not to be told."""
        for one in found:
            severity = self.of(one.code, one.severity)
            if severity is one.severity:
                yield one
            elif severity is not None:
                yield msgspec.structs.replace(one, severity=severity)


def built_in() -> tuple[str, ...]:
    """The names of the profiles that come with the program."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.yaml")))


def find(name: str, folder: Path | None) -> Path | None:
    """The file of a profile: of that name in the program, or the file that is named; with no name the shop's, or the usual one.

    None where there is none.
    """
    own = folder / OWN if folder else None
    if not name:
        return own if own is not None and own.is_file() else FOLDER / f"{USUAL}.yaml"
    if name in built_in():
        return FOLDER / f"{name}.yaml"
    path = Path(name)
    return path if path.is_file() else None


def read(path: Path, shown: str, rules: Collection[str]) -> Profile:
    """Reads a profile; `rules` are the names of all rules. What is wrong with it rides along. Raises OSError."""
    doc = read_nodes(shown, path.read_bytes())
    if doc.found or not isinstance(doc.root, dict):
        empty = not doc.found and not doc.root
        faults = () if empty else (fault_at(shown, doc.spot(0, 1), "U17-not-a-profile", {}),)
        return Profile(path.stem, {}, tuple(doc.found) or faults)
    said: dict[str, Severity | None] = {}
    wrong = []
    for rule, word in doc.root.items():
        if rule not in rules:
            near = near_word(rule.lower(), [known.lower() for known in rules])
            meant = next((known for known in rules if known.lower() == near), "")
            remedy = f"Did you mean `{meant}`?" if meant else "Delete the line; none is near in name."
            wrong.append(_at(doc, rule, "U15-unknown-rule", near=remedy))
        elif word not in WORDS:
            wrong.append(_at(doc, rule, "U16-not-a-severity", found=str(word)))
        else:
            said[rule] = None if word == IGNORE else Severity(word)
    return Profile(path.stem, said, tuple(wrong))


def _at(doc: Doc, rule: str, code: str, **values: str) -> Diagnostic:
    assert isinstance(doc.root, dict)
    return fault_at(doc.shown, doc.key(doc.root, rule), code, {"rule": rule, **values})
