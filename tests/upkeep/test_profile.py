"""Profiles: how bad a rule's findings are is said in a file, and a file that says it wrongly is told so."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlore.model.diagnostic import Severity
from fitlore.upkeep import profile
from fitlore.upkeep.check import Ask, check, every, profile_of
from tests.upkeep.smallest import TODAY, graph_of

STALE = (
    "- category: hose\n  safety: none\n- part: KT 1\n  maker: Kestin\n  is: hose\n"
    "- supplier: northgate\n  trade: breaker\n  offers:\n    - {number: KT 1, price: 6.50 GBP, until: 2026-11-30}\n"
)
CODE = "Q28-offer-ran-out"


def said(folder: Path, ask: Ask | None = None) -> list[tuple[str, Severity]]:
    """What `check` finds in the example, in the shop that is in the folder."""
    return [(one.code, one.severity) for one in check(graph_of(STALE), TODAY, folder, ask)]


@pytest.mark.parametrize("name", profile.built_in())
def test_the_profiles_that_come_along_name_rules_that_there_are(name: str) -> None:
    """Every line of a built-in profile is a known rule with one of the four words."""
    used = profile_of(None, profile.find(name, None))
    assert used.diagnostics == ()
    assert used.severities
    assert set(used.severities) <= {row.code for row in every()}


def test_the_three_that_were_asked_for_are_there() -> None:
    """For a shop, for a checking machine, for the built-in shelf."""
    assert profile.built_in() == ("built-in", "shop", "strict")


@pytest.mark.parametrize(
    ("word", "found"),
    [
        ("error", [(CODE, Severity.ERROR)]),
        ("warning", [(CODE, Severity.WARNING)]),
        ("note", [(CODE, Severity.NOTE)]),
        ("ignore", []),
    ],
)
def test_a_shops_own_profile_says_how_bad_a_rule_is(
    word: str, found: list[tuple[str, Severity]], tmp_path: Path
) -> None:
    """`rules/profile.yaml` counts, but for what it does not name; a profile that is asked for counts instead of it."""
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "profile.yaml").write_text(f"# ours\n{CODE}: {word}\n{IGNORED}", "utf-8")
    assert said(tmp_path) == found
    assert said(tmp_path, Ask(profile.find("shop", tmp_path))) == [(CODE, Severity.NOTE)]


IGNORED = "".join(
    f"{rule}: ignore\n" for rule, bad in profile_of(None, None).severities.items() if bad is None
)
"""What a shop is not asked for."""


def test_what_a_profile_says_wrongly_has_its_line(tmp_path: Path) -> None:
    """An unknown rule with a near one, and a word that is no severity; the rest of the profile counts."""
    (tmp_path / "rules").mkdir()
    text = f"{IGNORED}Q28-offer-ran-ou: ignore\nQ18-stale-price: perhaps\n{CODE}: error\n"
    (tmp_path / "rules" / "profile.yaml").write_text(text, "utf-8")
    found = check(graph_of(STALE), TODAY, tmp_path)
    assert [(str(one.origin), one.code) for one in found] == [
        (f"rules/profile.yaml:{IGNORED.count(':') + 1}:1", "U15-unknown-rule"),
        (f"rules/profile.yaml:{IGNORED.count(':') + 2}:1", "U16-not-a-severity"),
        ("shop/book.yaml:9:7", CODE),
    ]
    assert found[0].remedy == f"Did you mean `{CODE}`?"
    assert found[0].excerpt == "Q28-offer-ran-ou: ignore"
    assert found[2].severity is Severity.ERROR


@pytest.mark.parametrize(("text", "codes"), [("", []), ("# nothing\n", []), ("- a\n", ["U17-not-a-profile"])])
def test_an_empty_profile_changes_nothing_and_a_list_is_none(
    text: str, codes: list[str], tmp_path: Path
) -> None:
    """A file of comments alone is a profile; anything but rules with words is not."""
    path = tmp_path / "mine.yaml"
    path.write_text(text, "utf-8")
    used = profile_of(None, path)
    assert ([one.code for one in used.diagnostics], used.severities) == (codes, {})


def test_a_shops_own_rule_can_be_named(tmp_path: Path) -> None:
    """The name of a rule file is a name for profiles too; a finding of a fault of structure cannot be ignored away."""
    (tmp_path / "rules").mkdir()
    head = "# title: t\n# problem: p\n# why: w\n# remedy: r\n# severity: note\n"
    (tmp_path / "rules" / "mine.rq").write_text(f"{head}SELECT ?where WHERE {{ ?where ?b ?c }}\n", "utf-8")
    (tmp_path / "rules" / "profile.yaml").write_text("mine: ignore\nB42-unknown-key: ignore\n", "utf-8")
    used = profile_of(tmp_path, None)
    assert used.severities == {"mine": None}
    assert [one.code for one in used.diagnostics] == ["U15-unknown-rule"]
