"""What a donor gives, in words: what it is worth, what comes off it, what to look at first, what must stay on it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from fitlore.fitting.donors import Gives, Leave, Pull
from fitlore.fitting.donors_found import Donors
from fitlore.fitting.donors_on import Vehicle
from fitlore.fitting.donors_wanted import Wanted
from fitlore.fitting.shape import Ask, Word
from fitlore.model.because import Because
from fitlore.model.job import Job
from fitlore.model.part import Part
from fitlore.report.days import plain_day
from fitlore.report.money import bare, said
from fitlore.report.sentences import say
from fitlore.report.text import BLANK, Line, Tone, columns, listed, minutes, tied
from fitlore.report.verdicts import TONES, WORDS, against_words, ask_words, danger_lines, reason, summary

if TYPE_CHECKING:
    from fitlore.sourcing.donor import Worth

_NO_USED = frozenset({"donor-used-never", "donor-class-takes-none", "donor-always-new"})
MOST_NAMED = 8
"""So many needs are named in a line of the list; the rest is counted."""


class ForJob(NamedTuple):
    """What a vehicle gives to one job, and what it is worth to it (None: nobody asked)."""

    job: Job
    gives: Gives
    findings: int
    worth: Worth | None


def vehicle_words(vehicle: Vehicle, names: dict[str, str]) -> str:
    """The vehicle by name, where it stands, and when it was seen; `names` are the names of platforms."""
    donor = vehicle.donor
    if donor is None:
        if vehicle.sale:
            return f"{vehicle.sale[0].offer.whole_car}, whole, at {vehicle.sale[0].supplier}"
        return f"any {names.get(vehicle.platform) or vehicle.platform} ({tied(vehicle.platform)})"
    at = ", ".join(word for word in (donor.from_ or "", donor.where) if word)
    seen = f"; seen {plain_day(donor.seen)}" if donor.seen else ""
    return f"{donor.name or vehicle.platform} ({tied(donor.donor)}){f' at {at}' if at else ''}{seen}"


def donor_lines(vehicle: Vehicle, jobs: Sequence[ForJob], names: dict[str, str]) -> list[Line]:
    """One vehicle: dangers first, then job by job what it is worth and gives. Numbered through."""
    lines = [Line(vehicle_words(vehicle, names), "head", hang=2)]
    traps = [row.verdict for one in jobs for row in one.gives.leave if row.verdict and row.verdict.danger]
    lines += danger_lines(traps)
    number = 1
    for one in jobs:
        lines += [BLANK, *_job_lines(one, number)]
        number += len(one.gives.take) + len(one.gives.look) + len(one.gives.leave)
    return lines


def _job_lines(one: ForJob, first: int) -> list[Line]:
    gives = one.gives
    serves = len({wanted.name for wanted in gives.serves})
    lines = [Line(f"{one.job.name or one.job.job}: serves {serves} of {one.findings} needs", "head", hang=2)]
    lines += _worth_lines(one.worth) if one.worth is not None else []
    if gives.take:
        lines.append(Line("take off it", "head"))
        rows = [(f"{n:>2}", _name(p.verdict.part), _pull(p)) for n, p in enumerate(gives.take, first)]
        lines += columns(rows, [TONES.get(p.verdict.word, "plain") for p in gives.take], "rl")
        first += len(gives.take)
    if gives.look:
        lines.append(Line("look or ask first", "head"))
        rows = [(f"{n:>2}", _name(p.verdict.part), _pull(p)) for n, p in enumerate(gives.look, first)]
        lines += columns(rows, ["ask" for _ in rows], "rl")
        first += len(gives.look)
    stays = [row for row in gives.leave if row.part is not None]
    kept = [row for row in gives.leave if row.part is None]
    if stays:
        lines.append(Line("leave on it", "head"))
        rows = [(f"{n:>2}", _name(row.part), leave_words(row)) for n, row in enumerate(stays, first)]
        lines += columns(rows, [_tone(row) for row in stays], "rl")
        first += len(stays)
    if kept:
        lines.append(Line("keep your own", "head"))
        rows = [(f"{n:>2}", row.wanted.name, row.keep) for n, row in enumerate(kept, first)]
        lines += columns(rows, ["plain" for _ in kept], "rl")
    if not (gives.take or gives.look):
        lines.append(Line("  it gives nothing that goes", "ask"))
    return lines


def _tone(row: Leave) -> Tone:
    return "danger" if row.verdict is not None and row.verdict.danger else "dim"


def _name(part: Part | None) -> str:
    return tied(part.part) if part is not None else ""


def _pull(pull: Pull) -> str:
    """For which need, how many of them, on what terms, and what to take along; what is kept is said further down."""
    count = "" if pull.pieces == 1 and pull.enough else f", {pull.pieces} of {pull.wanted.quantity}"
    words = [f"{pull.wanted.name}{count}: {WORDS[pull.verdict.word]}"]
    words += [_look(pull, ask) for ask in pull.asks if ask not in pull.verdict.asks]
    way = msgspec.structs.replace(pull.verdict.way, keep=())
    words.append(summary(msgspec.structs.replace(pull.verdict, way=way), name=False))
    words += [f"take its {tied(row.part.part)} too" for row in pull.also]
    words += [f"{' or '.join(map(tied, c.use))} from elsewhere" for c in pull.besides]
    return "; ".join(word for word in words if word)


def _look(pull: Pull, ask: Ask) -> str:
    here = ask.about == "place" and ask.name.partition("@")[0] == pull.standing.at.partition("@")[0]
    return f"look {ask.look}" if here and ask.look else ask_words(ask, "its")


def leave_words(row: Leave) -> str:
    """Why it stays, every reason."""
    if row.part is None:
        return f"{row.wanted.name}: keep {row.keep}"
    at = f"{row.wanted.name}: " if row.verdict is not None else ""
    return f"{at}{'; '.join(dict.fromkeys(_why(row, step) for step in row.reasons))}"


def _why(row: Leave, step: Because) -> str:
    if row.verdict is not None and step == row.verdict.because:
        off = row.verdict.word in (Word.DOES_NOT_FIT, Word.DISPUTED)
        text = "; ".join(against_words(row.verdict)) if off else reason(row.verdict)
        return f"{WORDS[row.verdict.word]}: {text}"
    if step.code in _NO_USED:
        safety = step.values.get("class", "none")
        return f"never a used one{f' ({safety})' if safety != 'none' else ''}"
    if step.code == "donor-book":
        under = [say(inner) for inner in step.under if inner.code != "condition-true"]
        return f"not on this one: {listed(under)}" if under else "not on this one"
    return say(step)


def _worth_lines(worth: Worth) -> list[Line]:
    home = worth.home
    counted = [f"{minutes(worth.minutes)} of hands" if worth.minutes else ""]
    counted.append(f"{bare(worth.back, home)} back for the remains" if worth.back else "")
    both = listed(counted)
    how = (
        f"; {both} counted in"
        if both
        else "; hands to fetch and strip it are not counted, nobody wrote them down"
    )
    if worth.at_most is None or worth.without is None or worth.for_nothing is None:
        with_it = worth.for_nothing is not None
        text = (
            "without it the job cannot be done as it stands"
            if with_it
            else "the job cannot be done as it stands, with or without it"
        )
        return [Line(f"  {text}; `fitlore plan` says what stands in the way", "ask", hang=4)]
    plans = f"the plan costs {bare(worth.without, home)} without it and {bare(worth.for_nothing, home)} with it for nothing"
    if not worth.at_most:
        lines = [Line(f"  worth nothing to this job: {plans}{how}", "ask", hang=4)]
    else:
        lines = [Line(f"  worth at most {said(worth.at_most, home)}: {plans}{how}", "good", hang=4)]
    return lines + _asked(worth)


def _asked(worth: Worth) -> list[Line]:
    home = worth.home
    if worth.asked is None:
        return []
    if worth.dearer is None:
        return [
            Line(
                f"  at {bare(worth.asked, home)} no plan can take it: the limits of the job do not reach",
                "ask",
                hang=4,
            )
        ]
    if worth.dearer > 0:
        return [
            Line(
                f"  at {bare(worth.asked, home)} the plan gets {bare(worth.dearer, home)} dearer: not worth it",
                "ask",
                hang=4,
            )
        ]
    if worth.dearer == 0:
        return [
            Line(f"  at {bare(worth.asked, home)} it comes to the same with it and without", "ask", hang=4)
        ]
    return [
        Line(
            f"  at {bare(worth.asked, home)} the plan gets {bare(-worth.dearer, home)} cheaper",
            "good",
            hang=4,
        )
    ]


def donors_lines(donors: Donors, wanted: Sequence[Wanted], names: dict[str, str]) -> list[Line]:
    """The vehicles worth looking for, one line each, what serves most first."""
    if not donors.found:
        return [Line("no vehicle in the books has anything that goes", "ask")]
    several = len({one.job for one in wanted}) > 1
    lines = [Line(f"vehicles worth looking for, for {len(wanted)} needs", "head")]
    rows = [(f"{n:>2}", _serves(one), _carries(one, names, several)) for n, one in enumerate(donors.found, 1)]
    lines += columns(rows, ["good" if one.take else "ask" for one in donors.found], "rl")
    if donors.more:
        lines.append(Line(f"  {donors.more} more carry less", "dim"))
    lines.append(
        Line(
            "  parts may be worn or gone: `fitlore donor NAME` says what to take and what to leave",
            "dim",
            hang=4,
        )
    )
    return lines


def _serves(one: Gives) -> str:
    may = f" +{len(one.may_serve)}?" if one.may_serve else ""
    return f"{len(one.serves)}{may}"


def _carries(one: Gives, names: dict[str, str], several: bool) -> str:
    offer, donor = (one.vehicle.sale[0].offer if one.vehicle.sale else None), one.vehicle.donor
    asked = offer.price if offer else donor.price if donor else None
    words = [f"{vehicle_words(one.vehicle, names)}{f', {asked}' if asked else ''}"]
    for lead, rows in (("serves", one.serves), ("may serve", one.may_serve)):
        jobs = dict.fromkeys(wanted.job for wanted in rows)
        said = [
            _few(w.name for w in rows if w.job == job) + (f" of {job}" if several else "") for job in jobs
        ]
        words += [f"{lead} {listed(said)}"] if said else []
    return "; ".join(words)


def _few(names: Iterable[str]) -> str:
    rows = list(names)
    more = f" and {len(rows) - MOST_NAMED} more" if len(rows) > MOST_NAMED else ""
    return f"{', '.join(rows[:MOST_NAMED])}{more}"


def serves_because(one: Gives, count: int) -> Because:
    """The proof of a line of the list."""
    values = {"vehicle": one.vehicle.key, "count": str(len(one.serves)), "all": str(count)}
    return Because("donor-serves", values, under=tuple(p.because for p in (*one.take, *one.look)))
