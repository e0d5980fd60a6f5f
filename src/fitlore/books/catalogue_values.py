"""Faults of single values and of records beside those of `catalogue_records` and `catalogue_sense` (V01 to V09)."""

from __future__ import annotations

from typing import Final

from fitlore.books.faults import Fault, register
from fitlore.model.diagnostic import Severity

_E: Final = Severity.ERROR

register(
    Fault(code, severity, title, message, expected, remedy)
    for code, severity, title, message, expected, remedy in (
        (
            "V01-unknown-currency",
            _E,
            "A currency that there is not",
            "`{found}` is in no currency of ISO 4217",
            "one of the codes of ISO 4217, as `GBP` or `EUR`",
            "{remedy}",
        ),
        (
            "V02-too-many-decimals",
            _E,
            "An amount with parts of the smallest coin",
            "`{found}` has more decimals than its currency",
            "as many decimals as ISO 4217 gives the currency, or fewer",
            "{remedy}",
        ),
        (
            "V03-not-a-rate",
            _E,
            "A rate that cannot be read",
            "`{found}` is no rate",
            "so much of a currency for one of another, or for a kilometre, more than nothing: `0.8614 GBP`",
            "Write figures, a point and up to nine decimals, a space, and the code of the currency it is in.",
        ),
        (
            "V04-not-a-serial-number",
            _E,
            "A chassis number in the wrong shape",
            "`{key}` is `{found}`",
            "the capitals of the series, a space, and the figures: `KT 118430`",
            "Put a space between series and figures, so that it is clear where the number in the series begins.",
        ),
        (
            "V05-whose-version",
            _E,
            "A quality note about nobody's version",
            "the note does not say whose version of the part is meant",
            "`from` (the supplier), `maker` or `batch`: at least one of them",
            "Where every one of them is bad, whoever made it, that is a matter for the part itself: write it there.",
        ),
        (
            "V06-not-a-time",
            _E,
            "A time of day that cannot be read",
            "`{key}` is a time of day, and `{found}` is none",
            "hours and minutes of the 24-hour clock, as `16:00`",
            "Write two figures, a colon, two figures, in quotes.",
        ),
        (
            "V07-not-a-look",
            _E,
            "A look of numbers that cannot be read",
            "`{found}` does not say what a number looks like",
            "capitals, figures and separators as they stand; `n` for any figure, `a` for any letter, `x` for either",
            "Write the letters of the number in capitals: `TC nnn nnn a`.",
        ),
        (
            "V08-odds-over-the-whole",
            _E,
            "Odds that are more than certain",
            "the odds of the causes come to {found} %",
            "100 % or less over all causes of a symptom",
            "Make them smaller; what is left over stands for what nobody has thought of.",
        ),
        (
            "V09-both-the-same",
            _E,
            "Two that must differ and do not",
            "`{key}` and `{other}` are both `{found}`",
            "two different ones",
            "Look again which is which.",
        ),
    )
)
