"""What something measured may be, in words: how well each candidate agrees, where it would serve, what to measure next."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Final, NamedTuple

from fitlore.fitting.by_size import Serves
from fitlore.fitting.shape import State
from fitlore.model.because import Because
from fitlore.report.text import Line, Tone, columns, listed, tied
from fitlore.trade.identify import Agreed, Candidate, Tells
from fitlore.trade.measuring import Said
from fitlore.trade.sizes import MEASURES

HOW: Final = {"agrees": "agrees", "worn": "if worn", "off": "near, but no"}
_TONES: Final[dict[str, Tone]] = {"agrees": "good", "worn": "ask", "off": "dim"}
_FEW: Final = 4


class Listing(NamedTuple):
    """One candidate with what is known of its use."""

    candidate: Candidate
    serves: tuple[Serves, ...] = ()
    verdicts: tuple[str, ...] = ()
    """For a part of the books: the verdict for each place of its kind on the car, in words."""
    proofs: tuple[Because, ...] = ()
    """The proof of each verdict."""


def said_line(said: Sequence[Said], bolt_circle: Decimal | None) -> Line:
    """What was understood, with the error that is allowed for."""
    rows = [_measured(one) for one in said]
    if bolt_circle is not None:
        rows.append(f"that is a bolt circle of {shown(bolt_circle)} mm")
    return Line(f"measured: {', '.join(rows)}", hang=2)


def _measured(one: Said) -> str:
    error = f" \N{PLUS-MINUS SIGN}{shown(one.error)}" if one.error else ""
    return f"{name_of(one.measure)} {one.text}{error}".strip()


def name_of(measure: str) -> str:
    """A measure as people say it."""
    return MEASURES[measure].said[0] if measure in MEASURES else measure.replace("-", " ")


def shown(value: Decimal) -> str:
    """A size for people, to a hundredth."""
    return f"{round(value, 2).normalize():f}"


def candidate_lines(rows: Sequence[Listing], more: int) -> list[Line]:
    """One line per candidate, best first, numbered; then how many are left out."""
    cells, tones = [], []
    for number, row in enumerate(rows, 1):
        candidate = row.candidate
        kind = (
            ""
            if candidate.sized.designation.startswith(candidate.sized.kind)
            else f" ({candidate.sized.kind})"
        )
        text = f"{tied(candidate.sized.designation)}{kind}: {_agreeing(candidate)}"
        cells.append((f"{number:>2}", HOW[candidate.how], text))
        tones.append(_TONES[candidate.how])
    lines = columns(cells, tones, "rl")
    return [*lines, Line(f"    and {more} more", "dim")] if more else lines


def _agreeing(candidate: Candidate) -> str:
    rows = [_one(one) for one in candidate.agreed]
    memory = "from memory, not looked up" if "memory" in _certainties(candidate.sized.because) else ""
    return "; ".join(bit for bit in [", ".join(rows), memory] if bit)


def _certainties(because: Because) -> set[str]:
    return {step.values.get("certainty", "") for _, step in because.walk()}


def _one(one: Agreed) -> str:
    low, high = shown(one.band.low), shown(one.band.high)
    unit = {"1": "", "deg": " deg"}.get(one.said.unit, f" {one.said.unit}")
    text = f"{name_of(one.measure)} {low if low == high else f'{low} to {high}'}{unit}"
    if one.how == "agrees":
        return text
    return f"{text}{', worn' if one.how == 'worn' else ','} by {shown(one.by)}{unit}"


def serving_lines(rows: Sequence[Listing]) -> list[Line]:
    """Where on the car each candidate would do, as far as that one feature goes; and the verdicts of parts."""
    lines = []
    for number, row in enumerate(rows, 1):
        places: dict[str, list[str]] = {}
        for one in row.serves:
            work = " with work" if one.state is State.WORK else ""
            places.setdefault(f"{one.feature}{work}", []).append(one.place.path)
        for feature, paths in places.items():
            more = f" and {len(paths) - _FEW} more" if len(paths) > _FEW else ""
            lines.append(Line(f"  {number} is the {feature} of {', '.join(paths[:_FEW])}{more}", hang=4))
        lines += [Line(f"  {number} {text}", hang=4) for text in row.verdicts]
    head = Line(
        "on this car, as far as this goes (the rest of the part is another question: `fits`):", hang=2
    )
    return [head, *lines] if lines else []


def next_line(tells: Tells | None, good: Sequence[Candidate]) -> list[Line]:
    """What to measure next, and what each outcome would say; else what else would narrow it."""
    if tells is None:
        words = _no_more(good)
        return [Line(words, "ask", hang=2)] if words else []
    unit = {"1": "", "deg": " deg"}.get(tells.unit, f" {tells.unit}")
    outcomes = []
    for band, names in tells.groups[:_FEW]:
        low, high = shown(band.low), shown(band.high)
        size = low if low == high else f"{low} to {high}"
        few = listed([tied(name) for name in names[:3]], "or") if len(names) <= 3 else f"{len(names)} of them"
        outcomes.append(f"{size}{unit}: {few}")
    more = f"; and {len(tells.groups) - _FEW} other sizes" if len(tells.groups) > _FEW else ""
    return [Line(f"measure next: {name_of(tells.measure)} ({'; '.join(outcomes)}{more})", "ask", hang=2)]


def _no_more(good: Sequence[Candidate]) -> str:
    kinds = list(dict.fromkeys(candidate.sized.kind for candidate in good))
    if len(good) < 2:
        return ""
    if len(kinds) > 1:
        more = f" ... ({len(kinds)} kinds)" if len(kinds) > _FEW else ""
        return (
            f"say in front what it is, to narrow this: {', '.join(kinds[:_FEW])}{more}; or measure more of it"
        )
    names = listed([tied(candidate.sized.designation) for candidate in good[:2]])
    return f"no further measure listed here tells them apart; `fitlore compare` says how {names} differ"
