"""What can be wrong with a price list; each kind of fault has a code, and its smallest example in the tests."""

from __future__ import annotations

from typing import Final, NamedTuple

from fitlore.books.faults import Fault, register
from fitlore.model.diagnostic import Diagnostic, Severity


class Unclear(Exception):
    """The list can be read in several ways and nothing is guessed: what is to be said, by which option, and the choices."""

    def __init__(self, found: Diagnostic, option: str = "", choices: tuple[str, ...] = ()) -> None:
        super().__init__(found.message)
        self.found = found
        self.option = option
        self.choices = choices


class Row(NamedTuple):
    """The pieces of a fault that concern the whole list."""

    code: str
    title: str
    message: str
    expected: str
    remedy: str


_OF_THE_LIST: Final = (
    Row(
        "P01-no-table",
        "Not a table",
        "{shown} cannot be read as a price list: {why}",
        "a table in text (columns divided by comma, semicolon, tab or bar) or a workbook (XLSX)",
        "save it as CSV or XLSX from the program that opens it",
    ),
    Row(
        "P02-encoding-unclear",
        "Several encodings are possible",
        "{shown} is not UTF-8, and a cell that counts reads differently in other encodings: {readings}",
        "one encoding, said",
        "name the one in which the words are right: `--encoding NAME`",
    ),
    Row(
        "P03-divider-unclear",
        "Several dividers are possible",
        "the columns of {shown} may be divided by {choices}",
        "one divider, said",
        "name it: `--divided-by NAME`",
    ),
    Row(
        "P04-no-such-column",
        "A column is not there",
        "no row near the top of {shown} has {wanted}; it has {headings}",
        "a heading for the number and one for the price, or columns by their number from 1",
        "name the columns: `--number-in HEADING --price-in HEADING`",
    ),
    Row(
        "P05-column-unclear",
        "Several columns are possible",
        "the {what} may stand in {choices}",
        "one column, said",
        "name it: `{option} HEADING`",
    ),
    Row(
        "P06-decimals-unclear",
        "Points and commas",
        "{why}",
        "one sign before the decimals in the whole list",
        "say which it is: `--decimals-after point` or `--decimals-after comma`",
    ),
    Row(
        "P07-no-days",
        "How long delivery takes is not known",
        "{supplier} has no other offers that say how many days a thing takes",
        "the days until a thing of this list is here (0: it can be fetched today)",
        "say it once, it is kept: `--days NUMBER`",
    ),
    Row(
        "P08-tax-differs",
        "The list's prices and the supplier's differ in tax",
        "the list says {heading!r}, and the prices of {supplier} are kept {kept}",
        "prices with or without value added tax, as the supplier's record says in `tax:`",
        "take the other column, or put `tax:` of {supplier} right",
    ),
    Row(
        "P09-book-of-another-form",
        "The supplier's book cannot be changed by itself",
        "{book} was left as it is: {why}",
        "offers as a list under the supplier, one item each",
        "put the supplier's offers into that form by hand, then ask again",
    ),
)

_OF_A_LINE: Final = (
    Row(
        "P20-no-price",
        "A line without a price",
        "there is no price for {number}",
        "an amount",
        "nothing has to be done; ask the supplier",
    ),
    Row(
        "P21-price-unread",
        "A price that cannot be read",
        "{text!r} is no price ({why})",
        "an amount with at most the decimals of its currency, as 12.50",
        "put it right in the list, or leave the line out",
    ),
    Row(
        "P22-nonsense-price",
        "A price that can hardly be",
        "{number} for {price}: {why}",
        "a price near the ones known",
        "look at the list; if it is right, `--even-so` takes it",
    ),
    Row(
        "P23-given-twice",
        "One number with several prices",
        "{number} stands in lines {lines} with different prices: {prices}",
        "one price for one number and pack",
        "ask the supplier which holds; none of them was taken",
    ),
    Row(
        "P24-several-parts",
        "A number that several parts have",
        "{number} may be {choices}",
        "a column with the maker, or the maker before the number",
        "name the maker's column: `--maker-in HEADING`",
    ),
    Row(
        "P25-several-offers",
        "Several offers of one part",
        "the supplier's book has {count} offers of {number} that this line may mean",
        "one offer of a new one for each pack",
        "change the price by hand in {book}, lines {lines}",
    ),
    Row(
        "P26-short-number",
        "A number too short to say whose it is",
        "{number} is the number of {part}, but so short that another maker may have it too",
        "the maker named in the list",
        "name the maker's column: `--maker-in HEADING`",
    ),
    Row(
        "P27-unread-count",
        "A count that cannot be read",
        "{text!r} in the column of {what} is no count",
        "a whole number from {least}",
        "put it right in the list, or leave the line out",
    ),
    Row(
        "P28-torn-line",
        "A line with other columns",
        "the line has {has} columns and the heading {wide}; which of them is its price is not sure",
        "as many columns as the heading has",
        "put it right in the list; a line may be divided by a sign that stands in a text without quotes",
    ),
    Row(
        "P29-pack-unsaid",
        "A price that may be for one or for a pack",
        "{number} is in the book in packs of {packs}, and the list does not say how many {price} is for",
        "a column with the size of the pack",
        "name it: `--pack-in HEADING`, or change the price by hand in {book}, line {line}",
    ),
)

register(Fault(row.code, Severity.ERROR, *row[1:]) for row in _OF_THE_LIST)
register(Fault(row.code, Severity.WARNING, *row[1:]) for row in _OF_A_LINE)
