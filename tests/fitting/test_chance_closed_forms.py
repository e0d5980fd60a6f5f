"""The chance of a network against closed forms of textbook networks and against worked figures.

The forms of series, parallel, r-out-of-n and bridge structures are in Barlow and Proschan, Statistical Theory of Reliability
and Life Testing (1975), chapters 1 and 2, and in IEC 61078 (Reliability block diagrams); the recursions of complete graphs
in Gilbert, Random Graphs, Annals of Mathematical Statistics 30 (1959). All were written down from memory of these sources.
Where a docstring says "computed", the form is derived in it by factoring.
"""

from __future__ import annotations

from functools import cache
from itertools import combinations
from math import comb

import pytest

from fitlore.fitting.chance import Arc, Chance, Network, chance
from tests.fitting.chance_networks import arc, network

CHANCES = (0.05, 0.3, 0.5, 0.75, 0.9, 0.97)


def exact(made: Network) -> float:
    """The chance, which has to be an exact one."""
    found = chance(made)
    assert found.exact
    assert found.low == found.high
    return found.low


@pytest.mark.parametrize("p", CHANCES)
@pytest.mark.parametrize("n", [1, 2, 5, 20])
def test_a_chain(p: float, n: int) -> None:
    """Series structure (Barlow and Proschan): every link must hold, p to the n."""
    names = ["a", *(f"n{at}" for at in range(1, n)), "b"]
    rows = [arc(names[at], names[at + 1], f"e{at}", both=False) for at in range(n)]
    assert exact(network(rows, p)) == pytest.approx(p**n, rel=1e-12)


@pytest.mark.parametrize("p", CHANCES)
@pytest.mark.parametrize("n", [1, 2, 5, 20])
def test_several_words_for_one_claim(p: float, n: int) -> None:
    """Parallel structure (Barlow and Proschan): any is enough, one minus (1 - p) to the n."""
    rows = [arc("a", "b", f"e{at}") for at in range(n)]
    assert exact(network(rows, p)) == pytest.approx(1 - (1 - p) ** n, rel=1e-12)


@pytest.mark.parametrize("p", CHANCES)
def test_the_bridge(p: float) -> None:
    """Five arcs, two-terminal: 2p^2 + 2p^3 - 5p^4 + 2p^5 (Barlow and Proschan, the bridge structure)."""
    rows = [
        arc("a", "x", "1"),
        arc("a", "y", "2"),
        arc("x", "y", "3"),
        arc("x", "b", "4"),
        arc("y", "b", "5"),
    ]
    assert exact(network(rows, p)) == pytest.approx(2 * p**2 + 2 * p**3 - 5 * p**4 + 2 * p**5, rel=1e-12)


@pytest.mark.parametrize("p", CHANCES)
@pytest.mark.parametrize(("r", "n"), [(2, 3), (2, 4), (3, 5), (4, 6)])
def test_r_out_of_n_by_shared_sources(p: float, r: int, n: int) -> None:
    """r-out-of-n structure (Barlow and Proschan): each chain is a set of r sources, so that all chains share them."""
    rows: list[Arc] = []
    for number, some in enumerate(combinations(range(n), r)):
        names = ["a", *(f"m{number}.{at}" for at in range(1, r)), "b"]
        rows += [arc(names[at], names[at + 1], f"s{event}", both=False) for at, event in enumerate(some)]
    wanted = sum(comb(n, k) * p**k * (1 - p) ** (n - k) for k in range(r, n + 1))
    assert exact(network(rows, p)) == pytest.approx(wanted, rel=1e-12)


@pytest.mark.parametrize("p", CHANCES)
@pytest.mark.parametrize("n", range(2, 8))
def test_every_part_for_every_other(p: float, n: int) -> None:
    """The two-terminal chance of a complete graph (Gilbert 1959): by the chance that all of k nodes hang together."""
    nodes = ["a", "b", *(f"n{at}" for at in range(n - 2))]
    rows = [arc(one, other, f"{one}-{other}") for one, other in combinations(nodes, 2)]
    wanted = sum(comb(n - 2, k - 2) * _connected(k, p) * (1 - p) ** (k * (n - k)) for k in range(2, n + 1))
    assert exact(network(rows, p)) == pytest.approx(wanted, rel=1e-11)


@cache
def _connected(n: int, p: float) -> float:
    """Gilbert's recursion over the size of the piece that the first node is in."""
    return 1 - sum(comb(n - 1, k - 1) * _connected(k, p) * (1 - p) ** (k * (n - k)) for k in range(1, n))


@pytest.mark.parametrize("p", CHANCES)
@pytest.mark.parametrize("n", [1, 2, 7])
def test_several_chains_of_two(p: float, n: int) -> None:
    """Parallel of series (IEC 61078): one minus (1 - p^2) to the n."""
    rows = [arc(end, f"m{at}", f"{end}{at}") for at in range(n) for end in "ab"]
    assert exact(network(rows, p)) == pytest.approx(1 - (1 - p**2) ** n, rel=1e-12)


@pytest.mark.parametrize("p", CHANCES)
@pytest.mark.parametrize("n", [2, 3, 6])
def test_several_words_on_each_of_two_links(p: float, n: int) -> None:
    """Series of parallel (IEC 61078): (1 - (1 - p)^n) squared."""
    rows = [arc(*ends, f"{ends}{at}", both=False) for at in range(n) for ends in (("a", "m"), ("m", "b"))]
    assert exact(network(rows, p)) == pytest.approx((1 - (1 - p) ** n) ** 2, rel=1e-12)


@pytest.mark.parametrize("p", CHANCES)
@pytest.mark.parametrize("n", [3, 5, 9])
def test_links_that_leap_over_one_part(p: float, n: int) -> None:
    """Consecutive-2-out-of-n:F (Chiang and Niu, IEEE Trans. Reliability 30 (1981)): fails where two in a row are out.

    sum over j of C(n - j + 1, j) (1 - p)^j p^(n - j). Each part in the row holds or not; arcs lead to the next and the next
    but one.
    """
    rows = [arc(f"{at}-in", f"{at}-out", f"e{at}", both=False) for at in range(1, n + 1)]
    for at in range(n + 1):
        for step in (1, 2):
            if at + step <= n + 1:
                tail = "a" if at == 0 else f"{at}-out"
                rows.append(arc(tail, "b" if at + step == n + 1 else f"{at + step}-in", both=False))
    wanted = sum(comb(n - j + 1, j) * (1 - p) ** j * p ** (n - j) for j in range((n + 1) // 2 + 1))
    assert exact(network(rows, p)) == pytest.approx(wanted, rel=1e-12)


@pytest.mark.parametrize("p", CHANCES)
@pytest.mark.parametrize("rungs", [1, 2, 3, 5, 10, 21])
def test_ladder(p: float, rungs: int) -> None:
    """From one corner to the opposite one. Computed: rung by rung over what the start reaches of the two ends.

    Both ends are reached (u), only the upper one (v), only the lower one (w) or they only hang together, which is never so
    without the start. From both: each rail holds with p, then a rung mends one that failed. From one: its rail must hold.
    """
    rows = []
    for at in range(rungs):
        rows.append(arc(f"u{at}", f"v{at}", f"rung{at}"))
        if at:
            rows += [arc(f"{end}{at - 1}", f"{end}{at}", f"{end}{at}") for end in "uv"]
    q = 1 - p
    both, upper, lower = p, q, 0.0
    for _ in range(rungs - 1):
        both, upper, lower = (
            both * (p * p + 2 * p * q * p) + (upper + lower) * p * p,
            both * p * q * q + upper * p * q,
            both * p * q * q + lower * p * q,
        )
    made = network(rows, p, "u0", f"v{rungs - 1}")
    assert exact(made) == pytest.approx(both + lower, rel=1e-11)


def bridge(extra: dict[str, str], *, both: bool = True) -> Network:
    """The bridge with chances of its own; `extra` names a source that an arc needs besides."""
    chances = {"ax": 0.9, "ay": 0.8, "xy": 0.7, "xb": 0.85, "yb": 0.75, "s": 0.8}
    rows = [
        arc(*name, name, *([extra[name]] if name in extra else []), both=both)
        for name in ("ax", "ay", "xy", "xb", "yb")
    ]
    return network(rows, chances)


@pytest.mark.parametrize(
    ("made", "wanted"),
    [
        (bridge({}), 0.932075),
        (bridge({}, both=False), 0.920175),
        (bridge({"ax": "s", "yb": "s"}), 0.840860),
        (bridge({"ax": "s", "xb": "s"}), 0.865660),
        (bridge(dict.fromkeys(("ax", "ay", "xy", "xb", "yb"), "s")), 0.745660),
    ],
)
def test_the_bridge_with_a_source_behind_some_of_it(made: Network, wanted: float) -> None:
    """Computed by factoring on the source: s R(with it) + (1 - s) R(without the arcs it stands behind)."""
    assert exact(made) == pytest.approx(wanted, abs=5e-7)


def test_two_chains_that_one_letter_stands_behind() -> None:
    """Computed: 0.8 (1 - 0.05^2) = 0.798, where chains taken for independent would give 0.9424."""
    rows = [arc("a", "b", "one", "letter"), arc("a", "b", "two", "letter")]
    assert exact(network(rows, {"one": 0.95, "two": 0.95, "letter": 0.8})) == pytest.approx(0.798, rel=1e-12)


@pytest.mark.parametrize(
    ("made", "wanted"),
    [
        (network([], 0.5), 0.0),
        (network([arc("b", "a", "e", both=False)], 0.5), 0.0),
        (network([arc("a", "b")], 0.5), 1.0),
        (network([arc("a", "b", "e")], 0.0), 0.0),
        (network([arc("a", "b", "e")], 0.5, "a", "a"), 1.0),
        (network([arc("x", "y", "e"), arc("a", "b", "f")], {"e": 0.9, "f": 0.25}), 0.25),
    ],
    ids=[
        "nothing said",
        "the wrong way round",
        "certain",
        "impossible",
        "the part itself",
        "something beside it",
    ],
)
def test_the_smallest_networks(made: Network, wanted: float) -> None:
    """By hand."""
    assert chance(made) == Chance(wanted, wanted, True)


def test_what_is_no_chance_is_refused() -> None:
    """An event of unknown chance, and one beyond certainty."""
    with pytest.raises(KeyError):
        chance(network([arc("a", "b", "e")], {}))
    with pytest.raises(ValueError, match="from 0 to 1"):
        chance(network([arc("a", "b", "e")], 1.5))
