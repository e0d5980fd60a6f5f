"""A small shop with a supplier, and the smallest price list for each thing that may be wrong with one."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

from fitlore.model.diagnostic import Diagnostic
from fitlore.model.supply import PriceList, Supplier
from fitlore.upkeep.pricelist import Draft, Written, asked_first, drafted, written
from fitlore.upkeep.pricelist.draft import Wanted
from fitlore.upkeep.pricelist.faults import Unclear
from tests.upkeep.attempt import Attempt
from tests.upkeep.lowbarn import TODAY, graph_at

SUPPLIER: Final = """\
- supplier: castle-street
  name: Castle Street Factors
  trade: factor
  tax: in-the-price
  offers:
    - {number: KT 100, price: 9.00 GBP, days: 1, seen: 2026-11-26}
    - {number: KT 200, price: 12.00 GBP, pack: 2, days: 1, seen: 2026-11-26}
    - {number: KT 300, price: 5.00 GBP, days: 1, seen: 2026-11-26}
    - {number: KT 300, price: 5.50 GBP, days: 1, note: in a box, seen: 2026-11-26}
- supplier: newcomer
  trade: factor
"""
PARTS: Final = """\
- category: hose
  safety: none
  features: {bore: {kind: length, role: mates}}
- issuer: Kestin
  ignores: [leading-zeros]
""" + "".join(
    f"- {{part: {number}, maker: {maker}, is: hose}}\n"
    for number, maker in (
        ("KT 100", "Kestin"), ("KT 200", "Kestin"), ("KT 300", "Kestin"), ("KT 400", "Kestin"), ("KT 0500", "Kestin"),
        ("77 01 22", "Ostra"), ("77 01 22", "Merrow"), ('"401"', "Brede"),
    )
)  # fmt: skip
SHOP: Final = "shop: lowbarn\nshelves:\n  - {shelf: shop, folder: books}\n"


def shop_in(folder: Path, supplier: str = SUPPLIER) -> Path:
    """Writes the shop."""
    (folder / "books").mkdir(exist_ok=True)
    (folder / "books" / "book.yaml").unlink(missing_ok=True)
    (folder / "fitlore.yaml").write_text(SHOP, "utf-8")
    (folder / "books" / "parts.yaml").write_text(PARTS, "utf-8")
    (folder / "books" / "suppliers.yaml").write_text(supplier, "utf-8")
    return folder


def supplier_at(folder: Path, name: str = "castle-street") -> Supplier:
    """A supplier as the books have it now."""
    return next(one for one in graph_at(folder).suppliers() if one.supplier == name)


def draft_of(
    folder: Path,
    data: str | bytes,
    *,
    name: str = "castle-street",
    shown: str = "prices.csv",
    days: int | None = None,
    even_so: bool = False,
    **layout: Any,
) -> Draft:
    """A list against the shop. Raises Unclear."""
    supplier = supplier_at(folder, name)
    asked = PriceList(**{"number_in": "", "price_in": "", **layout})
    wanted = Wanted(asked_first(supplier.price_list, asked), days, even_so)
    text = data.encode() if isinstance(data, str) else data
    return drafted(graph_at(folder), supplier, shown, text, wanted)


def taken(folder: Path, draft: Draft) -> Written:
    """Writes it; a refusal is an error of the test."""
    done = written(draft, folder, TODAY)
    assert isinstance(done, Written), done
    return done


def _said(folder: Path, **more: Any) -> tuple[Diagnostic, ...]:
    data = (folder / "books" / "book.yaml").read_bytes()
    shop_in(folder)
    try:
        return draft_of(folder, data, **more).held
    except Unclear as unclear:
        return (unclear.found,)


def _list(text: str, asked: str = "books import prices.csv from castle-street", **more: Any) -> Attempt:
    return Attempt(text, asked, lambda folder: _said(folder, **more))


def _latin(folder: Path) -> tuple[Diagnostic, ...]:
    shop_in(folder)
    try:
        draft_of(folder, "Réf;Prix\nKT 100;9,20\n".encode("latin-1"))
    except Unclear as unclear:
        return (unclear.found,)
    return ()


def _bracketed(folder: Path) -> tuple[Diagnostic, ...]:
    shop_in(folder, "- {supplier: castle-street, trade: factor}\n")
    done = written(draft_of(folder, "number;price\nKT 100;9.20\n", days=1), folder, TODAY)
    assert isinstance(done, Diagnostic)
    return (done,)


def _of(text: str, ask: Callable[[Path], tuple[Diagnostic, ...]], asked: str) -> Attempt:
    return Attempt(text, asked, ask)


ATTEMPTS: Final[dict[str, Attempt]] = {
    "P01-no-table": _list("KT 100 costs 9.20\n"),
    "P02-encoding-unclear": _of("Réf;Prix\nKT 100;9,20\n", _latin, "import this list, saved in ISO 8859-1"),
    "P03-divider-unclear": _list("number;price,number;price\n1;2,1;2\n", number_in="1", price_in="2"),
    "P04-no-such-column": _list("thing;money\nKT 100;9.20\n"),
    "P05-column-unclear": _list("number;net;gross\nKT 100;9.20;11.04\n"),
    "P06-decimals-unclear": _list("number;price\nKT 100;1,234\n"),
    "P07-no-days": _list(
        "number;price\nKT 100;9.20\n", "books import prices.csv from newcomer", name="newcomer"
    ),
    "P08-tax-differs": _list("number;net price\nKT 100;9.20\n"),
    "P09-book-of-another-form": _of(
        "number;price\nKT 100;9.20\n", _bracketed, "import this list for a supplier written in braces"
    ),
    "P20-no-price": _list("number;price\nKT 100;\n"),
    "P21-price-unread": _list("number;price\nKT 100;on request\nKT 400;9.20\n"),
    "P22-nonsense-price": _list("number;price\nKT 100;920.00\n"),
    "P23-given-twice": _list("number;price\nKT 100;9.20\nKT 100;9.40\n"),
    "P24-several-parts": _list("number;price\n77 01 22;9.20\n"),
    "P25-several-offers": _list("number;price\nKT 300;5.20\n"),
    "P26-short-number": _list("number;price\n401;9.20\n"),
    "P27-unread-count": _list("number;price;pack\nKT 100;9.20;a few\n"),
    "P28-torn-line": _list("number;name;price\nKT 100;hose;9.20\nKT 400;hose\n"),
    "P29-pack-unsaid": _list("number;price\nKT 200;12.50\n"),
}
