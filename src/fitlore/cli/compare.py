"""`compare`: two designations or two parts of the books side by side."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import click

from fitlore.cli.asking import parts_named
from fitlore.cli.counter import Counter, open_counter, split_line
from fitlore.cli.failure import CouldNot
from fitlore.cli.root import Page
from fitlore.cli.session import Numbered
from fitlore.fitting.interface import compare, looked_up, protects
from fitlore.fitting.shape import State
from fitlore.fitting.side_by_side import Pair, side_by_side
from fitlore.model.category import Feature
from fitlore.model.choices import End, Role
from fitlore.model.part import Part
from fitlore.report.pairs import STATES, Held, held_lines, pair_lines, worst
from fitlore.report.text import BLANK, Line, show
from fitlore.report.verdicts import closing
from fitlore.trade.family import FAMILIES, Reading, Unreadable

_NEAR: Final = (3, 2)
"""So many near names of the books, and of the standards, are named where a text is not understood."""
_ENDS: Final = [end.value for end in End]


@click.command("compare", cls=Page, context_settings={"ignore_unknown_options": True})
@click.argument("words", nargs=-1, required=True)
@click.option("--with", "offered", metavar="OFFERED", help="What is offered; as behind `with` in the line.")
@click.option("--as", "kind", metavar="KIND", help="Only this family of standards (thread, bearing ...).")
@click.option("--end", type=click.Choice(_ENDS), help="Which half of a joint the part has.")
@click.option("--json", "as_json", is_flag=True, help="Answer as JSON; its shape is on this page.")
@click.pass_obj
def command(
    folder: str | None,
    words: tuple[str, ...],
    offered: str | None,
    kind: str | None,
    end: str | None,
    as_json: bool,
) -> int:
    """Does this designation or part do the job of that one."""
    stray = next((word for word in words if word.startswith("--")), "")
    if stray:
        raise CouldNot(f"no option {stray!r}; `fitlore compare --help` lists them")
    said = split_line(words, ("with",))
    needed, other = said[""], offered or said.get("with", "")
    if not needed or not other:
        raise CouldNot("two things are compared: `fitlore compare NEEDED with OFFERED`")
    if kind is not None and kind not in FAMILIES:
        raise CouldNot(f"no family of standards {kind!r}; there are {', '.join(FAMILIES)}")
    return answered(open_counter(folder), needed, other, kind, End(end) if end else None, as_json=as_json)


def answered(
    counter: Counter,
    needed: str,
    other: str,
    kind: str | None = None,
    end: End | None = None,
    *,
    as_json: bool,
    verb: str = "compare",
    head: Sequence[Line] = (),
) -> int:
    """The answer, printed below `head` and remembered for `why`: the exit code. Raises CouldNot where neither can be read."""
    held = _designations(counter, needed, other, kind, end)
    pair = None if held or kind else _parts(counter, needed, other)
    lines = [
        Numbered(n, f"{STATES[row.state]}: {row.offered} for {row.needed}", row.because)
        for n, row in enumerate(held, 1)
    ]
    if pair:
        title = f"{STATES[pair[2].state]}: {pair[1].part} for {pair[0].part}"
        lines.append(Numbered(1, title, pair[2].because))
    counter.remember(verb, counter.car, lines)
    if as_json:
        from fitlore.report.machine import dump
        from fitlore.report.machine_sizes import compare_json

        click.echo(dump(compare_json(needed, other, held, pair)), nl=False)
    else:
        _print(counter, held, pair, head)
    state = worst(held) if held else pair[2].state if pair else State.UNKNOWN
    return 0 if state in (State.OK, State.WORK) else 1


def read_as(counter: Counter, needed: str, other: str) -> bool:
    """Whether some family of standards reads both."""
    return bool(_families(counter, (needed, other)))


def _designations(
    counter: Counter, needed: str, offered: str, kind: str | None, end: End | None
) -> list[Held]:
    """Each family that reads both texts. What another family has said already is not said again."""
    standards = counter.graph.standards
    texts = (needed, offered)
    rows: list[Held] = []
    for name in (kind,) if kind else _families(counter, texts):
        family = FAMILIES[name]
        result = compare(Feature(kind=name, role=Role.MATES, end=end), needed, offered, standards)
        result = looked_up(result) if result.memory and protects(counter.graph, name) else result
        one, other = (_normal(family.read(text, standards), text) for text in texts)
        listed = {
            size.designation: size for size in family.sizes(standards) if size.designation in (one, other)
        }
        row = Held(name, family.about, one, other, (listed.get(one), listed.get(other)), result)
        if all(row[2:4] + row[5:] != before[2:4] + before[5:] for before in rows):
            rows.append(row)
    return rows


def _families(counter: Counter, texts: tuple[str, str]) -> list[str]:
    """Those that read both texts in one way first, then those to which one of them may mean several things."""
    read = {name: [FAMILIES[name].read(text, counter.graph.standards) for text in texts] for name in FAMILIES}
    meant = [name for name, found in read.items() if all(_meant(one) for one in found)]
    return sorted(meant, key=lambda name: not all(isinstance(one, Reading) for one in read[name]))


def _normal(found: Reading | Unreadable, text: str) -> str:
    return found.normal if isinstance(found, Reading) else text


def _meant(reading: Reading | Unreadable) -> bool:
    """Read, or of several readings: that is a question and not another thing altogether."""
    return isinstance(reading, Reading) or bool(reading.readings)


def _parts(counter: Counter, needed: str, offered: str) -> tuple[Part, Part, Pair]:
    one, other = (_one_part(counter, text) for text in (needed, offered))
    return one, other, side_by_side(counter.graph, one, other)


def _one_part(counter: Counter, text: str) -> Part:
    try:
        parts = parts_named(counter, text, near=_NEAR[0])
    except CouldNot as fault:
        near = _near_designations(counter, text)
        hint = f"; of the standards the nearest are {' or '.join(near)}" if near else ""
        raise CouldNot(f"no family of standards reads both; and of the books: {fault}{hint}") from fault
    if len(parts) > 1:
        names = ", ".join(f"{part.maker} {part.part}".strip() for part in parts[:8])
        raise CouldNot(f"{text!r} is several parts: {names}; name one")
    return parts[0]


def _near_designations(counter: Counter, text: str) -> list[str]:
    """Designations like this text, with their families."""
    from difflib import get_close_matches

    found = {name: FAMILIES[name].read(text, counter.graph.standards) for name in FAMILIES}
    words = {
        word: name for name, read in found.items() if isinstance(read, Unreadable) for word in read.expected
    }
    return [f"{word} ({words[word]})" for word in get_close_matches(text, words, _NEAR[1], 0)]


def _print(
    counter: Counter, held: list[Held], pair: tuple[Part, Part, Pair] | None, head: Sequence[Line]
) -> None:
    lines = list(head)
    for number, row in enumerate(held, 1):
        lines += [BLANK] if number > 1 else []
        lines += held_lines(row, number)
    lines += pair_lines(*pair) if pair else []
    show([*lines, *closing(counter.graph.policy.deferral)])
