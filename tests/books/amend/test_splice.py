"""Adding to books as people write them: every form that can be added to, and every form that is refused instead."""

from __future__ import annotations

from datetime import date

import pytest

from fitlore.books.amend import Edit, NewItem, NewRecord, NewText, Spliced, splice, taken_back
from fitlore.books.nodes import read_nodes
from fitlore.model.diagnostic import Diagnostic

RECORD = NewRecord(
    {"crossfit": "a-for-b", "use": "007", "evidence": [{"how": "told", "note": "well, yes: so"}]}
)
PIECE = {"how": "fitted", "by": "shop, me"}


def on(*path: str | int) -> NewItem:
    """One more piece of evidence at a path."""
    return NewItem(path, PIECE)


DONE: dict[str, tuple[str, Edit, str]] = {
    "no text at all": (
        "",
        RECORD,
        '- crossfit: a-for-b\n  use: "007"\n  evidence:\n    - how: told\n      note: "well, yes: so"\n',
    ),
    "only a comment": (
        "# parts\n",
        NewRecord({"part": "A 1"}),
        "# parts\n- part: A 1\n",
    ),
    "only a comment without an end of line": (
        "# parts",
        NewRecord({"part": "A 1"}),
        "# parts\n- part: A 1\n",
    ),
    "a record behind another, with the blank lines that stand between records": (
        "- part: A\n  is: x\n\n\n- part: B\n  is: x\n",
        NewRecord({"part": "C", "is": "x"}),
        "- part: A\n  is: x\n\n\n- part: B\n  is: x\n\n\n- part: C\n  is: x\n",
    ),
    "no blank line between records": (
        "- part: A\n  is: x\n- part: B\n  is: x\n",
        NewRecord({"part": "C", "is": "x"}),
        "- part: A\n  is: x\n- part: B\n  is: x\n- part: C\n  is: x\n",
    ),
    "a comment that introduces a record is no blank line": (
        "- part: A\n\n# the other one\n- part: B\n",
        NewRecord({"part": "C"}),
        "- part: A\n\n# the other one\n- part: B\n\n- part: C\n",
    ),
    "no end of line at the end": (
        "- part: A\n- part: B",
        NewRecord({"part": "C"}),
        "- part: A\n- part: B\n- part: C\n",
    ),
    "CRLF": (
        "- part: A\r\n  is: x\r\n- part: B\r\n  is: x\r\n",
        NewRecord({"part": "C", "is": "x"}),
        "- part: A\r\n  is: x\r\n- part: B\r\n  is: x\r\n- part: C\r\n  is: x\r\n",
    ),
    "comments below the last record stay where they are, its own ones above the new one": (
        "- part: A\n- part: B # b\n  # its own\n# end of book\n",
        NewRecord({"part": "C"}),
        "- part: A\n- part: B # b\n  # its own\n- part: C\n# end of book\n",
    ),
    "empty lines at the end stay at the end": (
        "- part: A\n- part: B\n\n\n",
        NewRecord({"part": "C"}),
        "- part: A\n- part: B\n- part: C\n\n\n",
    ),
    "records in braces": (
        "- {part: A, is: x}\n- {part: B, is: y}\n",
        NewRecord({"part": "C, D", "is": "no"}),
        '- {part: A, is: x}\n- {part: B, is: y}\n- {part: "C, D", is: "no"}\n',
    ),
    "a wide gap after the dash": (
        "-   part: A\n    is: x\n-   part: B\n    is: x\n",
        NewRecord({"part": "C", "is": "x"}),
        "-   part: A\n    is: x\n-   part: B\n    is: x\n-   part: C\n    is: x\n",
    ),
    "an indented outermost list": (
        "  - part: A\n  - part: B\n",
        NewRecord({"part": "C", "is": "x"}),
        "  - part: A\n  - part: B\n  - part: C\n    is: x\n",
    ),
    "a mapping below its dash": (
        "-\n  part: A\n-\n  part: B\n",
        NewRecord({"part": "C", "is": "x"}),
        "-\n  part: A\n-\n  part: B\n- part: C\n  is: x\n",
    ),
    "document marks": (
        "---\n- part: A\n- part: B\n...\n",
        NewRecord({"part": "C"}),
        "---\n- part: A\n- part: B\n- part: C\n...\n",
    ),
    "a block text last": (
        "- part: A\n- part: B\n  note: |\n    one\n    two\n\n",
        NewRecord({"part": "C"}),
        "- part: A\n- part: B\n  note: |\n    one\n    two\n- part: C\n\n",
    ),
    "a text over several lines last": (
        "- part: A\n- part: B\n  note: one\n    two\n",
        NewRecord({"part": "C"}),
        "- part: A\n- part: B\n  note: one\n    two\n- part: C\n",
    ),
    "quotes over several lines last": (
        '- part: A\n- part: B\n  note: "one\n    # two"\n',
        NewRecord({"part": "C"}),
        '- part: A\n- part: B\n  note: "one\n    # two"\n- part: C\n',
    ),
    "a faulty record elsewhere": (
        "- part: A\n  broken: [\n- part: B\n",
        NewRecord({"part": "C"}),
        "- part: A\n  broken: [\n- part: B\n- part: C\n",
    ),
    "nested lists are indented as the neighbours' are": (
        "- crossfit: a\n  evidence:\n  - how: told\n    by: x\n- crossfit: b\n  evidence:\n  - how: told\n    by: x\n",
        RECORD,
        (
            "- crossfit: a\n  evidence:\n  - how: told\n    by: x\n- crossfit: b\n  evidence:\n  - how: told\n    by: x\n"
            '- crossfit: a-for-b\n  use: "007"\n  evidence:\n  - how: told\n    note: "well, yes: so"\n'
        ),
    ),
    "items in braces where the neighbours' are": (
        "- crossfit: a\n  evidence:\n    - {how: told, by: x}\n- crossfit: b\n  evidence:\n    - {how: told, by: x}\n",
        RECORD,
        (
            "- crossfit: a\n  evidence:\n    - {how: told, by: x}\n- crossfit: b\n  evidence:\n    - {how: told, by: x}\n"
            '- crossfit: a-for-b\n  use: "007"\n  evidence:\n    - {how: told, note: "well, yes: so"}\n'
        ),
    ),
    "a block list": (
        "- crossfit: a\n  evidence:\n    - how: told\n      by: x # him\n      # and her\n  use: 3\n",
        on(0, "evidence"),
        (
            "- crossfit: a\n  evidence:\n    - how: told\n      by: x # him\n      # and her\n"
            "    - how: fitted\n      by: shop, me\n  use: 3\n"
        ),
    ),
    "a block list that is not indented": (
        "- crossfit: a\n  evidence:\n  - how: told\n  # not hers\n  use: 3\n",
        on(0, "evidence"),
        "- crossfit: a\n  evidence:\n  - how: told\n  - how: fitted\n    by: shop, me\n  # not hers\n  use: 3\n",
    ),
    "a block list of items in braces": (
        "- crossfit: a\n  evidence:\n    - {how: told} # x\n- crossfit: b\n",
        on(0, "evidence"),
        '- crossfit: a\n  evidence:\n    - {how: told} # x\n    - {how: fitted, by: "shop, me"}\n- crossfit: b\n',
    ),
    "a list in brackets": (
        "- {crossfit: a, evidence: [{how: told}], use: 3}\n",
        on(0, "evidence"),
        '- {crossfit: a, evidence: [{how: told}, {how: fitted, by: "shop, me"}], use: 3}\n',
    ),
    "an empty list in brackets": (
        "- crossfit: a\n  evidence: [  ] # none yet\n",
        on(0, "evidence"),
        '- crossfit: a\n  evidence: [{how: fitted, by: "shop, me"}  ] # none yet\n',
    ),
    "a comma at the end of a list in brackets": (
        "- crossfit: a\n  evidence: [{how: told},]\n",
        on(0, "evidence"),
        '- crossfit: a\n  evidence: [{how: told}, {how: fitted, by: "shop, me"},]\n',
    ),
    "a list in brackets over several lines": (
        "- crossfit: a\n  evidence: [\n    {how: told}, # x\n    {how: told} # y, z\n  ] # so\n",
        on(0, "evidence"),
        (
            "- crossfit: a\n  evidence: [\n    {how: told}, # x\n    {how: told}, # y, z\n"
            '    {how: fitted, by: "shop, me"}\n  ] # so\n'
        ),
    ),
    "a list in brackets over several lines with a comma at the end": (
        "- crossfit: a\n  evidence: [\n    {how: told}, # y, z\n  ]\n",
        on(0, "evidence"),
        '- crossfit: a\n  evidence: [\n    {how: told}, # y, z\n    {how: fitted, by: "shop, me"},\n  ]\n',
    ),
    "a bracket on the line of the last item": (
        "- crossfit: a\n  evidence: [{how: told},\n    {how: told}]\n",
        on(0, "evidence"),
        '- crossfit: a\n  evidence: [{how: told},\n    {how: told}, {how: fitted, by: "shop, me"}]\n',
    ),
    "several items on a line": (
        "- part: a\n  same-as: [\n    x, y,\n    z, q\n  ]\n",
        NewItem((0, "same-as"), "r"),
        "- part: a\n  same-as: [\n    x, y,\n    z, q, r\n  ]\n",
    ),
    "the key is absent": (
        "- crossfit: a\n  use: 3 # three\n  # its own\n- crossfit: b\n",
        on(0, "evidence"),
        "- crossfit: a\n  use: 3 # three\n  # its own\n  evidence:\n    - how: fitted\n      by: shop, me\n- crossfit: b\n",
    ),
    "the key is absent from a mapping in braces": (
        "- {crossfit: a, use: 3}\n",
        on(0, "evidence"),
        '- {crossfit: a, use: 3, evidence: [{how: fitted, by: "shop, me"}]}\n',
    ),
    "the key is absent from braces over several lines": (
        "- {\n  crossfit: a,\n  use: 3 # x\n}\n",
        on(0, "evidence"),
        '- {\n  crossfit: a,\n  use: 3, # x\n  evidence: [{how: fitted, by: "shop, me"}]\n}\n',
    ),
    "one value stands alone": (
        "- crossfit: a\n  reaches: kestin-tolland # only there\n",
        NewItem((0, "reaches"), "tarn-corva"),
        "- crossfit: a\n  reaches: [kestin-tolland, tarn-corva] # only there\n",
    ),
    "one mapping in braces stands alone": (
        "- crossfit: a\n  evidence: {how: told}\n",
        on(0, "evidence"),
        '- crossfit: a\n  evidence: [{how: told}, {how: fitted, by: "shop, me"}]\n',
    ),
    "deep inside": (
        (
            "- platform: p\n  assemblies:\n    axle:\n      places:\n        cylinder:\n          is: x\n"
            "          original: A 1\n        drum:\n          is: y\n"
        ),
        NewItem((0, "assemblies", "axle", "places", "cylinder", "original"), "A 2"),
        (
            "- platform: p\n  assemblies:\n    axle:\n      places:\n        cylinder:\n          is: x\n"
            "          original: [A 1, A 2]\n        drum:\n          is: y\n"
        ),
    ),
    "a price in braces": (
        "- supplier: a\n  offers:\n    - {number: X, price: 3 GBP, stock: 2}\n",
        NewText((0, "offers", 0, "price"), "4.50 GBP"),
        "- supplier: a\n  offers:\n    - {number: X, price: 4.50 GBP, stock: 2}\n",
    ),
    "a price on a line of its own": (
        "- supplier: a\n  offers:\n    - number: X\n      price: 3 GBP   # was 2\n",
        NewText((0, "offers", 0, "price"), "4.50 GBP"),
        "- supplier: a\n  offers:\n    - number: X\n      price: 4.50 GBP   # was 2\n",
    ),
    "a count, where there was none": (
        "- supplier: a\n  offers:\n    - {number: X, price: 3 GBP}\n",
        NewText((0, "offers", 0, "stock"), 2),
        "- supplier: a\n  offers:\n    - {number: X, price: 3 GBP, stock: 2}\n",
    ),
    "a day in the place of one in quotes": (
        '- supplier: a\n  offers:\n    - {number: X, seen: "2026-01-01"}\n',
        NewText((0, "offers", 0, "seen"), date(2026, 12, 3)),
        "- supplier: a\n  offers:\n    - {number: X, seen: 2026-12-03}\n",
    ),
    "an item of a list": (
        "- crossfit: a\n  reaches: [x, y]\n",
        NewText((0, "reaches", 1), "z: q"),
        '- crossfit: a\n  reaches: [x, "z: q"]\n',
    ),
    "accents and emoji before the place": (
        "- part: é\n  note: 🛞 ü # ß\n  same-as: [x]\n",
        NewItem((0, "same-as"), "ö"),
        "- part: é\n  note: 🛞 ü # ß\n  same-as: [x, ö]\n",
    ),
}

REFUSED: dict[str, tuple[str | bytes, Edit, str]] = {
    "an outermost list in brackets": ("[{part: A}]\n", RECORD, "brackets"),
    "an empty outermost list": ("[]\n", RECORD, "brackets"),
    "an outermost mapping": ("part: A\n", RECORD, "not a list"),
    "an outermost text": ("part\n", RECORD, "not a list"),
    "a lone document mark": ("---\n", RECORD, "not a list"),
    "two documents": ("- part: A\n---\n- part: B\n", RECORD, "B33-second-document"),
    "an anchor": ("- &x {part: A}\n", RECORD, "B31-anchor"),
    "an alias": ("- part: A\n  is: *x\n", RECORD, "B32-alias"),
    "a tag": ("- part: !!str A\n", RECORD, "B34-tag"),
    "a text that keeps its empty lines last": (
        "- part: B\n- part: A\n  note: |+\n    x\n\n",
        RECORD,
        "read otherwise",
    ),
    "a block text at the end without an end of line": (
        "- part: A\n  note: |\n    x",
        RECORD,
        "read otherwise",
    ),
    "an empty value last": ("- part: A\n  note:\n", NewText((0, "is"), "x"), "empty one"),
    "a mapping over lines where a list belongs": (
        "- crossfit: a\n  evidence:\n    how: told\n",
        on(0, "evidence"),
        "several lines",
    ),
    "a block text where a list belongs": (
        "- crossfit: a\n  keep: |\n    x\n",
        NewItem((0, "keep"), "y"),
        "several lines",
    ),
    "a comma in a single value": (
        "- crossfit: a\n  keep: b, c\n",
        NewItem((0, "keep"), "y"),
        "read otherwise",
    ),
    "a key without a value": ("- crossfit: a\n  evidence:\n", on(0, "evidence"), "no value yet"),
    "a block text to be replaced": (
        "- part: A\n  note: |\n    x\n",
        NewText((0, "note"), "y"),
        "on one line",
    ),
    "a text over lines to be replaced": (
        "- part: A\n  note: x\n    z\n",
        NewText((0, "note"), "y"),
        "on one line",
    ),
    "a list to be replaced": ("- part: A\n  same-as: [x]\n", NewText((0, "same-as"), "y"), "on one line"),
    "no such record": ("- part: A\n", on(1, "evidence"), "no `1`"),
    "no such key on the way": ("- part: A\n", on(0, "offers", 2, "brings"), "no `offers`"),
    "no UTF-8": (b"- part: A\xe4\n", RECORD, "no readable text"),
    "UTF-16": ("- part: A\n".encode("utf-16"), RECORD, "no readable text"),
    "a strange line end": ("- part: A\u2028  is: x\n", RECORD, "no readable text"),
    "an empty book asked for an item": ("", on(0, "evidence"), "empty"),
}


@pytest.mark.parametrize("name", DONE)
def test_what_can_be_added_to(name: str) -> None:
    """The new text is exactly the expected one, and the old bytes come back when it is taken out."""
    old, edit, new = DONE[name]
    found = splice("shop/x.yaml", old.encode(), [edit])
    assert isinstance(found, Spliced), found
    assert found.data.decode() == new
    assert taken_back(found.data, found.changes) == old.encode()


@pytest.mark.parametrize("name", DONE)
def test_a_byte_order_mark_stays(name: str) -> None:
    """With a byte order mark in front everything is the same behind it."""
    old, edit, new = DONE[name]
    found = splice("shop/x.yaml", b"\xef\xbb\xbf" + old.encode(), [edit])
    assert isinstance(found, Spliced), found
    assert found.data == b"\xef\xbb\xbf" + new.encode()


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_refused(name: str) -> None:
    """A form that cannot be added to is refused with the reason, and with the lines to put in by hand."""
    old, edit, reason = REFUSED[name]
    data = old if isinstance(old, bytes) else old.encode()
    found = splice("shop/x.yaml", data, [edit])
    assert isinstance(found, Diagnostic), found
    assert found.code == "A01-not-by-splice"
    assert reason in found.message
    assert found.origin.book == "shop/x.yaml"
    assert found.origin.line >= 1
    new = (
        edit.record["use"]
        if isinstance(edit, NewRecord)
        else edit.item
        if isinstance(edit, NewItem)
        else edit.value
    )
    assert str(new["by"] if isinstance(new, dict) else new) in found.remedy


def test_a_new_record_stands_where_its_origin_says() -> None:
    """The origin of the result is the place that reading gives the record."""
    found = splice("shop/x.yaml", b"- part: A\n", [NewRecord({"part": "B"})])
    assert isinstance(found, Spliced)
    doc = read_nodes("shop/x.yaml", found.data)
    assert isinstance(doc.root, list)
    assert found.origin == doc.origin(doc.root, 1)


def test_several_edits_are_taken_back_together() -> None:
    """Edits are made one after the other, and undone as one."""
    old = b"- crossfit: a\n  evidence: [{how: told}]\n"
    edits = [on(0, "evidence"), on(0, "against"), RECORD, NewText((1, "use"), "8")]
    found = splice("shop/x.yaml", old, edits)
    assert isinstance(found, Spliced), found
    assert len(found.changes) == 4
    assert taken_back(found.data, found.changes) == old


def test_taking_back_from_another_text_is_refused() -> None:
    """What was put in must be there to be taken out."""
    found = splice("shop/x.yaml", b"- part: A\n", [NewRecord({"part": "B"})])
    assert isinstance(found, Spliced)
    with pytest.raises(ValueError, match="another text"):
        taken_back(b"- part: A\n- part: C\n", found.changes)
