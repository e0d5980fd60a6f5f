"""Tidying: a book in one order and alignment, with nothing lost and nothing said differently.

Keys go as the Structs have them, records stay as the author has them, comments stay with the line they stand on or above.
Two guards stand over it: the new text reads as the old one (but for the order of keys), and has the same comments in the
same order. What does not pass is refused.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from fitlore.books import catalogue  # noqa: F401  (it registers the faults of reading)
from fitlore.books.doc import Doc
from fitlore.books.faults import Fault, fault, register
from fitlore.books.neighbours import eol_of
from fitlore.books.nodes import read_nodes
from fitlore.books.reading import YAML_ENDINGS
from fitlore.books.tidy_gaps import Unusual, comments
from fitlore.books.tidy_read import layout
from fitlore.books.tidy_write import arrange, lines
from fitlore.model.diagnostic import Diagnostic, Severity
from fitlore.model.origin import Origin

_BOM: Final = b"\xef\xbb\xbf"


class Tidied(NamedTuple):
    """A tidied text that passed both guards."""

    data: bytes
    kept: tuple[Origin, ...]
    """Where in the old text mappings begin whose keys stay out of order, because comments would have changed places."""


register(
    [
        Fault(
            "T01-faulty-text",
            Severity.ERROR,
            "A book with a faulty text is not tidied",
            "{book} was left as it is: {why} ({seen})",
            "a text that is read as a whole",
            "Put that right first; `check` says how.",
        ),
        Fault(
            "T02-not-to-be-tidied",
            Severity.ERROR,
            "A book of this form is not tidied",
            "{book} was left as it is: {why}",
            "a list of records, each below its dash, as a person writes it",
            "Write that place in the plain form, or leave the book as it is.",
        ),
        Fault(
            "T03-would-change",
            Severity.ERROR,
            "Tidying would change what the book says",
            "{book} was left as it is: {why}",
            "the same facts and the same comments afterwards",
            "Leave the book as it is, and tell the makers of this program about it.",
        ),
    ]
)


def tidy(shown: str, data: bytes) -> Tidied | Diagnostic:
    """A book's text in canonical order and alignment, or why it was left as it is. Never raises for any bytes.

    Tidying a tidied text changes nothing. The byte order mark and the way lines end (that of the first line) stay.
    """
    doc = read_nodes(shown, data)
    if doc.found:
        first = doc.found[0]
        return fault(
            "T01-faulty-text",
            first.origin,
            excerpt=first.excerpt,
            width=first.width,
            cut=first.cut,
            book=shown,
            why=first.message,
            seen=first.code,
        )
    try:
        if not _holds_records(doc):
            return Tidied(data, ())
        root = layout(doc)
    except Unusual as reason:
        spot = doc.spot(reason.index, reason.index + 1)
        origin = Origin(shown, spot.line, spot.column)
        return fault(
            "T02-not-to-be-tidied", origin, excerpt=spot.excerpt, cut=spot.cut, book=shown, why=str(reason)
        )
    kept = tuple(arrange(root))
    eol = eol_of(doc.text)
    new = (_BOM if doc.bom else b"") + (eol.join(lines(root)) + eol).encode()
    why = _difference(doc, read_nodes(shown, new))
    if why:
        return fault("T03-would-change", Origin(shown, 1, 1), book=shown, why=why)
    return Tidied(new, kept)


def _holds_records(doc: Doc) -> bool:
    """Whether there is anything to tidy. Raises Unusual for a book that is no list of records below their dashes."""
    if not doc.shown.lower().endswith(YAML_ENDINGS):
        raise Unusual("only books of YAML are tidied")
    if not isinstance(doc.root, list):
        if doc.root:
            raise Unusual("it is not a list of records")
        return False
    if doc.flow(doc.root):
        raise Unusual("the book is one list in brackets", doc.span(doc.root).start)
    return True


def _difference(old: Doc, new: Doc) -> str:
    """What a new text says differently; empty where nothing."""
    if new.found:
        return f"it would then hold a fault ({new.found[0].code})"
    if new.root != old.root or new.bom != old.bom:
        return "it would then read otherwise"
    if [text for _, text in comments(new)] != [text for _, text in comments(old)]:
        return "a comment would be lost or would change its place"
    return ""
