"""Spoiling books: stretches, lines, keys, values, statements and bytes, each as people and programs get them wrong."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from typing import Final

from tests.books.fuzz.seeds import Small, keys, values

_LONG: Final = 6000
SOUP: Final = (
    *("0123", "NO", "no", "yes", "~", "null", "1e3", "1_000"),
    *("0x1F", "12:30:45", "-0", "+1", "1.", ".5", "007", "nan", "inf"),
    *("2026-02-30", "2026-13", "0000", "9999-12-31", "10000"),
    *("198X", "../..", "/", "1986/1985", "2026-12-03T10:00Z", "?~%"),
    *("1,234.50 GBP", "-1 GBP", "1e400 GBP", "0.001 GBP", "5 XYZ", "GBP 5", "£5", "5  GBP", "60 %", "600 %", "-1 %"),
    *("6 mm", "1/0 in", "1/2\"", "-6 mm", "6 furlongs", "25 lbf.ft"),
    *("M10x1", "M10x0", "M1e9x1", "1/8-27 NPT", "W", "mm"),
    *("a/b", "a/b/c/d", "a/b@left", "a/b@0", "@", "/a"),
    *("tarn-corva/x/y@right", "shop:x", "x" * 400, "1" * _LONG, "1 " * 2000),
    *("-" * 3000, "a-" * 2000, "(" * 2000, "1/" * 2000, "1." * 2000),
    *("M1x" * 1500, "\u0661\u0662 mm", "\u00bd mm", "é", "ß\u0307"),
    *("\U0001f697", "\u202e", "\u200b", "a\u00a0b", "%s{}", "{0}"),
    *("{key}", "$HOME", "`id`", "<script>", "en_GB", "x-y-z"),
    *("http://a.example/b", "file:///etc/passwd", "../../../../etc/passwd"),
    *("urn:x", "_:b", "rdf:nil", "@id", "@type", "<<"),
)  # fmt: skip
_YAML_BITS: Final = (
    *("\n", "  ", "- ", ": ", "{", "}", "[", "]", "'", '"', "#", " #"),
    *("&a ", "*a", "*a : ", "!t ", "! ", "!!python/object/apply:os.system "),
    *("\t", ",", "|\n", "|+\n", ">-\n", "|9\n", "? ", "<<: *a\n", "---\n"),
    *("...\n", "%YAML 1.2\n---\n", "%TAG ! tag:x,2000:\n---\n", "\\"),
    *("\r", "\r\n", "\u0085", "\u2028", "\u2029", "\ufeff", "\x00", "\x07"),
    *("\x7f", "\ud7ff", "\uffff", "@", "`", "%", '"\\ud800"', '"\\x00"'),
)  # fmt: skip
_RDF_BITS: Final = (
    *(" . ", " ; ", " , ", " [ ", " ] ", " ( ", " ) ", '"', '"""', "'''"),
    *("\\", "\\u0000", "\\uD800", "_:a ", "_:b1 ", "<", ">", "<>", "<a b>"),
    *("<http://a.example/../../b> ", "<../../x> ", "a ", "@en", "@en-gb-oed"),
    *("^^xsd:integer ", "^^<urn:t> ", "true ", "1e5 ", "@prefix p: <urn:> .\n"),
    *("@base <../> .\n", "PREFIX fl: <urn:other#>\n", "BASE <http://a.example/>\n"),
    *("{ ", "} ", "GRAPH <https://fitlore.example/book/other/x> { "),
    *("<< _:a <urn:p> 1 >> ", "fl:part ", "fl:offers ", "fl:contains "),
    *("fl:named ", "feature:x ", "rdf:first ", "# ", "\n", "\x00", "\ufeff"),
    "_:l <http://www.w3.org/1999/02/22-rdf-syntax-ns#rest> _:l .\n",
)  # fmt: skip
_JSON_BITS: Final = (
    *('"', "{", "}", "[", "]", ",", ":", "null", "true", "1e999"),
    *("9" * 5000, '"@id": "_:a",', '"@id": "../../x",', '"@type": "@id",'),
    *('"@context": "http://a.example/c",', '"@context": {"@import": "file:///etc/passwd"},'),
    *('"@context": null,', '"@context": [[]],'),
    *('"@graph": [],', '"@list": [1],', '"@set": [],', '"@value": 1,'),
    *('"@language": "en",', '"@reverse": {},', '"@included": [],', '"@index": "x",'),
    *('"@json": {},', '"@nest": {},', '"part": 1,', '"part": {"@value": "A"},'),
    *("\\ud800", "\\u0000", "\\", "NaN", "-Infinity", "\ufeff", "/* x */"),
)  # fmt: skip


def spoilt(chance: random.Random, book: Small) -> bytes:
    """The book with one to four things wrong with it, as bytes."""
    text = book.text
    for _ in range(chance.randint(1, 4)):
        text = chance.choice(_ways(book.ending))(chance, text)
    return _as_bytes(chance, text)


def spoilt_piece(chance: random.Random, piece: str) -> str:
    """One record of YAML with one thing wrong with it."""
    return chance.choice(_ways(".yaml"))(chance, piece)


def junk(chance: random.Random) -> bytes:
    """Bytes of any sort, or bits of syntax in any order."""
    if chance.random() < 0.3:
        return chance.randbytes(chance.randint(0, 600))
    bits = chance.choice((_YAML_BITS, _RDF_BITS, _JSON_BITS))
    return "".join(chance.choice((*bits, *SOUP[:40])) for _ in range(chance.randint(0, 60))).encode()


def _ways(ending: str) -> tuple[Callable[[random.Random, str], str], ...]:
    own = {".yaml": (_yaml_value, _yaml_value, _yaml_key, _indent), ".jsonld": (_json_value, _json_key)}
    return (*_ANYWHERE, *own.get(ending, (_literal, _predicate, _node)), _bits(ending))


def _place(chance: random.Random, text: str) -> int:
    return chance.randint(0, len(text))


def _taken_out(chance: random.Random, text: str) -> str:
    at = _place(chance, text)
    return text[:at] + text[at + chance.randint(1, 40) :]


def _doubled(chance: random.Random, text: str) -> str:
    at = _place(chance, text)
    end = at + chance.randint(1, 200)
    return text[:end] + text[at:]


def _cut_off(chance: random.Random, text: str) -> str:
    return text[: _place(chance, text)]


def _lines_swapped(chance: random.Random, text: str) -> str:
    lines = text.split("\n")
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return "\n".join(lines)


def _line_moved(chance: random.Random, text: str) -> str:
    lines = text.split("\n")
    line = lines.pop(chance.randrange(len(lines)))
    lines.insert(chance.randint(0, len(lines)), line)
    return "\n".join(lines)


_ANYWHERE: Final = (_taken_out, _doubled, _cut_off, _lines_swapped, _line_moved)


def _bits(ending: str) -> Callable[[random.Random, str], str]:
    bits = {".yaml": _YAML_BITS, ".jsonld": _JSON_BITS}.get(ending, _RDF_BITS)

    def put_in(chance: random.Random, text: str) -> str:
        at = _place(chance, text)
        return text[:at] + chance.choice(bits) + text[at:]

    return put_in


def _other(chance: random.Random) -> str:
    return chance.choice(SOUP) if chance.random() < 0.7 else chance.choice(values())


def _replaced(chance: random.Random, text: str, pattern: str, made: Callable[[str], str]) -> str:
    """One match of a pattern with its first group replaced."""
    found = list(re.finditer(pattern, text))
    if not found:
        return text
    match = chance.choice(found)
    return text[: match.start(1)] + made(match[1]) + text[match.end(1) :]


def _yaml_value(chance: random.Random, text: str) -> str:
    new = _other(chance)
    shapes = (
        new,
        new,
        new,
        f"[{new}]",
        f"{{{new}: {new}}}",
        f'"{new}"',
        f"[{new}, {new}]",
        f"|\n      {new}",
        "",
        f"&a {new}",
        f"!!int {new}",
    )
    return _replaced(chance, text, r"(?::|-) ([^\n]+)", lambda _: chance.choice(shapes))


def _yaml_key(chance: random.Random, text: str) -> str:
    return _replaced(chance, text, r"([\w-]+): ", lambda _: chance.choice((*keys(), *SOUP)))


def _indent(chance: random.Random, text: str) -> str:
    return _replaced(
        chance, text, r"(?m)^( *)", lambda old: chance.choice((old + " ", old[:-1], old + "  ", "\t", ""))
    )


def _literal(chance: random.Random, text: str) -> str:
    new = _other(chance).replace("\\", "").replace('"', "")
    shapes = (
        f'"{new}"',
        f'"{new}"@en',
        f'"{new}"^^<urn:t>',
        f"<{new}>",
        "[]",
        "()",
        "_:a",
        '""',
        f'( "{new}" "{new}" )',
    )
    return _replaced(chance, text, r'("[^"\n]*")', lambda _: chance.choice(shapes))


def _predicate(chance: random.Random, text: str) -> str:
    return _replaced(
        chance, text, r"(?:fl:|terms#)([\w-]+)", lambda _: chance.choice((*keys(), "named", "iss", "a%20b"))
    )


def _node(chance: random.Random, text: str) -> str:
    shapes = ("_:a", "_:b0", "<urn:a>", "[ fl:part _:a ]", "rdf:nil", "<../x>")
    return _replaced(chance, text, r"(\[[^\[\]\n]*\]|_:\w+|<[^>\n]*>)", lambda _: chance.choice(shapes))


def _json_value(chance: random.Random, text: str) -> str:
    new = _other(chance).replace("\\", "").replace('"', "")
    shapes = (
        f'"{new}"',
        "null",
        "1",
        "true",
        "[]",
        "{}",
        f'["{new}", "{new}"]',
        f'{{"{new}": "{new}"}}',
        '{"@list": [1]}',
        '{"@id": "_:a"}',
    )
    return _replaced(chance, text, r': ("[^"\n]*")', lambda _: chance.choice(shapes))


def _json_key(chance: random.Random, text: str) -> str:
    new = (
        *keys(),
        "@id",
        "@type",
        "@context",
        "@graph",
        "@value",
        "@list",
        "@reverse",
        "a:b",
        "",
        "@unknown",
    )
    return _replaced(chance, text, r'"([\w@-]+)": ', lambda _: chance.choice(new))


def _as_bytes(chance: random.Random, text: str) -> bytes:
    """The text in UTF-8, seldom in another encoding, with other ends of line, or with bytes that are none."""
    what = chance.random()
    if what < 0.7:
        return text.encode("utf-8", "surrogatepass")
    if what < 0.8:
        return text.replace("\n", chance.choice(("\r\n", "\r"))).encode("utf-8", "surrogatepass")
    if what < 0.85:
        return b"\xef\xbb\xbf" * chance.randint(1, 2) + text.encode("utf-8", "surrogatepass")
    if what < 0.9:
        return text.encode(
            chance.choice(("utf-16", "utf-16-le", "utf-32", "utf-32-be", "latin-1", "cp1252")), "replace"
        )
    data = bytearray(text.encode("utf-8", "surrogatepass"))
    for _ in range(chance.randint(1, 4)):
        at = chance.randint(0, len(data))
        data[at:at] = chance.choice(
            (b"\xff", b"\xed\xa0\x80", b"\x00", b"\xc0\xaf", b"\xe9", b"\x1b[31m", b"\xef\xbb\xbf")
        )
    return bytes(data)
