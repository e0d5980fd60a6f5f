"""More laws over random small books: order of books, unknown features, waivers along a chain, exact and vague years.

The rules are the issue's and the design's, quoted in each docstring; nothing here is a fact.
"""

from __future__ import annotations

import random
from typing import Final

import msgspec
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fitlore.fitting import Word
from fitlore.fitting.interface import compare
from fitlore.fitting.shape import State
from fitlore.model.choices import How, Role
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Evidence, Part
from fitlore.model.platform import Car, Established
from fitlore.model.record import Name, Number, Rec
from tests.fitting.random_books import (
    HERE,
    POOLS,
    YES,
    Book,
    books,
    verdicts,
    with_facts,
    with_part,
    words,
)
from tests.fitting.test_laws import CLAIMED, LAW, _from_original
from tests.trade.loading import STANDARDS

VARIED: Final = ("reach", "hook", "plug")
YEARS: Final = {
    "1984": "1983/1986",
    "1984-03": "1984",
    "1986-02-03": "1986",
    "1985": "1982/1988",
    "1983-06": "198X",
}
"""An exact building date, and a vaguer one that holds it."""


def in_books(book: Book, names: list[str]) -> list[Rec]:
    """The records, each in one of these books, at a line of its own."""
    rows = book.records()
    return [
        msgspec.structs.replace(row, origin=Origin(names[n % len(names)], n + 1, 3))
        for n, row in enumerate(rows)
    ]


@given(
    books(), st.permutations(["shop/a.yaml", "shop/b.yaml", "shop/c.yaml"]), st.randoms(use_true_random=False)
)
@LAW
def test_the_order_of_books_says_nothing(book: Book, names: list[str], rng: random.Random) -> None:
    """ "Verdicts do not depend on the order of books": neither on their names nor on which is read first."""
    one = verdicts(book, in_books(book, ["shop/a.yaml", "shop/b.yaml", "shop/c.yaml"]))
    moved = in_books(book, names)
    rng.shuffle(moved)
    other = verdicts(book, moved)
    for number, verdict in one.items():
        assert verdict.word is other[number].word, number
        assert set(verdict.asks) == set(other[number].asks), number
        assert set(verdict.missing) == set(other[number].missing), number


@given(books(), st.data())
@LAW
def test_a_forgotten_feature_never_makes_a_fit_of_what_nobody_claims(book: Book, data: st.DataObject) -> None:
    """ "An unknown feature never turns into a fit": forgotten of any part, an original too, it grants no fit by measure.

    An optional feature, and one that only joins, is compared where both sides say it, and missed where they do not.
    """
    number = data.draw(st.sampled_from([part.part for part in book.parts if part.features] or [""]))
    assume(number)
    part = next(part for part in book.parts if part.part == number)
    required = [
        name
        for name in part.features
        if (d := book.category.features[name]).role is not Role.JOINS and not d.optional
    ]
    assume(required)
    name = data.draw(st.sampled_from(sorted(required)))
    rest = {feature: values for feature, values in part.features.items() if feature != name}
    before, after = words(book), verdicts(with_part(book, number, features=rest))
    for other, verdict in after.items():
        if verdict.word is Word.BY_MEASURE:
            assert before[other] in YES, other
            known = {check.feature for check in verdict.checks if check.state is not State.UNKNOWN}
            assert {check.feature for check in verdict.checks if check.required} <= known


@st.composite
def steps(draw: st.DrawFn) -> tuple[CrossFit, CrossFit, Book]:
    """Two good claims in a row with waivers on either, and parts that are known whole and differ in a few features."""
    waives = st.lists(st.sampled_from(VARIED), max_size=2, unique=True)
    fitted = (Evidence(how=How.FITTED, by="hale"),)
    first, second = (
        CrossFit(
            crossfit=Name(name),
            instead_of=Number(old),
            use=Number(new),
            reaches=(HERE,),
            waives=tuple(map(Name, draw(waives))),
            evidence=fitted,
        )
        for name, old, new in (("one", "KT 1", "TC 1"), ("two", "TC 1", "TC 2"))
    )
    usual = {name: (values[0],) for name, values in POOLS.items()}
    other = {name: (draw(st.sampled_from([usual[name][0], POOLS[name][-1]])),) for name in VARIED}
    third = {name: (draw(st.sampled_from([usual[name][0], POOLS[name][-1]])),) for name in VARIED}
    parts = tuple(
        Part(part=Number(number), maker="Kestin", is_=Name("lever"), features=usual | varied)
        for number, varied in (("KT 1", {}), ("TC 1", other), ("TC 2", third))
    )
    book = draw(books())
    return first, second, book._replace(parts=parts, car=Car(car=Name("green"), is_=HERE))


def same(book: Book, name: str, one: str, other: str) -> bool:
    """Whether two parts of the book agree in a feature, as their category compares it."""
    values = [part.features[name][0] for number in (one, other) for part in book.parts if part.part == number]
    return compare(book.category.features[name], *values, STANDARDS).state is State.OK


@given(steps())
@settings(LAW, max_examples=120)
def test_a_waiver_reaches_no_further_than_its_own_link(made: tuple[CrossFit, CrossFit, Book]) -> None:
    """What the work of one step takes care of is the step from the part before to the part behind it, and no other.

    What a fit over two claims is off in is waived by the one, and waived by the other or the same across it.
    """
    first, second, base = made
    verdict = verdicts(_from_original(base, "KT 1")._replace(claims=(first, second)))["TC 2"]
    if verdict.word not in YES or len(verdict.way.claims) < 2:
        return
    for check in verdict.checks:
        if check.state is State.OFF and check.definition.role is not Role.LOOKS:
            name = check.feature
            assert name in (*first.waives, *second.waives)
            assert name in first.waives or same(base, name, "KT 1", "TC 1")
            assert name in second.waives or same(base, name, "TC 1", "TC 2")


@given(steps())
@settings(LAW, max_examples=120)
def test_a_chain_leads_only_over_what_goes_itself(made: tuple[CrossFit, CrossFit, Book]) -> None:
    """ "A chain is never better than its weakest scope": over a part that does not go here by its measures, nothing is proven."""
    first, second, base = made
    book = _from_original(base, "KT 1")
    verdict = verdicts(book._replace(claims=(first, second)))["TC 2"]
    if verdict.word in CLAIMED and len(verdict.way.claims) == 2:
        assert words(book._replace(claims=(first,)))["TC 1"] in YES


@given(books(), st.sampled_from(sorted(YEARS)))
@LAW
def test_an_exact_building_year_never_asks_more_than_a_vague_one(book: Book, exact: str) -> None:
    """ "A question is asked only if its answer matters": what is known better leaves no more to be asked of the car.

    Without papers, which may contradict what was seen and are then asked about.
    """
    known = {name: fact for name, fact in book.car.facts.items() if name != "registered"}
    vague = verdicts(with_facts(book, known | {"built": Established(value=(YEARS[exact],))}))
    sharp = verdicts(with_facts(book, known | {"built": Established(value=(exact,))}))
    for number, verdict in sharp.items():
        asked = {ask.name for ask in verdict.asks if ask.about == "fact"}
        before = {ask.name for ask in vague[number].asks if ask.about == "fact"}
        if "built" in asked:
            assert "built" in before, number
        if vague[number].word in YES:
            assert verdict.word in YES, number
