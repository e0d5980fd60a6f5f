"""Every fault of sense inside one record, and between the records of one book (B70 to B89)."""

from __future__ import annotations

from typing import Final

from fitlore.books.faults import Fault, register
from fitlore.model.diagnostic import Severity

_E: Final = Severity.ERROR

register(
    Fault(code, severity, title, message, expected, remedy)
    for code, severity, title, message, expected, remedy in (
        (
            "B70-exactly-one",
            _E,
            "Not exactly one of several keys",
            "this {what} gives {found}",
            "exactly one of {words}",
            "Keep the one that says what it is.",
        ),
        (
            "B71-offer-without-price",
            _E,
            "An offer without a price",
            "this offer has no price",
            "`price`, or `said: none` where they were asked and had none",
            "Write the price, or leave the offer out until somebody asks.",
        ),
        (
            "B72-none-at-a-price",
            _E,
            "A price for what they do not have",
            "they said that they have none, and yet there is a price",
            "`said: none` without a price",
            "Delete one of the two.",
        ),
        (
            "B73-crossfit-of-what",
            _E,
            "A cross-fit that does not say for what",
            "the claim does not say what the part is used for",
            "`instead-of` (the part whose work it does) or `at` (the place, with its platform)",
            "Write the number of the part that it replaces.",
        ),
        (
            "B74-no-evidence",
            _E,
            "A cross-fit without evidence",
            "nobody is named who knows this",
            "`evidence` or `against`: at least one piece, with `how`",
            "Write how it is known, even if only told: `evidence: [{{how: told, by: ...}}]`.",
        ),
        (
            "B75-both-ways-with-limits",
            _E,
            "A cross-fit both ways that holds only one way",
            "`{key}` speaks of one direction, but the claim is to hold both ways",
            "`goes: one-way` beside `{key}`",
            "Write it one way, and a second cross-fit for the other direction with its own `{key}`.",
        ),
        (
            "B76-points-at-itself",
            _E,
            "A record that points at itself",
            "`{key}` names {what}: `{found}`",
            "another one",
            "Look the number or name up again. Separators and capitals make no difference to it.",
        ),
        (
            "B77-no-tolerance",
            _E,
            "A rule without its tolerance",
            "the rule `within` does not say within what",
            "`tolerance`, as `0.5 mm` or `-0.2/+0 mm`",
            "Write the tolerance; where both must be equal, the rule is `same`.",
        ),
        (
            "B78-not-a-tolerance",
            _E,
            "A tolerance that cannot be read",
            "`{found}` is no tolerance",
            "a size for both directions, as `0.5 mm`, or one for each, as `-0.2/+0 mm`",
            "Write figures with their unit; the minus side first.",
        ),
        (
            "B79-look-at-what",
            _E,
            "Something to look at that is no feature",
            "`{found}` is to be looked at first, but the category has no such feature",
            "a name out of `features`",
            "Name the feature as it is written there.",
        ),
        (
            "B80-side-of-a-finding",
            _E,
            "A finding on an unknown side",
            "`{found}` is no side of a finding",
            "`left`, `right` or `both`, seen from the driver's seat facing forwards",
            "Leave it out where the place has no sides.",
        ),
        (
            "B81-steps-and-fixed",
            _E,
            "Carriage by steps and by one fee",
            "`{key}` stands beside `steps`",
            "either `steps`, or `fixed` with or without `free-from`",
            "Make it a step: `{{fee: 0.00 GBP, from-spend: 75.00 GBP}}` carries free from there on.",
        ),
        (
            "B82-two-sides",
            _E,
            "A finding whose side is said twice",
            "the side stands already behind the place: `{at}`",
            "the side once",
            "Delete one of the two.",
        ),
        (
            "B83-dates-crossed",
            _E,
            "Two days in the wrong order",
            "`{key}` is {found}, before `{other}` {than}",
            "a day that is not earlier",
            "One of the two days is mistyped.",
        ),
        (
            "B84-else-the-same",
            _E,
            "A way out that is the same way",
            "when `{route}` fails, `{route}` is to follow",
            "another route, or money and minutes",
            "Name the route that is left then.",
        ),
        (
            "B85-reserve-over-cash",
            _E,
            "A reserve larger than the money there is",
            "the reserve of {reserve} is more than the cash of {cash}",
            "a reserve within the cash",
            "The reserve is a part of the cash, not on top of it.",
        ),
        (
            "B86-key-without-its-pair",
            _E,
            "A key that means nothing alone",
            "`{key}` says nothing without `{needs}`",
            "both, or neither",
            "Add `{needs}`, or delete `{key}`.",
        ),
        (
            "B87-says-nothing",
            _E,
            "A consequence without consequences",
            "this says that something follows, but not what",
            "`money`, `minutes` or `route`",
            "Write what it costs when it goes wrong.",
        ),
        (
            "B88-not-a-wear",
            _E,
            "A wear that cannot be read",
            "`{found}` does not say how far and which way it wears",
            "`down` or `up` and a size, as `down 1 mm`",
            "A disc gets thinner: `down`; a bore gets wider: `up`.",
        ),
        (
            "B89-record-twice",
            _E,
            "A record given twice in one book",
            "`{name}` is already written at {first}",
            "every {kind} once in a book",
            "Put both into one record, or give this one another name.",
        ),
    )
)
