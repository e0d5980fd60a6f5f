"""What a vehicle gives for what is open: what to take off it, what to look at first, and what must stay on it, with the proof."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.fitting.answer import answer
from fitlore.fitting.conditions import Held, holds, merge_asks
from fitlore.fitting.donors_on import Standing, Vehicle, standing
from fitlore.fitting.donors_wanted import Wanted, goes, may_go, never_used, once
from fitlore.fitting.parts import Identity, identity, keys_of
from fitlore.fitting.shape import Ask, Question, Verdict, Word
from fitlore.model.because import Because
from fitlore.model.kleene import Tri
from fitlore.model.numbers import number_key
from fitlore.model.part import Companion, Part
from fitlore.model.platform import Condition

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Pull(NamedTuple):
    """A part to take off for something open."""

    wanted: Wanted
    verdict: Verdict
    standing: Standing
    pieces: int
    """How many of them the vehicle gives here."""
    asks: tuple[Ask, ...]
    """What has to be answered before it is taken; nothing: take it."""
    also: tuple[Standing, ...]
    """Companions that stand on the same vehicle."""
    besides: tuple[Companion, ...]
    """Companions that have to come from elsewhere."""
    because: Because

    @property
    def enough(self) -> bool:
        """Whether it serves the need whole."""
        return self.pieces >= self.wanted.quantity


class Leave(NamedTuple):
    """A part that looks as if it served, and must stay where it is; or one's own that must be kept."""

    wanted: Wanted
    part: Part | None
    """None: `keep` says what of one's own stays."""
    at: str
    keep: str
    verdict: Verdict | None
    reasons: tuple[Because, ...]
    because: Because


class Gives(NamedTuple):
    """What one vehicle gives."""

    vehicle: Vehicle
    take: tuple[Pull, ...]
    look: tuple[Pull, ...]
    leave: tuple[Leave, ...]
    sure: tuple[Pull, ...] = ()
    """Every part that may be taken, where several serve the same need or one serves several."""

    @property
    def serves(self) -> tuple[Wanted, ...]:
        """What it serves whole and surely."""
        found = {pull.wanted.id: pull.wanted for pull in self.take if pull.enough}
        return tuple(found.values())

    @property
    def may_serve(self) -> tuple[Wanted, ...]:
        """What it may serve besides, or serves in part."""
        sure = {wanted.id for wanted in self.serves}
        rows = [pull.wanted for pull in (*self.take, *self.look) if pull.wanted.id not in sure]
        return tuple({wanted.id: wanted for wanted in rows}.values())


def gives(graph: Graph, vehicle: Vehicle, wanted: Sequence[Wanted], *, leave: bool = True) -> Gives:
    """What to take, what to look at first, and with `leave` what must stay on it, all in the order of `wanted`."""
    kinds = {kind for one in wanted for kind in _kinds(graph, one)} if leave else set[str]()
    yes = [(one, v) for one in wanted for v in one.answer.verdicts if may_go(graph, one, v)]
    keys = {key for _, v in yes for key in (*keys_of(v.part), *_beside(v))}
    every = standing(graph, vehicle, kinds, keys)
    rest = {identity(row.part): row.pieces for row in every}
    take: list[Pull] = []
    look: list[Pull] = []
    every_sure: list[Pull] = []
    left: list[Leave] = []
    for one in wanted:
        pulls: list[Pull] = []
        for row, verdict in _verdicts(graph, vehicle, one, every, leave):
            reasons = _against(graph, vehicle, one, row, verdict)
            if reasons:
                if leave and _worth_telling(graph, one, row, verdict):
                    left.append(_left(vehicle, one, row, verdict, reasons))
            elif rest[identity(row.part)] > 0:
                pulls.append(_pull(vehicle, one, row, verdict, every, rest[identity(row.part)]))
        sure = [pull for pull in pulls if not pull.asks]
        every_sure += sure
        if sure:
            best = next((pull for pull in sure if pull.enough), sure[0])
            rest[identity(best.verdict.part)] -= best.pieces
            take.append(best)
        else:
            look += pulls
    if leave:
        left += [row for pull in (*take, *look) for row in _with_it(vehicle, pull, every)]
        left += [row for pull in (*take, *look) for row in _kept(pull)]
    return Gives(vehicle, tuple(take), tuple(look), _toldonce(left), tuple(every_sure))


def _kinds(graph: Graph, wanted: Wanted) -> frozenset[str]:
    return graph.narrower(wanted.answer.interface.category.category)


def _beside(verdict: Verdict) -> Iterator[str]:
    """The keys of what comes with a part, and of what it must never meet."""
    for companion in verdict.way.companions:
        yield from map(number_key, companion.use)
    for claim in verdict.way.claims:
        for never in claim.never_with:
            yield from map(number_key, never.use)


def _verdicts(
    graph: Graph, vehicle: Vehicle, wanted: Wanted, every: Iterable[Standing], leave: bool
) -> list[tuple[Standing, Verdict]]:
    """The parts on the vehicle that are about what is wanted, each with its verdict there, best first."""
    known = {identity(v.part): v for v in wanted.answer.verdicts}
    kinds = _kinds(graph, wanted)
    rows = [row for row in every if identity(row.part) in known or (leave and row.part.is_ in kinds)]
    new = {identity(row.part): row.part for row in rows if identity(row.part) not in known}
    if new:
        question = wanted.question
        only = Question(question.place, question.car, question.side, question.both, tuple(new.values()))
        known |= {identity(v.part): v for v in answer(graph, only).verdicts}
    found = [
        (row, _of_this_donor(known[identity(row.part)], vehicle))
        for row in rows
        if identity(row.part) in known
    ]
    return sorted(found, key=lambda pair: (pair[1].word.rank, pair[1].minutes, pair[0].at, pair[1].key))


def _of_this_donor(verdict: Verdict, vehicle: Vehicle) -> Verdict:
    """Of which car a part has to come is answered where the car is known: what else it hangs on stays a question."""
    way = verdict.way
    if verdict.word is not Word.DEPENDS or not any(claim.donor_only_if for claim in way.claims):
        return verdict
    if any(_giving(vehicle, claim.donor_only_if).value is not Tri.TRUE for claim in way.claims):
        return verdict
    asks = tuple(ask for ask in verdict.asks if not ask.name.startswith("donor ("))
    work = bool(verdict.minutes or way.work or way.extras or way.companions)
    word = Word.DEPENDS if asks else Word.FITS_WITH_WORK if work else Word.FITS
    return msgspec.structs.replace(verdict, word=word, asks=asks)


def _against(
    graph: Graph, vehicle: Vehicle, wanted: Wanted, row: Standing, verdict: Verdict
) -> tuple[Because, ...]:
    """Everything that speaks against taking it; nothing: it may be taken, or looked at."""
    reasons = list(never_used(graph, wanted, row.part))
    if not may_go(graph, wanted, verdict):
        numbers = wanted.numbers
        only = numbers is not None and not numbers.intersection(keys_of(verdict.part))
        good = only and (verdict.word is Word.DEPENDS or goes(graph, verdict, wanted.answer))
        reasons.append(Because("donor-job-names-others", {"need": wanted.name}) if good else verdict.because)
    if row.there is Tri.FALSE:
        reasons.append(row.because)
    reasons += [
        Because("donor-wrong-car", {"claim": claim.crossfit}, (claim.origin,), under=held.steps)
        for claim in verdict.way.claims
        if (held := _giving(vehicle, claim.donor_only_if)).value is Tri.FALSE
    ]
    return tuple(reasons)


def _giving(vehicle: Vehicle, condition: Condition) -> Held:
    return holds(condition, vehicle.donor.facts if vehicle.donor else {})


def _worth_telling(graph: Graph, wanted: Wanted, row: Standing, verdict: Verdict) -> bool:
    """What is not on the vehicle is told only where it would have served, and the rest only where it may be there."""
    return row.there is not Tri.FALSE or may_go(graph, wanted, verdict)


def _pull(
    vehicle: Vehicle, wanted: Wanted, row: Standing, verdict: Verdict, every: Sequence[Standing], rest: int
) -> Pull:
    giving = [_giving(vehicle, claim.donor_only_if) for claim in verdict.way.claims]
    also, besides = [], []
    for companion in verdict.way.companions:
        uses = set(map(number_key, companion.use))
        found = [s for s in every if s.there is Tri.TRUE and uses.intersection(keys_of(s.part))]
        also += found[:1]
        besides += [] if found else [companion]
    pieces = min(rest, row.pieces, wanted.quantity)
    values = {
        "part": row.part.part,
        "vehicle": vehicle.key,
        "need": wanted.name,
        "count": str(pieces),
        "wanted": str(wanted.quantity),
    }
    steps = [step for held in giving for step in held.steps]
    under = (row.because, verdict.because, *steps, *(s.because for s in also))
    own = [ask for ask in verdict.asks if not ask.name.startswith("donor (")]
    asks = merge_asks([row.asks, own, *(held.asks for held in giving)])
    because = Because("donor-pull", values, under=under)
    return Pull(wanted, verdict, row, pieces, asks, tuple(also), tuple(besides), because)


def _left(
    vehicle: Vehicle, wanted: Wanted, row: Standing, verdict: Verdict, reasons: tuple[Because, ...]
) -> Leave:
    values = {"part": row.part.part, "vehicle": vehicle.key, "need": wanted.name}
    under = once([*reasons, row.because, verdict.because])
    because = Because("donor-leave", values, under=under)
    return Leave(wanted, row.part, row.at, "", verdict, reasons, because)


def _with_it(vehicle: Vehicle, pull: Pull, every: Sequence[Standing]) -> Iterator[Leave]:
    """Pieces on the same vehicle that a part which is taken must never meet."""
    part, wanted = pull.verdict.part, pull.wanted
    for claim in pull.verdict.way.claims:
        for never in claim.never_with:
            origin = never.origin if never.origin.book else claim.origin
            for row in every:
                if row.there is not Tri.FALSE and set(map(number_key, never.use)) & set(keys_of(row.part)):
                    values = {"use": row.part.part, "part": part.part, "why": never.why}
                    reason = Because("donor-never-with", values, (origin,))
                    head = {"part": row.part.part, "vehicle": vehicle.key, "need": wanted.name}
                    because = Because("donor-leave", head, under=(reason, row.because))
                    yield Leave(wanted, row.part, row.at, "", None, (reason,), because)


def _kept(pull: Pull) -> Iterator[Leave]:
    """What of one's own is kept when a part is taken: by the claims, and by its category."""
    rows = [(keep, claim.origin) for claim in pull.verdict.way.claims for keep in claim.keep]
    category = pull.wanted.answer.interface.category
    rows += [(keep, category.origin) for keep in pull.wanted.answer.interface.keep]
    part = pull.verdict.part.part
    steps = tuple(
        Because("donor-keep", {"keep": keep, "part": part}, (at,)) for keep, at in dict(rows).items()
    )
    if steps:
        because = Because("donor-keeps", {"part": part, "need": pull.wanted.name}, under=steps)
        keep = "; ".join(dict(rows))
        yield Leave(pull.wanted, None, "", keep, None, steps, because)


def _toldonce(rows: Iterable[Leave]) -> tuple[Leave, ...]:
    """One line per part and place, or thing kept, and need."""
    found: dict[tuple[object, Identity | None, str, str], Leave] = {}
    for row in rows:
        key = (row.wanted.id, identity(row.part) if row.part else None, row.at, row.keep)
        found.setdefault(key, row)
    return tuple(found.values())
