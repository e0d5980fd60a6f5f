"""`what`: from measurements to what the thing may be, and where it would serve on the picked car."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Final

import click

from fitlore.cli.counter import Counter, open_counter, shared_options
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered
from fitlore.fitting import Question, answer_pair
from fitlore.fitting.by_size import SizedPart, serving, sized_parts
from fitlore.graph.lookup import find
from fitlore.model.because import Because
from fitlore.model.part import Part
from fitlore.report.sizes import HOW, Listing, candidate_lines, name_of, next_line, said_line, serving_lines
from fitlore.report.text import Line, show
from fitlore.report.verdicts import WORDS, closing
from fitlore.trade.family import FAMILIES
from fitlore.trade.identify import Candidate, Tells, can_be_told, identify, next_measure
from fitlore.trade.measuring import Measured, NotMeasured, Said, read_measured
from fitlore.trade.sizes import Sized

MOST: Final = 12
"""So many candidates are shown unless more are asked for."""
_LOOKED_UP: Final = 6
"""Of so many candidates it is looked up where they would serve."""
_PARTS: Final = 3


@click.command("what", cls=Page)
@click.argument("words", nargs=-1, required=True)
@click.option("--most", type=click.IntRange(1, 500), default=MOST, help=f"Show so many candidates ({MOST}).")
@shared_options
def command(
    folder: str | None, words: tuple[str, ...], most: int, car_name: str | None, as_json: bool
) -> int:
    """What is it, by its measurements; and where on the car would it serve. A kind alone: what is known of it."""
    if not any(sign.isdigit() for sign in "".join(words)):
        from fitlore.cli.what_kind import tell

        return tell(folder, " ".join(words), car_name, as_json=as_json)
    measured = read_measured(" ".join(words))
    if isinstance(measured, NotMeasured):
        raise CouldNot(
            f"{measured.text!r}: {measured.reason}; say it like `9.5 outside, 24 to the inch` or `17 x 40 x 12`"
        )
    counter = open_counter(folder, car_name, in_hand=True)
    kinds, categories = _meant(counter, measured.thing)
    parts = {row.sized.designation: row for row in sized_parts(counter.graph, categories, measured.said)}
    sizes = list(_sizes(counter, kinds, parts.values()))
    if not any(can_be_told(measured.said, size) for size in sizes):
        raise CouldNot(_untold(measured))
    found = identify(measured.said, sizes)
    rows = [_listing(counter, candidate, parts, at) for at, candidate in enumerate(found[:most])]
    counter.remember("what", counter.car, [_numbered(number, row) for number, row in enumerate(rows, 1)])
    good = [candidate for candidate in found if candidate.how != "off"]
    if as_json:
        _print_json(counter, measured, found, rows)
    else:
        _print(counter, measured, good, found, rows)
    return 0 if good else 1


def _meant(counter: Counter, thing: str) -> tuple[tuple[str, ...], frozenset[str]]:
    """The families and the categories of what was named; all of them where nothing was."""
    if not thing:
        return tuple(FAMILIES), frozenset(str(one.category) for one in counter.graph.categories())
    folded = thing.replace(" ", "-")
    kinds = tuple(kind for kind in FAMILIES if kind in (folded, folded.removesuffix("s")))
    found = find(counter.graph, thing, platforms=counter.platforms)
    exact = [match.name for match in found.exact if match.kind == "category"]
    categories = frozenset(name for top in exact for name in counter.graph.narrower(top))
    if not kinds and not categories:
        kinds_only = find(counter.graph, thing, kinds=frozenset({"category"}))
        near = [match.name for match in (*kinds_only.exact, *kinds_only.near)][:5]
        hint = (
            f"; did you mean {', '.join(near)}?"
            if near
            else f"; there are {', '.join(FAMILIES)}, and every category"
        )
        raise CouldNot(f"{thing!r} is no kind of thing known here{hint}")
    return kinds, categories


def _untold(measured: Measured) -> str:
    """Nothing has such measures: that is no answer, and no no."""
    thing = f"as {measured.thing} " if measured.thing else ""
    names = sorted({name_of(one.measure) for one in measured.said if one.measure} - {""})
    what = f" ({', '.join(names)})" if names else ""
    return f"nothing listed {thing}has such measures{what}, so nothing can be told; measure something else"


def _sizes(counter: Counter, kinds: Iterable[str], parts: Iterable[SizedPart]) -> Iterable[Sized]:
    for kind in kinds:
        yield from FAMILIES[kind].sizes(counter.graph.standards)
    yield from (row.sized for row in parts)


def _listing(counter: Counter, candidate: Candidate, parts: dict[str, SizedPart], at: int) -> Listing:
    """The candidate, and for the first ones where on the car it would serve."""
    car, sized = counter.car, candidate.sized
    if car is None or candidate.how == "off" or at >= _LOOKED_UP:
        return Listing(candidate)
    if sized.kind in FAMILIES:
        return Listing(candidate, serving(counter.graph, car, sized.kind, sized.designation))
    part = parts[sized.designation].part if at < _PARTS else None
    told = dict(_verdicts(counter, part)) if part else {}
    return Listing(candidate, verdicts=tuple(told), proofs=tuple(told.values()))


def _verdicts(counter: Counter, part: Part) -> Iterable[tuple[str, Because]]:
    """What the books say of a part wherever its kind sits on the car, in words, and the proof."""
    car = counter.car
    for place in counter.graph.places(car.is_ if car else ""):
        if part.is_ not in counter.graph.narrower(place.place.is_):
            continue
        for side in place.sides or ("",):
            verdict = answer_pair(counter.graph, part, Question(place, car, side))
            trap = ", A TRAP" if verdict.danger else ""
            where = f"{place.path}{f', {side}' if side else ''}"
            yield f"{WORDS[verdict.word]}{trap} at {where}", verdict.because


def _numbered(number: int, row: Listing) -> Numbered:
    candidate = row.candidate
    steps = [candidate.sized.because, *(one.because for one in row.serves), *row.proofs]
    values = {"what": candidate.sized.designation, "how": HOW[candidate.how]}
    title = f"{HOW[candidate.how]}: {candidate.sized.designation}"
    return Numbered(number, title, Because("measured-as", values, under=tuple(steps)))


def _bolt_circle(said: Sequence[Said]) -> Decimal | None:
    """The circle through the holes from the distance of two neighbours: the chord of a regular polygon."""
    known = {one.measure: one.value for one in said}
    if "hole-centres" not in known or known.get("holes", Decimal(0)) < 2:
        return None
    return known["hole-centres"] / Decimal(str(math.sin(math.pi / int(known["holes"]))))


def _print(
    counter: Counter,
    measured: Measured,
    good: Sequence[Candidate],
    found: Sequence[Candidate],
    rows: Sequence[Listing],
) -> None:
    lines = [counter.head(), said_line(measured.said, _bolt_circle(measured.said))]
    if not good:
        thing = f" no {measured.thing}" if measured.thing else " nothing listed here"
        lines.append(Line(f"{thing} measures so{'; the nearest are' if rows else ''}".strip()))
    lines += candidate_lines(rows, len(good) - len(rows) if good else 0)
    lines += serving_lines(rows)
    lines += next_line(_next(good), _first(good))
    used = any(row.serves or row.verdicts for row in rows)
    show([*lines, *(closing(counter.graph.policy.deferral) if used else [])])


def _next(good: Sequence[Candidate]) -> Tells | None:
    return next_measure(_first(good)) or next_measure([c for c in good if c.how == "agrees"])


def _first(good: Sequence[Candidate]) -> list[Candidate]:
    """Those that agree as well as the first one does."""
    return [candidate for candidate in good if candidate.how == good[0].how] if good else []


def _print_json(
    counter: Counter, measured: Measured, found: Sequence[Candidate], rows: Sequence[Listing]
) -> None:
    from fitlore.report.machine import dump
    from fitlore.report.machine_sizes import what_json

    good = [candidate for candidate in found if candidate.how != "off"]
    data = what_json(counter.car, measured, found, rows, _next(good), _bolt_circle(measured.said))
    click.echo(dump(data), nl=False)
