"""`note`: keep a cross-fit, more evidence for one, or what speaks against it."""

from __future__ import annotations

import sys

import click

from fitlore.cli.counter import Counter, open_counter, shared_options
from fitlore.cli.failure import CouldNot
from fitlore.cli.noting import Extras, Understood, understood
from fitlore.cli.root import Page
from fitlore.cli.when import this_day
from fitlore.graph.open import Graph
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.report.drafts import draft_lines, understood_lines
from fitlore.report.money import said
from fitlore.report.text import Line, show
from fitlore.report.verdicts import WORDS, car_line
from fitlore.upkeep.addition import NewClaim
from fitlore.upkeep.draft import Draft, draft
from fitlore.upkeep.record import record


@click.command("note", cls=Page)
@click.argument("words", nargs=-1, required=True)
@click.option("--for", "--at", "target", metavar="WHAT", help="The number it replaces, or the place.")
@click.option("--how", metavar="HOW", help="fitted, offered-up, measured, printed or told.")
@click.option("--by", metavar="WHO", help="Who knows; else the shop.")
@click.option(
    "--source", metavar="WHERE", help="Where it was read or heard; repeats of one source count once."
)
@click.option("--note", "remark", metavar="TEXT", help="What was seen.")
@click.option(
    "--goes", type=click.Choice(["one-way", "both-ways"]), default="one-way", help="In which direction."
)
@click.option(
    "--reaches",
    multiple=True,
    metavar="PLATFORM",
    help="Where it was found to hold; else the car's platform.",
)
@click.option(
    "--minutes", type=click.IntRange(0), default=0, help="Work it takes beyond changing like for like."
)
@click.option("--work", default="", metavar="TEXT", help="What has to be done.")
@click.option("--waives", multiple=True, metavar="FEATURE", help="A feature that the work takes care of.")
@click.option("--only-if", multiple=True, metavar="FACT=VALUE", help="Only for such cars.")
@click.option("--dry-run", is_flag=True, help="Show everything, write nothing.")
@click.option("--yes", is_flag=True, help="Do not ask.")
@shared_options
def command(folder: str | None, words: tuple[str, ...], **options: object) -> int:
    """Keep what was found out."""
    counter = open_counter(folder, _text(options, "car_name"))
    if counter.folder is None:
        raise CouldNot("there is no shop here to write into; make a fitlore.yaml first")
    line = understood(counter, words, _text(options, "target"), _extras(options))
    made = draft(counter.graph, line.addition, counter.folder, today=this_day())
    money = _money(counter, made)
    as_json, dry = bool(options["as_json"]), bool(options["dry_run"])
    if not as_json:
        new = isinstance(line.addition, NewClaim)
        said_back = understood_lines(line.claim, line.evidence, against=line.against, new=new)
        show(
            [
                car_line(counter.car),
                *said_back,
                *draft_lines(made),
                *_money_lines(money, counter.graph.shop.currency),
            ]
        )
    written = _write(made, counter, yes=bool(options["yes"]), dry=dry, quiet=as_json)
    if as_json:
        _print_json(made, line, money, home=counter.graph.shop.currency, written=written)
    return 0 if written or (dry and made.ready) else 1


def _text(options: dict[str, object], name: str) -> str | None:
    value = options[name]
    return value if isinstance(value, str) else None


def _extras(options: dict[str, object]) -> Extras:
    def many(name: str) -> tuple[str, ...]:
        value = options[name]
        return tuple(str(one) for one in value) if isinstance(value, tuple) else ()

    minutes = options["minutes"]
    return Extras(
        how=_text(options, "how"),
        by=_text(options, "by"),
        note=_text(options, "remark"),
        both_ways=options["goes"] == "both-ways",
        reaches=many("reaches"),
        minutes=minutes if isinstance(minutes, int) else 0,
        work=_text(options, "work") or "",
        waives=many("waives"),
        only_if=many("only_if"),
        source=_text(options, "source"),
    )


def _write(made: Draft, counter: Counter, *, yes: bool, dry: bool, quiet: bool) -> bool:
    """Write a draft that nothing speaks against; a warning is asked about once, on a terminal; an error is never written."""
    if dry or not made.ready or counter.folder is None:
        return False
    doubtful = any(o.severity is Severity.WARNING for o in (*made.objections, *made.findings))
    if doubtful and not yes:
        if quiet or not sys.stdin.isatty():
            click.echo(
                "note: not written, since something speaks against it; add --yes to write it all the same",
                err=True,
            )
            return False
        if not click.confirm("write it all the same?", err=True):
            return False
    done = record(made, counter.folder)
    if isinstance(done, Diagnostic):
        raise CouldNot(f"{done.message}; {done.remedy}")
    if not quiet:
        show([Line(f"written: {done.origin}; `fitlore undo` takes it back", "good")])
    return True


def _money(counter: Counter, made: Draft) -> list[tuple[str, int, int]]:
    """The least cost of each job of the picked car, before and after; jobs that cannot be planned are left out."""
    if counter.car is None or made.spliced is None:
        return []
    from fitlore.sourcing.needs import JobFault
    from fitlore.sourcing.plan import plan

    def cost(graph: Graph, name: str) -> int | None:
        job = graph.job(name)
        if job is None or job.today is None:
            return None
        try:
            return plan(graph, job, explain=False).solution.cost
        except JobFault:
            return None

    rows: list[tuple[str, int, int]] = []
    for job in counter.graph.jobs_of(counter.car.car):
        before, after = cost(counter.graph, job.job), cost(made.graph, job.job)
        if before is not None and after is not None:
            rows.append((job.job, before, after))
    return rows


def _money_lines(money: list[tuple[str, int, int]], home: str) -> list[Line]:
    rows = []
    for job, before, after in money:
        change = f"{said(before - after, home)} cheaper" if after < before else "no cheaper"
        rows.append(Line(f"plan {job}: {said(before, home)} -> {said(after, home)}, {change}", hang=2))
    return rows


def _print_json(
    made: Draft, line: Understood, money: list[tuple[str, int, int]], *, home: str, written: bool
) -> None:
    from fitlore.report.machine import diagnostic_json, dump

    data = {
        "written": written,
        "book": made.spliced.origin.book if made.spliced else None,
        "line": made.spliced.origin.line if made.spliced else None,
        "text": list(made.spliced.lines) if made.spliced else [],
        "understood": {
            "claim": line.claim.crossfit,
            "use": line.claim.use,
            "instead-of": line.claim.instead_of,
            "at": line.claim.at,
            "how": line.evidence.how.value,
            "against": line.against,
        },
        "objections": [diagnostic_json(d) for d in made.objections],
        "findings": [diagnostic_json(d) for d in made.findings],
        "changes": [
            {
                "place": row.place.full_path,
                "car": row.car.car if row.car else None,
                "part": row.part.part,
                "before": WORDS[row.before.word] if row.before else None,
                "after": WORDS[row.after.word] if row.after else None,
            }
            for row in made.changes
        ],
        "plans": [{"job": job, "before": said(b, home), "after": said(a, home)} for job, b, a in money],
    }
    click.echo(dump(data), nl=False)
