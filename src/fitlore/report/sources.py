"""Substitute sources in words: cheapest first, each with its landed cost and days."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING, Final

from fitlore.fitting import Verdict
from fitlore.model.placed import OfferFrom
from fitlore.report.days import short_day
from fitlore.report.money import bare, said
from fitlore.report.text import Line, Tone, columns, minutes, tied
from fitlore.report.verdicts import TONES, WORDS, danger_lines, named, place_words, reason

if TYPE_CHECKING:
    from fitlore.sourcing.paths import Source, Sources

WHY_NOT: Final = {
    "route-forbidden-by-job": "the job does not take it",
    "used-not-taken": "not taken used",
    "old-stock-not-taken": "old stock without a date is not taken",
    "state-not-taken": "the policy takes nothing that is {state}",
    "tyre-too-old": "{made}: the policy takes no tyre over {years} years",
    "tyre-date-not-known": "nobody said which week and year the tyre was made",
    "too-few-in-stock": "too few in stock",
    "asked-and-had-none": "asked {seen}, had none",
    "no-price": "no price known",
    "price-held-till": "the price was held till {until}",
    "out-of-stock": "out of stock",
    "other-currency": "in another currency, and no rate is known",
    "not-seen-there": "a price for any {kind}, and nobody knows whether one stands there",
    "tax-not-known": "tax comes on top, and the policy has no rate for {country}",
    "border-not-known": "comes from {country}, and the policy does not say what the border takes",
}
"""Why an offer is left out, by code; `{name}` is a value of it."""


def sources_lines(sources: Sources, today: date, first: int = 1) -> list[Line]:
    """One line per source, cheapest landed first and numbered from `first`, then what was left out and why."""
    lines = [Line(place_words(sources.answer), "head", hang=2), *danger_lines(sources.refused)]
    if not sources.sources:
        lines.append(Line("  no offer is known that a plan may buy", "ask"))
    rows, tones = [], list[Tone]()
    for number, source in enumerate(sources.sources, first):
        rows.append(_row(number, source, sources.home, today))
        tones.append(TONES.get(source.verdict.word, "plain") if source.verdict else "plain")
    lines += columns(rows, tones, "rrr")
    lines += [_refused(verdict) for verdict in sources.refused]
    lines += [_left(line, code, {}) for line, code in sources.barred]
    lines += [_left(row.offer, row.code, row.values) for row in sources.left_out]
    return lines


LANDED: Final = (
    "landed = goods + carriage or journey + expected loss + hands at their worth, bought by itself"
)
"""What the first figure of each source is."""


def _row(number: int, source: Source, home: str, today: date) -> tuple[str, str, str, str]:
    when = short_day(today + timedelta(days=source.offer.days)) if source.offer.days else "now"
    verdict = source.verdict
    part = f"{named(verdict)} {WORDS[verdict.word]}" if verdict else source.choice.option.id
    return f"{number:>2}", said(source.landed, home), when, f"{part}; {_how(source, home)}"


def _how(source: Source, home: str) -> str:
    packs = f"{source.packs} x " if source.packs > 1 else ""
    bits = [f"{packs}{_thing(source)} from {source.offer.supplier} {bare(source.goods, home)}"]
    bits.append(
        f"{source.by} {bare(source.carriage, home)}" if source.carriage else BY.get(source.by, source.by)
    )
    if source.joining:
        bits.append(f"joining {bare(source.joining, home)}")
    if source.fill:
        bits.append(f"{bare(source.fill, home)} more to reach the minimum order")
    if source.offer.surcharge:
        bits.append(f"surcharge {bare(source.offer.surcharge * source.packs, home)} lent")
    if source.lost:
        gain = "scrap back" if source.line.offer.whole_car else "tax back"
        bits.append(f"{gain if source.lost < 0 else 'expected loss'} {bare(abs(source.lost), home)}")
    if source.hands:
        bits.append(minutes(source.hands))
    for extra in source.extras:
        what, sep, seller = extra.partition(" from ")
        bits.append(f"besides {tied(what)}{sep}{seller}")
    return ", ".join(bit for bit in bits if bit)


BY: Final = {"free": "carried free", "no charge": "carried free"}
"""Ways of delivery that cost nothing, in words."""


def _thing(source: Source) -> str:
    offer = source.line.offer
    return f"whole {offer.whole_car}" if offer.whole_car else offer.state.value


def _refused(verdict: Verdict) -> Line:
    text = f"  not bought: {named(verdict)} ({WORDS[verdict.word]}: {reason(verdict)})"
    return Line(text, "dim", hang=4)


def _left(line: OfferFrom, code: str, values: Mapping[str, str]) -> Line:
    return Line(f"  left out: {thing_words(line, code, values)}", "dim", hang=4)


def thing_words(line: OfferFrom, code: str, values: Mapping[str, str]) -> str:
    """An offer that is left out: what, at whom, why, and where it is written."""
    what = line.offer.number or line.offer.service or line.offer.whole_car or line.offer.any_ or "?"
    why = " ".join(WHY_NOT[code].format_map(values).split()).replace(" ,", ",")
    return f"{tied(what)} at {line.supplier}: {why}  [{line.origin}]"
