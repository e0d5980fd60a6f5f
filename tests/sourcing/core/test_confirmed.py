"""The green estate's plans confirmed without any solver, by branching over its lines."""

from __future__ import annotations

import msgspec
import pytest

from tests.sourcing.core.by_lines import cheapest
from tests.sourcing.core.green_estate import GREEN_ESTATE, suppliers, with_limits


def test_no_plan_is_cheaper_than_538_30() -> None:
    """The right plan's cost is the least of all."""
    assert cheapest(GREEN_ESTATE) == 53830


@pytest.mark.parametrize(
    ("limits", "cost"),
    [
        ({"minutes": 1020}, 54230),
        ({"minutes": 1260}, 53190),
        ({"cash": 48000}, 54290),
        ({"without_suppliers": ("yard",)}, 56708),
        ({"minutes": 500}, None),
    ],
)
def test_nor_under_other_limits(limits: dict[str, object], cost: int | None) -> None:
    """Hours, cash and suppliers changed; the last is impossible."""
    assert cheapest(with_limits(**limits)) == cost


def test_nor_when_the_free_limit_excludes_75() -> None:
    """539.10, with something bought to fill the basket up."""
    job = msgspec.structs.replace(GREEN_ESTATE, suppliers=suppliers(factor_free_from=7501))
    assert cheapest(job) == 53910
