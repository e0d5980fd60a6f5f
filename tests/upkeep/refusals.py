"""The smallest attempt at each change that is objected to or refused: the book as it is, what is asked, what is then said."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final
from unittest.mock import patch

from fitlore.books import amend, files
from fitlore.books.amend import NewRecord as RecordEdit
from fitlore.graph.open import Graph
from fitlore.model.choices import Goes, How
from fitlore.model.diagnostic import Diagnostic
from fitlore.model.part import CrossFit
from fitlore.upkeep import journal
from fitlore.upkeep.addition import Addition, MoreEvidence, NewClaim, SpeaksAgainst, Withdrawal
from fitlore.upkeep.check import check, with_lines
from fitlore.upkeep.record import record
from fitlore.upkeep.rewriting import own_books, tidied, write
from fitlore.upkeep.undo import undo
from tests.upkeep import price_lists, questions, shelf_attempts
from tests.upkeep.attempt import Attempt
from tests.upkeep.lowbarn import TODAY, claim, draft_at, graph_at, piece
from tests.upkeep.standards import tables

SHOP: Final = "shop: lowbarn\nshelves:\n  - {shelf: shop, folder: books}\n  - {shelf: club, folder: club, trust: printed}\n"
KINDS: Final = """\
- category: hose
  safety: none
  features:
    bore: {kind: length, role: mates}
    bolt: {kind: thread, role: mates, end: female, optional: yes}
"""
PARTS: Final = (
    KINDS
    + "- part: KT 1\n  is: hose\n  features: {bore: 32 mm}\n- part: OS 7\n  is: hose\n  features: {bore: 32 mm}\n"
)
CLAIM: Final = "- crossfit: old\n  instead-of: KT 1\n  use: OS 7\n  evidence: [{how: told, by: Hale}]\n"


def drafted(addition: Addition) -> Callable[[Path], tuple[Diagnostic, ...]]:
    """What a draft of this addition objects to."""
    return lambda folder: draft_at(folder, addition).objections


def on_claim(make: Callable[[CrossFit], Addition]) -> Callable[[Path], tuple[Diagnostic, ...]]:
    """What a draft of an addition to the first claim objects to."""
    return lambda folder: draft_at(folder, make(graph_at(folder).crossfits()[0])).objections


def _gone(folder: Path) -> tuple[Diagnostic, ...]:
    book = folder / "books" / "book.yaml"
    old = graph_at(folder).crossfits()[0]
    book.write_text(book.read_text("utf-8").partition("- crossfit")[0], "utf-8")
    return draft_at(folder, MoreEvidence(old, piece())).objections


def _no_shelf(folder: Path) -> tuple[Diagnostic, ...]:
    (folder / "fitlore.yaml").write_text("shop: lowbarn\n", "utf-8")
    return draft_at(folder, NewClaim(claim("new", "KT 1", "OS 7", piece()))).objections


def _theirs(folder: Path) -> tuple[Diagnostic, ...]:
    (folder / "books" / "book.yaml").rename(folder / "club" / "book.yaml")
    return draft_at(folder, Withdrawal(graph_at(folder).crossfits()[0], "Hale")).objections


def _edited(folder: Path) -> tuple[Diagnostic, ...]:
    record(draft_at(folder, NewClaim(claim("new", "KT 1", "OS 7", piece()))), folder)
    book = folder / "books" / "crossfits.yaml"
    book.write_text(book.read_text("utf-8").replace("use: OS 7", "use: OS 7 # mine"), "utf-8")
    refused = undo(folder).refused
    assert refused is not None
    return (refused,)


def _journal(folder: Path) -> tuple[Diagnostic, ...]:
    (folder / journal.FOLDER).mkdir()
    (folder / journal.FOLDER / journal.NAME).write_text("hello\n", "utf-8")
    refused = undo(folder).refused
    assert refused is not None
    return (refused,)


def _rule(folder: Path) -> tuple[Diagnostic, ...]:
    (folder / "rules").mkdir()
    (folder / "rules" / "mine.rq").write_text("SELECT ?where WHERE { }\n", "utf-8")
    return check(graph_at(folder), TODAY, folder)


def _profile(folder: Path) -> tuple[Diagnostic, ...]:
    (folder / "rules").mkdir()
    (folder / "books" / "book.yaml").rename(folder / "rules" / "profile.yaml")
    return check(Graph.from_records((), tables()), TODAY, folder)


def _shape(folder: Path) -> tuple[Diagnostic, ...]:
    (folder / "books" / "book.yaml").rename(folder / "books" / "book.ttl")
    return check(Graph.from_records((), tables()), TODAY, folder)


def _tidied(folder: Path) -> tuple[Diagnostic, ...]:
    return tuple(made.refused for made in tidied(own_books(folder)) if made.refused is not None)


def _slipped(folder: Path) -> tuple[Diagnostic, ...]:
    """As it would be if the program lost a line: the guard over the tidied text stops it."""
    with patch("fitlore.books.tidy.lines", lambda root: ["- part: KT 1"]):
        return _tidied(folder)


def _tidied_over(folder: Path) -> tuple[Diagnostic, ...]:
    (made,) = tidied(own_books(folder))
    made.book.path.write_bytes(b"# mine\n")
    done = write(folder, made, "tidied")
    assert isinstance(done, Diagnostic)
    return (done,)


def _spliced(folder: Path) -> tuple[files.Seen, amend.Spliced]:
    seen = files.see(folder / "books" / "book.yaml")
    made = amend.splice("shop/book.yaml", seen.data, [RecordEdit({"part": "BR 9", "is": "hose"})])
    assert isinstance(made, amend.Spliced)
    return seen, made


def _refused(folder: Path) -> tuple[Diagnostic, ...]:
    seen = files.see(folder / "books" / "book.yaml")
    made = amend.splice("shop/book.yaml", seen.data, [RecordEdit({"part": "BR 9", "is": "hose"})])
    assert isinstance(made, Diagnostic)
    return (made,)


def _changed(folder: Path) -> tuple[Diagnostic, ...]:
    seen, made = _spliced(folder)
    seen.path.write_bytes(b"# mine\n")
    done = amend.write(seen, made, folder / "books")
    assert isinstance(done, Diagnostic)
    return (done,)


def _not_written(folder: Path) -> tuple[Diagnostic, ...]:
    made = _spliced(folder)[1]
    (folder / "file").write_bytes(b"")
    done = amend.write(files.Seen(folder / "file" / "book.yaml", None), made, folder / "books")
    assert isinstance(done, Diagnostic)
    return (done,)


def _two_names(folder: Path) -> tuple[Diagnostic, ...]:
    seen, made = _spliced(folder)
    os.link(seen.path, folder / "other.yaml")
    done = amend.write(seen, made, folder / "books")
    assert isinstance(done, files.Written)
    return amend.other_names(done, made.origin)


FL: Final = "@prefix fl: <https://fitlore.example/terms#> .\n"
ATTEMPTS: Final[dict[str, Attempt]] = {
    "A01-not-by-splice": Attempt("[{part: KT 1, is: hose}]\n", "add a part", _refused),
    "A02-changed-since-read": Attempt(
        "- part: KT 1\n  is: hose\n", "add a part, while an editor saves the book", _changed
    ),
    "A03-not-written": Attempt(
        "- part: KT 1\n  is: hose\n", "add a part to a book in a folder that is a file", _not_written
    ),
    "A04-other-name": Attempt(
        "- part: KT 1\n  is: hose\n", "add a part to a book with a second hard link", _two_names
    ),
    "S01-against-a-shape": Attempt(
        f'{FL}[] fl:shared-work "drain" ;\n  fl:minutes "30" .\n',
        "check, with this as a book of Turtle",
        _shape,
    ),
    "S02-in-other-words": Attempt(
        f'{FL}[] fl:part "KT 1" ; fl:is "hose" ; <http://purl.org/dc/terms/creator> "Agnes" .\n',
        "check, with this as a book of Turtle",
        _shape,
    ),
    "T01-faulty-text": Attempt("- part: KT 1\n  is: [hose\n", "tidy", _tidied),
    "T02-not-to-be-tidied": Attempt("[{part: KT 1, is: hose}]\n", "tidy", _tidied),
    "T03-would-change": Attempt(
        "- is: hose\n  part: KT 1\n", "tidy, if a slip of the program lost a line", _slipped
    ),
    "T04-not-written": Attempt(
        "- is: hose\n  part: KT 1\n", "tidy, while an editor saves the book", _tidied_over
    ),
    "U01-known-already": Attempt(
        PARTS + CLAIM,
        "note OS 7 for KT 1 as a new claim",
        drafted(NewClaim(claim("new", "KT 1", "OS 7", piece()))),
    ),
    "U02-name-taken": Attempt(
        PARTS + CLAIM,
        "note KT 1 for OS 7 as a claim named `old`",
        drafted(NewClaim(claim("old", "OS 7", "KT 1", piece(), waives=("bore",)))),
    ),
    "U03-trap": Attempt(
        PARTS.replace("bore: 32 mm", "bore: 32 mm, bolt: 7/16-20 UNF", 1).replace(
            "{bore: 32 mm}", "{bore: 32 mm, bolt: M12x1.25}"
        ),
        "note OS 7 for KT 1, told",
        drafted(NewClaim(claim("new", "KT 1", "OS 7", piece(How.TOLD)))),
    ),
    "U04-measures-say-no": Attempt(
        PARTS.replace("{bore: 32 mm}", "{bore: 34 mm}", 1),
        "note OS 7 for KT 1, told",
        drafted(NewClaim(claim("new", "KT 1", "OS 7", piece(How.TOLD)))),
    ),
    "U05-contradicted": Attempt(
        PARTS + CLAIM.replace("told", "fitted"),
        "note that OS 7 does not go for KT 1",
        on_claim(lambda old: SpeaksAgainst(old, piece(How.OFFERED_UP))),
    ),
    "U06-not-both-ways": Attempt(
        PARTS.replace("{bore: 32 mm}", "{bore: 32 mm, bolt: M8x1.25}", 1),
        "note OS 7 for KT 1, both ways",
        drafted(NewClaim(claim("new", "KT 1", "OS 7", piece(), goes=Goes.BOTH_WAYS))),
    ),
    "U07-other-direction-too": Attempt(
        PARTS.replace("    bolt: {kind: thread, role: mates, end: female, optional: yes}\n", ""),
        "note OS 7 for KT 1",
        drafted(NewClaim(claim("new", "KT 1", "OS 7", piece()))),
    ),
    "U08-nothing-to-withdraw": Attempt(
        PARTS + CLAIM, "withdraw what Agnes said for `old`", on_claim(lambda old: Withdrawal(old, "Agnes"))
    ),
    "U09-no-such-record": Attempt(
        PARTS + CLAIM, "add evidence for `old`, which an editor took out meanwhile", _gone
    ),
    "U10-no-shelf-of-ones-own": Attempt(PARTS, "note a claim in a shop without `shelves:`", _no_shelf),
    "U11-edited-since": Attempt(PARTS, "note a claim, edit its lines, then undo", _edited),
    "U12-journal-unreadable": Attempt(PARTS, "undo, with `hello` in the journal", _journal),
    "U14-not-a-rule": Attempt(PARTS, "check, with a file in `rules` that has no header", _rule),
    "U15-unknown-rule": Attempt(
        "Q18-stale-prices: ignore\n", "check, with this as rules/profile.yaml", _profile
    ),
    "U16-not-a-severity": Attempt(
        "Q18-stale-price: off\n", "check, with this as rules/profile.yaml", _profile
    ),
    "U17-not-a-profile": Attempt("- Q18-stale-price\n", "check, with this as rules/profile.yaml", _profile),
    "U13-not-ours": Attempt(PARTS + CLAIM, "withdraw a word in the club's book", _theirs),
    **price_lists.ATTEMPTS,
    **questions.ATTEMPTS,
    **shelf_attempts.ATTEMPTS,
}


def example_of(code: str) -> str:
    """The book and what is asked, for the page."""
    attempt = ATTEMPTS[code]
    return f"{attempt.book}\n# asked: {attempt.asked}\n"


def diagnostics_of(code: str) -> tuple[Diagnostic, ...]:
    """What is said of the smallest attempt, of this code alone, with its line of the book."""
    attempt = ATTEMPTS[code]
    with TemporaryDirectory() as place:
        folder = Path(place)
        (folder / "books").mkdir()
        (folder / "club").mkdir()
        (folder / "fitlore.yaml").write_text(SHOP, "utf-8")
        (folder / "books" / "book.yaml").write_text(attempt.book, "utf-8")
        found = [one for one in attempt.ask(folder) if one.code == code]
        return tuple(with_lines(found, lambda shown: attempt.book if shown.startswith("shop/book.") else ""))
