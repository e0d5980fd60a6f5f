"""The shapes that `kb` ships: what a written graph must be, in SHACL, worked out from the same Structs as the typed walk.

One closed node shape per Struct. A record is found by its kind (`sh:targetSubjectsOf`), what stands in it by `sh:node`.
SHACL cannot say "under every key", so a SPARQL rule (SHACL Advanced Features, 8.6) first states which names and values
stand under free keys (features, facts); nodes that break a rule over several statements are found by SPARQL targets.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final, get_args, get_origin

from fitlore.books.context import ORDERED, structs, without_none, written
from fitlore.books.iris import FACT, FEATURE, SHAPES, TERMS, WORD
from fitlore.books.near import what
from fitlore.books.openly import PREFIXES
from fitlore.books.schema import KINDS, SHORT, Field
from fitlore.books.shape_leaves import COUNT, NAME, holds, leaf, quoted, text_of
from fitlore.books.shape_queries import RULES, broken, key_pattern, stated_of_free_keys
from fitlore.books.shape_rules import Shared, shared
from fitlore.model.job import Hands
from fitlore.model.platform import Assembly, Cond, FactRange, Place
from fitlore.model.record import Name, Rec
from fitlore.model.supply import Carriage, Trip

_USED: Final = ("rdf", "sh", "xsd")
_HEAD: Final = """\
# Generated from the Structs (fitlore.books.shapes): the shapes of the written graph of one book. Statements in other
# people's words may stand beside ours; a closed shape names them, and fitlore takes them as notes.
"""
_ALL_OPTIONAL: Final = (Carriage, Trip, Hands)
"""Structs of which each key may be missing, but not all of them."""
_NODE: Final = "sh:nodeKind sh:BlankNodeOrIRI"
_LIST: Final = """\
fls:List a sh:NodeShape ;
    sh:property [ sh:path rdf:first ; sh:minCount 1 ; sh:maxCount 1 ] ;
    sh:property [ sh:path rdf:rest ; sh:minCount 1 ; sh:maxCount 1 ; sh:nodeKind sh:BlankNodeOrIRI ] .
"""


def shapes_text() -> str:
    """The committed `kb/shapes.ttl`."""
    prefixes = {"fl": TERMS, "feature": FEATURE, "fact": FACT, "word": WORD, "fls": SHAPES}
    prefixes |= {name: PREFIXES[name] for name in _USED}
    names = "".join(f"@prefix {name}: <{iri}> .\n" for name, iri in prefixes.items())
    declared = " ,\n        ".join(
        f'[ sh:prefix "{name}" ; sh:namespace "{iri}"^^xsd:anyURI ]' for name, iri in prefixes.items()
    )
    prefixed = f"fls:prefixes sh:declare {declared} .\n"
    parts = [_HEAD + names, prefixed, _LIST, stated_of_free_keys(), *map(_shape, structs())]
    return "\n".join([*parts, *map(broken, RULES)])


def _shape(cls: type[Rec]) -> str:
    kind = next((kind for kind, struct in KINDS.items() if struct is cls), "")
    lines = [f"sh:name {quoted(what(cls).partition(' ')[2])}", _NODE]
    if kind:
        lines.append(f"sh:targetSubjectsOf fl:{kind}")
    if cls is not Cond:
        lines.append("sh:closed true ; sh:ignoredProperties ( rdf:type fls:book )")
    if cls in (Place, Assembly):
        said = f"sh:message {quoted('`named`: the name it has among its neighbours')}"
        lines.append(
            f"sh:property [ sh:path fl:named ; sh:minCount 1 ; sh:maxCount 1 ; {text_of(NAME)} ; {said} ]"
        )
    for field in written(cls):
        if cls is not FactRange or field.key == "series":
            lines += [f"sh:property [ {text} ]" for text in _properties(cls, field)]
    lines += [_with(one) for one in shared(cls)]
    if cls in _ALL_OPTIONAL:
        some = " ".join(f"[ sh:path fl:{field.key} ; sh:minCount 1 ]" for field in written(cls))
        lines.append(_with(Shared("sh:node", f"sh:or ( {some} )", f"{what(cls)} that says something")))
    return f"fls:{cls.__name__} a sh:NodeShape ;\n    " + " ;\n    ".join(lines) + " .\n"


def _with(one: Shared) -> str:
    """A constraint on several keys of one node, with its own message."""
    said = f"sh:message {quoted(one.message)}"
    if one.parameter == "sh:not":
        return f"sh:node [ sh:not [ {one.text} ] ; {said} ]"
    return f"{one.parameter} [ {one.text} ; {said} ]"


def _properties(cls: type[Rec], field: Field) -> Iterator[str]:
    """The property shapes of a field: how often, and what each value is."""
    hint = without_none(field.hint)
    least = ["sh:minCount 1"] if field.required or (cls is FactRange and field.key == "series") else []
    said = f"sh:message {quoted(f'`{field.key}` of {what(cls)}: {holds(field.hint, cls, field)}')}"
    path = f"sh:path fl:{field.key}"
    if get_origin(hint) is dict:
        yield " ; ".join([path, *least, *_mapping(hint, field), said])
        if is_free(field):
            yield from _below(cls, field)
        return
    many = get_origin(hint) is tuple
    inner = get_args(hint)[0] if many else hint
    if field.key in ORDERED:
        yield " ; ".join([path, *least, "sh:maxCount 1", "sh:node fls:List", said])
        path, least = f"sh:path ( fl:{field.key} [ sh:zeroOrMorePath rdf:rest ] rdf:first )", []
    most = [] if many else ["sh:maxCount 1"]
    value = _value(inner, cls, field)
    if many and hint is not field.hint and inner is not Name:
        value = f'sh:or ( [ {value} ] [ sh:hasValue "none" ] )'
    yield " ; ".join([path, *least, *most, value, said])


def _mapping(hint: Any, field: Field) -> Iterator[str]:
    key, inner = get_args(hint)
    if field.key in ("names", "also"):
        yield "sh:datatype rdf:langString ; sh:minLength 1"
        if get_origin(inner) is not tuple:
            yield "sh:uniqueLang true"
    elif key is Name:
        yield f"sh:node fls:{inner.__name__}"
    else:
        yield f"sh:maxCount 1 ; {_NODE} ; sh:property [ sh:path fls:key ; sh:minCount 1 ]"


def is_free(field: Field) -> bool:
    """Are the keys below this one names that the writer chooses?"""
    hint = without_none(field.hint)
    return get_origin(hint) is dict and get_args(hint)[0] is not Name and field.key not in ("names", "also")


def _below(cls: type[Rec], field: Field) -> Iterator[str]:
    """The property shapes of the names and of the values under free keys."""
    inner = get_args(without_none(field.hint))[1]
    one: Any = get_args(inner)[0] if get_origin(inner) is tuple else inner
    pattern, words = key_pattern(cls, field)
    said = f"sh:message {quoted(f'a key of `{field.key}`: {words}')}"
    yield f"sh:path ( fl:{field.key} fls:key ) ; {text_of(pattern)} ; {said}"
    if one in (Cond, FactRange):
        value = f"sh:or ( [ {text_of()} ] [ sh:node fls:{one.__name__} ] )"
    elif one is int:
        value = text_of(COUNT)
    else:
        value = _value(one, cls, field)
    said = f"sh:message {quoted(f'under a key of `{field.key}`: {holds(inner, cls, field)}')}"
    yield f"sh:path ( fl:{field.key} fls:under ) ; {value} ; {said}"


def _value(hint: Any, cls: type[Rec], field: Field) -> str:
    """The constraint on one value: plain, a node, or either where a Struct may be written as one text."""
    if not (isinstance(hint, type) and issubclass(hint, Rec)):
        return leaf(hint, cls, field)
    if hint not in SHORT:
        return f"sh:node fls:{hint.__name__}"
    short = next(inner for inner in written(hint) if inner.key == SHORT[hint])
    short_hint = without_none(short.hint)
    if get_origin(short_hint) is tuple:
        short_hint = get_args(short_hint)[0]
    return f"sh:or ( [ {leaf(short_hint, hint, short)} ] [ sh:node fls:{hint.__name__} ] )"
