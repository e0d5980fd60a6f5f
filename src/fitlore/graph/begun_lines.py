"""What one book adds to the names that somebody may have begun to type (see `graph.begun`)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fitlore.graph.begun import Name
from fitlore.model.category import Category
from fitlore.model.job import Job
from fitlore.model.part import Part
from fitlore.model.platform import Car, Platform
from fitlore.model.record import Rec
from fitlore.model.supply import Donor, Supplier


def begun_of(records: Iterable[Rec]) -> str:
    """The lines of one book."""
    return "".join("\t".join(_clean(piece) for piece in name) + "\n" for one in records for name in _of(one))


def _of(record: Rec) -> Iterator[Name]:
    if isinstance(record, Platform):
        yield Name("platform", "", record.platform, record.name)
        for assembly, held in record.assemblies.items():
            for place, wants in held.places.items():
                yield Name("place", record.platform, f"{assembly}/{place}", wants.is_)
    elif isinstance(record, Part):
        yield Name("part", "", record.part, "")
    elif isinstance(record, Car):
        yield Name("car", record.is_, record.car, record.name)
    elif isinstance(record, Supplier):
        yield Name("supplier", "", record.supplier, record.name)
    elif isinstance(record, Job):
        yield Name("job", "", record.job, record.name)
    elif isinstance(record, Donor):
        yield Name("donor", "", record.donor, record.name)
    elif isinstance(record, Category):
        yield Name("category", "", record.category, "")


def _clean(text: str) -> str:
    return " ".join(text.split())
