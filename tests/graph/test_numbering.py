"""Parts looked up by a number that their issuer's rules make the same, though nobody wrote it so."""

from __future__ import annotations

import pytest

from fitlore.books.reading import read_book
from fitlore.graph.lookup import find
from fitlore.graph.open import Graph
from fitlore.model.job import Shop
from fitlore.model.record import Name

BOOK = """
- issuer: Ostra
  looks-like: OS nnnn nnn
  ignores: stars
- issuer: Velm
  ignores: leading-zeros
  side-digit: {odd: right, even: left}
- issuer: Kestin
  looks-like: KT nn nnnn
  suffixes:
    - {signs: [GRY, BLU], means: colour, only-for: door-trim}
    - {signs: a, means: revision}
- {part: OS 4021 905, maker: Ostra, is: fan-switch}
- {part: VP 0071 441, maker: Velm, is: rear-lamp}
- {part: VP 0071 442, maker: Velm, is: rear-lamp}
- {part: VP 701 005, maker: Velm, is: rear-lamp}
- {part: KT 61 2040 GRY, maker: Kestin, is: door-trim}
- {part: KT 61 2040 BLU, maker: Kestin, is: door-trim}
- {part: KT 53 0190, maker: Kestin, is: wheel-cylinder}
- {part: KT 53 0190 B, maker: Kestin, is: wheel-cylinder}
- {part: 0071 441, maker: Merrow, is: wheel-nut}
- {part: "0815", maker: Tarn, is: wheel-nut}
- {part: 4711 X, maker: Merrow, issued-by: Velm, is: wheel-nut}
"""


@pytest.fixture(scope="module")
def graph() -> Graph:
    """The parts above."""
    reading = read_book("shop/x.yaml", BOOK.encode(), "test:x")
    assert not [one for one in reading.diagnostics if one.severity.value == "error"]
    return Graph.from_records(reading.records, shop=Shop(shop=Name("lowbarn"), country="GB"))


@pytest.mark.parametrize(
    ("typed", "names", "how"),
    [
        ("OS*4021*905", {"OS 4021 905"}, "numbering"),
        ("Ostra OS 4021*905", {"OS 4021 905"}, "numbering"),
        ("os-4021-905", {"OS 4021 905"}, "number"),
        ("VP 71 441", {"VP 0071 441"}, "numbering"),
        ("Velm VP 71441", {"VP 0071 441"}, "numbering"),
        ("VP 71 442", {"VP 0071 442"}, "numbering"),
        ("KT 61 2040", {"KT 61 2040 GRY", "KT 61 2040 BLU"}, "numbering"),
        ("KT 61 2040 GRY", {"KT 61 2040 GRY"}, "number"),
        ("KT 53 0190", {"KT 53 0190"}, "number"),
        ("KT 53 0190 B", {"KT 53 0190 B"}, "number"),
        ("Velm 4711 X", {"4711 X"}, "number"),
        ("Velm 04711 X", {"4711 X"}, "numbering"),
    ],
)
def test_what_an_issuer_does_not_count_is_not_asked_for(
    graph: Graph, typed: str, names: set[str], how: str
) -> None:
    """Its own parts are found; what was typed in full is not answered with its neighbours."""
    found = find(graph, typed, kinds=frozenset({"part"})).exact
    assert {match.name for match in found} == names
    assert {match.how for match in found} == {how}


@pytest.mark.parametrize(
    "typed",
    [
        "815",  # Tarn ignores no zeros
        "71 441",  # neither Merrow's 0071 441 (its zeros count) nor Velm's (its letters do)
        "VP 71 005",  # a zero in the middle counts
        "VP 71 05",
        "VP 71 443",  # a side digit
        "KT 53 0190 C",  # another revision
        "KT 53 0190 GRY",  # colours are said of trims only
        "KT 61 2040 RED",  # a colour nobody named
        "TC*0815",
        "OS 421 905",
    ],
)
def test_what_counts_is_not_overlooked(graph: Graph, typed: str) -> None:
    """Leading zeros, side digits, class letters and revisions tell parts apart unless the issuer of the very part says not."""
    assert [match.name for match in find(graph, typed, kinds=frozenset({"part"})).exact] == []
