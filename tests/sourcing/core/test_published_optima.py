"""Published optima of OR-Library's uncapacitated facility location instances, hit exactly.

The files are not kept here. Those who have them say where: `FITLORE_ORLIB=FOLDER` (cap71.txt and so on). Source of files
and optima: J. E. Beasley, "OR-Library: distributing test problems by electronic mail", Journal of the Operational Research
Society 41 (1990) 1069-1072. capa, capb and capc take minutes: `python tests/speed/orlib.py FOLDER capa capb capc`.
"""

from __future__ import annotations

import os
from decimal import Decimal
from pathlib import Path

import pytest

from fitlore.sourcing.audit import audit
from fitlore.sourcing.solve import solve
from tests.speed.orlib import COINS, OPTIMA, job, money, read

SMALL = [name for name in OPTIMA if len(name) > 4]
FOLDER = os.environ.get("FITLORE_ORLIB", "")


@pytest.mark.parametrize("name", SMALL)
def test_a_published_optimum_is_hit(name: str) -> None:
    """Sixteen, twenty-five or fifty sites and fifty customers; equal to the last decimal, proven, and audited."""
    file = Path(FOLDER) / f"{name}.txt"
    if not FOLDER or not file.is_file():
        pytest.skip("OR-Library's files are absent: set FITLORE_ORLIB to the folder that has them")
    problem, size = job(read(file.read_text()))
    found = solve(problem)
    assert found.status == "proven"
    assert found.cost is not None
    assert money(found.cost, size) == OPTIMA[name]
    assert audit(problem, found) == ()


TWO_SITES = "2 3\n 10 4.5\n 10 6.\n 1\n 2. 1.\n 1\n 3.25 1.\n 1\n 1. 5.00001\n"
"""Made up: opening 4.5 and 6; both open 10.5 + 1 + 1 + 1 = 13.5, the first alone 4.5 + 6.25 = 10.75, the second 13.00001."""


def test_the_form_of_the_files_is_read() -> None:
    """Charges and costs in coins of 0.00001; the plan of the worked example is the first site alone."""
    instance = read(TWO_SITES)
    assert instance.charges == (450_000, 600_000)
    assert instance.costs[2] == (100_000, 500_001)
    problem, size = job(instance)
    found = solve(problem)
    assert found.cost is not None
    assert money(found.cost, size) == Decimal("10.75")
    assert {row.supplier for row in found.ways} == {"site 0000"}


def test_figures_share_the_largest_coin() -> None:
    """Without the odd hundred-thousandth every figure is a multiple of 0.25."""
    _, size = job(read(TWO_SITES.replace("5.00001", "5.")))
    assert size == COINS // 4


@pytest.mark.parametrize(
    "spoilt", [TWO_SITES + " 7", TWO_SITES.rsplit(" ", 1)[0], TWO_SITES.replace("3.25", "3.251234")]
)
def test_a_spoilt_file_is_refused(spoilt: str) -> None:
    """A number too many, one too few, one with more decimals than a coin."""
    with pytest.raises(ValueError, match=r"another count|too early|more decimals"):
        read(spoilt)
