"""Substitute sources in words: cheapest first, each with its landed cost and days."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from fitlore.fitting import Verdict
from fitlore.model.placed import OfferFrom
from fitlore.report.money import said
from fitlore.report.text import Line, Tone, columns, listed, minutes
from fitlore.report.verdicts import WORDS, summary

if TYPE_CHECKING:
    from fitlore.sourcing.paths import Source, Sources

WHY_NOT: Final = {
    "route-forbidden-by-job": "the job does not take it",
    "used-not-taken": "not taken used",
    "old-stock-not-taken": "old stock without a date is not taken",
    "too-few-in-stock": "too few in stock",
    "asked-and-had-none": "asked, had none",
    "no-price": "no price known",
    "price-held-till": "the price was held till an earlier day",
    "out-of-stock": "out of stock",
    "other-currency": "in another currency, and no rate is known",
}
"""Why an offer is left out, by code."""


def sources_lines(sources: Sources) -> list[Line]:
    """One line per source, cheapest landed first, then what was left out and why."""
    home = sources.home
    where = f"{sources.answer.place.full_path}{'@' + sources.answer.side if sources.answer.side else ''}"
    lines = [
        Line(
            f"{where}: landed = goods + carriage or journey + work at its worth, bought by itself",
            "dim",
            hang=2,
        )
    ]
    if not sources.sources:
        lines.append(Line("  no offer is known that a plan may buy", "ask"))
    rows, tones = [], list[Tone]()
    for number, source in enumerate(sources.sources, 1):
        rows.append(
            (f"{number:>2}", said(source.landed, home), _days(source), _what(source), _how(source, home))
        )
        tones.append("plain")
    lines += columns(rows, tones)
    lines += [_refused(verdict) for verdict in sources.refused]
    lines += [_left(line, code) for line, code in sources.barred]
    lines += [_left(row.offer, row.code) for row in sources.left_out]
    return lines


def _days(source: Source) -> str:
    days = source.offer.days
    return "now" if days == 0 else f"{days} day{'s' if days > 1 else ''}"


def _what(source: Source) -> str:
    verdict = source.verdict
    return f"{verdict.part.maker} {verdict.part.part}".strip() if verdict else source.choice.option.id


def _how(source: Source, home: str) -> str:
    bits = [f"{source.line.offer.state.value} at {source.offer.supplier}: {said(source.goods, home)}"]
    if source.packs > 1:
        bits[0] += f" for {source.packs}"
    if source.carriage:
        bits.append(f"{source.by} {said(source.carriage, home)}")
    elif source.by:
        bits.append(source.by)
    if source.fill:
        bits.append(f"filled up by {said(source.fill, home)} to the minimum order")
    if source.lost:
        bits.append(f"expected loss {said(source.lost, home)}")
    if source.hands:
        bits.append(minutes(source.hands))
    if source.verdict is not None:
        bits.append(WORDS[source.verdict.word])
    if source.extras:
        bits.append(f"with {listed(source.extras)}")
    return ", ".join(bits)


def _refused(verdict: Verdict) -> Line:
    name = f"{verdict.part.maker} {verdict.part.part}".strip()
    return Line(f"  not bought: {name} ({WORDS[verdict.word]}: {summary(verdict)})", "dim", hang=4)


def _left(line: OfferFrom, code: str) -> Line:
    what = line.offer.number or line.offer.service or line.offer.whole_car or "?"
    return Line(f"  left out: {what} at {line.supplier}: {WHY_NOT[code]}  [{line.origin}]", "dim", hang=4)
