"""`why`: the whole proof of a numbered line of the last answer, and what stands against it; or of a part in a place."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from fitlore.cli.counter import Counter, open_counter, shared_options, shop_folder, split_line
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered, Session, load
from fitlore.model.because import Because
from fitlore.report.sentences import tree
from fitlore.report.text import BLANK, Line, columns, show

if TYPE_CHECKING:
    from fitlore.fitting import Answer, Verdict
    from fitlore.fitting.reasons import Against
    from fitlore.report.machine import Json

VERDICT = "verdict"
"""The code of a proof that says whether a part fits."""


@click.command("why", cls=Page)
@click.argument("words", nargs=-1)
@click.option(
    "--in", "--for", "place", metavar="PLACE", help="The place, for a part named by the free words."
)
@shared_options
def command(
    folder: str | None, words: tuple[str, ...], place: str | None, car_name: str | None, as_json: bool
) -> int:
    """The proof of line N of the last answer, down to file and line; and why a part does not simply go."""
    text = " ".join(words).split()
    asks_against = bool(text) and text[0].casefold() == "not"
    text = text[1:] if asks_against else text
    if place or len(text) > 1 or (text and not text[0].isdecimal()):
        counter = open_counter(folder, car_name, in_hand=True)
        _asked(counter, text, place or "", as_json=as_json, proofs=not asks_against)
        return 0
    if text and int(text[0]) < 1:
        raise CouldNot("lines are numbered from 1")
    if asks_against and not text:
        raise CouldNot("why not what? `why not N`, or `why not PART in PLACE`")
    session = load(shop_folder(folder, quiet=True))
    if not session.asked:
        raise CouldNot("nothing was asked yet; `fitlore fits PLACE` numbers its lines, then `fitlore why 1`")
    if not session.answers:
        raise CouldNot(f"the last answer ({session.asked}) has no numbered lines")
    if not text:
        _print_all(session, as_json=as_json)
        return 0
    found = next((row for row in session.answers if row.number == int(text[0])), None)
    if found is None:
        last = session.answers[-1].number
        raise CouldNot(f"the last answer ({session.asked}) has lines 1 to {last}, not {text[0]}")
    _print_one(session, found, as_json=as_json, proof=not asks_against)
    return 0


def _print_all(session: Session, *, as_json: bool) -> None:
    if as_json:
        from fitlore.report.machine import dump

        rows = [{"number": row.number, "title": row.title} for row in session.answers]
        click.echo(dump({"asked": session.asked, "car": session.asked_of, "lines": rows}), nl=False)
        return
    cells = [(f"{row.number:>2}", row.title) for row in session.answers]
    show([*_head(session, session.asked), *columns(cells, ["plain" for _ in cells], "r")])


def _print_one(session: Session, found: Numbered, *, as_json: bool, proof: bool) -> None:
    from fitlore.fitting.reasons import against

    stands = against(found.because) if found.because.code == VERDICT else None
    if as_json:
        from fitlore.report.machine import dump

        data = {"asked": session.asked, "car": session.asked_of, "number": found.number}
        click.echo(dump({**data, "title": found.title, **_json(found.because, stands)}), nl=False)
        return
    if not proof and stands is None:
        raise CouldNot(f"line {found.number} of {session.asked} says nothing of whether a part goes")
    head = _head(session, f"line {found.number} of: {session.asked}")
    show([*head, *_lines(found.because, stands, proof=proof)])


def _lines(because: Because, found: Against | None, *, proof: bool) -> list[Line]:
    """What stands against it, then the whole proof."""
    lines = tree(because)
    if found is None:
        return lines
    from fitlore.report.against import against_lines

    said = against_lines(found)
    if not proof:
        return [lines[0], *(said or [Line("nothing stands against it")])]
    return [lines[0], *said, Line("the whole proof:"), *lines[1:]] if said else lines


def _json(because: Because, found: Against | None) -> Json:
    from fitlore.report.machine import against_json, because_json

    stands = against_json(found) if found else {"against": [], "said-for": [], "other-ways": []}
    return {**stands, "because": because_json(because)}


def _asked(counter: Counter, text: list[str], at: str, *, as_json: bool, proofs: bool) -> None:
    """A part asked about straight: in a place, or wherever the picked car takes one of its kind."""
    from fitlore.cli.asking import asked_of, questions
    from fitlore.fitting import answers
    from fitlore.fitting.parts import identity

    parts = split_line(text, ("in", "for", "into"))
    where = at or parts.get("in") or parts.get("for") or parts.get("into") or ""
    counter, found = asked_of(counter, parts[""], where, "")
    if not found.parts:
        raise CouldNot(f"{parts['']!r} is a place; why which part? `why not PART in PLACE`")
    asked = questions(counter, found)
    rows: list[tuple[int, Answer, Verdict]] = []
    for question, reply in zip(asked, answers(counter.graph, asked), strict=True):
        mine = {identity(part) for part in question.only}
        for verdict in (verdict for verdict in reply.verdicts if identity(verdict.part) in mine):
            rows.append((len(rows) + 1, reply, verdict))
    _remember(counter, rows)
    if as_json:
        _print_json(counter, rows)
        return
    from fitlore.fitting.reasons import against, with_claims_elsewhere
    from fitlore.report.verdicts import closing

    lines = [counter.head(rows[0][1].place.on)]
    for number, _, verdict in rows:
        lines += [BLANK] if number > 1 else []
        stands = with_claims_elsewhere(against(verdict.because), counter.graph, verdict.part)
        lines += _lines(verdict.because, stands, proof=proofs)
    show([*lines, *closing(counter.graph.policy.deferral, [reply for _, reply, _ in rows])])


def _remember(counter: Counter, rows: list[tuple[int, Answer, Verdict]]) -> None:
    from fitlore.report.verdicts import verdict_title

    kept = [Numbered(number, verdict_title(reply, v), v.because) for number, reply, v in rows]
    counter.remember("why", counter.car, kept)


def _print_json(counter: Counter, rows: list[tuple[int, Answer, Verdict]]) -> None:
    from fitlore.fitting.reasons import against, with_claims_elsewhere
    from fitlore.report.machine import dump

    lines = [
        {
            "number": number,
            "place": reply.place.full_path,
            "side": reply.side,
            "part": verdict.part.part,
            "maker": verdict.part.maker,
            "verdict": verdict.word.value,
            **_json(
                verdict.because,
                with_claims_elsewhere(against(verdict.because), counter.graph, verdict.part),
            ),
        }
        for number, reply, verdict in rows
    ]
    car, note = counter.car.car if counter.car else None, counter.graph.policy.deferral
    click.echo(dump({"car": car, "answers": lines, "note": note}), nl=False)


def _head(session: Session, text: str) -> list[Line]:
    return [Line(session.asked_of or "no car picked", "head", hang=2), Line(text, hang=2)]
