"""The chance of random networks with shared sources: against enumeration, against ProbLog, and by its laws."""

from __future__ import annotations

import random
import sys
from collections import Counter

import pytest

from fitlore.fitting.chance import Arc, Network, chance
from fitlore.fitting.chance.bounds import at_least, at_most
from fitlore.fitting.chance.reduce import reduced
from tests.fitting.chance_networks import arc, enumerated, network, random_network, shares_a_source

SEEDS = range(10)


@pytest.mark.parametrize("seed", SEEDS)
def test_as_enumeration_of_everything_that_may_be(seed: int) -> None:
    """250 networks a seed, 2,500 in all: exact to eleven digits, and inside the bounds with few cases side by side."""
    rng, shared = random.Random(f"enumerated {seed}"), 0
    for _ in range(250):
        made = random_network(rng)
        shared += shares_a_source(made)
        wanted, found = enumerated(made), chance(made)
        assert found.exact
        assert found.low == pytest.approx(wanted, abs=1e-11), made
        for cases in (1, 3):
            low, high, exact = chance(made, cases)
            assert low - 1e-11 <= wanted <= high + 1e-11, made
            assert not exact or low == high == found.low
        small = reduced(made)
        assert at_least(small, 4) - 1e-11 <= wanted <= at_most(small) + 1e-11, made
    assert shared > 100


@pytest.mark.parametrize("seed", SEEDS)
def test_as_problog_says(seed: int) -> None:
    """25 networks a seed, 250 in all, larger than can be enumerated: the general-purpose ProbLog agrees to nine digits."""
    rng, shared = random.Random(f"problog {seed}"), 0
    for _ in range(25):
        made = random_network(rng, events=14, arcs=14)
        shared += shares_a_source(made)
        assert chance(made).low == pytest.approx(by_problog(made), abs=1e-9), made
    assert shared >= 10


def by_problog(made: Network) -> float:
    """The same as a probabilistic logic program: reachability over arcs that rest on independent facts."""
    names = {event: f"e{at}" for at, event in enumerate(sorted(made.events))}
    lines = [f"{made.events[event]:.17f}::{name}." for event, name in names.items()]
    for one in made.arcs:
        body = ", ".join(names[event] for event in sorted(one.events)) or "true"
        lines.append(f"arc({one.tail},{one.head}) :- {body}.")
        if one.both:
            lines.append(f"arc({one.head},{one.tail}) :- {body}.")
    lines.append("arc(nowhere, nowhere).")
    lines += ["path(X,X).", "path(X,Y) :- arc(X,Z), path(Z,Y)."]
    lines.append(f"query(path({made.start},{made.goal})).")
    limit = sys.getrecursionlimit()
    try:
        # Importing ProbLog lets the whole process recurse ten times as deep: other tests count on the limit.
        from problog import get_evaluatable
        from problog.program import PrologString

        found = get_evaluatable().create_from(PrologString("\n".join(lines))).evaluate()
    finally:
        sys.setrecursionlimit(limit)
    return float(sum(found.values()))


def test_one_more_word_for_it_never_lowers_the_chance() -> None:
    """500 networks: an arc more, and an event likelier, each to the same bits or more."""
    rng = random.Random("more")
    for _ in range(500):
        made = random_network(rng)
        before = chance(made).low
        tail, head = rng.sample("abcdef", 2)
        more = made._replace(arcs=(*made.arcs, arc(tail, head, rng.choice(sorted(made.events)))))
        assert chance(more).low >= before - 1e-12
        event = rng.choice(sorted(made.events))
        likelier = made._replace(events={**made.events, event: (made.events[event] + 1) / 2})
        assert chance(likelier).low >= before - 1e-12


def test_one_word_less_never_raises_it() -> None:
    """What evidence against does: the claim it speaks against is left out. 500 networks."""
    rng = random.Random("less")
    for _ in range(500):
        made = random_network(rng)
        gone = rng.randrange(len(made.arcs))
        fewer = made._replace(arcs=(*made.arcs[:gone], *made.arcs[gone + 1 :]))
        assert chance(fewer).low <= chance(made).low + 1e-12


def test_the_order_of_claims_changes_not_a_bit() -> None:
    """500 networks shuffled, told twice, or with the ends of arcs that go both ways exchanged; bounds too."""
    rng = random.Random("order")
    for _ in range(500):
        made = random_network(rng)
        rows = list(made.arcs)
        rng.shuffle(rows)
        again = made._replace(arcs=(*rows, *rows[:2]))
        assert chance(again) == chance(made)
        assert chance(again, 2) == chance(made, 2)
        turned = [a._replace(tail=a.head, head=a.tail) if a.both else a for a in made.arcs]
        assert chance(made._replace(arcs=tuple(turned))).low == pytest.approx(chance(made).low, abs=1e-12)


def split(made: Network) -> Network:
    """The network with an event of its own for each arc in place of each shared one."""
    rows, events = list[Arc](), dict[str, float]()
    for number, one in enumerate(made.arcs):
        names = {event: f"{event} of {number}" for event in one.events}
        events |= {name: made.events[event] for event, name in names.items()}
        rows.append(one._replace(events=frozenset(names.values())))
    return made._replace(arcs=tuple(rows), events=events)


def test_a_source_split_into_independent_ones_never_lowers_it_where_no_chain_leans_on_it_twice() -> None:
    """Chains side by side, each of which names a source once: 500 networks of two to four chains over the same sources."""
    rng, raised = random.Random("split"), 0
    for _ in range(500):
        names = [f"s{at}" for at in range(4)]
        rows = []
        for chain in range(rng.randint(2, 4)):
            some = rng.sample(names, rng.randint(1, 3))
            nodes = ["a", *(f"m{chain}.{at}" for at in range(len(some) - 1)), "b"]
            rows += [arc(nodes[at], nodes[at + 1], event, both=False) for at, event in enumerate(some)]
        made = network(rows, {name: rng.choice((0.4, 0.75, 0.9)) for name in names})
        before, after = chance(made).low, chance(split(made)).low
        assert after >= before - 1e-12, made
        raised += after > before + 1e-9
    assert raised > 200


def test_inside_one_chain_splitting_a_source_does_lower_it() -> None:
    """Why the law is no wider. Two links by one letter are right together (p); by two letters each must be (p squared)."""
    made = network([arc("a", "m", "letter"), arc("m", "b", "letter")], 0.4)
    assert chance(made).low == pytest.approx(0.4)
    assert chance(split(made)).low == pytest.approx(0.16)


def test_bounds_of_large_networks_hold_what_is_exact() -> None:
    """Ladders and meshes that are worked out exactly with many cases, asked with few: never the exact one outside."""
    rng, inexact = random.Random("large"), 0
    for _ in range(30):
        nodes = ["a", "b", *(f"n{at}" for at in range(10))]
        rows = [arc(*rng.sample(nodes, 2), f"e{at}", both=rng.random() < 0.5) for at in range(24)]
        rows += [arc(*rng.sample(nodes, 2), f"s{at % 3}") for at in range(6)]
        events = {name: rng.choice((0.4, 0.75, 0.9)) for one in rows for name in sorted(one.events)}
        made = network(rows, events)
        wanted = chance(made, 10**6)
        assert wanted.exact
        for cases in (4, 16, 64):
            low, high, exact = chance(made, cases)
            assert low <= wanted.low <= high
            inexact += not exact
    assert inexact > 30


def test_twelve_coins_are_always_exact() -> None:
    """The size that is stated in `CASES`: branches and shared events that are left after reduction, at most twelve."""
    rng, sizes = random.Random("twelve"), Counter[int]()
    for _ in range(150):
        rows = [arc(*rng.sample("abcdef", 2), f"e{at}") for at in range(12)]
        rows += [arc(*rng.sample("abcdef", 2), "s") for _ in range(2)]
        made = network(rows, 0.75)
        small = reduced(made)
        coins = sum(0.0 < branch.own < 1.0 for branch in small.branches) + len(small.shared)
        sizes[coins] += 1
        assert coins > 12 or chance(made).exact
    assert sum(count for coins, count in sizes.items() if 6 <= coins <= 12) > 50
