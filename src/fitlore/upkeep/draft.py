"""A change worked out and not yet made: the new text, what is to be said against it, and what it would change."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

from fitlore.books import amend, files
from fitlore.books.faults import fault
from fitlore.books.layout import SHOP_FILE, Shelf, graph_name
from fitlore.books.reading import Reading, read_book
from fitlore.graph.derive import citable, kind_of, name_of
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import PlaceOn
from fitlore.model.record import Rec
from fitlore.upkeep.addition import (
    Addition,
    MoreEvidence,
    NewClaim,
    NewRecord,
    SpeaksAgainst,
    Target,
    book_for,
    is_own,
    own_shelf,
    target,
)
from fitlore.upkeep.around import around
from fitlore.upkeep.check import judged, profile_of
from fitlore.upkeep.effects import Changed, Verdicts, answers, changed, questions_about
from fitlore.upkeep.knowing import Known
from fitlore.upkeep.objecting import as_noted, before_writing
from fitlore.upkeep.placing import bare, edits_of, elsewhere

if TYPE_CHECKING:
    from fitlore.fitting import Question
    from fitlore.graph.open import Graph

MOST_QUESTIONS: Final = 60
"""Places on platforms and cars that are answered anew for one draft; of further ones only the number is told."""
_SAID_ALREADY: Final = frozenset(
    {"Q14-both-ways-unequal", "Q15-claim-against-measure", "Q16-claim-over-a-trap"}
)
"""Rules that an objection has said already of the claim that is being noted."""


class Draft(NamedTuple):
    """Nothing is written. `graph` is the knowledge as it would be (as it is, where there is nothing to write)."""

    addition: Addition
    what: str
    """In a few words, for the journal."""
    graph: Graph
    target: Target | None = None
    seen: files.Seen | None = None
    """The book as it was when this was worked out."""
    spliced: amend.Spliced | None = None
    """The new text; None where it could not be made."""
    objections: tuple[Diagnostic, ...] = ()
    """What is to be said first; an error among them keeps it from being recorded."""
    findings: tuple[Diagnostic, ...] = ()
    """What the rules find then and do not find now."""
    settled: tuple[Diagnostic, ...] = ()
    """What the rules find now and not any more then."""
    changes: tuple[Changed, ...] = ()
    not_answered: int = 0
    """Places that it touches beyond those that were answered."""
    touched: frozenset[str] = frozenset()
    """The cars on which it may change something."""

    @property
    def ready(self) -> bool:
        """Whether it can be recorded."""
        return self.spliced is not None and not any(o.severity is Severity.ERROR for o in self.objections)


def draft(
    graph: Graph,
    addition: Addition,
    folder: Path,
    *,
    today: date,
    verdicts: Verdicts = answers,
    after: Draft | None = None,
) -> Draft:
    """Works an addition out against the knowledge base in `folder`; nothing raises for what is to be added.

    `after` is a draft that is to be recorded just before this one: it counts as if it were written. Raises OSError where the
    book is there and cannot be read.
    """
    graph = after.graph if after else graph
    start = Draft(addition, _what(addition), graph)
    shelf = own_shelf(folder)
    if shelf is None:
        none = fault("U10-no-shelf-of-ones-own", Origin(SHOP_FILE))
        return start._replace(objections=(none,))
    asked, addition = addition, _ours(graph, addition, shelf)
    shown = _book(addition) or book_for(graph, folder, shelf, kind_of(_subject(addition)))
    if shown.partition("/")[0] != shelf.shelf:
        record = _subject(addition)
        other = fault("U13-not-ours", record.origin, name=name_of(record), book=shown, shelf=shelf.shelf)
        return start._replace(objections=(other,))
    at = target(folder, shelf, shown)
    start = start._replace(addition=addition, target=at, seen=_seen(at, after))
    start = start._replace(objections=tuple(before_writing(Known(graph, today), asked)))
    return _with_text(start, folder, today, verdicts)


def _seen(at: Target, after: Draft | None) -> files.Seen:
    """The book as it is, or as it will be once the draft before this one is recorded."""
    if after is not None and after.spliced is not None and after.target == at:
        return files.Seen(at.path, after.spliced.data)
    return files.see(at.path)


def _with_text(start: Draft, folder: Path, today: date, verdicts: Verdicts) -> Draft:
    assert start.target is not None
    assert start.seen is not None
    shown, data = start.target.shown, start.seen.data
    reading = None if data is None else read_book(shown, data, graph_name(shown))
    edits = edits_of(start.addition, reading)
    if edits is None:
        record = _subject(start.addition)
        gone = fault(
            "U09-no-such-record", Origin(shown), kind=kind_of(record), name=name_of(record), book=shown
        )
        return start._replace(objections=(*start.objections, gone))
    made = amend.splice(shown, data, edits)
    if isinstance(made, Diagnostic):
        return start._replace(objections=(*start.objections, made))
    return _worked_out(start._replace(spliced=made), made, reading, folder, today, verdicts)


def _worked_out(
    start: Draft, made: amend.Spliced, old: Reading | None, folder: Path, today: date, verdicts: Verdicts
) -> Draft:
    shown = made.origin.book
    new = read_book(shown, made.data, graph_name(shown))
    worse = _beyond(new.diagnostics, old.diagnostics if old else ())
    before, after = _differing(old.records if old else (), new.records)
    graph = start.graph.what_if({shown: made.data})
    objections = [*start.objections, *worse]
    claims = [record for record in after if isinstance(record, CrossFit)]
    for claim in claims:
        objections += as_noted(Known(graph, today), claim, start.addition, made.origin)
    now, then = _ruled(start.graph, graph, before, after, folder, today)
    questions = _questions(graph, [*before, *after])
    return start._replace(
        graph=graph,
        objections=tuple(objections),
        findings=tuple(found for found in _beyond(then, now) if not _said_of(found, claims)),
        settled=tuple(_beyond(now, then)),
        changes=changed(start.graph, graph, questions[:MOST_QUESTIONS], verdicts),
        not_answered=max(0, len(questions) - MOST_QUESTIONS),
        touched=frozenset(question.car.car for question in questions if question.car),
    )


def _said_of(found: Diagnostic, claims: list[CrossFit]) -> bool:
    """Whether an objection to one of the claims that are being noted says the same."""
    names = [f"the claim `{claim.crossfit}` " for claim in claims]
    return found.code in _SAID_ALREADY and any(found.message.startswith(name) for name in names)


def _ruled(
    now: Graph, then: Graph, before: list[Rec], after: list[Rec], folder: Path, today: date
) -> tuple[list[Diagnostic], list[Diagnostic]]:
    """What the rules find around the records that change, now and then."""
    beside = around(then, [*before, *after])
    kept = [record for record in beside if not _among(record, after) and not _among(record, before)]
    small = type(now).from_records
    used = profile_of(folder, None)
    found = []
    for records in (before, after):
        graph = small([*kept, *records], now.standards, now.shop)
        found.append(list(used.applied(judged(graph, today, folder))))
    return found[0], found[1]


def _among(record: Rec, records: Iterable[Rec]) -> bool:
    return any(kind_of(one) == kind_of(record) and name_of(one) == name_of(record) for one in records)


def _beyond(found: Iterable[Diagnostic], known: Iterable[Diagnostic]) -> list[Diagnostic]:
    """Findings that are not among the known ones; lines may have moved, so code and words tell."""
    left = Counter((one.code, one.message) for one in known)
    rest = []
    for one in found:
        if left[one.code, one.message] > 0:
            left[one.code, one.message] -= 1
        else:
            rest.append(one)
    return sorted(rest, key=lambda one: (one.origin, one.code))


def _differing(old: Iterable[Rec], new: Iterable[Rec]) -> tuple[list[Rec], list[Rec]]:
    """The citable records that the two readings do not share."""
    was, now = list(citable(old)), list(citable(new))
    before = {_says(record) for record in was}
    after = {_says(record) for record in now}
    return [r for r in was if _says(r) not in after], [r for r in now if _says(r) not in before]


def _says(record: Rec) -> str:
    return f"{kind_of(record)} {bare(record)}"


def _questions(graph: Graph, records: Iterable[Rec]) -> list[Question]:
    """Where the records that change may matter."""
    numbers, at = dict[str, None](), dict[str, None]()
    for record in records:
        if isinstance(record, CrossFit):
            ends = (
                [record.instead_of, record.use] if record.goes.value == "both-ways" else [record.instead_of]
            )
            numbers.update({number: None for number in ends if number})
            at.update({record.at: None} if record.at else {})
        elif isinstance(record, Part):
            numbers[record.part] = None
        elif isinstance(record, PlaceOn):
            at[record.full_path] = None
    return questions_about(graph, numbers, at)


def _ours(graph: Graph, addition: Addition, shelf: Shelf) -> Addition:
    """A word on a claim of somebody else's book goes into our claim of that name, or into one made for this word alone."""
    if not isinstance(addition, MoreEvidence | SpeaksAgainst) or is_own(addition.claim, shelf):
        return addition
    same = (
        one for one in graph.crossfits() if one.crossfit == addition.claim.crossfit and is_own(one, shelf)
    )
    own = next(same, None)
    return NewClaim(elsewhere(addition)) if own is None else addition._replace(claim=own)


def _subject(addition: Addition) -> Rec:
    """The record that is added or added to."""
    return addition[0]


def _book(addition: Addition) -> str:
    return addition.book if isinstance(addition, NewClaim | NewRecord) else _subject(addition).origin.book


def _what(addition: Addition) -> str:
    words = {
        "NewClaim": "claim",
        "MoreEvidence": "evidence for",
        "SpeaksAgainst": "evidence against",
        "Withdrawal": "withdrawal from",
        "NewRecord": "new",
        "NewItem": "addition to",
        "NewValue": "change of",
    }
    record = _subject(addition)
    kind = "" if isinstance(record, CrossFit) else f"{kind_of(record)} "
    return f"{words[type(addition).__name__]} {kind}{name_of(record)}"
