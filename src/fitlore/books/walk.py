"""The typed walk: a tree into records by the Structs' own type hints, with every fault at its line and column.

Each Struct is compiled once into a function. A record with a fault is left out, all others are kept; faults inside one
record are all told, not only the first.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin

from fitlore.books import catalogue_records, catalogue_sense, catalogue_values, leaves, remedies, sound  # noqa: F401
from fitlore.books.conditions import car_fact, condition, fact_range
from fitlore.books.doc import Holder, Tree
from fitlore.books.near import near_word, unknown_key, what
from fitlore.books.schema import (
    ASSEMBLY_OR_PLACE,
    FREE_WORDS,
    KIND_SAID_OTHERWISE,
    KINDS,
    LANGUAGE,
    NAME,
    SHORT,
    Field,
    fields,
)
from fitlore.books.walking import BAD, Reader, Walk
from fitlore.model.category import Category
from fitlore.model.platform import Assembly, Car, Cond, Established, FactRange
from fitlore.model.record import Rec
from fitlore.model.supply import Donor


def read_record(walk: Walk, item: Tree, holder: Holder, key: int) -> Rec | None:
    """One record of a book; None where it has a fault, which is then reported."""
    if item == "":
        return None
    if not isinstance(item, dict):
        walk.add("B39-not-a-record", walk.source.value(holder, key))
        return None
    kinds = [one for one in item if one in KINDS]
    if len(kinds) != 1:
        _kind_fault(walk, item, kinds)
        return None
    before = walk.errors
    found = struct_reader(KINDS[kinds[0]])(item, holder, key, walk)
    return found if isinstance(found, Rec) and walk.errors == before else None


def _kind_fault(walk: Walk, item: dict[str, Tree], kinds: list[str]) -> None:
    source = walk.source
    if kinds:
        advice = next((KIND_SAID_OTHERWISE[k] for k in kinds[1:] if k in KIND_SAID_OTHERWISE), "")
        remedy = f"{advice[:1].upper()}{advice[1:]}." if advice else "Make two records of it."
        both = " and ".join(f"`{kind}`" for kind in kinds)
        walk.add("B41-two-kinds", source.key(item, kinds[1]), kinds=both, remedy=remedy)
        return
    near = next(((key, word) for key in item if walk.may_search() and (word := near_word(key, KINDS))), None)
    spot = source.key(item, near[0]) if near else source.start(item)
    remedy = f"Did you mean `{near[1]}`?" if near else "Write the kind as the first key: `- part: ...`."
    walk.add("B40-no-kind", spot, known=", ".join(KINDS), remedy=remedy)


class _StructReader:
    """The reader of a Struct: mapping (or its short form) in, Struct with its origin out."""

    def __init__(self, cls: type[Rec]) -> None:
        self.cls = cls
        self.table: dict[str, tuple[str, Reader]] = {}
        self.required = tuple(field for field in fields(cls) if field.required)
        self.short = SHORT.get(cls)
        self.checks = sound.CHECKS.get(cls, ())

    def __call__(self, value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        if not self.table:
            self.table.update((f.key, (f.name, field_reader(self.cls, f))) for f in fields(self.cls))
        if type(value) is not dict:
            return self._short(value, holder, key, walk)
        if not value and not self.required and self.cls is not Assembly:
            spot = walk.source.value(holder, key)
            return walk.add("B46-empty", spot, key=str(key), remedy="Leave the key out.")
        found: dict[str, Any] = {"origin": walk.source.origin(holder, key)}
        good, meant = True, set[str]()
        for written, item in value.items():
            row = self.table.get(written)
            if row is None:
                good = False
                if item == "":
                    continue
                meant.add(unknown_key(walk, value, written, self.cls, tuple(self.table)))
                continue
            inner = row[1](item, value, written, walk)
            if inner is BAD:
                good = False
            else:
                found[row[0]] = inner
        for field in self.required:
            if field.key in value:
                continue
            good = False
            if field.key not in meant:
                spot = walk.source.key(holder, key) if isinstance(key, str) else walk.source.start(value)
                walk.add(
                    "B43-missing-key", spot, what=what(self.cls), key=field.key, holds=leaves.describe(field)
                )
        return self._sound(self.cls(**found), value, holder, key, walk) if good else BAD

    def _short(self, value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        if value == "":
            return BAD
        if self.short is None or (isinstance(value, list) and self.cls is not Established):
            spot = walk.source.value(holder, key)
            return walk.add("B44-not-a-mapping", spot, what=what(self.cls), keys=_keys(self.cls))
        name, reader = self.table[self.short]
        inner = reader(value, holder, key, walk)
        if inner is BAD:
            return BAD
        record = self.cls(**{"origin": walk.source.origin(holder, key), name: inner})
        return self._sound(record, None, holder, key, walk)

    def _sound(
        self, record: Rec, value: dict[str, Tree] | None, holder: Holder, key: str | int, walk: Walk
    ) -> Any:
        """Runs the checks of one record; each names keys, the first of which that is written is the place."""
        good = True
        for trouble in (one for check in self.checks for one in check(record)):
            good = False
            if value is None:
                spot = walk.source.value(holder, key)
            else:
                at = next((one for one in trouble.keys if one in value), None)
                spot = walk.source.start(value) if at is None else walk.source.value(value, at)
            walk.add(trouble.code, spot, **trouble.values)
        return record if good else BAD


@cache
def struct_reader(cls: type[Rec]) -> Reader:
    """The reader of a Struct, compiled once."""
    return _StructReader(cls)


def field_reader(cls: type[Rec], field: Field) -> Reader:
    """The reader of one field's type."""
    return _reader(field.hint, cls, field)


def _reader(hint: object, cls: type[Rec], field: Field) -> Reader:
    origin, arguments = get_origin(hint), get_args(hint)
    if origin is Union or origin is UnionType:
        inner = next(a for a in arguments if a is not NoneType)
        if get_origin(inner) is tuple:
            return _or_none_said(_reader(inner, cls, field))
        return _reader(inner, cls, field)
    if origin is tuple:
        return _many(_reader(arguments[0], cls, field), field)
    if origin is dict:
        return _mapping(_reader(arguments[1], cls, field), cls, field)
    if hint is Cond:
        return condition
    if hint is FactRange:
        return fact_range
    if isinstance(hint, type) and issubclass(hint, Rec):
        if cls in (Car, Donor) and field.name == "facts":
            return car_fact(struct_reader(hint))
        return struct_reader(hint)
    return leaves.leaf(hint, cls, field)


def _or_none_said(inner: Reader) -> Reader:
    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        return () if value == "none" else inner(value, holder, key, walk)

    return read


def _many(inner: Reader, field: Field) -> Reader:
    """A list; one value may stand alone. Equal plain values are a fault: RDF cannot hold them."""
    remedy = "Leave the key out."
    if get_origin(field.hint) is UnionType:
        remedy = "Write `none` where it is to be empty here, or leave the key out."

    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        if type(value) is not list:
            one = inner(value, holder, key, walk)
            return BAD if one is BAD else (one,)
        if not value:
            return walk.add("B46-empty", walk.source.value(holder, key), key=field.key, remedy=remedy)
        good, found = True, []
        for place, item in enumerate(value):
            if type(item) is list:
                good = False
                walk.add("B47-list-in-list", walk.source.value(value, place), key=field.key)
                continue
            one = inner(item, value, place, walk)
            if one is BAD:
                good = False
            elif isinstance(item, str) and one in found:
                good = False
                walk.add("B48-item-twice", walk.source.value(value, place), key=field.key, item=item)
            else:
                found.append(one)
        return tuple(found) if good else BAD

    return read


def _mapping(inner: Reader, cls: type[Rec], field: Field) -> Reader:
    """Free keys to values of one type; the keys are names, unless the field says otherwise."""
    key_fault = _key_check(cls, field)

    def read(value: Tree, holder: Holder, key: str | int, walk: Walk) -> Any:
        if type(value) is not dict:
            if value == "":
                return BAD
            return walk.add(
                "B44-not-a-mapping",
                walk.source.value(holder, key),
                what=f"`{field.key}`",
                keys="`name: value`",
            )
        if not value:
            spot = walk.source.value(holder, key)
            return walk.add("B46-empty", spot, key=field.key, remedy="Leave the key out.")
        good, found = True, {}
        for name, item in value.items():
            good = not key_fault(name, value, walk) and good
            one = inner(item, value, name, walk)
            if one is BAD:
                good = False
            else:
                found[name] = one
        return found if good else BAD

    return read


def _key_check(cls: type[Rec], field: Field) -> Callable[[str, dict[str, Tree], Walk], bool]:
    """A function that reports a free key that cannot stand, and says whether it did."""
    words = FREE_WORDS.get((cls, field.name))
    if words is not None:
        return lambda name, holder, walk: _not_a_word(name, holder, walk, words, field)
    if cls is Category and field.name in ("names", "also"):
        pattern, code, hint = LANGUAGE, "B63-not-a-language", remedies.language_hint
    elif cls is Car and field.name == "really_on_it":
        pattern, code, hint = ASSEMBLY_OR_PLACE, "B61-not-a-place", remedies.place_hint
    else:
        pattern, code, hint = NAME, "B50-not-a-name", remedies.name_hint

    def check(name: str, holder: dict[str, Tree], walk: Walk) -> bool:
        if pattern.fullmatch(name):
            return False
        spot = walk.source.key(holder, name)
        walk.add(
            code, spot, key=field.key, found=name, shape="`assembly` or `assembly/place`", remedy=hint(name)
        )
        return True

    return check


def _not_a_word(name: str, holder: dict[str, Tree], walk: Walk, words: tuple[str, ...], field: Field) -> bool:
    if name in words:
        return False
    spot = walk.source.key(holder, name)
    leaves.not_a_word(walk, spot, field.key, name, words)
    return True


def _keys(cls: type[Rec]) -> str:
    return ", ".join(f"`{field.key}`" for field in fields(cls)[:6]) + (" ..." if len(fields(cls)) > 6 else "")
