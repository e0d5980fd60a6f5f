"""Laws of the fitting room over random small books; each docstring quotes the rule it comes from.

The rules are those of the project's design and DEVELOPERS.md: "A wrong fits is the worst bug. Unknown is never yes."
"""

from __future__ import annotations

import random

import msgspec
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from fitlore.fitting.evidence import class_policy, weigh
from fitlore.fitting.shape import State, Word
from fitlore.graph.policy import in_force
from fitlore.model.category import Category
from fitlore.model.choices import Goes, How, Role, SafetyClass
from fitlore.model.part import CrossFit, Evidence, Never, Part, Replacement
from fitlore.model.platform import Assembly, Car, Established, Original, Place, Platform
from fitlore.model.record import Name, Number, Rec
from tests.fitting.random_books import (
    ELSEWHERE,
    HERE,
    ORIGINALS,
    OTHERS,
    POLICY,
    VAGUE,
    YES,
    Book,
    books,
    claims,
    evidences,
    level,
    measured_books,
    nevers,
    verdicts,
    with_claim,
    with_facts,
    with_part,
    words,
)

LAW = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
CLAIMED = (Word.FITS, Word.FITS_WITH_WORK)


@given(books(), st.data())
@LAW
def test_evidence_against_never_raises_a_verdict(book: Book, data: st.DataObject) -> None:
    """ "The shop's own trial speaks against"; "somebody's trial says no: both are shown".

    The part it speaks against comes no nearer to a yes, and no other part becomes a claimed fit by it.
    """
    index = data.draw(st.integers(0, len(book.claims) - 1))
    claim = book.claims[index]
    after = words(with_claim(book, index, against=(*claim.against, data.draw(evidences()))))
    before = words(book)
    assert level(after[claim.use]) >= level(before[claim.use])
    assert all(before[number] in CLAIMED for number, word in after.items() if word in CLAIMED)


@given(books(), st.data())
@LAW
def test_a_forbidden_pair_never_raises_a_verdict(book: Book, data: st.DataObject) -> None:
    """ "`never-with` looks at what stays on the car too"."""
    index = data.draw(st.integers(0, len(book.claims) - 1))
    never = data.draw(nevers())
    after = words(with_claim(book, index, never_with=(*book.claims[index].never_with, *never)))
    for number, word in words(book).items():
        assert level(after[number]) >= level(word), number


@given(measured_books(), st.data())
@LAW
def test_a_forgotten_feature_never_makes_a_measured_fit_better(
    made: tuple[Book, Part], data: st.DataObject
) -> None:
    """ "Unknown is never yes": "by-measure: every required mates, works and safe feature is known and satisfied"."""
    book, part = made
    assume(words(book)[part.part] is Word.BY_MEASURE)
    feature = data.draw(st.sampled_from(sorted(part.features)))
    rest = {name: values for name, values in part.features.items() if name != feature}
    after = words(with_part(book, part.part, features=rest))[part.part]
    definition = book.category.features[feature]
    required = definition.role is not Role.JOINS and not definition.optional
    assert after is (Word.UNPROVEN if required else Word.BY_MEASURE)


@given(books(), st.data())
@LAW
def test_a_forgotten_fact_never_turns_a_no_into_a_yes(book: Book, data: st.DataObject) -> None:
    """ "A condition is unknown: the questions to ask"; unknown facts ask, they do not grant."""
    assume(book.car.facts)
    gone = data.draw(st.sampled_from(sorted(book.car.facts)))
    after = words(with_facts(book, {n: f for n, f in book.car.facts.items() if n != gone}))
    for number, word in words(book).items():
        if word is Word.DOES_NOT_FIT:
            assert after[number] not in YES, number


@given(books(), st.sampled_from(sorted(VAGUE)))
@LAW
def test_a_vaguer_fact_never_makes_a_yes_that_was_none(book: Book, name: str) -> None:
    """ "True only if true for each": a yes for one of these engines, not known which, is a yes for each of them."""
    known = {
        n: f for n, f in book.car.facts.items() if n != "registered"
    }  # papers that contradict each other only ask
    vague = words(with_facts(book, known | {name: Established(value=VAGUE[name])}))
    for value in VAGUE[name]:
        exact = words(with_facts(book, known | {name: Established(value=(value,))}))
        for number, word in vague.items():
            if word in YES:
                assert exact[number] in YES, (number, value)


@given(books())
@LAW
def test_forgetting_what_is_at_another_place_never_turns_a_no_into_a_yes(book: Book) -> None:
    """ "never-with, other part unknown: depends": not knowing what is on the car grants nothing.

    For what the maker himself put there, his book answers for the other place as well.
    """
    bare = book._replace(car=msgspec.structs.replace(book.car, really_on_it={}))
    after = verdicts(bare)
    for number, word in words(book).items():
        if word is Word.DOES_NOT_FIT and after[number].word in YES:
            assert after[number].way.kind in ("original", "successor"), number


@given(books(), st.data())
@LAW
def test_weaker_evidence_never_raises_a_verdict(book: Book, data: st.DataObject) -> None:
    """ "Evidence reaches the threshold of the safety class": what was fitted, and is now only told, proves no more."""
    index = data.draw(st.integers(0, len(book.claims) - 1))
    claim = book.claims[index]
    which = data.draw(st.integers(0, len(claim.evidence) - 1))
    weaker = [
        msgspec.structs.replace(piece, how=How.TOLD) if place == which else piece
        for place, piece in enumerate(claim.evidence)
    ]
    after = words(with_claim(book, index, evidence=tuple(weaker)))
    before = words(book)
    assert level(after[claim.use]) >= level(before[claim.use])
    assert all(before[number] in CLAIMED for number, word in after.items() if word in CLAIMED)


@given(books(), st.randoms(use_true_random=False))
@LAW
def test_the_order_of_records_says_nothing(book: Book, rng: random.Random) -> None:
    """ "Order never carries meaning": the same words, questions and gaps in whatever order the records stand."""
    shuffled: list[Rec] = book.records()
    rng.shuffle(shuffled)
    first, second = verdicts(book), verdicts(book, shuffled)
    for number, verdict in first.items():
        other = second[number]
        assert verdict.word is other.word, number
        assert set(verdict.asks) == set(other.asks)
        assert set(verdict.missing) == set(other.missing)


@given(books(), st.permutations([*ORIGINALS, *OTHERS]))
@LAW
def test_names_of_parts_say_nothing(book: Book, order: list[str]) -> None:
    """ "A number belongs to its issuer" and means nothing else: renaming all parts changes nothing."""
    new = {old: f"ZZ {order.index(old) + 70}" for old in [*ORIGINALS, *OTHERS]}
    renamed = _renamed(book, new)
    after = words(renamed)
    assert {new[number]: word for number, word in words(book).items()} == after


@given(books(reaches=(ELSEWHERE,)))
@LAW
def test_claims_made_elsewhere_are_never_a_fit_here(book: Book) -> None:
    """ "A link made elsewhere is a hint: unproven, with what to measure"."""
    for number, verdict in verdicts(book).items():
        assert not (verdict.word in CLAIMED and verdict.way.claims), number


@given(claims("one"), claims("two"), books())
@LAW
def test_a_chain_is_never_better_than_its_weakest_link(one: CrossFit, two: CrossFit, book: Book) -> None:
    """ "A chain A->B->C holds where both links reach the place asked about"; "each link must reach the threshold"."""
    first = msgspec.structs.replace(one, instead_of=Number("KT 1"), use=Number("TC 1"), goes=Goes.ONE_WAY)
    second = msgspec.structs.replace(two, instead_of=Number("TC 1"), use=Number("TC 2"), goes=Goes.ONE_WAY)
    bare = [Part(part=Number(n), maker="Kestin", is_=Name("lever")) for n in ("KT 1", "TC 1", "TC 2")]
    base = book._replace(parts=tuple(bare))
    chain = words(_from_original(base, "KT 1")._replace(claims=(first, second)))["TC 2"]
    links = (
        words(_from_original(base, "KT 1")._replace(claims=(first,)))["TC 1"],
        words(_from_original(base, "TC 1")._replace(claims=(second,)))["TC 2"],
    )
    far = [min(level(word), level(Word.UNPROVEN)) for word in links]
    assert level(chain) >= max(far)


@given(books())
@LAW
def test_a_trap_is_never_a_yes(book: Book) -> None:
    """ "A trap stands"; elsewhere "a first-hand claim makes it disputed", never more."""
    for number, verdict in verdicts(book).items():
        if any(check.state is State.TRAP for check in verdict.checks):
            assert verdict.word in (Word.DOES_NOT_FIT, Word.DISPUTED), number
            assert verdict.danger


@given(books(mirror=True), st.sampled_from(["left", "right", ""]))
@LAW
def test_the_other_side_is_never_a_yes(book: Book, side: str) -> None:
    """ "Mirror": left and right ones differ; "missing side = both are answered", so that no side is no yes for one."""
    found = words(book, side=side)
    for part in book.parts:
        if part.side is not None and part.side.value not in (side, "either"):
            assert found[part.part] not in YES, part.part
        if part.side is None:
            assert found[part.part] not in YES or _twin_with_side(book, part), part.part


@given(books())
@LAW
def test_a_claimed_fit_stands_on_enough_evidence(book: Book) -> None:
    """ "Claimed, evidence reaches the threshold of the safety class": every claim of the leading way by itself."""
    rules = class_policy(in_force([book.policy]), book.category.safety or pytest.fail("no class"))
    for number, verdict in verdicts(book).items():
        if verdict.word in CLAIMED:
            for claim in verdict.way.claims:
                weighed = weigh(claim, rules, "shop")
                assert weighed.enough, number
                assert weighed.against == "", number


@given(books(), st.sampled_from(["", "left"]))
@LAW
def test_a_depends_names_what_to_ask_and_a_yes_asks_nothing(book: Book, side: str) -> None:
    """ "Depends: a condition is unknown: the questions to ask or things to look at"."""
    for number, verdict in verdicts(book, side=side).items():
        if verdict.word is Word.DEPENDS:
            assert verdict.asks, number
        if verdict.word in CLAIMED:
            assert not verdict.asks or verdict.way.start is not None, number
        if verdict.word is Word.BY_MEASURE:
            assert not verdict.asks, number
            assert not verdict.missing, number


@given(books())
@LAW
def test_a_measured_fit_agrees_in_every_required_feature(book: Book) -> None:
    """ "By-measure: nobody claims it, every required mates, works and safe feature is known and satisfied"."""
    for number, verdict in verdicts(book).items():
        if verdict.word is Word.BY_MEASURE:
            states = {check.state for check in verdict.checks if check.required}
            assert states <= {State.OK, State.WORK}, number
            assert states, number


def test_a_trial_by_anybody_else_is_shown_as_a_dispute() -> None:
    """ "Disputed: somebody claims it fits, and a measurement or somebody's trial says no": one worked pair of books."""
    good = Evidence(how=How.FITTED, by="hale")
    claim = CrossFit(
        crossfit=Name("one"), instead_of=Number("KT 1"), use=Number("TC 1"), reaches=(HERE,), evidence=(good,)
    )
    bare = tuple(Part(part=Number(n), maker="Kestin", is_=Name("lever")) for n in ("KT 1", "TC 1"))
    book = _from_original(_plain()._replace(parts=bare, claims=(claim,)), "KT 1")
    assert words(book)["TC 1"] is Word.FITS
    bad = Evidence(how=How.FITTED, by="quill")
    assert words(with_claim(book, 0, against=(bad,)))["TC 1"] is Word.DISPUTED
    own = Evidence(how=How.OFFERED_UP, by="shop")
    assert words(with_claim(book, 0, against=(own,)))["TC 1"] is Word.DOES_NOT_FIT


def _plain() -> Book:
    arm = Assembly(places={Name("lever"): Place(is_=Name("lever"))})
    return Book(
        policy=POLICY,
        category=Category(category=Name("lever"), safety=SafetyClass.NONE),
        platforms=(Platform(platform=HERE, maker="Kestin", assemblies={Name("arm"): arm}),),
        parts=(),
        claims=(),
        car=Car(car=Name("green"), is_=HERE),
    )


def _from_original(book: Book, number: str) -> Book:
    """The book with this one original, for every car, and nothing demanded besides."""
    platform = book.platforms[0]
    arm = platform.assemblies[Name("arm")]
    lever = Place(is_=Name("lever"), original=(Original(number=Number(number)),))
    places = arm.places | {Name("lever"): lever}
    changed = msgspec.structs.replace(
        platform, assemblies={Name("arm"): msgspec.structs.replace(arm, places=places)}
    )
    return book._replace(platforms=(changed, *book.platforms[1:]))


def _twin_with_side(book: Book, part: Part) -> bool:
    """Whether another number of the very same part may say which side it is for."""
    return bool(part.same_as or part.replaced_by) or any(
        part.part in other.same_as or any(r.number == part.part for r in other.replaced_by)
        for other in book.parts
    )


def _renamed(book: Book, new: dict[str, str]) -> Book:
    def number(old: str) -> Number:
        return Number(new.get(old, old))

    def part(old: Part) -> Part:
        replaced = tuple(
            Replacement(number=number(r.number), reason=r.reason, waives=r.waives) for r in old.replaced_by
        )
        return msgspec.structs.replace(
            old, part=number(old.part), replaced_by=replaced, same_as=tuple(map(number, old.same_as))
        )

    def claim(old: CrossFit) -> CrossFit:
        never = tuple(Never(use=tuple(map(number, n.use)), at=n.at, why=n.why) for n in old.never_with)
        return msgspec.structs.replace(
            old, instead_of=number(old.instead_of or ""), use=number(old.use), never_with=never
        )

    platform = book.platforms[0]
    arm = platform.assemblies[Name("arm")]
    lever = arm.places[Name("lever")]
    originals = tuple(Original(number=number(o.number), only_if=o.only_if) for o in lever.original)
    places = arm.places | {Name("lever"): msgspec.structs.replace(lever, original=originals)}
    moved = msgspec.structs.replace(
        platform, assemblies={Name("arm"): msgspec.structs.replace(arm, places=places)}
    )
    return book._replace(
        platforms=(moved, *book.platforms[1:]),
        parts=tuple(map(part, book.parts)),
        claims=tuple(map(claim, book.claims)),
    )
