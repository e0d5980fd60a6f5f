"""The JSON-LD context that `kb` ships is what the Structs make it."""

from __future__ import annotations

import json

from fitlore.books.context import codings, context, context_text
from fitlore.books.iris import EDTF, FACT, FEATURE, XSD_INTEGER
from fitlore.books.layout import builtin_kb


def test_the_committed_file_is_current() -> None:
    """`kb/context.jsonld` is generated: after a change of a Struct, write it anew."""
    assert (builtin_kb() / "context.jsonld").read_text("utf-8") == context_text()


def test_the_context_coerces_no_text_to_an_address() -> None:
    """A part number has spaces: as an address it would be dropped in silence by JSON-LD processors, so none is one."""
    text = json.dumps(context())
    assert '"@id"' in text
    assert '"@type": "@id"' not in text
    assert '"@type": "@vocab"' not in text


def test_keys_keep_one_meaning() -> None:
    """Counts are integers, dates EDTF, free keys have vocabularies of their own, and each key has one coding."""
    rows = codings()
    assert rows["quantity"].datatype == XSD_INTEGER
    assert rows["built"].datatype == rows["seen"].datatype == EDTF
    assert rows["features"].scope == rows["must-be"].scope == FEATURE
    assert rows["only-if"].scope == rows["facts"].scope == FACT
    assert rows["names"].shape == "language"
    assert rows["places"].shape == "index"
