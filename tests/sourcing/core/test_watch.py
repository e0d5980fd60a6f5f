"""Looking on at a long search and stopping it."""

from __future__ import annotations

import os
import signal
import threading

import pytest

from fitlore.sourcing.audit import audit
from fitlore.sourcing.solve import solve
from fitlore.sourcing.watch import Seen, Watch
from tests.speed.jobs import whole_job

LONG = whole_job(60, 40, "minimum", 2)
"""Takes some seconds to the proof."""


def test_what_is_told_is_true() -> None:
    """The bound never passes the proven cost, the best plan so far is never below it, and both only get better."""
    seen: list[Seen] = []
    watch = Watch(seen.append)
    found = solve(LONG, settle=False, watch=watch)
    assert found.status == "proven"
    assert found.cost is not None
    assert any(row.best is not None for row in seen)
    for row in seen:
        assert row.bound is None or row.bound <= found.cost
        assert row.best is None or row.best >= found.cost
    bests = [row.best for row in seen if row.best is not None]
    assert bests == sorted(bests, reverse=True)


def test_asked_to_stop_the_best_plan_so_far_is_returned_and_not_called_proven() -> None:
    """It stands up to the audit, and its bound is not above its cost."""
    watch = Watch()
    plans = 0

    def after_a_plan(seen: Seen) -> bool:
        nonlocal plans
        plans += seen.best is not None
        return plans < 3

    watch.see = after_a_plan  # type: ignore[method-assign]
    found = solve(LONG, watch=watch)
    assert found.status == "stopped"
    assert found.cost is not None
    assert found.bound is not None
    assert found.bound <= found.cost
    assert audit(LONG, found) == ()


def test_stopped_before_it_begins_there_is_no_plan() -> None:
    """Neither proven nor impossible."""
    watch = Watch()
    watch.stop = True
    found = solve(LONG, watch=watch)
    assert (found.status, found.cost) == ("stopped", None)


@pytest.mark.skipif(not hasattr(signal, "SIGINT") or os.name == "nt", reason="signals of a POSIX system")
def test_a_signal_reaches_a_running_search() -> None:
    """A handler that sets `stop` runs between the solver's steps, while the search is under way."""
    watch = Watch()
    before = signal.signal(signal.SIGINT, lambda *_: setattr(watch, "stop", True))
    timer = threading.Timer(0.6, os.kill, (os.getpid(), signal.SIGINT))
    timer.start()
    try:
        found = solve(whole_job(120, 80, "free-from", 1), watch=watch)
    finally:
        timer.join()
        signal.signal(signal.SIGINT, before)
    assert watch.stop
    assert found.status == "stopped"
