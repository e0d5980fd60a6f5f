"""The smallest failing book of each fault, what is said of it, and the error page made of both."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from fitlore.books import catalogue_layout, rdf, reading, standards  # noqa: F401  (they register every fault of the room)
from fitlore.books.context import context_text
from fitlore.books.faults import Fault, page, registered, shown
from fitlore.books.layout import SHOP_FILE, builtin_kb, read_layout
from fitlore.books.reading import read_book
from fitlore.books.standards import table_rows
from fitlore.model.diagnostic import Diagnostic

FOLDER = Path(__file__).parent / "faults"
PAGE = Path(reading.__file__).parent / "errors.md"
_TABLES = ("L05", "L06")


def rows() -> tuple[Fault, ...]:
    """Every fault that reading can find."""
    return (*registered("B"), *registered("L"), *registered("V"))


def book_of(code: str) -> Path:
    """The smallest failing book of a fault. Raises LookupError where there is none or more than one."""
    found = [path for path in FOLDER.glob(f"{code}.*") if path.suffix != ".txt"]
    if len(found) != 1:
        raise LookupError(f"{code} has {len(found)} smallest books")
    return found[0]


def diagnostics_of(code: str) -> tuple[Diagnostic, ...]:
    """What reading says of the smallest failing book."""
    path = book_of(code)
    data = path.read_bytes()
    if code.startswith(_TABLES):
        return tuple(table_rows("kb/standards/threads.yaml", data)[1])
    if not code.startswith("L"):
        return read_book(
            f"shop/book{path.suffix}", data, "https://fitlore.example/book/shop/book"
        ).diagnostics
    with TemporaryDirectory() as folder:
        if code != "L04-cannot-be-read":
            (Path(folder) / SHOP_FILE).write_bytes(data)
        return read_layout(Path(folder)).diagnostics


def said_of(code: str) -> str:
    """The golden text of a fault."""
    return "\n".join(map(shown, diagnostics_of(code))) + "\n"


def page_text() -> str:
    """The error page as it must be committed."""
    examples = {
        row.code: (book_of(row.code).read_text("utf-8", errors="replace"), said_of(row.code))
        for row in rows()
    }
    return page(rows(), examples)


def renew() -> None:
    """Writes all golden texts, the page and the context anew; look at the difference before you commit it."""
    (builtin_kb() / "context.jsonld").write_text(context_text(), "utf-8")
    for row in rows():
        (FOLDER / f"{row.code}.txt").write_text(said_of(row.code), "utf-8")
    PAGE.write_text(page_text(), "utf-8")


if __name__ == "__main__":
    renew()
