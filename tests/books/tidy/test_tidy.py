"""Tidying by example: order, columns, blank lines, quotes and comments."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from fitlore.books.alike import said
from fitlore.books.layout import builtin_kb
from fitlore.books.reading import read_book
from fitlore.books.tidy import Tidied, tidy
from fitlore.model.origin import Origin
from tests.books.tidy.books import GRAPH, lines, text

ROOT = Path(__file__).parents[3]
BOOKS = [
    *sorted((builtin_kb() / "categories").glob("*.yaml")),
    builtin_kb() / "policy.yaml",
    *sorted((ROOT / "demo/lowbarn/books").rglob("*.yaml")),
    ROOT / "tests/books/rich.yaml",
    ROOT / "tests/books/amend/rich.yaml",
]


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.stem)
def test_the_books_that_come_with_it(path: Path) -> None:
    """Every book of the demo and of the built-in knowledge: the same tree to another reader, the same records, each comment
    once, and a second tidying changes nothing."""
    old = path.read_bytes()
    found = tidy("shop/x.yaml", old)
    assert isinstance(found, Tidied)
    assert yaml.load(found.data, yaml.CBaseLoader) == yaml.load(old, yaml.CBaseLoader)
    before, after = (read_book("shop/x.yaml", data, GRAPH) for data in (old, found.data))
    assert list(map(said, before.records)) == list(map(said, after.records))
    assert before.records
    assert not after.diagnostics
    assert found.data.count(b"#") == old.count(b"#")
    again = tidy("shop/x.yaml", found.data)
    assert isinstance(again, Tidied)
    assert again.data == found.data


def test_a_whole_book() -> None:
    """Order, columns, dashes, blank lines, quotes and comments in one example."""
    found = text(
        """


        # Parts of the green one.
        -   is : plunger-switch     # asked at the counter
            part:    TC 941 377
            # as it stands in the list
            maker: "Tarn"


            features:
                    bore: 8.8
                    on: [1 ,   'x']
            contains:
            -    quantity: 2
                 number: 0123
            - {quantity: 1,is: washer}
        # the next one
        -
            crossfit: a-for-b
            use:   B 1
            instead-of:
                A 1
            evidence: [ {by: shop,how: fitted} ,told]
            work:
              minutes: 10
              do: two
               lines
        """
    )
    assert found == lines(
        """
        # Parts of the green one.
        - part: TC 941 377
          is: plunger-switch      # asked at the counter
          # as it stands in the list
          maker: "Tarn"

          features:
            bore: "8.8"
            "on": ["1", 'x']
          contains:
            - number: "0123"
              quantity: 2
            - {is: washer, quantity: 1}

        # the next one
        - crossfit: a-for-b
          instead-of: A 1
          use: B 1
          work:
            do: two
              lines
            minutes: 10
          evidence: [{how: fitted, by: shop}, told]
        """
    )


def test_comments_hold_their_order() -> None:
    """`is` has a comment and stands above `maker` with a comment: the two stay so, and the others are put in order around them.
    Where the kind cannot come first, nothing moves."""
    book = """
        - note: new
          is: hex-bolt    # one
          maker: Tarn     # two
          part: A 1
          name: bolt
        """
    found = tidy("shop/x.yaml", lines(book).encode())
    assert isinstance(found, Tidied)
    assert found.data.decode() == lines(
        """
        - part: A 1
          is: hex-bolt    # one
          maker: Tarn     # two
          name: bolt
          note: new
        """
    )
    assert found.kept == (Origin("shop/x.yaml", 1, 3),)
    stays = "- name: bolt\n  is: hex-bolt # one\n  # two\n  part: A 1\n  maker: Tarn\n"
    assert tidy("shop/x.yaml", stays.encode()) == Tidied(stays.encode(), (Origin("shop/x.yaml", 1, 3),))


def test_comments_above_the_kind_go_above_the_dash() -> None:
    """What stands above the kind key stands above the record when the kind comes first, and below the record's own comment."""
    found = text(
        """
        # the record
        - name: bolt
          # the part
          part: A 1
          is: hex-bolt
        """
    )
    assert found == lines(
        """
        # the record
        # the part
        - part: A 1
          is: hex-bolt
          name: bolt
        """
    )


def test_a_comment_behind_a_dash_keeps_its_line() -> None:
    """A dash with a comment behind it stays alone on its line."""
    found = text("-   # why\n    is: b\n    part: A 1\n-   # of text\n    word\n")
    assert found == "-   # why\n  part: A 1\n  is: b\n\n-   # of text\n  word\n"


def test_comments_below_belong_to_what_they_are_set_in_to() -> None:
    """Below nested things: deeper comments stay with the nested thing, outer ones go with the next key or record."""
    found = text(
        """
        - part: A 1
          contains:
              - is: washer
                # of the washer
              # of the list
          # of the note
          note: new
          # of the bolt
        # of the nut
        - part: B 1
        # the end
        """
    )
    assert found == lines(
        """
        - part: A 1
          contains:
            - is: washer
              # of the washer
            # of the list
          # of the note
          note: new
          # of the bolt

        # of the nut
        - part: B 1
        # the end
        """
    )


def test_paragraphs_stay() -> None:
    """Blank lines inside a record go with the key below them, several become one; the first paragraph keeps its beginning."""
    found = text("- is: b\n\n\n  part: A 1\n  note: new\n\n  name: x\n\n\n\n# section\n\n- part: B 1\n\n\n")
    assert found == "- part: A 1\n\n  is: b\n\n  name: x\n  note: new\n\n# section\n\n- part: B 1\n"


def test_a_comment_keeps_its_column_where_there_is_room() -> None:
    """A column of comments stays a column although quotes make a line longer; a long line pushes its own comment."""
    found = text(
        "- part: A 1     # a\n  is: b         # b\n  features:\n    u: 8.8      # c\n    v: 88888888.8 # d\n"
    )
    assert found == (
        '- part: A 1     # a\n  is: b         # b\n  features:\n    u: "8.8"    # c\n    v: "88888888.8" # d\n'
    )


def test_quotes_are_added_to_text_only() -> None:
    """Text that other readers take for a number, date, yes/no or null gets quotes, keys too; counts, days, periods, yes/no
    and what already has quotes do not. `no` is Norwegian, `y` a letter."""
    found = text(
        """
        - category: bolt
          names: {no: bolt}
          also:
            no: yes
          features:
            y: {kind: length, role: mates, choices: [8.8, 10.9], optional: yes, work: {do: 12:30, minutes: 10}}
          always-new: yes
        - platform: tarn-corva
          built: 1983
          facts: {engine: [1.8, 2.0, 2.0i], built: 1985}
          assemblies: {axle: {sides: [1, 2], places: {hub: {is: hub, quantity: 2, only-if: {chassis: {N: 100}}}}}}
        - supplier: corner
          name: no
          trade: factor
          offers: {number: 0123, price: 2.50 GBP, seen: 2026-12-01, made: 1986, stock: 0, note: '~',
            said: null}
        - part: 2026-01-02
          unheard-of: 8.8
        """
    )
    assert found == lines(
        """
        - category: bolt
          names: {"no": bolt}
          also:
            "no": "yes"
          features:
            "y": {kind: length, choices: ["8.8", "10.9"], role: mates, optional: yes, work: {do: "12:30", minutes: 10}}
          always-new: yes

        - platform: tarn-corva
          built: 1983
          facts: {engine: ["1.8", "2.0", 2.0i], built: "1985"}
          assemblies: {axle: {sides: ["1", "2"], places: {hub: {is: hub, quantity: 2, only-if: {chassis: {"N": "100"}}}}}}

        - supplier: corner
          name: "no"
          trade: factor
          offers: {number: "0123", price: 2.50 GBP, seen: 2026-12-01, made: "1986", stock: 0, note: '~',
            said: "null"}

        - part: "2026-01-02"
          unheard-of: 8.8
        """
    )


def test_texts_over_several_lines() -> None:
    """Block texts keep their lines, folded ones theirs; both move with their key. An indentation figure stays true."""
    found = text(
        """
        -    part: A 1
             note: |  # as told
                 one
                   deeper

                 last
             name: >2-
                 two
                more
             maker: "a

                b"
             is:
               c
        """
    )
    assert found == lines(
        """
        - part: A 1
          maker: "a

            b"
          is: c
          name: >2-
              two
             more
          note: |  # as told
            one
              deeper

            last
        """
    )
    assert yaml.safe_load(found)[0]["note"] == "one\n  deeper\n\nlast\n"


def test_braces_over_several_lines_are_left() -> None:
    """They move with their key, nothing more; on one line keys are put in order, however long the line is."""
    found = text(
        "-   part: A 1\n    contains:\n      - {quantity: 2, # two\n          number: B 1}\n    is: b\n"
    )
    assert found == "- part: A 1\n  is: b\n  contains:\n    - {quantity: 2, # two\n        number: B 1}\n"


def test_byte_order_mark_and_ends_of_line_stay() -> None:
    """A book of Windows stays one; a missing end of the last line is added, and a block text there says the same."""
    assert text(b"\xef\xbb\xbf-  is: b\r\n   part: A 1") == "\ufeff- part: A 1\r\n  is: b\r\n"
    assert text("- part: A 1\n  note: |\n    one") == "- part: A 1\n  note: |-\n    one\n"


def test_what_has_no_records_is_left() -> None:
    """An empty book, one of comments only, and a lone `---` stay byte for byte."""
    for book in ("", "# nothing yet\n\n\n", "---\n"):
        assert tidy("shop/x.yaml", book.encode()) == Tidied(book.encode(), ())
    assert (
        text("%YAML 1.2\n---\n\n# a\n-   part: A 1\n...\n# z\n")
        == "%YAML 1.2\n---\n\n# a\n- part: A 1\n...\n# z\n"
    )
