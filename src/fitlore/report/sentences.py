"""The one place where proofs become words: a sentence per code, and the tree of them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from typing import Final

from fitlore.model.because import Because
from fitlore.report.days import short_day
from fitlore.report.sentences_against import AGAINST
from fitlore.report.sentences_donor import DONOR
from fitlore.report.sentences_plan import PLAN
from fitlore.report.sentences_trade import TRADE
from fitlore.report.text import Line, Tone, tied

SENTENCES: Final[dict[str, str]] = {
    **TRADE,
    **DONOR,
    **PLAN,
    **AGAINST,
    "answer": "asked about {place}",
    "requirement": "{place} demands",
    "original-of-place": "{number} is listed for {place}; right for this car: {condition}",
    "really-on": "the {assembly} on this car is {from}'s[ ({how} by {by})][: {note}]",
    "part-really-on": "on this car {place} has {number}[ ({how} by {by})][: {note}]",
    "what-is-on-it-noted": "what is there now: {number}",
    "no-such-place-there": "that platform has no place {path}",
    "condition-true": "{fact} {is}[, {how}][ by {by}][ ({note})]: in {wanted}",
    "condition-false": "{fact} {is}[, {how}][ by {by}][ ({note})]: not in {wanted}",
    "condition-ask": "{fact} {is}[, {how}][ by {by}][ ({note})]: cannot tell whether in {wanted}",
    "number-says-side": "{part}: as its maker numbers, that is the {side} one",
    "verdict": "{part}[ ({maker})] at {place}: {word}",
    "way-original": "the book of {place} lists it",
    "shelf-counts-as": "the shelf {shelf} counts as {how} at best, which is not enough here",
    "way-book": "the book lists {number} at {place}, but that is not what is on this car",
    "way-measure": "nobody has claimed it; only its measures speak",
    "way-asked": "asked about by number",
    "way-chain": "links in the chain: {links}",
    "way": "no way in",
    "claim": "claim {claim}: {use} does the job of {for}[, because {why}]",
    "claim-elsewhere": "that claim was made for {reaches}, not for here: only a hint",
    "same-part": "{number} is the same part under another number",
    "replaced-by": "the maker replaced it by {number} ({reason})",
    "evidence-for": "for it: {how}[ by {by}][, {date}][, lasted {lasted}][, source {source}][, said {times} times][: {note}]",
    "evidence-against": "against it: {how}[ by {by}][, {date}][, source {source}][: {note}]",
    "evidence-withdrawn": "taken back by {by}[, {since}]: {how}[, {date}][, source {source}][: {note}]",
    "evidence-gone-with-source": "gone with its source, {source}, which is taken back: {how}[ by {by}][, {date}]",
    "chance-exact": "taken together, the words for it hold with a chance of {low} in 100[, {open}]; worked out"
    " exactly; independent pieces of evidence: {pieces}",
    "chance-bounds": "taken together, the words for it hold with a chance of at least {low} and at most {high} in 100"
    "[, {open}]; too many to be worked out exactly; independent pieces of evidence: {pieces}",
    "chance-whichever": "taken together, the words for it hold with a chance of {low} to {high} in 100, by which original"
    " is on the car",
    "chance-counts": "another chain counts too, with claim {claim}",
    "chance-shared": "{source} stands behind {count} of the steps and counts once",
    "chance-leaves-out": "not counted, since it is spoken against: claim {claim}",
    "with": "only together with {use} at {at}[: {why}]",
    "never-with-true": "must not meet {use}: that is certainly not there",
    "never-with-false": "must not meet {use}, which is on this car[: {why}]",
    "never-with-ask": "must not meet {use}: look whether it is there[: {why}]",
    "word-same": "same word: {needed}",
    "word-off": "{offered} is not {needed}",
    "size-ok": "{offered} against {needed}: {rule}[ (tolerance {tolerance})]",
    "size-off": "{offered} against {needed}: not {rule}[ (tolerance {tolerance})]",
    "row-from-memory": "a figure of this is from memory: not looked up in a source",
    "memory-alone": "a yes would rest on figures from memory, which prove nothing where somebody may come to harm: measure",
    "serves": "{designation} is what {place} asks for as its {feature}: {needed}",
    "measured-as": "{what}: {how}",
    "part-size": "{part} ({category}) as the books have it",
    "pair-no-category": "{needed} and {offered} have no category with features in common; nothing was compared",
    "pair-ok": "by the features of {category}, {offered} does the job of {needed}",
    "pair-ok-with-work": "by the features of {category}, {offered} does the job of {needed}, with work",
    "pair-unknown": "by the features of {category}, whether {offered} does the job of {needed} is open",
    "pair-off": "by the features of {category}, {offered} does not do the job of {needed}",
    "pair-trap": "by the features of {category}, {offered} for {needed} is a trap",
    "cannot-compare": "{offered} and {needed} cannot be compared",
    "feature-ok": "{feature}: {offered} for {needed}",
    "feature-ok-with-work": "{feature}: {offered} for {needed}, with work",
    "feature-off": "{feature}: {offered}, needed {needed}",
    "feature-trap": "{feature}: {offered} for {needed} is a trap",
    "feature-unknown": "{feature}: not known[ ({missing})][; offered {offered}][; needed {needed}]",
    "row-trap": "a trap: it seems to go together and does not",
    "row-trap-disputed": "a near miss that somebody says he made work",
    "row-other-hand": "it is a {side} one",
    "row-forbidden": "a piece that it must never meet is on this car",
    "row-changed": "a known change point says no, and its measures are not all known[: {missing}]",
    "row-own-trial": "the shop's own trial says no",
    "row-own-trial-answered": "the shop's own trial said no, later first-hand evidence says yes",
    "row-claimed-but-off": "claimed, but {off} is off and no stated work takes care of it",
    "row-off": "{off} is off and nobody claims otherwise",
    "row-disputed": "somebody says it fits, somebody's trial says no",
    "row-others-say-no": "nobody says it fits, and somebody says it does not",
    "row-taken-back": "nobody says any longer that it fits: what was said is taken back",
    "row-missing": "not proven[; not known: {missing}]",
    "row-measure": "every required measure is known and agrees; nobody has tried it",
    "row-measure-asks": "by its measures, if the open questions are answered so",
    "row-too-little-evidence": "what is known of it is not enough for class {class}",
    "row-scope-unknown": "the claim does not say where it was made, and not all is measured[; not known: {missing}]",
    "row-safe-unknown": "a limit that protects is not known[: {missing}]",
    "row-depends": "it depends on what is asked",
    "row-fits-with-work": "listed or claimed, enough evidence, with work",
    "row-fits": "listed or claimed, enough evidence",
    "source": "{offer}: goods {goods}[, carriage or journey {carriage}][, expected loss {lost}][, scrap back {back}]"
    "[, hands {hands}]; landed {landed}",
}
"""`{name}` is a value; a part in `[ ]` is left out where one of its values is empty."""

_OPTIONAL: Final = re.compile(r"\[([^\[\]]*)\]")
_FIELD: Final = re.compile(r"\{([\w-]+)\}")
_LONGEST_NUMBER: Final = 20


def say(because: Because) -> str:
    """One step in words. An unknown code is said as it is, with its values: nothing is hidden."""
    template = SENTENCES.get(because.code)
    if template is None:
        return f"{because.code}: " + ", ".join(f"{k} {v}" for k, v in because.values.items() if v)

    values = {name: _worded(name, value) for name, value in because.values.items()}

    def optional(match: re.Match[str]) -> str:
        names = _FIELD.findall(match[1])
        return match[1] if all(values.get(name) for name in names) else ""

    return _FIELD.sub(lambda match: values.get(match[1], ""), _OPTIONAL.sub(optional, template))


def _worded(name: str, value: str) -> str:
    """A verdict without its hyphens, a day as it is said; that something was said once goes without saying."""
    if name == "word":
        return value.replace("-", " ")
    if name == "day":
        return short_day(date.fromisoformat(value))
    return "" if (name, value) == ("times", "1") else value


def cited(because: Because) -> str:
    """Where a step stands: lines of books and published tables."""
    places = [*dict.fromkeys(str(origin) for origin in because.origins if origin.book), *because.sources]
    return f"[{'; '.join(places)}]" if places else ""


def tree(because: Because) -> list[Line]:
    """The whole proof, indented; a step that was told already is not told again."""
    return list(_steps(because, 0, set()))


def _uncut(text: str, because: Because) -> str:
    """The words of a step with the part's numbers in it held together, so that no end of line cuts one in two."""
    for value in because.values.values():
        if " " in value and len(value) <= _LONGEST_NUMBER and any(sign.isdigit() for sign in value):
            text = text.replace(value, tied(value))
    return text


def _steps(because: Because, depth: int, told: set[bytes]) -> Iterator[Line]:
    import msgspec

    mark = msgspec.msgpack.encode(because)
    lead = "  " * depth
    where = cited(because)
    tone: Tone = "danger" if "-trap" in because.code else "plain"
    yield Line(
        f"{lead}{_uncut(say(because), because)}{'  ' + where if where else ''}", tone, hang=len(lead) + 2
    )
    if mark in told and because.under:
        yield Line(f"{lead}  (as above)", "dim")
        return
    told.add(mark)
    for step in because.under:
        yield from _steps(step, depth + 1, told)
