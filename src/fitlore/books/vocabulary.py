"""The vocabulary that `kb` ships: every class and key of books in RDF, with what it means and which open term it is near.

Labels and comments are the Structs' and fields' own docstrings, so that a key is explained in one place only.
"""

from __future__ import annotations

import ast
import inspect
import json
import re
import textwrap
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any, Final, get_args, get_origin

from fitlore.books.context import Coding, codings, inside_free_keys, structs, without_none, written
from fitlore.books.iris import TERMS, XSD_INTEGER
from fitlore.books.near import what
from fitlore.books.openly import BECOMES, CLASSES, KEYS, NEAR_CLASSES, NEAR_KEYS, PREFIXES
from fitlore.books.schema import KINDS, SHORT, Field
from fitlore.books.shape_leaves import holds
from fitlore.model.record import Rec, as_written

_HEAD: Final = """\
# Generated from the Structs (fitlore.books.vocabulary). The properties hold what books say, as text; what is concluded
# from one book is in a derived graph of its own, and there open vocabularies are used with typed values.
#   rdfs:subPropertyOf, rdfs:subClassOf: what is said in a book is at the same time said in the open term;
#   fl:becomes: the derived graph says it in the open term, with a typed value;
#   rdfs:seeAlso: an open term about the same thing, whose values are of another kind.
"""
_OWN: Final = {
    "named": "The name of a place within its assembly, and of an assembly within its platform: its key in YAML.",
    "becomes": "The open property under which the derived graph states what a book says under this key.",
}
"""Terms that no field of a Struct stands for."""


def vocabulary_text(derived: Mapping[str, str] | None = None) -> str:
    """The committed `kb/vocabulary.ttl`. `derived`: the terms of derived graphs and what they say (`graph.derive.TERMS`)."""
    used = sorted(PREFIXES.items())
    lines = [
        _HEAD.rstrip("\n"),
        f"@prefix fl: <{TERMS}> .",
        *(f"@prefix {prefix}: <{base}> ." for prefix, base in used if prefix not in ("sh", "unit")),
        "",
        f'<{TERMS.rstrip("#")}> a owl:Ontology ; rdfs:label "the keys of books"@en ;',
        '    rdfs:comment "What books of parts, cars, suppliers and jobs say, key by key."@en .',
        "",
        *map(_class, structs()),
        "",
        *(_property(key, coding) for key, coding in sorted(codings().items())),
        _declared(
            "fl:becomes", ["a owl:AnnotationProperty", 'rdfs:label "becomes"@en', _comment(_OWN["becomes"])]
        ),
        "",
        *(_derived(term, about) for term, about in sorted((derived or {}).items())),
    ]
    return "\n".join(lines) + "\n"


def _class(cls: type[Rec]) -> str:
    about = (cls.__doc__ or "").split("\n\n")[0]
    parts = ["a rdfs:Class", f'rdfs:label "{what(cls).partition(" ")[2]}"@en']
    if about:
        parts.append(_comment(_in_keys(cls, about)))
    if cls.__name__ in CLASSES:
        parts.append(f"rdfs:subClassOf {', '.join(CLASSES[cls.__name__])}")
    if cls.__name__ in NEAR_CLASSES:
        parts.append(f"rdfs:seeAlso {', '.join(NEAR_CLASSES[cls.__name__])}")
    return _declared(f"fl:{cls.__name__}", parts)


def _property(key: str, coding: Coding) -> str:
    owners = owners_of(key)
    parts = ["a rdf:Property", f'rdfs:label "{key.replace("-", " ")}"@en', _comment(_about(key, owners))]
    if len(owners) == 1 and key not in inside_free_keys():
        parts.append(f"rdfs:domain fl:{owners[0].__name__}")
    elif owners:
        parts.append(f"schema:domainIncludes {', '.join(f'fl:{cls.__name__}' for cls in owners)}")
    parts += _range(key, coding, owners)
    for predicate, terms in (
        ("rdfs:subPropertyOf", KEYS),
        ("fl:becomes", BECOMES),
        ("rdfs:seeAlso", NEAR_KEYS),
    ):
        if key in terms:
            parts.append(f"{predicate} {', '.join(terms[key])}")
    return _declared(f"fl:{key}", parts)


def owners_of(key: str) -> tuple[type[Rec], ...]:
    """The Structs that have a key."""
    return tuple(cls for cls in structs() if any(field.key == key for field in written(cls)))


def _about(key: str, owners: tuple[type[Rec], ...]) -> str:
    """What the fields' docstrings say of a key; where one says nothing, what the key holds there."""
    if not owners:
        return _OWN[key]
    said: dict[str, list[str]] = {}
    for cls in owners:
        field = _field(cls, key)
        about = field_docs(cls).get(field.name, "")
        text = _in_keys(cls, about[0].lower() + about[1:]) if about else f"{holds(field.hint, cls, field)}."
        said.setdefault(text, []).append(what(cls))
    return " ".join(f"Of {_listed(names)}: {text}" for text, names in said.items())


def _range(key: str, coding: Coding, owners: tuple[type[Rec], ...]) -> Iterator[str]:
    if coding.datatype:
        yield (
            "rdfs:range xsd:integer" if coding.datatype == XSD_INTEGER else f"rdfs:range <{coding.datatype}>"
        )
    elif coding.shape == "list":
        yield "rdfs:range rdf:List"
    elif coding.shape == "language":
        yield "rdfs:range rdf:langString"
    else:
        inner = {_one(_field(cls, key)) for cls in owners}
        (only,) = inner if len(inner) == 1 else (None,)
        if isinstance(only, type) and issubclass(only, Rec) and only not in SHORT and not coding.scope:
            yield f"rdfs:range fl:{only.__name__}"


def _one(field: Field) -> Any:
    """The type of one value of a field."""
    hint = without_none(field.hint)
    if get_origin(hint) is tuple:
        return get_args(hint)[0]
    return get_args(hint)[1] if get_origin(hint) is dict else hint


def _field(cls: type[Rec], key: str) -> Field:
    return next(field for field in written(cls) if field.key == key)


@cache
def field_docs(cls: type[Rec]) -> dict[str, str]:
    """The docstring under each field of a Struct, by the field's name; read from the Struct's source."""
    found: dict[str, str] = {}
    (body,) = ast.parse(textwrap.dedent(inspect.getsource(cls))).body
    assert isinstance(body, ast.ClassDef)
    for line, after in zip(body.body, body.body[1:], strict=False):
        is_text = isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant)
        if isinstance(line, ast.AnnAssign) and isinstance(line.target, ast.Name) and is_text:
            assert isinstance(after, ast.Expr)
            assert isinstance(after.value, ast.Constant)
            found[line.target.id] = " ".join(str(after.value.value).split())
    return found


def _in_keys(cls: type[Rec], text: str) -> str:
    """A docstring with its fields' names as people write them."""
    names = {field.name: as_written(field.name) for field in written(cls)}
    return re.sub(r"\b\w+_\w*", lambda match: names.get(match[0], match[0]), " ".join(text.split()))


def _kinds_first(names: list[str]) -> list[str]:
    kinds = {what(cls) for cls in KINDS.values()}
    return sorted(names, key=lambda name: (name not in kinds, name))


def _listed(names: list[str]) -> str:
    *most, last = _kinds_first(names)
    return f"{', '.join(most)} and {last}" if most else last


def _derived(term: str, about: str) -> str:
    label = f'rdfs:label "{term.replace("-", " ")}"@en'
    return _declared(f"fl:{term}", ["a rdf:Property", label, _comment(f"In derived graphs: {about}.")])


def _comment(text: str) -> str:
    return f"rdfs:comment {json.dumps(text, ensure_ascii=False)}@en"


def _declared(term: str, parts: list[str]) -> str:
    return f"{term} " + " ;\n    ".join(parts) + " ."
