"""What a plan of a job is once it is made: its orders, its lines, and what explains them."""

from __future__ import annotations

from typing import NamedTuple

from fitlore.model.amounts import Money
from fitlore.model.placed import OfferFrom
from fitlore.sourcing import problem as p
from fitlore.sourcing.assemble import Assembled, Wishes
from fitlore.sourcing.clash import Clash
from fitlore.sourcing.coins import amount, coins
from fitlore.sourcing.eased import Eased
from fitlore.sourcing.needs import NeedAt
from fitlore.sourcing.options import Choice
from fitlore.sourcing.outcome import Outcome
from fitlore.sourcing.prices import Cut, Rise
from fitlore.sourcing.runnerup import Rival


class OrderLine(NamedTuple):
    """Packs of one offer."""

    offer: p.Offer
    line: OfferFrom
    packs: int
    serves: tuple[str, ...]
    """Needs and shared works its units go to."""


class Order(NamedTuple):
    """What is bought from one supplier, and how it comes."""

    supplier: str
    lines: tuple[OrderLine, ...]
    goods: int
    surcharges: int
    fee: int
    way: p.Way
    last_day: int | None
    """The last day on which it may be ordered so that all of it is in hand in time; None: there is no limit of days."""
    joining: int = 0
    """What is paid to join the supplier before the first order."""
    cut_off: str = ""
    """The hour by which it has to be ordered on that day, where the supplier has one: `16:00`."""


class NextBest(NamedTuple):
    """What would be done for a need instead."""

    option: str | None
    """None: it would be left."""
    dearer: int | None
    """Coins that the whole plan would cost more; None: nothing else would do (nothing near by, if it is not exact)."""
    exact: bool = True
    """False: at most so much dearer."""


class PlanLine(NamedTuple):
    """One need and how it is met."""

    number: int
    need: NeedAt
    choice: Choice | None
    """None: an optional finding that is left."""
    offers: tuple[OrderLine, ...]
    next_best: NextBest | None
    others: tuple[Rival, ...] = ()
    """Every option that was not chosen, the nearest first; empty where that was not asked."""
    rises: tuple[Rise, ...] = ()
    """Per offer of the line how much dearer it may get; empty where that was not asked."""
    cuts: tuple[Cut, ...] = ()
    """Per offer of the next best how much cheaper it must get."""


class Plan(NamedTuple):
    """The plan of a job. Money in smallest coins of `home`; hands in ten-thousandths of a minute."""

    assembled: Assembled
    solution: p.Solution
    lines: tuple[PlanLine, ...]
    orders: tuple[Order, ...]
    clash: Clash | None
    wishes: Wishes = Wishes()
    eased: tuple[Eased, ...] = ()
    outcome: Outcome | None = None

    @property
    def home(self) -> str:
        """The shop's currency."""
        return self.assembled.home

    def money(self, whole: int) -> Money:
        """Smallest coins as money of the shop."""
        return amount(whole, self.home)

    def words(self, option: str) -> str:
        """An option by what is done: the part's number, or the route in the job's words; empty is leaving it."""
        choice = self.assembled.choices.get(option)
        if choice is None:
            return option or "leave it"
        if choice.verdict is not None:
            return choice.verdict.part.part
        done = choice.route.do or choice.route.route.value if choice.route else option
        return f"{done} (if it fails, {choice.then.days} days more)" if choice.then else done

    @property
    def most_to_pay(self) -> int | None:
        """The most such a car may cost: sale − plan − profit wanted − selling costs − reserve. None: no sale is expected."""
        job = self.assembled.job
        if job.expected_sale is None or self.solution.cost is None:
            return None
        reserve = job.purse.reserve if job.purse else None
        spent = [
            self.solution.cost,
            *(coins(m, self.home) for m in (job.profit_wanted, job.selling_costs, reserve)),
        ]
        return coins(job.expected_sale, self.home) - sum(spent)

    @property
    def profit(self) -> int | None:
        """Sale − bought − selling costs − plan, the hands' worth and what the extras add counted. None: not all is known."""
        job = self.assembled.job
        if job.expected_sale is None or job.bought is None or self.solution.cost is None:
            return None
        spent = coins(job.bought, self.home) + coins(job.selling_costs, self.home) + self.solution.cost
        return coins(job.expected_sale, self.home) - spent
