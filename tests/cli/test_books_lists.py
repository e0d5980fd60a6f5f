"""`books import` and `books export` from the command line, as one who minds the books uses them."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import networkx
import pytest
import rdflib
from openpyxl import load_workbook

from fitlore.cli.when import this_day
from fitlore.graph.derive import citable
from fitlore.model.part import CrossFit, Part
from fitlore.model.placed import OfferFrom
from tests.cli.shapes import Keys, differences, read_page
from tests.demo.shop import REPO, Shop
from tests.rdf.test_export import demo  # noqa: F401  (a fixture)

LIST = "Art.-Nr.;Bezeichnung;Preis\nKT 48 0090;Kugelkopf;9,20\nKT 48 0316;Kopf;14,50\nXX 9;nichts;1,00\n"
PAGES = REPO / "src" / "fitlore" / "cli"


def with_list(shop: Shop, text: str = LIST, name: str = "prices.csv") -> Shop:
    """A list beside the shop's file."""
    (shop.folder / name).write_text(text, "utf-8")
    return shop


def books(folder: Path) -> dict[str, bytes]:
    """The books as they are."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted((folder / "books").rglob("*.yaml"))
    }


def test_a_list_is_looked_at_written_and_taken_back(shop: Shop) -> None:
    """Without --write nothing changes; with it the price is another and the former one kept; `undo` gives all back."""
    before = books(with_list(shop).folder)
    looked = shop.call("books", "import", "prices.csv", "from", "castle", "street")
    assert looked.code == 0
    assert "KT 48 0090  8.90 GBP  -> 9.20 GBP  line 2" in looked.out
    assert "no part of the books: XX 9 (line 4)" in looked.out
    assert books(shop.folder) == before
    done = shop.call("books", "import", "prices.csv", "--from", "castle-street", "--write")
    assert (done.code, done.err) == (0, "")
    book = "books/suppliers/castle-street.yaml"
    assert "price: 9.20 GBP" in (shop.folder / book).read_text("utf-8")
    assert "earlier: [{price: 8.90 GBP, seen: 2026-12-02}]" in (shop.folder / book).read_text("utf-8")
    assert shop.call("check").code == 0
    offers = csv.DictReader(io.StringIO(shop.call("books", "export", "csv", "of", "offers").out))
    row = next(one for one in offers if (one["supplier"], one["what"]) == ("castle-street", "KT 48 0090"))
    assert (row["price"], row["seen"]) == ("9.20", this_day().isoformat())
    assert shop.call("undo").code == 0
    assert books(shop.folder) == before


def test_a_list_from_a_pipe(shop: Shop) -> None:
    """`-` is standard input; held lines make the exit code a no, and each says its line."""
    said = shop.call("books", "import", "-", "from", "castle-street", stdin=LIST + "KT 56 0200;x;189,00\n")
    assert said.code == 1
    assert "standard input:5:14: warning: KT 56 0200 for 189.00 GBP: it was 18.90 GBP before" in said.out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("prices.csv",), "whose list"),
        (("prices.csv", "from", "nobody"), "no one supplier"),
        (("none.csv", "from", "castle-street"), "none.csv"),
        (("prices.csv", "from", "castle-street", "--currency", "GBB"), "ISO 4217"),
        (("prices.csv", "from", "castle-street", "--price-in", "Money"), "P04-no-such-column"),
    ],
)
def test_what_cannot_be_done_is_said(shop: Shop, words: tuple[str, ...], says: str) -> None:
    """Nothing on standard output, the reason on the other, exit 2."""
    said = with_list(shop).call("books", "import", *words)
    assert (said.code, said.out) == (2, "")
    assert says in said.err


def test_the_json_of_a_list_is_that_of_its_page(shop: Shop) -> None:
    """Written and only looked at."""
    page = read_page((PAGES / "books_import.md").read_text("utf-8"))
    (shape,) = page.answers
    assert isinstance(shape, Keys)
    text = LIST + "KT 56 0200;x;189,00\nKT 21 0440;Kühler;85,00\nKT 54 1120;Buchse;4,00\n"
    said = with_list(shop, text).call(
        "books", "import", "prices.csv", "from", "castle-street", "--write", "--json"
    )
    assert (said.code, said.err) == (1, "")
    assert said.json["written"]["book"] == "shop/suppliers/castle-street.yaml"
    assert differences(page, shape, said.json | {"refused": said.json["held"][0]}) == []


def test_rdf_is_what_rdflib_reads(asked: Shop) -> None:
    """Turtle and N-Triples are one graph to rdflib."""
    turtle = rdflib.Graph().parse(data=asked.call("books", "export", "turtle").out, format="turtle")
    lines = rdflib.Graph().parse(data=asked.call("books", "export", "n-triples").out, format="nt")
    assert len(turtle) == len(lines) > 5000


def test_csv_is_what_the_standard_library_reads(asked: Shop, demo: list[object]) -> None:  # noqa: F811
    """Every offer of the books is a row, with its price, book and line."""
    said = asked.call("books", "export", "csv", "of", "offers")
    rows = list(csv.DictReader(io.StringIO(said.out)))
    wanted = [one for book in demo for one in citable(book.records) if isinstance(one, OfferFrom)]  # type: ignore[attr-defined]
    assert [row["stands at"] for row in rows] == [str(one.origin) for one in wanted]
    assert [row["price"] for row in rows] == [
        str(one.offer.price.amount) if one.offer.price else "" for one in wanted
    ]


def test_a_workbook_is_what_openpyxl_reads(asked: Shop, tmp_path: Path) -> None:
    """A sheet for each table; money is a figure."""
    target = tmp_path / "shop.xlsx"
    assert asked.call("books", "export", "xlsx", "to", str(target)).code == 0
    book = load_workbook(target, read_only=True)
    assert book.sheetnames == ["parts", "places", "cross-fits", "offers"]
    rows = list(book["offers"].iter_rows(values_only=True))
    assert rows[0][:5] == ("supplier", "what it names", "what", "state", "price")
    assert all(isinstance(row[4], int | float | None) for row in rows[1:])
    assert asked.call("books", "export", "xlsx", "to", str(target)).code == 2
    assert asked.call("books", "export", "xlsx", "to", str(target), "--over").code == 0


def test_graphml_is_what_networkx_reads(asked: Shop, demo: list[object]) -> None:  # noqa: F811
    """Every part and every claim for a part is there; a claim both ways is two edges."""
    net = networkx.read_graphml(
        io.BytesIO(asked.call("books", "export", "graphml").out.encode()), force_multigraph=True
    )
    records = [one for book in demo for one in book.records]  # type: ignore[attr-defined]
    parts = [one for one in records if isinstance(one, Part)]
    assert sum(data["kind"] == "part" for _, data in net.nodes(data=True)) >= len(parts)
    claims = {str(one.crossfit) for one in records if isinstance(one, CrossFit)}
    assert {data["claim"] for _, _, data in net.edges(data=True) if data.get("claim")} == claims


def test_books_with_errors_are_not_exported(shop: Shop) -> None:
    """What is wrong in them would be missing without a word."""
    (shop.folder / "books" / "bad.yaml").write_text("- part: X 1\n  iz: hose\n", "utf-8")
    said = shop.call("books", "export", "csv", "of", "parts")
    assert (said.code, said.out) == (2, "")
    assert "bad.yaml:2" in said.err


@pytest.mark.parametrize("words", [(), ("parchment",), ("csv",), ("csv", "of", "cars")])
def test_a_form_that_is_not_there(asked: Shop, words: tuple[str, ...]) -> None:
    """The forms and tables there are, are named."""
    said = asked.call("books", "export", *words)
    assert (said.code, said.out) == (2, "")
    assert "there are" in said.err


def test_orders_are_letters_with_the_sums_of_the_plan(asked: Shop) -> None:
    """One for each supplier of the plan but the shop's own stores; goods, carriage and surcharges as `plan --json` has them."""
    text = asked.call("books", "export", "orders", "for", "green-estate").out
    letters = text.split("\n----\n")
    orders = [
        one for one in asked.call("plan", "--json").json["orders"] if not one["supplier"].startswith("own ")
    ]
    assert len(letters) == len(orders) >= 6
    for letter, order in zip(letters, orders, strict=True):
        assert f"goods {order['goods']}" in letter
        for line in order["lines"]:
            assert f"{line['packs']} x  " in letter
            assert line["price"] in letter
    assert "own stores" not in text
