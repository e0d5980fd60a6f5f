"""What is open and wants a part, and whether a used one may be taken for it at all."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.evidence import class_policy
from fitlore.fitting.interface import interface_of
from fitlore.fitting.parts import keys_of
from fitlore.fitting.shape import Answer, Interface, Question, Verdict, Word
from fitlore.model.because import Because
from fitlore.model.choices import UsedOnes
from fitlore.model.part import Part

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class Wanted(NamedTuple):
    """Something open: the question, its answer, how many parts it takes."""

    name: str
    """The need's name in its job."""
    job: str
    question: Question
    answer: Answer
    quantity: int
    must: bool
    used: bool | None = None
    """Whether the job takes used ones here; None: as policy and category say."""
    numbers: frozenset[str] | None = None
    """The keys of the only parts that may be used, where the job says which."""

    @property
    def id(self) -> tuple[str, str]:
        """The job and the need."""
        return self.job, self.name


def goes(graph: Graph, verdict: Verdict, reply: Answer) -> bool:
    """Whether a verdict is a yes that a plan may act on."""
    if verdict.word is Word.BY_MEASURE:
        return class_policy(graph.policy, reply.interface.safety).by_measure_may_be_bought
    return verdict.word in (Word.FITS, Word.FITS_WITH_WORK)


def may_go(graph: Graph, wanted: Wanted, verdict: Verdict) -> bool:
    """Whether a verdict is a yes, or becomes one by an answer, and the job takes the part at all."""
    if wanted.numbers is not None and not wanted.numbers.intersection(keys_of(verdict.part)):
        return False
    return verdict.word is Word.DEPENDS or goes(graph, verdict, wanted.answer)


def never_used(graph: Graph, wanted: Wanted, part: Part) -> tuple[Because, ...]:
    """Why no used one may be taken for this, if none may: by the job, the safety class or the category."""
    if wanted.used:
        return ()
    if wanted.used is False:
        return (Because("donor-job-takes-none", {"need": wanted.name}),)
    own = interface_of(graph, part.is_)
    rows = [_used_rule(graph, one) for one in (wanted.answer.interface, own) if one is not None]
    return once(row for row in rows if row is not None)


def once(steps: Iterable[Because]) -> tuple[Because, ...]:
    """Each step once."""
    found: list[Because] = []
    for step in steps:
        if step not in found:
            found.append(step)
    return tuple(found)


def _used_rule(graph: Graph, interface: Interface) -> Because | None:
    rules = class_policy(graph.policy, interface.safety)
    values = {"category": interface.category.category, "class": interface.safety.value}
    if rules.no_used:
        return Because("donor-class-takes-none", values, (rules.origins["no_used"],))
    if interface.used is UsedOnes.NEVER:
        return Because("donor-used-never", values, (interface.category.origin,))
    return Because("donor-always-new", values, (interface.category.origin,)) if interface.always_new else None
