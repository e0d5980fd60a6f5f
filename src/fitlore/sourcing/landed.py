"""What money of the books comes to here: other currencies at dated rates, value added tax, and what the border takes.

**Rules** (rates are dated lines of the shop and of the policy; the one in force on the day of planning counts):

- An amount in another currency is changed at the latest rate of the shop that is not later than the day, and rounded once,
  half a coin upwards. Without a rate the offer is left out, for an unknown cost is not nothing.
- A seller at home: `tax: on-top` adds the country's tax, rounded per pack; `in-the-price`, `none` and nothing said leave the
  price as it is. A shop that reclaims pays the whole now; what is in it as tax comes back later. Nobody reclaims what is
  not said to be in the price.
- A seller abroad, where the policy has an import duty for his country (0 % is one too): there is a border. Duty is taken on
  goods and carriage, tax on goods, carriage and duty together (common practice; customs offices value so). Where duties
  differ by kind of goods, the carriage bears the highest, so that a plan is never too cheap.
- A seller abroad without such a line: what he says with tax in the price counts as he says it, and nothing is reclaimed;
  otherwise nobody knows what the border takes, and the offer is left out.
- Surcharges lent bear the seller's own tax, never duty; allowances below which a border takes nothing are not reckoned.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, NamedTuple

from fitlore.model.amounts import Money
from fitlore.model.choices import TaxView
from fitlore.model.shop import Duty
from fitlore.model.supply import Supplier
from fitlore.sourcing.coins import OtherCurrency, coins, digits

if TYPE_CHECKING:
    from fitlore.graph.open import Graph


class NotKnown(ValueError):
    """What a thing costs here cannot be told: a code, and what is missing."""

    def __init__(self, code: str, **values: str) -> None:
        super().__init__(code)
        self.code, self.values = code, values


class Landed(NamedTuple):
    """What is paid now, in smallest coins, and what of it comes back later."""

    paid: int
    back: int = 0


class Reckoning:
    """The shop's currency, country and rates on one day."""

    def __init__(self, graph: Graph, today: date) -> None:
        shop, policy = graph.shop, graph.policy
        self.home, self.country, self.today = shop.currency, shop.country.upper(), today
        self.reclaims = bool(shop.reclaims_vat)
        self._rates = shop.rates
        self._vat = policy.vat
        self._duties = [
            d for d in policy.import_duty if d.country.upper() == self.country and d.since <= today
        ]

    def coins(self, money: Money | None) -> int:
        """The amount in smallest coins at home; raises OtherCurrency where no rate is known."""
        if money is None or money.currency == self.home:
            return coins(money, self.home)
        known = [
            rate
            for rate in self._rates
            if rate.currency == money.currency and rate.rate.currency == self.home and rate.date <= self.today
        ]
        if not known:
            raise OtherCurrency(money.currency)
        rate = max(known, key=lambda row: row.date).rate
        return _rounded((money.amount * rate.amount).scaleb(digits(self.home)))

    def vat(self, country: str) -> Decimal:
        """The country's tax as a part of one; raises NotKnown where the policy does not say."""
        known = [v for v in self._vat if v.country.upper() == country and v.since <= self.today]
        if not known:
            raise NotKnown("tax-not-known", country=country or "?")
        return max(known, key=lambda row: row.since).charge.percent / 100

    def terms(self, supplier: Supplier) -> Terms:
        """How this supplier's money is reckoned."""
        country = supplier.country.upper()
        if not country or not self.country or country == self.country:
            return Terms(self, supplier.tax, self.country)
        duties = [d for d in self._duties if not d.coming_from or country in map(str.upper, d.coming_from)]
        return Terms(self, supplier.tax, country, tuple(duties), abroad=True)


class Terms(NamedTuple):
    """One supplier's tax view, and what the border takes on what he sends."""

    reckoning: Reckoning
    tax: TaxView | None
    country: str
    duties: tuple[Duty, ...] = ()
    abroad: bool = False

    @property
    def by_kind(self) -> bool:
        """Whether it matters what kind of goods it is."""
        return any(duty.is_ for duty in self.duties)

    def goods(self, money: Money | None, kinds: Iterable[str] = ()) -> Landed:
        """A price; `kinds` are the categories of the goods, narrowest first."""
        return self._landed(self.reckoning.coins(money), self._duty(tuple(kinds)))

    def carriage(self, money: Money | None) -> Landed:
        """A fee for bringing the goods; it bears the highest duty."""
        highest = max((duty.charge.percent / 100 for duty in self.duties), default=Decimal(0))
        return self._landed(self.reckoning.coins(money), highest)

    def surcharge(self, money: Money | None) -> int:
        """A surcharge lent, with the seller's own tax on top where he says so."""
        whole = self.reckoning.coins(money)
        if self.tax is TaxView.ON_TOP and not self.abroad and whole:
            whole += _rounded(whole * self.reckoning.vat(self.country))
        return whole

    def counts(self, money: Money | None) -> int:
        """What a price counts towards the supplier's limits: in his own coins, as he says it."""
        return 0 if money is None else coins(money, money.currency)

    def _landed(self, whole: int, duty: Decimal) -> Landed:
        at, reclaims = self.reckoning, self.reckoning.reclaims
        if not whole:
            return Landed(0)
        if not self.abroad:
            if self.tax is TaxView.ON_TOP:
                tax = _rounded(whole * at.vat(self.country))
                return Landed(whole + tax, tax if reclaims else 0)
            if self.tax is TaxView.IN_THE_PRICE and reclaims:
                charge = at.vat(self.country)
                return Landed(whole, _rounded(whole * charge / (1 + charge)))
            return Landed(whole)
        if not self.duties:
            if self.tax is TaxView.IN_THE_PRICE:
                return Landed(whole)
            raise NotKnown("border-not-known", country=self.country)
        value = whole + _rounded(whole * duty)
        tax = _rounded(value * at.vat(at.country))
        return Landed(value + tax, tax if reclaims else 0)

    def _duty(self, kinds: tuple[str, ...]) -> Decimal:
        """The duty on goods: a line for the narrowest of their kinds before one for all, the latest of those."""
        ranks: Mapping[str, int] = {kind: len(kinds) - number for number, kind in enumerate(kinds)}
        rows = [d for d in self.duties if not d.is_ or d.is_ in ranks]
        if not rows:
            return max((duty.charge.percent / 100 for duty in self.duties), default=Decimal(0))
        best = max(rows, key=lambda d: (ranks.get(d.is_ or "", 0), bool(d.coming_from), d.since))
        return best.charge.percent / 100


def _rounded(value: Decimal) -> int:
    return int(value.quantize(Decimal(1), rounding=ROUND_HALF_UP))
