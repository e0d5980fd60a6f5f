"""The faults of fitlore.yaml, of tables of standards, and of files that cannot be read."""

from __future__ import annotations

from typing import Final

from fitlore.books.faults import Fault, register
from fitlore.model.diagnostic import Severity

_E: Final = Severity.ERROR

register(
    (
        Fault(
            "L01-not-a-shop-file",
            _E,
            "A fitlore.yaml that is no mapping",
            "fitlore.yaml is no list and no text: it holds the shop's settings",
            "`shop: NAME`, `currency`, `shelves` and the other settings, one to a line",
            "Write `shop:` and the shop's name in the first line, without a dash.",
        ),
        Fault(
            "L02-shelf-of-that-name",
            _E,
            "Two shelves of one name",
            "`{name}` is already the name of a shelf: {whose}",
            "a name of its own for every shelf",
            "Give it another name; books on it are then shown under that name.",
        ),
        Fault(
            "L03-no-such-folder",
            _E,
            "A shelf without its folder",
            "there is no folder `{folder}` beside fitlore.yaml",
            "the path of a folder, seen from fitlore.yaml",
            "Make the folder, or correct the path.",
        ),
        Fault(
            "L04-cannot-be-read",
            _E,
            "A file that cannot be read",
            "the file cannot be read: {why}",
            "a file that may be read",
            "Look at the file's name and at who may read it.",
        ),
        Fault(
            "L07-endpoint-not-asked",
            Severity.WARNING,
            "A shelf that is not asked",
            "the shelf `{name}` is an endpoint; answers are given without it",
            "the shelf's books in a folder",
            "Export what it holds into a folder beside fitlore.yaml, and name that as a shelf.",
        ),
        Fault(
            "L08-not-an-endpoint",
            _E,
            "An endpoint without an address",
            "`{found}` is no address of a SPARQL endpoint",
            "`https://` or `http://`, the host, and the path, as `https://shelf.example/sparql`",
            "Copy the address as the owner gives it.",
        ),
        Fault(
            "L05-not-a-table",
            _E,
            "A table in the wrong shape",
            "{what} has no rows",
            "`section:` and under it a list of rows, `- {{key: value}}`",
            "Write each row as an item of the section's list.",
        ),
        Fault(
            "L06-not-a-row",
            _E,
            "A row that is not flat",
            "this is no row of `{section}`",
            "one flat mapping: `{{key: value, key: value}}`",
            "A row's values are single texts; quote those with commas or brackets.",
        ),
    )
)
