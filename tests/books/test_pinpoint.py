"""The line of a single value: found in the text, held against the text itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlore.books.layout import builtin_kb
from fitlore.books.pinpoint import Pinpoint, no_text, texts_of
from fitlore.books.reading import read_book
from fitlore.model.origin import Origin
from fitlore.model.policy import Policy

KB = "kb/policy.yaml"
TEXTS = {
    KB: (builtin_kb() / "policy.yaml").read_text("utf-8"),
    "shop/rich.yaml": Path(__file__).with_name("rich.yaml").read_text("utf-8"),
    "shop/in-braces.yaml": "# é comes first\n- policy: p\n  classes: {safety: fuel, no-used: yes}\n  chance: {told: 9 %}\n",
    "shop/with-mark.yaml": "\r\n- {policy: p, chance: {told: 9 %}, tyre-age-years: 3}\r\n",
}


def policy_in(shown: str) -> Policy:
    """The one policy of a book, as it is read."""
    records = read_book(shown, TEXTS[shown].encode(), "urn:x").records
    return next(one for one in records if isinstance(one, Policy))


@pytest.mark.parametrize("shown", TEXTS)
def test_the_line_is_that_of_the_key(shown: str) -> None:
    """At the line and column that are named stands the key that was asked for."""
    lines = Pinpoint(TEXTS.__getitem__)
    policy = policy_in(shown)
    text = TEXTS[shown].replace("\r\n", "\n").split("\n")
    wanted = [(policy.origin, ("chance", how)) for how in policy.chance]
    wanted += [(policy.origin, (key,)) for key in ("tyre-age-years",) if policy.tyre_age_years]
    for row in policy.classes:
        wanted += [(row.origin, (key,)) for key in ("safety", "no-used") if row.no_used is not None]
    assert len(wanted) >= 2
    for record, keys in wanted:
        found = lines.line(record, keys)
        assert text[found.line - 1][found.column - 1 :].startswith(f"{keys[-1]}:"), (record, keys, found)


def test_what_cannot_be_found_has_the_line_of_its_record() -> None:
    """A key that is not there, a record that is not there, a book of another form, and one whose text cannot be had."""
    lines, policy = Pinpoint(TEXTS.__getitem__), policy_in(KB)
    assert lines.line(policy.origin, ("chance", "nobody")) == lines.line(policy.origin, ("chance",))
    assert lines.line(policy.origin, ("nothing",)) == policy.origin
    nowhere = Origin(KB, 1, 1)
    assert lines.line(nowhere, ("chance",)) == nowhere
    assert Pinpoint(no_text).line(policy.origin, ("chance",)) == policy.origin
    turtle = Origin("shop/policy.ttl", 4, 2)
    assert lines.line(turtle, ("chance",)) == turtle


def test_the_texts_on_disk_are_those_of_the_shelves(tmp_path: Path) -> None:
    """The built-in books and the shop's own; nothing for a book that there is not."""
    (tmp_path / "fitlore.yaml").write_text("shop: here\nshelves: [{shelf: shop, folder: books}]\n", "utf-8")
    (tmp_path / "books").mkdir()
    (tmp_path / "books" / "a.yaml").write_bytes(b"\xef\xbb\xbf- policy: a\n")
    text_of = texts_of(tmp_path)
    assert text_of(KB) == TEXTS[KB]
    assert text_of("shop/a.yaml") == "- policy: a\n"
    assert text_of("shop/b.yaml") == ""
    (tmp_path / "books" / "a.yaml").unlink()
    assert text_of("shop/a.yaml") == ""
