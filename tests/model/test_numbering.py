"""Numbers by their issuer's rules: what does not count is only what the issuer says; all else tells parts apart."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.model.choices import Ignored, Meaning, Side
from fitlore.model.issuer import Affix, Issuer, SideDigit
from fitlore.model.numbering import has_look, has_rules, same_number, says_sides, side_said, spellings
from fitlore.model.numbers import number_key
from fitlore.model.record import Look, Name

PLAIN = Issuer(issuer="Brede")
ZEROS = Issuer(issuer="Velm", ignores=(Ignored.LEADING_ZEROS,))
STARS = Issuer(issuer="Ostra", looks_like=(Look("OS nnnn nnn"),), ignores=(Ignored.STARS,))
COLOUR = Issuer(
    issuer="Kestin",
    looks_like=(Look("KT nn nnnn"),),
    suffixes=(
        Affix(signs=(Look("GRY"), Look("BLU")), means=Meaning.COLOUR, only_for=(Name("door-trim"),)),
        Affix(signs=(Look("a"),), means=Meaning.REVISION),
    ),
)
EXPORT = Issuer(issuer="Tarn", prefixes=(Affix(signs=(Look("Z"),), means=Meaning.MARKET, counts=False),))


@pytest.mark.parametrize(
    ("issuer", "one", "other", "same"),
    [
        (PLAIN, "TC 941 377", "tc-941.377", True),
        (PLAIN, "0123", "123", False),
        (PLAIN, "611 047", "611 048", False),
        (PLAIN, "611 047 A", "611 047", False),
        (PLAIN, "611 047 A", "611 047 B", False),
        (PLAIN, "611*047", "611 047", False),
        (ZEROS, "0123", "123", True),
        (ZEROS, "VP 0071", "VP 71", True),
        (ZEROS, "71 0442", "71 442", False),
        (ZEROS, "701 005", "71 005", False),
        (ZEROS, "0", "00", True),
        (STARS, "OS*4021*905", "OS 4021 905", True),
        (STARS, "OS 4021 905", "OS 421 905", False),
        (COLOUR, "KT 61 2040 GRY", "KT 61 2040", True),
        (COLOUR, "KT 61 2040 GRY", "KT 61 2040 BLU", True),
        (COLOUR, "KT 61 2040 A", "KT 61 2040", False),
        (COLOUR, "KT 61 2040 RED", "KT 61 2040", False),
        (EXPORT, "Z 941 377", "941 377", True),
        (EXPORT, "Y 941 377", "941 377", False),
    ],
)
def test_what_counts_and_what_does_not(issuer: Issuer, one: str, other: str, same: bool) -> None:
    """Separators and case never do. Zeros, stars, colours, market letters do not where this issuer says so, and then only in
    front or behind, as it says; revisions, sides and classes tell parts apart."""
    category = "door-trim"
    assert same_number(issuer, one, other, category) is same
    assert same_number(issuer, other, one, category) is same


def test_a_rule_for_a_category_holds_for_that_only() -> None:
    """A colour behind trim numbers is nothing to a brake."""
    assert same_number(COLOUR, "KT 61 2040 GRY", "KT 61 2040", "door-trim")
    assert not same_number(COLOUR, "KT 61 2040 GRY", "KT 61 2040", "brake-disc")


def test_signs_are_taken_off_only_where_a_number_is_left() -> None:
    """Where the issuer says what its numbers look like, what is left must look so; else it must have a figure."""
    assert not same_number(COLOUR, "KT 61 GRY", "KT 61", "door-trim")
    bare = Issuer(issuer="Merrow", suffixes=(Affix(signs=(Look("5"),), means=Meaning.COLOUR),))
    assert not same_number(bare, "A 5", "A")


@pytest.mark.parametrize(
    ("number", "looks"),
    [("KT 61 2040", True), ("kt612040", True), ("KT 61 2040 B", True), ("KT 61 204", False), ("TC 61 2040", False),
     ("KT 61 2040 GRY", True), ("KT 6A 2040", False), ("KT ６1 2040", True)],
)  # fmt: skip
def test_whether_a_number_looks_like_one_of_theirs(number: str, looks: bool) -> None:
    """With or without the signs that may stand before and behind; compatibility forms count as the plain ones."""
    assert has_look(COLOUR, number) is looks


def test_an_issuer_without_a_look_says_nothing() -> None:
    """Neither yes nor no."""
    assert has_look(PLAIN, "anything") is None
    assert not has_rules(PLAIN)
    assert all(map(has_rules, (ZEROS, STARS, COLOUR, EXPORT)))


NUMBERS = st.from_regex(r"[A-Z]{0,2} ?[0-9]{1,4} ?[0-9]{0,3}( ?[A-Z]{0,3})?", fullmatch=True)


@given(NUMBERS, NUMBERS)
def test_without_rules_numbers_are_the_same_by_their_key_alone(one: str, other: str) -> None:
    """An issuer that says nothing leaves everything significant."""
    assert same_number(PLAIN, one, other) is (number_key(one) == number_key(other))


@given(
    st.integers(min_value=0, max_value=10**6),
    st.integers(min_value=0, max_value=10**6),
    st.integers(0, 5),
    st.integers(0, 5),
)
def test_leading_zeros_are_leading_only(one: int, other: int, zeros: int, more: int) -> None:
    """Two numbers of figures are the same where they are the same whole number, and else not."""
    assert same_number(ZEROS, "0" * zeros + str(one), "0" * more + str(other)) is (one == other)


@given(NUMBERS, st.sampled_from([ZEROS, STARS, COLOUR, EXPORT]))
def test_every_spelling_that_is_tried_can_be_found_again(number: str, issuer: Issuer) -> None:
    """The keys tried hold the number's own; there are at most some hundreds."""
    keys = spellings(issuer, number)
    assert number_key(number) in keys
    assert len(keys) <= 400


DIGIT = Issuer(
    issuer="Velm",
    looks_like=(Look("nnn nnn"),),
    suffixes=(Affix(signs=(Look("a"),), means=Meaning.REVISION),),
    side_digit=SideDigit(odd=Side.LEFT, even=Side.RIGHT, only_for=(Name("rear-lamp"),)),
)
SIGNS = Issuer(
    issuer="Tarn",
    suffixes=(
        Affix(signs=(Look("R"),), means=Meaning.SIDE, side=Side.RIGHT),
        Affix(signs=(Look("L"),), means=Meaning.SIDE, side=Side.LEFT),
    ),
)


@pytest.mark.parametrize(
    ("issuer", "number", "side"),
    [
        (DIGIT, "821 105", Side.LEFT),
        (DIGIT, "821 106", Side.RIGHT),
        (DIGIT, "821106c", Side.RIGHT),  # the last figure, not the last sign
        (DIGIT, "821 10", None),  # it does not look like one of theirs
        (DIGIT, "T 821 105", None),
        (SIGNS, "TC 84 310 R", Side.RIGHT),
        (SIGNS, "tc-84-310l", Side.LEFT),
        (SIGNS, "TC 84 310", None),
        (PLAIN, "821 105", None),
    ],
)
def test_which_side_a_number_says(issuer: Issuer, number: str, side: Side | None) -> None:
    """Asked in practice: the last figure odd is left, even is right; a letter behind; and nothing where nobody said so."""
    assert side_said(issuer, number, ("rear-lamp", "lamp-unit")) is side
    assert says_sides(issuer) is (issuer is not PLAIN)


def test_a_side_rule_for_lamps_is_none_for_hinges() -> None:
    """Rules for named kinds count there only; rules for all kinds are left aside where named ones are asked for."""
    assert side_said(DIGIT, "821 105", {"rear-lamp", "lamp-unit"}, named=True) is Side.LEFT
    assert side_said(DIGIT, "821 105", {"hinge"}) is None
    assert side_said(SIGNS, "TC 84 310 R", {"hinge"}) is Side.RIGHT
    assert side_said(SIGNS, "TC 84 310 R", {"hinge"}, named=True) is None
