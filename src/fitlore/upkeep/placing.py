"""An addition as edits of one book: which record, which list in it, and what is put there."""

from __future__ import annotations

import msgspec

from fitlore.books import amend
from fitlore.books.doc import Doc, Holder, Tree
from fitlore.books.emit import Said, item_of, tree_of
from fitlore.books.reading import Reading, identity
from fitlore.graph.derive import citable, kind_of
from fitlore.model.choices import How
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Evidence
from fitlore.model.placed import OfferFrom, PlaceOn
from fitlore.model.record import NOWHERE, Rec
from fitlore.upkeep.addition import (
    Addition,
    MoreEvidence,
    NewClaim,
    NewItem,
    NewRecord,
    NewValue,
    SpeaksAgainst,
    Withdrawal,
)

Path = tuple[str | int, ...]


def edits_of(addition: Addition, reading: Reading | None) -> list[amend.Edit] | None:
    """The edits that make an addition in a book as it reads now (None: there is none yet); None where its record is gone."""
    match addition:
        case NewClaim(record) | NewRecord(record):
            return [amend.NewRecord(tree_of(record, kind_of(record)))]
        case MoreEvidence(claim, piece):
            return _into(reading, claim, ("evidence",), item_of(piece))
        case SpeaksAgainst(claim, piece):
            return _into(reading, claim, ("against",), item_of(piece))
        case Withdrawal(claim):
            return _into(reading, claim, ("against",), item_of(withdrawn(addition)))
        case NewItem(record, path, item):
            return _into(reading, record, path, item_of(item) if isinstance(item, Rec) else item)
        case NewValue(record, path, value):
            at = locate(reading, record) if reading else None
            return None if at is None else [amend.NewText((*at, *path), value)]


def _into(reading: Reading | None, record: Rec, path: Path, item: Said) -> list[amend.Edit] | None:
    at = locate(reading, record) if reading else None
    return None if at is None else [amend.NewItem((*at, *path), item)]


def withdrawn(addition: Withdrawal) -> Evidence:
    """Taking a word back is a word itself: it is `told`, by the same person, and later."""
    note = f"withdrawn: {addition.note}" if addition.note else "withdrawn"
    return Evidence(how=How.TOLD, by=addition.by, date=addition.date, note=note)


def elsewhere(addition: MoreEvidence | SpeaksAgainst) -> CrossFit:
    """What is added to a claim of a book that is not ours to change: the same claim with this word alone, in our own."""
    alone = (addition.evidence,)
    evidence, against = (alone, ()) if isinstance(addition, MoreEvidence) else ((), alone)
    return msgspec.structs.replace(addition.claim, origin=NOWHERE, evidence=evidence, against=against)


def locate(reading: Reading, record: Rec) -> Path | None:
    """Where a record stands in a book as it reads now, by what it is called (an offer: by what it says)."""
    same = [one for one in citable(reading.records) if type(one) is type(record) and _same(one, record)]
    if not same or not isinstance(reading.source, Doc) or reading.source.root is None:
        return None
    here = next((one for one in same if one.origin == record.origin), same[0])
    return path_of(reading.source, here.origin)


def _same(one: Rec, other: Rec) -> bool:
    if isinstance(one, OfferFrom) and isinstance(other, OfferFrom):
        return one.supplier == other.supplier and bare(one.offer) == bare(other.offer)
    if isinstance(one, PlaceOn) and isinstance(other, PlaceOn):
        return one.full_path == other.full_path
    return identity(one) == identity(other)


def bare(record: Rec) -> object:
    """What a record says, without where it was written."""
    return _without_origins(msgspec.to_builtins(record))


def _without_origins(value: object) -> object:
    if isinstance(value, dict):
        return {key: _without_origins(one) for key, one in value.items() if key != "@origin"}
    return [_without_origins(one) for one in value] if isinstance(value, list | tuple) else value


def path_of(doc: Doc, origin: Origin) -> Path | None:
    """The path of the outermost value whose key or item stands at this line and column."""
    stack: list[tuple[Tree, Path]] = [(doc.root, ())] if doc.root is not None else []
    while stack:
        holder, path = stack.pop()
        if isinstance(holder, str):
            continue
        for key in _keys(holder):
            if doc.origin(holder, key) == origin:
                return (*path, key)
        stack += [(_entry(holder, key), (*path, key)) for key in reversed(_keys(holder))]
    return None


def _keys(holder: Holder) -> list[str | int]:
    return list(holder) if isinstance(holder, dict) else list(range(len(holder)))


def _entry(holder: Holder, key: str | int) -> Tree:
    return holder[str(key)] if isinstance(holder, dict) else holder[int(key)]
