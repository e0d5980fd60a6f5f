"""A price list against the books in words: what it was read as, what it would change, and what is left out and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from fitlore.model.diagnostic import Diagnostic
from fitlore.report.faults import fault_lines
from fitlore.report.machine import Json, diagnostic_json
from fitlore.report.text import BLANK, Line, Tone, columns, listed
from fitlore.upkeep.pricelist import Draft, Taken, Written

FEW: Final = 12
"""Rows of one kind that are shown; how many more there are is said, and `--all` shows them."""


def draft_lines(draft: Draft, *, every: bool) -> list[Line]:
    """The preview: how it was read, the counts, what is left out, then prices that change and new ones."""
    most = None if every else FEW
    lines = [Line(_read_as(draft), "head", hang=2), *_counts(draft), BLANK]
    for number, one in enumerate(draft.held[:most]):
        lines += [*([BLANK] if number else []), *fault_lines(one)]
    lines += _more(len(draft.held), most, "lines that are not taken")
    lines += [BLANK] if draft.held else []
    if draft.changed:
        lines += [Line("changed", "head"), *_changed(draft.changed[:most])]
        lines += [*_more(len(draft.changed), most, "changed prices"), BLANK]
    if draft.new:
        lines += [Line("new", "head"), *_new(draft.new[:most], draft.days)]
        lines += [*_more(len(draft.new), most, "new offers"), BLANK]
    if draft.unknown:
        named = ", ".join(f"{row.number} (line {row.origin.line})" for row in draft.unknown[:most])
        rest = len(draft.unknown) - len(draft.unknown[:most])
        tail = f" and {rest} more; --all shows them" if rest else ""
        lines += [Line(f"no part of the books: {named}{tail}", "dim", hang=2), BLANK]
    return lines


def end_lines(draft: Draft, done: Written | None) -> list[Line]:
    """The last line: what was written and how it is taken back, or what would be."""
    count = f"{len(draft.new)} new, {len(draft.changed)} changed, {len(draft.same)} seen again"
    if done is None:
        if not (draft.new or draft.changed or draft.same):
            return [Line("nothing of it can be taken", "ask")]
        book = draft.supplier.origin.book
        return [Line(f"for {book}: {count}; nothing is written without --write", "ask")]
    if not done.number:
        return [Line(f"{done.book} says all of it already; nothing was written", "good")]
    return [Line(f"written to {done.book}: {count}; `fitlore undo` takes it back", "good")]


def draft_json(draft: Draft, done: Written | Diagnostic | None) -> Json:
    """The same for programs; its shape is on the help page."""
    from fitlore.books.emit import tree_of

    return {
        "list": draft.table.shown,
        "supplier": str(draft.supplier.supplier),
        "rows": len(draft.table.rows),
        "layout": tree_of(draft.layout),
        "days": draft.days,
        "new": [_taken_json(one) for one in draft.new],
        "changed": [_taken_json(one) for one in draft.changed],
        "same": len(draft.same),
        "repeated": draft.repeated,
        "unknown": [{"line": row.origin.line, "number": row.number} for row in draft.unknown],
        "held": [diagnostic_json(one) for one in draft.held],
        "not_listed": [str(offer.number) for offer in draft.not_listed],
        "written": done._asdict() if isinstance(done, Written) else None,
        "refused": diagnostic_json(done) if isinstance(done, Diagnostic) else None,
    }


def _taken_json(taken: Taken) -> Json:
    row = taken.row
    return {
        "line": row.origin.line,
        "number": taken.number,
        "price": str(row.price),
        "pack": row.pack,
        "before": str(taken.before) if taken.before else None,
    }


def _read_as(draft: Draft) -> str:
    name = draft.supplier.name or str(draft.supplier.supplier)
    layout, table = draft.layout, draft.table
    divided = f"divided by {layout.divided_by.value}" if layout.divided_by else ""
    sheet = f"sheet {table.sheet!r}" if table.sheet else ""
    mark = f"decimals after a {layout.decimals_after.value}" if layout.decimals_after else ""
    said = [sheet, divided, mark, f"number in {layout.number_in!r}", f"price in {layout.price_in!r}"]
    said += [f"{what} in {at!r}" for what, at in _further(draft)]
    return f"{name}: {table.shown}, {len(table.rows)} rows, {listed(said)}"


def _further(draft: Draft) -> Iterator[tuple[str, str]]:
    layout = draft.layout
    for what, at in (("maker", layout.maker_in), ("stock", layout.stock_in), ("pack", layout.pack_in)):
        if at:
            yield what, at


def _counts(draft: Draft) -> list[Line]:
    dearer = sum(one.before is not None and one.row.price.amount > one.before.amount for one in draft.changed)
    days = f"{draft.days} day{'' if draft.days == 1 else 's'} until they are here"
    rows = [
        (
            len(draft.changed),
            "changed",
            f"{dearer} dearer, {len(draft.changed) - dearer} cheaper" if draft.changed else "",
        ),
        (len(draft.new), "new", days if draft.new else ""),
        (len(draft.same), "as before", ""),
        (draft.repeated, "said once more", ""),
        (len(draft.held), "not taken", "each with why below" if draft.held else ""),
        (len(draft.unknown), "unknown", "no part of the books has the number" if draft.unknown else ""),
        (len(draft.not_listed), "not on the list", "his other offers; they stay as they are"),
    ]
    shown = [row for row in rows if row[0]]
    cells = [(str(count), what, said) for count, what, said in shown]
    tones: list[Tone] = ["ask" if what == "not taken" else "plain" for _, what, _ in shown]
    return columns(cells, tones, "rl")


def _changed(rows: Sequence[Taken]) -> list[Line]:
    cells = [(one.number, str(one.before), str(one.row.price), _line(one)) for one in rows]
    return columns([(f"  {a}", b, f"-> {c}", d) for a, b, c, d in cells], ["plain"] * len(cells), "lrl")


def _new(rows: Sequence[Taken], days: int) -> list[Line]:
    cells = [(f"  {one.number}", str(one.row.price), _line(one)) for one in rows]
    return columns(cells, ["plain"] * len(cells), "lr")


def _line(taken: Taken) -> str:
    pack = f"pack of {taken.row.pack}, " if taken.row.pack > 1 else ""
    return f"{pack}line {taken.row.origin.line}"


def _more(count: int, most: int | None, what: str) -> list[Line]:
    rest = count - most if most is not None else 0
    return [Line(f"and {rest} more {what}; --all shows them", "dim")] if rest > 0 else []
