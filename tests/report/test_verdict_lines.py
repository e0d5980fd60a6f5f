"""Verdicts in words: danger first, the reason before the name, and the demo shop's stories told rightly."""

from __future__ import annotations

import msgspec
import pytest

from fitlore.fitting import Answer, Question, Word, answer
from fitlore.graph.open import Graph, open_graph
from fitlore.model.choices import How
from fitlore.model.part import Evidence
from fitlore.report.text import plain
from fitlore.report.verdicts import answer_lines, best_word, car_line, closing, summary
from tests.demo.shop import REPO


@pytest.fixture(scope="module")
def graph(tmp_path_factory: pytest.TempPathFactory) -> Graph:
    """The demo shop, opened with a snapshot of its own."""
    return open_graph(REPO / "demo" / "lowbarn", cache=tmp_path_factory.mktemp("cache"))


def asked(graph: Graph, path: str, car: str = "green", side: str = "") -> Answer:
    """The answer for a place on a car."""
    found = graph.car(car)
    assert found is not None
    place = graph.place(found.is_, path)
    assert place is not None
    return answer(graph, Question(place, found, side, both=not side))


def words(reply: Answer, width: int = 100) -> list[str]:
    """The answer's lines."""
    return plain(answer_lines(reply), width).splitlines()


def test_a_danger_stands_above_every_candidate_at_every_width(graph: Graph) -> None:
    """Also above the one that fits, whole, with how to tell on the bench."""
    reply = asked(graph, "brakes/stop-lamp-switch")
    for width in range(40, 121, 8):
        rows = words(reply, width)
        at = next(n for n, row in enumerate(rows) if row.startswith("! Ostra OS 7133 04: "))
        assert at < min(n for n, row in enumerate(rows) if row.lstrip().startswith("1 "))
        text = " ".join(row.strip() for row in rows)
        assert "feels tight after about 4.6 turns and then strips" in text
        assert "ten threads measure 10.6 mm, not 10.0 mm" in text


def test_parts_with_the_same_trap_share_its_line(graph: Graph) -> None:
    """The Tolland's and the Corva's stud are the same trap in the Packet's hub."""
    text = " ".join(row.strip() for row in words(asked(graph, "rear-axle/wheel-stud")))
    assert text.count("! ") == 1
    assert "! Kestin KT 42 1110 and Tarn TC 423 050: 7/16-20 UNF in M12x1.25" in text


def test_whose_axle_it_is_is_said(graph: Graph) -> None:
    """On the green estate the Packet's, with the Packet's chassis to be asked; on the white one its own."""
    green, white = asked(graph, "rear-axle/brake-drum"), asked(graph, "rear-axle/brake-drum", "white-tolland")
    assert words(green)[0] == "rear-axle/brake-drum: on this car the rear-axle is a velm-packet's"
    assert "ask the velm-packet's chassis: VP ../38210" in " ".join(row.strip() for row in words(green))
    assert words(white)[0] == "rear-axle/brake-drum"


def test_a_no_says_why_before_anything_else_and_asks_nothing(graph: Graph) -> None:
    """What does not fit leads to no question and no work."""
    for path in ("rear-axle/wheel-cylinder", "rear-axle/wheel-bearing", "rear-axle/brake-drum"):
        for verdict in asked(graph, path).verdicts:
            if verdict.word is Word.DOES_NOT_FIT:
                text = summary(verdict)
                assert ", needed " in text.partition(";")[0]
                assert not any(word in text for word in ("ask ", "look at", "work:", "measure "))


def test_of_many_differences_three_are_named_and_the_rest_counted(graph: Graph) -> None:
    """The old shoes differ from the Packet's in four ways."""
    old = next(v for v in asked(graph, "rear-axle/brake-shoes").verdicts if v.word is Word.DOES_NOT_FIT)
    assert summary(old).count(", needed ") == 3
    assert "1 more differs" in summary(old)


def test_work_is_told_with_its_minutes(graph: Graph) -> None:
    """Every part that fits with work says which, or with what."""
    found = 0
    for place in graph.places("kestin-tolland"):
        for verdict in asked(graph, place.path, side=place.sides[0] if place.sides else "").verdicts:
            text = summary(verdict)
            assert "see why" not in text
            assert "(0 min)" not in text
            if verdict.word is Word.FITS_WITH_WORK:
                found += 1
                assert any(word in text for word in ("work: ", "with ", "also needs ", "keep "))
    assert found >= 5


def test_the_best_word_is_first_hand_and_echoes_are_counted_once() -> None:
    """Three who repeat one letter are one source; whoever fitted it himself is heard first."""
    told = Evidence(how=How.TOLD, by="one", source="club letter 41")
    pieces = [told, msgspec.structs.replace(told, by="two"), msgspec.structs.replace(told, by="three")]
    assert best_word(pieces) == "told: club letter 41, told 3 times, one source"
    assert (
        best_word([*pieces, Evidence(how=How.FITTED, by="shop", lasted="9 months")])
        == "fitted by shop, lasted 9 months"
    )
    assert best_word([]) == "nobody vouches for it"


def test_cautions_are_said_once_for_all_places(graph: Graph) -> None:
    """Two places of the brakes share them; who decides in the end stands last."""
    answers = [asked(graph, "rear-axle/wheel-cylinder"), asked(graph, "brakes/stop-lamp-switch")]
    rows = plain(closing("Somebody decides.", answers), 200).splitlines()
    cautions = {text for reply in answers for text in reply.cautions}
    assert sorted(rows[1:-1]) == sorted(cautions)
    assert rows[-1] == "Somebody decides."
    assert closing("") == []


def test_the_car_line_says_the_car_and_no_more(graph: Graph) -> None:
    """Its facts are `car`'s affair; without a car it says so."""
    car = graph.car("green")
    assert car_line(car).text.replace("\u00a0", " ") == "the green estate (kestin-tolland)"
    assert car_line(None).text == "no car picked"
    assert car_line(None, "velm-packet").text == "no car picked; asked of any velm-packet"
