"""Exit codes, and what goes to which stream: 0 is yes, 1 is no, 2 is no answer; standard output holds the answer only."""

from __future__ import annotations

import pytest

from tests.demo.shop import Said, Shop

CAR = "the green estate (kestin-tolland)"
ON = ("--on", "2026-12-03")
CALLS = [
    (("car",), 0),
    (("car", "--car", "nobody"), 2),
    (("fits", "rear wheel cylinder"), 0),
    (("fits", "OS 7133 04 in stop lamp switch"), 1),
    (("fits", "rear left wheel cylinder"), 1),
    (("fits", "rear brakes"), 1),
    (("fits", "quarter light"), 2),
    (("where", "radiator", *ON), 0),
    (("where", "front indicator left", *ON), 1),
    (("where", "quarter light", *ON), 2),
    (("plan",), 0),
    (("plan", "by 2026-12-04"), 1),
    (("plan", "by quarter light"), 2),
    (("why", "999"), 2),
    (("check",), 0),
    (("what", "bearing 17 x 40 x 12"), 0),
    (("what", "bearing 17 x 90 x 3"), 1),
    (("what", "wheel cylinder"), 0),
    (("what", "flux compensator"), 2),
    (("what", "whatnot 17 x 40"), 2),
    (("compare", "M10x1 with m10 x 1,0"), 0),
    (("compare", "M10x1 with 3/8-24 UNF"), 1),
    (("compare", "M10x1"), 2),
    (("compare", "quarter with light"), 2),
    (("compare", "10 with 13 --as", "quarter"), 2),
    (("books", "policy"), 0),
    (("books", "policy", "quarter"), 2),
    (("books", "count"), 0),
    (("books", "query"), 0),
    (("books", "query", "weak-points"), 0),
    (("books", "query", "quarter"), 2),
    (("books", "shelf"), 0),
    (("books", "shelf", "add", "quarter"), 2),
    (("books", "start", "."), 2),
    (("books", "quarter"), 2),
]


def answered(said: Said, code: int) -> None:
    """An answer is on standard output alone; no answer leaves it empty and is a line on standard error."""
    assert said.code == code, said
    if code < 2:
        assert (said.err, bool(said.out)) == ("", True)
    else:
        assert said.out == ""
        assert (
            said.err.startswith(("fitlore: ", "Usage: fitlore ")) or ": error: " in said.err.splitlines()[0]
        )
        assert said.err.count("fitlore: ") <= 1


@pytest.mark.parametrize(("words", "code"), CALLS, ids=[" ".join(words) for words, _ in CALLS])
def test_the_exit_code_says_yes_no_or_could_not(words: tuple[str, ...], code: int, asked: Shop) -> None:
    """0, 1 and 2 are each reached by each command that can say them."""
    answered(asked.call(*words), code)


@pytest.mark.parametrize(
    ("words", "code"), [row for row in CALLS if row[1] < 2 and row[0][0] not in ("check", "compare", "books")]
)
def test_answers_start_with_the_car(words: tuple[str, ...], code: int, asked: Shop) -> None:
    """The first line of every answer is the car it is for."""
    assert asked.call(*words).out.splitlines()[0] == CAR


def test_why_starts_with_the_car_that_was_asked_of(asked: Shop) -> None:
    """Even where another one is picked by now: the proof is about the car of the question."""
    asked.call("fits", "stop", "lamp", "switch", "--car", "blue-forty")
    said = asked.call("why", "1")
    answered(said, 0)
    assert said.out.splitlines()[:2] == [
        "the blue forty",
        "line 1 of: fits stop lamp switch --car blue-forty",
    ]


def test_check_says_no_where_a_book_has_an_error(shop: Shop) -> None:
    """A warning is no error: the demo shop has some and is sound."""
    assert "warning" in shop.call("check").out
    (shop.folder / "books" / "bad.yaml").write_text(
        "- part: ZZ 1\n  is: radiator\n  colour: green\n", "utf-8"
    )
    said = shop.call("check")
    assert said.code == 1
    assert "books/bad.yaml:3:3: error: " in said.out


def test_no_car_is_a_no_unless_it_was_wished(shop: Shop) -> None:
    """`car --none` did what was asked; `car` then has nothing to show but the cars there are."""
    assert shop.call("car", "--none").code == 0
    said = shop.call("car")
    assert said.code == 1
    assert said.out.splitlines()[:2] == [
        "no car picked",
        "  green          the green estate (kestin-tolland)",
    ]


def test_without_a_car_the_platform_is_said_in_front(shop: Shop) -> None:
    """The readings on all platforms are listed; with the platform's name in front the question is one again."""
    shop.call("car", "--none")
    said = shop.call("fits", "rear wheel cylinder")
    answered(said, 2)
    assert "kestin-tolland/rear-axle/wheel-cylinder" in said.err
    assert "velm-packet/rear-axle/wheel-cylinder" in said.err
    said = shop.call("fits", "kestin tolland rear wheel cylinder")
    assert said.code == 1
    assert said.out.splitlines()[0] == "no car picked; asked of any kestin-tolland"


def test_nothing_asked_and_nothing_numbered_are_told_apart(shop: Shop) -> None:
    """`why` before any question, and after an answer that has no numbered lines."""
    said = shop.call("why", "1")
    answered(said, 2)
    assert "nothing was asked yet" in said.err
    shop.call("plan", "--seconds", "0.001")
    said = shop.call("why")
    answered(said, 2)
    assert "plan --seconds 0.001" in said.err
    assert "no numbered lines" in said.err


def test_a_number_out_of_range_says_which_there_are(asked: Shop) -> None:
    """`why 999` names the question and its numbers."""
    asked.call("fits", "stop lamp switch")
    said = asked.call("why", "999")
    answered(said, 2)
    assert "fits stop lamp switch" in said.err
    assert "lines 1 to 3" in said.err


def test_a_plan_stopped_before_the_proof_is_no_yes(shop: Shop) -> None:
    """`--seconds` too few: exit 2, and it says that a plan may exist all the same."""
    found = shop.call("plan", "--seconds", "0.001")
    assert found.code == 2
    assert "stopped before any plan was found" in found.out
    assert "proven: no mix" not in found.out
