"""What the policy has nobody buy, whatever it is for: states of things, and tyres past their age."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Final

from fitlore.fitting.interface import interface_of
from fitlore.model.choices import State
from fitlore.model.supply import Offer
from fitlore.sourcing.contents import kinds_of
from fitlore.trade.result import Unreadable
from fitlore.trade.tyre.date import read

if TYPE_CHECKING:
    from fitlore.graph.open import Graph

_DATED: Final = "tyre-date"
"""The kind of the feature by which a category says that its parts are dated as tyres are."""
_NOT_NEW: Final = (State.USED, State.OLD_STOCK)


def not_taken(graph: Graph, offer: Offer, today: date) -> tuple[str, dict[str, str]] | None:
    """Why the policy lets nobody buy this offer: a code and its values; None where it does.

    A tyre may be exactly as old as the policy says. Of one that is not new the week and year must be known; those of a new
    one count where they are said.
    """
    policy = graph.policy
    if offer.state in policy.forbidden_states:
        return "state-not-taken", {"state": offer.state.value}
    if not (offer.made or offer.state in _NOT_NEW) or not _is_dated(graph, offer):
        return None
    made = read(offer.made) if offer.made else None
    if made is None or isinstance(made, Unreadable):
        return ("tyre-date-not-known", {"made": offer.made}) if offer.state in _NOT_NEW else None
    last_week = min(made.week, date(made.year, 12, 28).isocalendar().week)
    born = date.fromisocalendar(made.year, last_week, 1)
    if (today.year - born.year, today.month, today.day) > (policy.tyre_age_years, born.month, born.day):
        return "tyre-too-old", {"made": str(made), "years": str(policy.tyre_age_years)}
    return None


def _is_dated(graph: Graph, offer: Offer) -> bool:
    kinds = kinds_of(graph, offer)
    interface = interface_of(graph, kinds[0]) if kinds else None
    return interface is not None and any(f.kind == _DATED for f in interface.features.values())
