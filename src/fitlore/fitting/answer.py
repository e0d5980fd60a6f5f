"""The front door of the room: what fits here, and does this one fit there."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

import msgspec

from fitlore.fitting.chances import with_chances
from fitlore.fitting.companions import refusals
from fitlore.fitting.conditions import seen_only
from fitlore.fitting.evidence import class_policy
from fitlore.fitting.interface import as_strict_as, interface_of
from fitlore.fitting.parts import (
    Identity,
    ask_ahead,
    every_key,
    identity,
    whole,
    with_twins,
)
from fitlore.fitting.place import resolve
from fitlore.fitting.requirement import requirement_of
from fitlore.fitting.shape import Answer, Interface, Question, Verdict, Way
from fitlore.fitting.unclaimed import Trials, Unclaimed, checks_of, tried, unclaimed
from fitlore.fitting.unseen import unseen
from fitlore.fitting.verdict import judge
from fitlore.fitting.ways import Found, Setting, find_ways
from fitlore.model.because import Because
from fitlore.model.category import Category
from fitlore.model.choices import Renew, SafetyClass, Sides, UsedOnes
from fitlore.model.numbers import number_key
from fitlore.model.part import Part
from fitlore.model.platform import Car
from fitlore.model.record import Name

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


def answer(graph: Graph, question: Question) -> Answer:
    """Everything that may go at a place, best first: verdicts, what is needed there, and the proof of each.

    A category no book knows has no interface, so that nothing there is ever by measure.
    """
    setting = _setting(graph, question)
    asked = tuple(whole(graph, part) for part in question.only)
    found: dict[Identity, tuple[Part, list[Way]]] = {}
    for candidate in _candidates(setting, asked):
        found.setdefault(identity(candidate.part), (candidate.part, []))[1].append(candidate.way)
    trials = {key: frozenset(way.own_trial for way in ways) - {""} for key, (_, ways) in found.items()}
    verdicts = [_verdict(part, ways, setting, trials) for part, ways in found.values()]
    rest = Unclaimed(())
    if asked:
        wanted = set(map(identity, asked))
        verdicts = [v for v in verdicts if identity(v.part) in wanted]
    else:
        rest = unclaimed(setting, trials, question.nearest)
        verdicts += rest.verdicts
    verdicts = sorted(with_chances(verdicts, setting), key=_best_first)
    rules, interface = setting.rules, setting.interface
    return Answer(
        place=setting.resolved.place,
        side=question.side,
        car=question.car,
        interface=interface,
        requirement=setting.requirement,
        verdicts=tuple(verdicts),
        cautions=tuple(dict.fromkeys([*interface.cautions, *rules.cautions]))[:2],
        asks=setting.unseen,
        because=Because(
            "answer", {"place": setting.resolved.place.full_path}, under=(setting.requirement.because,)
        ),
        more=rest.more,
        more_traps=rest.more_traps,
    )


def answers(graph: Graph, questions: Iterable[Question]) -> list[Answer]:
    """The answer to each of many questions, in their order; what they all begin with is asked of the store at one go."""
    asked = list(questions)
    listed = {
        number_key(number)
        for place in (question.place for question in asked)
        for original in place.place.original
        for number in (original.number, f"{place.maker} {original.number}")
    }
    parts = graph.parts(listed)
    ask_ahead(graph, parts)
    graph.claims_from({key for part in parts for key in every_key(graph, part)})
    return [answer(graph, question) for question in asked]


def _best_first(verdict: Verdict) -> tuple[object, ...]:
    """By the word, originals first, by the hands it takes; the likelier first only between equals."""
    low = verdict.chance.low if verdict.chance else 0.0
    original = verdict.way.kind == "original"
    return verdict.word.rank, not original, verdict.minutes, -low, verdict.part.maker, verdict.key


def answer_pair(graph: Graph, part: Part, question: Question) -> Verdict:
    """Does this part go there? The verdict of one part, with every way that leads to it."""
    only = Question(question.place, question.car, question.side, question.both, (part,))
    return answer(graph, only).verdicts[0]


def _setting(graph: Graph, question: Question) -> Setting:
    """Where somebody may come to harm, plates, papers and hearsay about the car decide nothing; they are asked about."""
    car = question.car
    setting = _set(graph, question, car)
    if car is None or not setting.rules.trap_stands:
        return setting
    seen = msgspec.structs.replace(car, facts=seen_only(car.facts))
    return setting if seen == car else _set(graph, question, seen)


def _set(graph: Graph, question: Question, known: Car | None) -> Setting:
    resolved = resolve(graph, question.place, known, question.side)
    kind = resolved.place.place.is_
    interface = interface_of(graph, kind) or _bare(kind)
    for at in (resolved.place, resolved.book_place):
        interface = as_strict_as(interface, at.place.safety if at else None)
    requirement, interface = requirement_of(graph, resolved, interface, question.side)
    rules = class_policy(graph.policy, interface.safety)
    car = known if known is not None and known.is_ == question.place.on else None
    beside = refusals(graph, resolved.place, car)
    return Setting(
        graph=graph,
        resolved=resolved,
        interface=interface,
        requirement=requirement,
        car=car,
        side=question.side,
        both=question.both,
        rules=rules,
        refusals=beside,
        unseen=unseen(car, resolved, interface),
    )


def _candidates(setting: Setting, asked: Iterable[Part]) -> Iterable[Found]:
    known = list(find_ways(setting))
    yield from known
    reached = {identity(found.part) for found in known}
    for part in asked:
        category = setting.interface.category.category
        if identity(part) in reached:
            continue
        values = {"part": part.part, "is": part.is_, "wanted": category}
        if part.is_ in setting.graph.narrower(category):
            way = Way("measure", because=Because("way-asked", values, (part.origin,)))
        else:
            way = Way("asked", because=Because("way-other-kind", values, (part.origin,)))
        yield Found(part, way)


def _verdict(part: Part, ways: list[Way], setting: Setting, trials: Trials) -> Verdict:
    full = with_twins(setting.graph, part)
    own = setting.for_part(full)
    return judge(full, ways, checks_of(full, own), own, tried(part, setting, trials))


def _bare(name: str) -> Interface:
    return Interface(
        category=Category(category=Name(name)),
        features={},
        safety=SafetyClass.NONE,
        sides=Sides.NONE,
        look_first=(),
        always_new=False,
        renew=Renew.EACH,
        renew_with=(),
        used=UsedOnes.IF_SOUND,
        keep=(),
        cautions=(),
        shares=(),
        names=(name,),
    )
