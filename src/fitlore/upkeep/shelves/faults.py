"""What can be said against a shelf: why it is not one, what is dangerous on it, and where it says otherwise than we do."""

from __future__ import annotations

from fitlore.books.faults import Fault, register
from fitlore.model.diagnostic import Severity

_E, _W, _N = Severity.ERROR, Severity.WARNING, Severity.NOTE

register(
    [
        Fault(
            "U40-not-a-shelf",
            _E,
            "A folder that cannot be a shelf",
            "{folder} cannot be a shelf: {why}",
            "a folder of books, or another shop's folder, that has no folder in common with our shelves",
            "name the folder in which the books are",
        ),
        Fault(
            "U41-shelf-name",
            _E,
            "A shelf without a name of its own",
            "`{name}` cannot be the name of the shelf: {why}",
            "a name of small letters, figures and hyphens that no other shelf has",
            "give it one: `--name NAME`",
        ),
        Fault(
            "U42-no-such-shelf",
            _E,
            "A shelf that is not there",
            "fitlore.yaml has no shelf `{name}`; it has {known}",
            "the name of a shelf in fitlore.yaml",
            "take one of these",
        ),
        Fault(
            "U43-last-own-shelf",
            _E,
            "The only shelf of one's own",
            "`{name}` is the only shelf without a cap on its trust: without it nothing could be noted",
            "one shelf that is the shop's own",
            "add another one of your own first (`fitlore books shelf add FOLDER --own`)",
        ),
        Fault(
            "U44-shelf-file",
            _E,
            "A fitlore.yaml that cannot be changed by itself",
            "fitlore.yaml was left as it is: {why}",
            "`shelves:` as a list, each shelf below its dash",
            "change it by hand: {lines}",
        ),
        Fault(
            "U45-said-otherwise",
            _W,
            "The same name, said otherwise",
            "the {kind} `{name}` stands at {where} too, and differs in {keys}",
            "one record of a name, or two that say the same",
            "see which is right; here {first} counts",
        ),
        Fault(
            "U46-same-number",
            _W,
            "The same number for another part",
            "{number} is {what} on this shelf, and {other} at {where}",
            "a number that means one part, or the maker in front",
            "ask with the maker in front; where it is one part, correct what is wrong",
        ),
        Fault(
            "U47-looser-kind",
            _E,
            "A kind of part made looser",
            "the category `{name}` would count in place of the one at {where}, and is looser in {keys}",
            "a kind that asks for as much as it does now",
            "have it taken out over there, or given a name of its own below `{name}` (`broader: {name}`)",
        ),
        Fault(
            "U48-trap-said-to-fit",
            _E,
            "A claim that sends somebody into a trap",
            "the claim `{name}` says that {use} goes, but it is a trap in {features}",
            "a near miss that starts, holds loosely and fails, noted as what it is",
            "have it taken back over there (`fitlore note not ...`); until then leave the shelf out",
        ),
        Fault(
            "U49-contradicts",
            _W,
            "A claim that contradicts one of ours",
            "the claim `{name}` says {theirs}, and `{other}` at {where} says {ours} ({word})",
            "one answer, or both words in one claim, where they are weighed",
            "ask how they know; both are then shown, and where first-hand words differ the answer is `disputed`",
        ),
    ]
)
