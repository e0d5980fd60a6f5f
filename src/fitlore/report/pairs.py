"""Two designations or two parts side by side, in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from fitlore.fitting.interface import Compared
from fitlore.fitting.shape import State
from fitlore.fitting.side_by_side import Pair
from fitlore.model.because import Because
from fitlore.model.part import Part
from fitlore.report.sentences import cited, say
from fitlore.report.sizes import name_of, shown
from fitlore.report.text import Line, Tone, columns, tied
from fitlore.report.verdicts import danger_of
from fitlore.trade.family import About
from fitlore.trade.sizes import Band, Sized

STATES: Final[dict[State, str]] = {
    State.OK: "goes",
    State.WORK: "goes with work",
    State.UNKNOWN: "a question",
    State.OFF: "does not go",
    State.TRAP: "A TRAP",
}
TONES: Final[dict[State, Tone]] = {
    State.OK: "good",
    State.WORK: "good",
    State.UNKNOWN: "ask",
    State.OFF: "plain",
    State.TRAP: "danger",
}


class Held(NamedTuple):
    """One family's comparison: the normal forms where they were read, the sizes where they are listed, and the outcome."""

    kind: str
    about: About
    needed: str
    offered: str
    sizes: tuple[Sized | None, Sized | None]
    outcome: Compared

    @property
    def state(self) -> State:
        """How the offered one stands against the needed one."""
        return self.outcome.state

    @property
    def because(self) -> Because:
        """The proof."""
        return self.outcome.because


def held_lines(row: Held, number: int) -> list[Line]:
    """The danger first, then the verdict, the sizes of both, the proof, and what nobody has said."""
    words = f"{tied(row.offered)} where {tied(row.needed)} is needed"
    if row.kind == "spanner":
        words = f"a {tied(row.needed)} spanner on a {tied(row.offered)} hexagon"
    head = f"{number:>2}  {STATES[row.state]}: {words} ({row.about.title})"
    danger = [Line(f"! {danger_of(row.because)}", "danger", hang=2)] if row.state is State.TRAP else []
    lines = [*danger, Line(head, TONES[row.state], hang=4)]
    lines += _sizes(*row.sizes)
    lines += [Line(f"    {text}", hang=6) for text in _proof(row)]
    if row.outcome.memory:
        lines.append(
            Line("    a figure of this is from memory, and was not looked up in a source", "ask", hang=6)
        )
    if row.about.not_said:
        lines.append(Line(f"    it does not say: {'; '.join(row.about.not_said)}", "dim", hang=6))
    return lines


def _proof(row: Held) -> list[str]:
    """What was concluded and the steps right under it, each with its source; of a trap the source, as the rest is said."""
    if row.state is State.TRAP and not row.because.under:
        return [text for text in [_where(row.because).strip()] if text]
    steps = [
        step for step in row.because.under if "-tell-" not in step.code and step.code != "row-from-memory"
    ]
    said = [] if row.state is State.TRAP else [row.because]
    return list(dict.fromkeys(f"{say(step)}{_where(step)}" for step in [*said, *steps]))


def _where(step: Because) -> str:
    found = cited(step)
    return f"  {found}" if found else ""


def measures(one: Sized | None, other: Sized | None) -> list[tuple[str, Band | None, Band | None]]:
    """The measures of both sizes by name, in the order of the first."""
    first, second = (size.bands if size else {} for size in (one, other))
    return [(name, first.get(name), second.get(name)) for name in dict.fromkeys([*first, *second])]


def _sizes(one: Sized | None, other: Sized | None) -> list[Line]:
    if one is None or other is None or one.designation == other.designation:
        return []
    rows = [("    ", "", tied(one.designation), tied(other.designation))]
    rows += [("    ", name_of(name), _band(a), _band(b)) for name, a, b in measures(one, other)]
    return columns(rows, ["plain" for _ in rows], "lll")


def _band(band: Band | None) -> str:
    if band is None:
        return "-"
    low, high = shown(band.low), shown(band.high)
    return low if low == high else f"{low} to {high}"


def pair_lines(needed: Part, offered: Part, pair: Pair) -> list[Line]:
    """Two parts: the dangers, the verdict for the pair, then each feature with both values."""
    names = [f"{part.maker} {part.part}".strip() for part in (offered, needed)]
    of = f" (as {pair.category})" if pair.category else ""
    head = f" 1  {STATES[pair.state]}: {tied(names[0])} where {tied(names[1])} is needed{of}"
    lines = [
        Line(f"! {danger_of(check.because)}", "danger", hang=2)
        for check in pair.checks
        if check.state is State.TRAP
    ]
    lines.append(Line(head, TONES[pair.state], hang=4))
    hands = [part.side.value for part in (needed, offered) if part.side is not None]
    if len(hands) == 2 and hands[0] != hands[1]:
        lines.append(Line(f"    needed is a {hands[0]} one, offered a {hands[1]} one", "plain", hang=6))
    rows = [
        (
            "    ",
            check.feature,
            STATES[check.state].lower(),
            f"{check.offered or 'not known'}, needed {check.needed or 'not known'}",
        )
        for check in pair.checks
    ]
    lines += columns(rows, [TONES[check.state] for check in pair.checks], "lll")
    if not pair.checks:
        lines.append(Line(f"    {say(pair.because)}", "ask", hang=6))
    return lines


def worst(rows: Sequence[Held]) -> State:
    """The state of the best family: where two families read both texts, one yes is enough to look at, no more."""
    order = [State.OK, State.WORK, State.UNKNOWN, State.OFF, State.TRAP]
    return max((row.state for row in rows), key=order.index)
