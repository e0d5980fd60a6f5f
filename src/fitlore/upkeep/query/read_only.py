"""Whether a question only asks, and only here: looked through before it is run.

Two readers look, because the store's own reader takes forms that others do not (`SERVICESILENT` in one word, a lone carriage
return as the end of a comment): rdflib's for SPARQL 1.1, whose tree must hold no SERVICE and which must read the whole, and
one that only tells words from texts, IRIs and comments. Both get the text that is then run, escapes resolved and lines ended
alike.
"""

from __future__ import annotations

import re
from typing import Final

from fitlore.model.diagnostic import Diagnostic
from fitlore.upkeep.query.faults import at, place

_ESCAPE: Final = re.compile(r"\\(?:u([0-9A-Fa-f]{4})|U([0-9A-Fa-f]{8}))")
_NO_WORD: Final = re.compile(
    r'"""(?:[^"\\]|\\.|"(?!""))*"""'
    r"|'''(?:[^'\\]|\\.|'(?!''))*'''"
    r'|"(?:[^"\\\n]|\\.)*"'
    r"|'(?:[^'\\\n]|\\.)*'"
    r'|<[^<>"{}|^`\\\x00-\x20]*>'
    r"|#[^\n]*",
    re.DOTALL,
)
_SERVICE: Final = re.compile(r"(?<![\w?$:%.\-])service(?!\w*:)", re.IGNORECASE)
_SERVICE_OF_PREFIX: Final = re.compile(r"(?<![\w?$:%.\-])service\s*:[^\s{]*\s*\{", re.IGNORECASE)
_UPDATES: Final = ("INSERT", "DELETE", "LOAD", "CLEAR", "DROP", "CREATE", "ADD", "MOVE", "COPY", "WITH")
_STATEMENTS: Final = ("CONSTRUCT", "DESCRIBE")
_FORM: Final = re.compile(
    rf"(?<![\w?$:%.\-])(SELECT|ASK|{'|'.join((*_UPDATES, *_STATEMENTS))})\b(?!:)", re.IGNORECASE
)
_MOST: Final = 0x10FFFF
_HALVES: Final = range(0xD800, 0xE000)


def as_run(text: str) -> str:
    """A question as it is looked through and run: every line ends in one way, escapes for characters are resolved.

    SPARQL 1.1, section 19.2: such escapes are resolved before anything is read.
    """
    return _ESCAPE.sub(_resolved, text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n"))


def looked_through(shown: str, text: str) -> Diagnostic | bool:
    """Whether a question may be run (False: it is not understood, so the store may read it but not run it), or why never.

    `text` is as `as_run` makes it.
    """
    bare = _NO_WORD.sub(lambda found: re.sub(r"[^\n]", " ", found[0]), text)
    word = _SERVICE.search(bare) or _SERVICE_OF_PREFIX.search(bare)
    if word:
        return at("U32-asks-elsewhere", shown, text, *place(text, word.start()), len("SERVICE"))
    form = _FORM.search(bare)
    if form and form[1].upper() in (*_UPDATES, *_STATEMENTS):
        code = "U31-would-change" if form[1].upper() in _UPDATES else "U33-not-a-table"
        return at(code, shown, text, *place(text, form.start()), len(form[1]), word=form[1].upper())
    from fitlore.upkeep.shapes import holds_in_sparql

    elsewhere = holds_in_sparql(text, "ServiceGraphPattern")
    return at("U32-asks-elsewhere", shown, text, 1, 1) if elsewhere else elsewhere is not None


def not_sparql(shown: str, text: str, said: str) -> Diagnostic:
    """The store's words (`error at LINE:COLUMN: ...`) on a text it cannot read: they list what might stand there instead."""
    found = re.search(r"error at (\d+):(\d+): ", said)
    if found is None:
        return at(
            "U30-not-sparql", shown, text, 1, 1, why=said or "it is not SPARQL 1.1, at least not all of it"
        )
    line, column = int(found[1]), int(found[2])
    rest = "\n".join(text.split("\n")[line - 1 :])[column - 1 :]
    here = re.match(r"\s*(\S+)", rest)
    if here is None:
        line, column = place(text, max(0, len(text.rstrip()) - 1))
    why = f"the reader comes to a stop at {f'`{here[1][:40]}`' if here else 'the end'}"
    return at("U30-not-sparql", shown, text, line, column, why=why)


def _resolved(found: re.Match[str]) -> str:
    code = int(found[1] or found[2], 16)
    return found[0] if code > _MOST or code in _HALVES else chr(code)
