"""The half of the front door that is about the work: cars, donors, jobs, stores, issuers, and doubts about parts."""

from __future__ import annotations

from collections.abc import Iterable

from fitlore.graph.asking import Records
from fitlore.model.issuer import Issuer
from fitlore.model.job import Job
from fitlore.model.part import Part, Quality
from fitlore.model.platform import Car, SharedWork
from fitlore.model.supply import Donor, Stores


class OfTheWork:
    """What can be asked about the work; `Graph` is one."""

    def __init__(self, records: Records) -> None:
        self._records = records

    def car(self, name: str) -> Car | None:
        """A car by name."""
        return self._records.one(Car, name)

    def cars(self) -> tuple[Car, ...]:
        """Every car."""
        return self._records.every(Car)

    def job(self, name: str) -> Job | None:
        """A job by name."""
        return self._records.one(Job, name)

    def jobs(self) -> tuple[Job, ...]:
        """Every job."""
        return self._records.every(Job)

    def jobs_of(self, car: str) -> tuple[Job, ...]:
        """The jobs on one car."""
        return self._records.look(Job, "jobs_of", [car])

    def shared_work(self, name: str) -> SharedWork | None:
        """A shared work by name."""
        return self._records.one(SharedWork, name)

    def issuer(self, name: str) -> Issuer | None:
        """An issuer of numbers by name."""
        return self._records.one(Issuer, name)

    def issuers(self) -> tuple[Issuer, ...]:
        """Every issuer of numbers."""
        return self._records.every(Issuer)

    def donor(self, name: str) -> Donor | None:
        """A donor by name."""
        return self._records.one(Donor, name)

    def donors(self) -> tuple[Donor, ...]:
        """Every donor."""
        return self._records.every(Donor)

    def donors_of(self, platforms: Iterable[str]) -> tuple[Donor, ...]:
        """The donors of these platforms."""
        return self._records.look(Donor, "donors_of", platforms)

    def taken_from(self, platforms: Iterable[str]) -> tuple[Part, ...]:
        """Parts without a maker's number that come off a car of one of these platforms."""
        return self._records.look(Part, "donors_of", platforms)

    def stores(self) -> tuple[Stores, ...]:
        """Everything the shop has lying there."""
        return self._records.every(Stores)

    def in_stores(self, keys: Iterable[str]) -> tuple[Stores, ...]:
        """The stores that hold one of these parts, by look-up key."""
        return self._records.look(Stores, "in_stores", self._every_key(keys))

    def quality_of(self, keys: Iterable[str]) -> tuple[Quality, ...]:
        """Quality notes about one of these parts, by look-up key; each says whose version it doubts."""
        return self._records.look(Quality, "quality_of", self._every_key(keys))

    def _every_key(self, keys: Iterable[str]) -> set[str]:
        """Every key by which the same parts go."""
        return set(keys)
