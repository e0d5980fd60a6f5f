"""The shapes that need a query: names under free keys, and rules that look across nodes or compare texts.

A SPARQL target (SHACL Advanced Features, 3.1) finds the nodes that break a rule, and the shape then allows nothing there
(`sh:in ()`).
"""

from __future__ import annotations

import json
from typing import Final, NamedTuple

from fitlore.books.iris import BASE, FACT, FEATURE, TERMS, WORD
from fitlore.books.schema import FREE_WORDS, KINDS, Field
from fitlore.books.shape_leaves import (
    ASSEMBLY_OR_PLACE,
    LANGUAGE,
    NAME,
    PERIOD,
    SERIAL,
    SERIAL_RANGE,
    SERIES,
    quoted,
)
from fitlore.model.record import Rec


class Rule(NamedTuple):
    """A rule over several nodes: its name, a query for the nodes (`?this`) that break it, and what is asked."""

    name: str
    breaking: str
    message: str


def broken(rule: Rule) -> str:
    """The shape of a rule over several nodes."""
    return "\n".join(
        [
            f"fls:{rule.name} a sh:NodeShape ;",
            f"    sh:target [ a sh:SPARQLTarget ; sh:prefixes fls:prefixes ; sh:select {_query(rule.breaking)} ] ;",
            "    sh:in () ;",
            f"    sh:message {quoted(rule.message)} .\n",
        ]
    )


def _query(text: str) -> str:
    """A query as a long Turtle literal, a line for each group and condition."""
    for word in (" WHERE {", " FILTER(", " FILTER NOT", " OPTIONAL", " UNION", " BIND("):
        text = text.replace(word, f"\n       {word}")
    escaped = json.dumps(text, ensure_ascii=False)[1:-1].replace("\\n", "\n").replace('\\"', '"')
    return f'"""{escaped}"""'


def _ours(predicate: str) -> str:
    return f'STRSTARTS(STR({predicate}), "{BASE}")'


_SCOPES: Final = {
    FEATURE: ("features", "must-be", "measured"),
    FACT: ("facts", "only-if", "donor-only-if", "changed-at", "seen-on"),
    WORD: ("open", "really-on-it", "chance", "stale-after"),
}
"""The keys below which keys are free, by the vocabulary these are of."""
_ONE_EACH: Final = ("measured", "open", "really-on-it", "chance", "stale-after")
"""Of those, the ones with one value under each key; `features` of a category too."""


def key_pattern(cls: type[Rec], field: Field) -> tuple[str, str]:
    """What the free keys of a field are: a pattern, and the same in words."""
    words = FREE_WORDS.get((cls, field.name), ())
    if words:
        return f"^({'|'.join(words)})$", f"one of {', '.join(words)}"
    if field.key == "really-on-it":
        return ASSEMBLY_OR_PLACE, "`assembly` or `assembly/place`"
    return NAME, "a name, as `rear-brakes`"


def stated_of_free_keys() -> str:
    """The rule that states, of a node with free keys, which names it has (`fls:key`) and what stands under them.

    A key of another vocabulary than its own is stated as a whole IRI, which is no name.
    """
    held = " UNION ".join(
        f'{{ ?owner {"|".join(f"fl:{key}" for key in keys)} ?held . BIND("{scope}" AS ?scope) }}'
        for scope, keys in _SCOPES.items()
    )
    own = f'STRSTARTS(STR(?at), ?scope) || STRSTARTS(STR(?at), "{TERMS}")'
    query = (
        "CONSTRUCT { ?held fls:key ?name ; fls:under ?value } WHERE { "
        f"{held} ?held ?at ?value . FILTER({_ours('?at')} && !STRSTARTS(STR(?at), STR(fls:))) "
        f'BIND(IF({own}, STRAFTER(STR(?at), "#"), STR(?at)) AS ?name) }}'
    )
    return "\n".join(
        [
            "fls:FreeKeys a sh:NodeShape ;",
            "    sh:targetNode fls:key ;",
            f"    sh:rule [ a sh:SPARQLRule ; sh:prefixes fls:prefixes ; sh:construct {_query(query)} ] .\n",
        ]
    )


def _select(where: str) -> str:
    return f"SELECT DISTINCT ?this WHERE {{ {where} }}"


_OF_OURS: Final = f"{_ours('?key')} && !STRSTARTS(STR(?key), STR(fls:))"
_KIND_LIST: Final = ", ".join(f"fl:{kind}" for kind in KINDS)
_CONDITIONS: Final = (
    "?held0 fl:only-if|fl:donor-only-if|fl:changed-at|fl:seen-on ?held . ?held fls:under ?this . "
    "FILTER(!isLiteral(?this))"
)
_DATED: Final = "?held0 fl:facts|fl:only-if|fl:donor-only-if|fl:changed-at|fl:seen-on ?this ."
_IDENTITIES: Final = "".join(
    f"UNION {{ ?this fl:{kind} ?name . ?other fl:{kind} ?name . }} " for kind in KINDS if kind != "part"
).removeprefix("UNION ")

RULES: Final = (
    Rule(
        "one-kind",
        _select(
            f"{{ SELECT DISTINCT ?this WHERE {{ ?this ?key ?value . FILTER({_ours('?key')}) }} }} "
            f"FILTER NOT EXISTS {{ ?holder ?at ?this . FILTER({_ours('?at')} || ?at = rdf:first) }} "
            f"FILTER NOT EXISTS {{ ?this ?kind ?name . FILTER(?kind IN ({_KIND_LIST})) }}"
        ),
        "a record with a kind: one of " + ", ".join(KINDS),
    ),
    Rule(
        "record-once",
        _select(
            f"{{ {_IDENTITIES} UNION {{ ?this fl:part ?name . ?other fl:part ?name . "
            "OPTIONAL { ?this fl:maker ?maker } OPTIONAL { ?other fl:maker ?theirs } "
            'FILTER(COALESCE(?maker, "") = COALESCE(?theirs, "")) } } FILTER(?this != ?other) '
            "OPTIONAL { ?this fls:book ?book } OPTIONAL { ?other fls:book ?another } "
            'FILTER(COALESCE(?book, "") = COALESCE(?another, ""))'
        ),
        "one record of a kind and name in a book",
    ),
    Rule(
        "named-once",
        _select(
            "?this fl:places|fl:assemblies ?one . ?this fl:places|fl:assemblies ?other . "
            "?one fl:named ?name . ?other fl:named ?name . FILTER(?one != ?other)"
        ),
        "places of one assembly, and assemblies of one platform, with different names",
    ),
    Rule(
        "one-under-a-key",
        _select(
            f"{{ ?owner {'|'.join(f'fl:{key}' for key in _ONE_EACH)} ?this }} "
            "UNION { ?owner fl:category ?name ; fl:features ?this } "
            f"?this ?key ?one . ?this ?key ?other . FILTER(?one != ?other && {_OF_OURS})"
        ),
        "one value under each key",
    ),
    Rule(
        "texts-or-one-mapping",
        _select(
            "?owner fl:facts|fl:only-if|fl:donor-only-if|fl:changed-at|fl:seen-on ?this . "
            f"?this ?key ?one . ?this ?key ?other . FILTER(?one != ?other && {_OF_OURS} && !isLiteral(?one))"
        ),
        "texts, or one mapping, under each key",
    ),
    Rule(
        "languages",
        _select(f"?this fl:names|fl:also ?text . FILTER(!REGEX(LANG(?text), {quoted(LANGUAGE)}))"),
        "names in a language, as `en-gb` or `de`",
    ),
    Rule(
        "item-once",
        _select(
            "?this fl:look-first|fl:inspect|fl:faults|fl:cautions ?list . ?list rdf:rest* ?one . "
            "?one rdf:first ?item ; rdf:rest+ ?other . ?other rdf:first ?item . FILTER(isLiteral(?item))"
        ),
        "a list whose texts differ",
    ),
    Rule(
        "look-at-what",
        _select(
            "?this fl:category ?name ; fl:look-first ?list . FILTER NOT EXISTS { ?this fl:broader ?above } "
            "?list rdf:rest* ?cell . ?cell rdf:first ?feature . "
            "FILTER NOT EXISTS { ?this fl:features/fls:key ?feature }"
        ),
        "`look-first` with features that the category has",
    ),
    Rule(
        "condition-keys",
        _select(
            f"{_CONDITIONS} ?this ?key ?value . FILTER({_ours('?key')} && ?key NOT IN (fl:any, fl:not)) "
            f'FILTER(!STRSTARTS(STR(?key), "{FACT}") || !REGEX(STRAFTER(STR(?key), "#"), {quoted(SERIES)}) '
            f"|| !isLiteral(?value) || !REGEX(STR(?value), {quoted(SERIAL_RANGE)}))"
        ),
        "a condition with `any`, `not`, or series and their serial numbers: `KT: ../118000`",
    ),
    Rule(
        "condition-series-once",
        _select(
            f"{_CONDITIONS} ?this ?key ?value . ?this ?key ?other . FILTER(?value != ?other) "
            f'FILTER(STRSTARTS(STR(?key), "{FACT}"))'
        ),
        "one range of serial numbers for each series of a condition",
    ),
    Rule(
        "condition-of-one-sort",
        _select(
            f"{_CONDITIONS} ?this fl:any|fl:not ?word . ?this ?key ?value . "
            f'FILTER(STRSTARTS(STR(?key), "{FACT}"))'
        ),
        "a condition with words, or with ranges of serial numbers",
    ),
    Rule(
        "series-of-a-fact",
        _select(
            "?owner fl:platform ?name ; fl:facts ?held . ?held fls:under ?this . ?this fl:series ?series . "
            f"FILTER(!REGEX(STR(?series), {quoted(SERIES)}))"
        ),
        "series in capital letters and figures, as `KT`",
    ),
    Rule(
        "facts-that-are-dates",
        _select(
            f"{_DATED} ?this fact:built|fact:registered|fact:built/fl:value|fact:registered/fl:value"
            "|fact:built/fl:any|fact:registered/fl:any|fact:built/fl:not|fact:registered/fl:not ?date . "
            f"FILTER(isLiteral(?date) && !REGEX(STR(?date), {quoted(PERIOD)}))"
        ),
        "`built` and `registered` as dates or periods, as `1986-08` or `../1986-07`",
    ),
    Rule(
        "facts-that-are-serial-numbers",
        _select(
            "?owner fl:car|fl:donor ?name ; fl:facts ?this . ?this fact:chassis|fact:chassis/fl:value ?number . "
            f"FILTER(isLiteral(?number) && !REGEX(STR(?number), {quoted(SERIAL)}))"
        ),
        "`chassis` as a series, a space and figures, as `KT 118430`",
    ),
    Rule(
        "rate-of-itself",
        _select('?this fl:currency ?code ; fl:rate ?rate . FILTER(STRAFTER(?rate, " ") = ?code)'),
        "a rate between two different currencies",
    ),
    Rule(
        "odds-within-the-whole",
        "SELECT ?this WHERE { ?this fl:could-be/fl:odds ?odds . } "
        'GROUP BY ?this HAVING(SUM(xsd:decimal(REPLACE(?odds, " ?%$", ""))) > 100)',
        "odds that come to 100 % at most",
    ),
    Rule(
        "days-in-order",
        _select(
            "{ ?this fl:seen ?first ; fl:until|fl:held-till ?last } "
            "UNION { ?this fl:today ?first ; fl:in-hand-by ?last } "
            "UNION { ?this fl:ordered ?first ; fl:due ?last } FILTER(STR(?last) < STR(?first))"
        ),
        "`until` and `held-till` not before `seen`, `in-hand-by` not before `today`, `due` not before `ordered`",
    ),
    Rule(
        "reserve-within-cash",
        _select(
            "?this fl:cash ?cash ; fl:reserve ?reserve . "
            'FILTER(STRAFTER(?cash, " ") = STRAFTER(?reserve, " ")) '
            'FILTER(xsd:decimal(STRBEFORE(?reserve, " ")) > xsd:decimal(STRBEFORE(?cash, " ")))'
        ),
        "a reserve that is not more than the cash",
    ),
    Rule(
        "no-side-alone",
        _select('?this fl:sides|fl:forbidden-states "none" , ?other . FILTER(?other != "none")'),
        "`none` alone, or what there is",
    ),
)
"""Everything that has to be looked for across nodes, or by comparing texts."""
