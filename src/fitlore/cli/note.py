"""`note`: keep a cross-fit, more evidence for one, what speaks against it, or take back what was said."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from typing import NamedTuple

import click

from fitlore.cli.counter import Counter, open_counter, shared_options
from fitlore.cli.failure import CouldNot
from fitlore.cli.gap import Gap, answered
from fitlore.cli.note_claims import Limits
from fitlore.cli.note_head import Stance
from fitlore.cli.note_money import priced
from fitlore.cli.note_words import Told, date_said, how_said, work_said
from fitlore.cli.noting import Extras, Understood, understood
from fitlore.cli.root import Page
from fitlore.cli.when import this_day
from fitlore.fitting import Question, answer
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.part import Part
from fitlore.report.drafts import Priced, draft_lines, hint_lines, money_lines, understood_lines
from fitlore.report.text import Line, show
from fitlore.report.verdicts import danger_lines
from fitlore.upkeep.draft import Draft, draft
from fitlore.upkeep.hints import Hint, hints
from fitlore.upkeep.record import Recorded, record
from fitlore.upkeep.undo import undo

_ASK = "what goes where, and how is it known? (PART for PLACE, HOW)"


class Worked(NamedTuple):
    """A line worked out: what would be written, what it changes, and where else it may count."""

    line: Understood
    drafts: tuple[Draft, ...]
    hints: tuple[Hint, ...]
    money: tuple[Priced, ...]

    @property
    def ready(self) -> bool:
        """Whether all of it can be written."""
        return all(one.ready for one in self.drafts)

    @property
    def doubtful(self) -> bool:
        """Whether something speaks against it, though not enough to forbid it."""
        found = (d for one in self.drafts for d in (*one.objections, *one.findings))
        return any(d.severity is Severity.WARNING for d in found)

    @property
    def new_part(self) -> Part | None:
        """The part that is written with the claim."""
        return self.line.part if self.line.new_part else None


@click.command("note", cls=Page)
@click.argument("words", nargs=-1)
@click.option("--for", "--at", "target", metavar="WHAT", help="The number it replaces, or the place.")
@click.option(
    "--off", "--from", "off", metavar="WHOSE", help="The donor it comes off, or whose version it is."
)
@click.option("--not", "stance", flag_value="against", help="It does not fit.")
@click.option("--take-back", "stance", flag_value="taken-back", help="What was said for it holds no more.")
@click.option("--how", metavar="HOW", help="fitted, offered up, measured, printed or told.")
@click.option("--by", metavar="WHO", help="Who knows; else the shop.")
@click.option("--source", metavar="WHERE", help="Where it was read or heard; repeats of one count once.")
@click.option("--date", metavar="DAY", help="When it was found out; else today.")
@click.option("--lasted", metavar="TIME", help="How long it has held: `7 months`.")
@click.option("--note", "remark", metavar="TEXT", help="What was seen.")
@click.option("--both/--one-way", "both", default=None, help="In which direction it holds; else one way.")
@click.option(
    "--reaches", multiple=True, metavar="PLATFORM", help="Where it holds; else the place's platform."
)
@click.option("--with", "beside", multiple=True, metavar="'PART at PLACE'", help="What changes with it.")
@click.option("--work", metavar="TEXT", help="What has to be done; `25 min: bend the brackets`.")
@click.option("--minutes", type=click.IntRange(0), default=0, help="Work beyond changing like for like.")
@click.option("--waives", multiple=True, metavar="FEATURE", help="A feature that the work takes care of.")
@click.option("--only-if", multiple=True, metavar="FACT=VALUE", help="Only for such cars.")
@click.option("--no-number", is_flag=True, help="There is no number on it; it gets one of the shop's.")
@click.option("--marks", metavar="TEXT", help="What is stamped or cast on a part without a number.")
@click.option("--money", is_flag=True, help="Count every open job again, however long it takes.")
@click.option("--dry-run", is_flag=True, help="Show the difference, write nothing.")
@click.option("--yes", is_flag=True, help="Do not ask.")
@shared_options
def command(folder: str | None, words: tuple[str, ...], **options: object) -> int:
    """Keep what was found out."""
    _readable([*words, *(one for value in options.values() for one in _texts(value))])
    counter = open_counter(folder, _text(options, "car_name") or None, in_hand=True)
    if counter.folder is None:
        raise CouldNot("there is no shop here to write into; make a fitlore.yaml first")
    as_json, dry = bool(options["as_json"]), bool(options["dry_run"])
    line, asked = _read(counter, " ".join(words), _extras(options), quiet=as_json)
    worked = _worked_out(counter, line, whole=bool(options["money"]))
    if not as_json:
        show(_lines(counter, worked, dry=dry))
    written = _write(worked, counter, yes=bool(options["yes"]), dry=dry, quiet=as_json, asked=asked)
    if as_json:
        _print_json(worked, home=counter.graph.shop.currency, written=written)
    return 0 if written or (dry and worked.ready) else 1


def _read(counter: Counter, line: str, extras: Extras, *, quiet: bool) -> tuple[Understood, bool]:
    """The line as it is understood, and whether somebody was asked: once at most, on a terminal; else Gap is raised."""
    try:
        if not line.strip():
            raise Gap("nothing was noted;", "line", ("note PART for NUMBER-or-PLACE, HOW",), "write it so")
        return understood(counter, line, extras), False
    except Gap as gap:
        if quiet:
            raise
        if gap.piece == "line":
            if not (sys.stdin.isatty() and sys.stderr.isatty()):
                raise
            answer = str(click.prompt(_ASK, prompt_suffix="\n> ", err=True))
        else:
            answer = answered(gap)
        line, extras = extras.filled(line, gap, answer)
        return understood(counter, line, extras), True


def _worked_out(counter: Counter, line: Understood, *, whole: bool) -> Worked:
    assert counter.folder is not None
    today, drafts = this_day(), list[Draft]()
    for addition in line.additions:
        before = drafts[-1] if drafts else None
        if before is None or before.ready:
            drafts.append(draft(counter.graph, addition, counter.folder, today=today, after=before))
    last = drafts[-1]
    ready = all(one.ready for one in drafts) and len(drafts) == len(line.additions)
    found = hints(last.graph, line.claim, today) if ready and line.stance == "for" else ()
    money = priced(counter.graph, tuple(drafts), whole=whole) if ready else ()
    return Worked(line, tuple(drafts), found, money)


def _lines(counter: Counter, worked: Worked, *, dry: bool) -> list[Line]:
    line, drafts = worked.line, worked.drafts
    place, side = line.where.place, line.where.side
    said = understood_lines(
        line.claim,
        line.evidence,
        line.stance,
        new=line.new,
        part=line.part,
        at=f"{place.path}{f'@{side}' if side else ''}" if place else "",
        new_part=line.new_part,
    )
    lines = [counter.head(), *_dangers(counter, line), *said]
    for one in drafts:
        lines += draft_lines(one, whole=dry)
    if worked.ready and not any(one.changes for one in drafts):
        lines.append(Line("changes no verdict yet", "dim"))
    home = counter.graph.shop.currency
    return [*lines, *hint_lines(worked.hints), *money_lines(worked.money, home)]


def _dangers(counter: Counter, line: Understood) -> list[Line]:
    """The danger line of a trap at the place it was noted for, and how to tell it on the bench; before all else."""
    if line.where.place is None or line.stance == "taken-back":
        return []
    question = Question(line.where.place, counter.car, line.where.side, only=(line.part,))
    return danger_lines(v for v in answer(counter.graph, question).verdicts if v.danger)


def _write(worked: Worked, counter: Counter, *, yes: bool, dry: bool, quiet: bool, asked: bool) -> bool:
    """Write what nothing speaks against; a warning is asked about, on a terminal where nothing was asked yet; an error is
    never written."""
    if dry or not worked.ready or counter.folder is None:
        return False
    if worked.doubtful and not yes:
        if quiet or asked or not sys.stdin.isatty():
            click.echo(
                "note: not written, since something speaks against it; add --yes to write it all the same",
                err=True,
            )
            return False
        if not click.confirm("write it all the same?", err=True):
            return False
    done: list[Recorded] = []
    for one in worked.drafts:
        made = record(one, counter.folder)
        if isinstance(made, Diagnostic):
            for before in reversed(done):
                undo(counter.folder, number=before.number)
            raise CouldNot(f"{made.message}; {made.remedy}")
        done.append(made)
    if not quiet:
        where = " and ".join(str(one.origin) for one in done)
        call, what = ("undo", "it") if len(done) == 1 else (f"undo --count {len(done)}", "them")
        show([Line(f"written: {where}; `fitlore {call}` takes {what} back", "good", hang=2)])
    return True


def _readable(texts: Iterable[str]) -> None:
    """Raises CouldNot for bytes that were no text in the shell's encoding: no book can hold them."""
    for text in texts:
        try:
            text.encode()
        except UnicodeEncodeError:
            raise CouldNot(
                f"{text!a} is no text as this terminal's encoding has it; write it again"
            ) from None


def _texts(value: object) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) else tuple(map(str, value)) if isinstance(value, tuple) else ()


def _text(options: dict[str, object], name: str) -> str:
    value = options[name]
    return value if isinstance(value, str) else ""


def _many(options: dict[str, object], name: str) -> tuple[str, ...]:
    return _texts(options[name])


def _extras(options: dict[str, object]) -> Extras:
    stances: dict[str, Stance] = {"against": "against", "taken-back": "taken-back"}
    both, minutes = options["both"], options["minutes"]
    work = work_said(_text(options, "work"))
    said = Told(
        how=how_said(_text(options, "how")),
        by=_text(options, "by"),
        source=_text(options, "source"),
        date=date_said(_text(options, "date"), this_day()),
        lasted=_text(options, "lasted"),
        do=work.do,
        minutes=(minutes if isinstance(minutes, int) else 0) or work.minutes,
        both_ways=both if isinstance(both, bool) else None,
        beside=_many(options, "beside"),
        no_number=bool(options["no_number"]),
        marks=_text(options, "marks"),
        note=_text(options, "remark"),
    )
    limits = Limits(
        reaches=_many(options, "reaches"),
        waives=_many(options, "waives"),
        only_if=_many(options, "only_if"),
    )
    stance = stances.get(_text(options, "stance"))
    return Extras(stance, _text(options, "target"), _text(options, "off"), said, limits)


def _print_json(worked: Worked, *, home: str, written: bool) -> None:
    from fitlore.report.machine import dump
    from fitlore.report.machine_notes import claim_json, drafts_json, hint_json, new_part_json, priced_json

    line = worked.line
    data = {
        "written": written,
        **drafts_json(worked.drafts),
        "understood": claim_json(line.claim, line.evidence, line.stance, new=line.new),
        "new-part": new_part_json(worked.new_part),
        "hints": [hint_json(hint) for hint in worked.hints],
        "plans": [priced_json(row, home) for row in worked.money if row.counted],
        "not-counted": [row.job for row in worked.money if not row.counted],
    }
    click.echo(dump(data), nl=False)
