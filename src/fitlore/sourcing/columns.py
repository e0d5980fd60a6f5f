"""What a model of a problem consists of: integer columns, each with its line of the sums, and rows over them."""

from __future__ import annotations

import msgspec

from fitlore.sourcing.lines import Line
from fitlore.sourcing.reduce import Owner, Source

Key = tuple[str, ...]
"""A column's name: its letter, then the ids it is about."""


class Column(msgspec.Struct, frozen=True):
    """One integer unknown between `lower` and `upper`; `days` is what one unit of it adds to the waiting,
    `sellers` what it adds to the number of suppliers.
    """

    key: Key
    upper: int
    line: Line = Line()
    lower: int = 0
    days: int = 0
    sellers: int = 0


class Row(msgspec.Struct, frozen=True):
    """``low ≤ Σ coefficient × column ≤ high`` (None: unbounded), over (column number, coefficient)."""

    low: int | None
    high: int | None
    entries: tuple[tuple[int, int], ...]


class Unit(msgspec.Struct, frozen=True):
    """Which want, with which item from which offer, a flow column is about."""

    owner: Owner
    need: str
    want: int
    amount: int
    source: Source
    column: int


class Model(msgspec.Struct):
    """The columns and rows of one problem, and where each id's column is."""

    columns: list[Column]
    rows: list[Row]
    index: dict[Key, int]
    units: list[Unit]


def weights(model: Model, aim: str) -> list[int]:
    """What one unit of each column adds to an aim: cost, cash, hands, worst cash, worst hands, suppliers, waiting."""
    match aim:
        case "cost":
            return [column.line.cost for column in model.columns]
        case "cash":
            return [column.line.cash_now for column in model.columns]
        case "hands":
            return [column.line.hands for column in model.columns]
        case "worst cash":
            return [column.line.cash_now + column.line.worst_cash for column in model.columns]
        case "worst hands":
            return [column.line.hands + column.line.worst_hands for column in model.columns]
        case "suppliers":
            return [column.sellers for column in model.columns]
        case "waiting":
            return [column.days for column in model.columns]
    raise ValueError(aim)
