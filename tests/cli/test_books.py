"""`books`: the policy as a shop sets it, and what is counted."""

from __future__ import annotations

import pytest

from tests.demo.shop import REPO, Shop

LOOSER = """- policy: lowbarn
  classes:
    - safety: braking
      no-old-stock: no
  chance: {told: 30 %}
"""


def with_policy(shop: Shop, text: str, book: str = "books/policy.yaml") -> Shop:
    """The shop with a further book."""
    (shop.folder / book).write_text(text, "utf-8")
    return shop


def test_a_looser_value_is_said_first_and_by_check(shop: Shop) -> None:
    """With both lines; the exit code is a no. A value that protects nobody is only shown."""
    said = with_policy(shop, LOOSER).call("books", "policy")
    assert said.code == 1
    danger, *rest = said.out.splitlines()
    line = next(
        number
        for number, text in enumerate((REPO / "kb" / "policy.yaml").read_text("utf-8").splitlines(), 1)
        if "no-old-stock: yes" in text
    )
    assert danger.startswith(
        "! braking, no-old-stock: no [shop/policy.yaml:4:7], and the built-in policy says yes"
    )
    assert f"yes  [kb/policy.yaml:{line}:7]" in said.out
    assert not [row for row in rest if row.startswith("! ")]
    assert "told        30 %  [shop/policy.yaml:5:12]; was 40 %" in said.out
    checked = shop.call("check")
    assert "warning: `no-old-stock` is `no` here, and the built-in policy says `yes`" in " ".join(
        checked.out.split()
    )
    assert "[Q42-looser-for-safety]" in checked.out
    assert shop.call("check", "--ci").code == 1


def test_a_word_narrows_it(shop: Shop) -> None:
    """A class, a kind of value, or one value in every class; what is not shown is not judged."""
    with_policy(shop, LOOSER)
    rows = shop.call("books", "policy", "steering")
    assert (rows.code, rows.out.splitlines()[0]) == (0, "steering")
    assert shop.call("books", "policy", "chance").out.count("%") == 6
    every = shop.call("books", "policy", "no-used").out.splitlines()
    assert len([row for row in every if "no-used" in row]) == 8
    near = shop.call("books", "policy", "stering")
    assert (near.code, near.out) == (2, "")
    assert "did you mean steering" in near.err


def test_a_shop_can_set_a_value_back(shop: Shop) -> None:
    """Against another book of its own; the value is then as if nobody had said otherwise."""
    with_policy(shop, LOOSER, "books/z.yaml")
    with_policy(shop, LOOSER.replace("no-old-stock: no", "no-old-stock: yes"), "books/a.yaml")
    said = shop.call("books", "policy", "no-old-stock", "--json")
    assert said.code == 0
    braking = next(value for value in said.json["values"] if value["of"] == "braking")
    assert (braking["value"], braking["line"]) == ("yes", "shop/a.yaml:4:7")
    assert [one["value"] for one in braking["over"]] == ["no", "yes"]
    assert braking["looser_for"] is None


def test_the_policy_of_others_does_not_count(shop: Shop) -> None:
    """A shelf with a cap on its trust: named, not counted, and nothing about it is a warning."""
    layout = shop.folder / "fitlore.yaml"
    before = shop.call("books", "policy", "--json").json
    (shop.folder / "friend").mkdir()
    with_policy(shop, LOOSER, "friend/policy.yaml")
    text = layout.read_text("utf-8").rstrip("\n")
    layout.write_text(f"{text}\n  - {{shelf: friend, folder: friend, trust: told}}\n", "utf-8")
    said = shop.call("books", "policy")
    assert said.code == 0
    assert "not counted, because somebody else's: the policy lowbarn  [friend/policy.yaml:1:3]" in said.out
    after = shop.call("books", "policy", "--json").json
    assert after["values"] == before["values"]
    assert after["not_counted"] == [{"policy": "lowbarn", "line": "friend/policy.yaml:1:3"}]
    assert "[Q43-policy-of-others]" in shop.call("check").out


def test_what_is_counted_is_said(asked: Shop) -> None:
    """With the shop's shelf and without it."""
    assert asked.call("books", "count").out.splitlines()[0] == "the built-in shelf and shop"
    alone = asked.call("books", "count", "--built-in")
    assert alone.out.splitlines()[0] == "the built-in shelf"
    assert "shop/" not in alone.out
    assert "parts" not in alone.out.splitlines()[2]


@pytest.mark.parametrize("words", [("books",), ("books", "--help"), ("books", "count", "--help")])
def test_the_group_lists_its_commands_and_each_has_its_page(words: tuple[str, ...], asked: Shop) -> None:
    """The page stands beside the command; the group's page is followed by the first line of each."""
    said = asked.call(*words)
    assert (said.code, said.err) == (0, "")
    name = "_".join(word for word in words if word != "--help")
    page = (REPO / "src" / "fitlore" / "cli" / f"{name}.md").read_text("utf-8")
    assert said.out.startswith(page)
    if name == "books":
        assert "  policy  What is asked for before a part counts as right" in said.out
        assert "  count   How much the books know" in said.out
