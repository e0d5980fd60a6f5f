"""With `--json` a failure is one object of one shape on standard output, and words on standard error, as without it."""

from __future__ import annotations

from typing import Any

import pytest

from tests.demo.shop import Shop

KEYS = {"code", "message", "file", "line", "column", "expected", "remedy", "further"}
FAULT = {"code", "severity", "book", "line", "column", "message", "expected", "remedy"}
CALLS = [
    (("fits", "quarter", "light"), "could-not"),
    (("where", "radiator", "--on", "someday"), "could-not"),
    (("plan", "no-such-job"), "could-not"),
    (("why", "999"), "could-not"),
    (("car", "--car", "nobody"), "could-not"),
    (("fitz",), "not-understood"),
    (("fits",), "not-understood"),
    (("fits", "radiator", "--nonsense"), "not-understood"),
    (("books", "quarter"), "not-understood"),
    (("books", "import", "none.csv", "from", "castle-street"), "could-not"),
    (("books", "query", "none.rq"), "could-not"),
    (("--kb", "nowhere", "car"), "could-not"),
]


def error_of(said: Any) -> dict[str, Any]:
    """The object, with exactly its keys at both depths."""
    (error,) = said.json.values()
    assert list(said.json) == ["error"]
    assert set(error) == KEYS
    assert all(set(one) == FAULT for one in error["further"])
    return dict(error)


@pytest.mark.parametrize(("words", "code"), CALLS, ids=[" ".join(words) for words, _ in CALLS])
def test_every_failure_has_one_shape(words: tuple[str, ...], code: str, asked: Shop) -> None:
    """Exit 2 with or without `--json`, the same words on standard error; what is not known is null."""
    said, plain = asked.call(*words, "--json"), asked.call(*words)
    assert (said.code, plain.code, plain.out) == (2, 2, "")
    assert said.err == plain.err
    error = error_of(said)
    assert error["code"] == code
    assert error["message"]
    assert (error["line"], error["column"], error["further"]) == (None, None, [])
    if code == "could-not":
        assert said.err == f"fitlore: {error['message']}\n"


def test_a_fault_of_a_file_has_its_place(shop: Shop) -> None:
    """Code, file, line, column, what was expected and what to do; further ones as `check` gives them."""
    (shop.folder / "books" / "bad.yaml").write_text(
        "- part: X 1\n  iz: hose\n- part: X 2\n  iz: hose\n", "utf-8"
    )
    said = shop.call("books", "export", "csv", "of", "parts", "--json")
    assert said.code == 2
    error = error_of(said)
    assert error["file"] == "shop/bad.yaml"
    assert error["line"] in (1, 2)
    assert error["expected"]
    assert error["remedy"]
    assert error["further"]
    faults = shop.call("check", "--json").json["faults"]
    assert error["code"] in {one["code"] for one in faults}
    assert f"{error['file']}:{error['line']}:{error['column']}: error: {error['message']}" in " ".join(
        said.err.split()
    )


def test_a_question_that_is_no_sparql_has_its_place(asked: Shop) -> None:
    """From standard input too."""
    said = asked.call("books", "query", "-", "--json", stdin="SELECT ?x\n{ ?x ?y }")
    error = error_of(said)
    assert (said.code, error["code"], error["file"], error["line"]) == (
        2,
        "U30-not-sparql",
        "standard input",
        2,
    )


def test_a_file_that_cannot_be_read_is_named(shop: Shop) -> None:
    """A folder in the place of a list."""
    (shop.folder / "prices.csv").mkdir()
    error = error_of(shop.call("books", "import", "prices.csv", "from", "castle-street", "--json"))
    assert "prices.csv" in error["message"]


def test_a_word_behind_two_dashes_is_a_word(asked: Shop) -> None:
    """`-- --json` asks for no JSON."""
    said = asked.call("fits", "--", "--json")
    assert (said.code, said.out) == (2, "")
