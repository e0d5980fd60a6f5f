"""What nobody has looked at yet on a car belongs among the questions: over small books of our own, nothing here is a fact."""

from __future__ import annotations

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.fitting import Answer, Question, Word, answer
from fitlore.model.category import Category, Feature
from fitlore.model.choices import Role, SafetyClass
from fitlore.model.part import Part
from fitlore.model.platform import Assembly, Car, Original, Place, Platform, ReallyOn
from fitlore.model.record import Name, Number
from tests.fitting.random_books import HERE, POLICY, Book, books, graph_of, level, words
from tests.fitting.test_laws import LAW

LEVER = Category(
    category=Name("lever"),
    names={"en-gb": "brake lever", "de": "Hebel"},
    safety=SafetyClass.BRAKING,
    look_first=(Name("mark"),),
    features={"mark": Feature(kind="text", role=Role.MATES)},
)


def asked(not_looked_at: tuple[str, ...], category: Category = LEVER, **car: object) -> Answer:
    """One place with an original and an equal part that nobody claims."""
    lever = Place(is_=Name("lever"), original=(Original(number=Number("KT 1")),))
    arm = Assembly(called=("back brakes",), places={Name("handle"): lever})
    platform = Platform(platform=HERE, maker="Kestin", assemblies={Name("rear-arm"): arm})
    marks = {"mark": ("T",)}
    parts = [
        Part(part=Number(n), maker="Kestin", is_=Name("lever"), features=marks) for n in ("KT 1", "BR 1")
    ]
    green = Car(car=Name("green"), is_=HERE, not_looked_at=not_looked_at)
    graph = graph_of([POLICY, category, platform, *parts])
    place = graph.place(HERE, "rear-arm/handle")
    assert place is not None
    return answer(graph, Question(place, msgspec.structs.replace(green, **car)))


def found(reply: Answer) -> dict[str, Word]:
    """The words."""
    return {verdict.part.part: verdict.word for verdict in reply.verdicts}


@pytest.mark.parametrize("text", ["rear arm", "levers", "back brakes", "Handle", "Hebel", "brake lever"])
def test_a_place_is_meant_by_its_assembly_its_kind_or_its_own_name(text: str) -> None:
    """Then it is asked first, and what is no original hangs on it; the original goes as the book says."""
    reply = asked((text,))
    assert [(ask.about, ask.name) for ask in reply.asks] == [("place", "rear-arm/handle")]
    assert "mark" in reply.asks[0].look
    assert found(reply) == {"KT 1": Word.FITS, "BR 1": Word.DEPENDS}


@pytest.mark.parametrize("text", ["front arm", "brakes and sills", "hose", ""])
def test_what_is_said_of_something_else_asks_nothing(text: str) -> None:
    """A word that is none of the place's own means another one."""
    reply = asked((text,))
    assert reply.asks == ()
    assert found(reply) == {"KT 1": Word.FITS, "BR 1": Word.BY_MEASURE}


def test_what_somebody_saw_there_is_asked_no_more() -> None:
    """A number that is known to be on the car is what was looked at."""
    on_it = {"rear-arm/handle": ReallyOn(number=Number("KT 1"))}
    assert asked(("levers",), really_on_it=on_it).asks == ()


def test_where_nobody_comes_to_harm_it_is_only_said() -> None:
    """And a kind that need not be looked at first asks nothing at all."""
    gentle = msgspec.structs.replace(LEVER, safety=SafetyClass.NONE)
    assert asked(("levers",), gentle).asks != ()
    assert found(asked(("levers",), gentle))["BR 1"] is Word.BY_MEASURE
    assert asked(("levers",), msgspec.structs.replace(LEVER, look_first=())).asks == ()


@given(books(), st.sampled_from(["arm", "lever", "pin", "levers"]))
@LAW
def test_not_having_looked_never_raises_a_verdict(book: Book, text: str) -> None:
    """ "Unknown is never yes"."""
    blind = book._replace(car=msgspec.structs.replace(book.car, not_looked_at=(text,)))
    after = words(blind)
    for number, word in words(book).items():
        assert level(after[number]) >= level(word), number
