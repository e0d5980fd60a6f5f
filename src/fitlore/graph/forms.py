"""Normal forms of a feature's value, so that two spellings of the same value are found by one key."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitlore.model.amounts import read_quantity

if TYPE_CHECKING:
    from fitlore.trade.standards import Standards


class Forms:
    """Every key a value is found by: its words, its size in the base unit, its designation in each family of standards.

    A part's book does not say of which kind a feature is (the category's book does), so every form that can be read is
    kept and two values meet where any form agrees: this narrows a search, it proves nothing.
    """

    def __init__(self, standards: Standards | None) -> None:
        self._standards = standards
        self._known: dict[str, tuple[str, ...]] = {}

    def of(self, text: str) -> tuple[str, ...]:
        """The keys of a value; without tables of standards it has none of a family."""
        if text not in self._known:
            self._known[text] = tuple(self._read(text))
        return self._known[text]

    def _read(self, text: str) -> list[str]:
        found = [f"text:{' '.join(text.casefold().split())}"]
        if not has_figure(text):
            return found
        size = read_quantity(text)
        if size is not None:
            found.append(f"size:{size.value.normalize():f} {size.unit}")
        if self._standards is not None:
            found += _designations(text, self._standards)
        return found


def has_figure(text: str) -> bool:
    """Whether a value can be a size or a designation at all."""
    return any(character.isdigit() for character in text)


def _designations(text: str, standards: Standards) -> list[str]:
    from fitlore.trade.family import FAMILIES
    from fitlore.trade.result import Reading

    readings = ((kind, family.read(text, standards)) for kind, family in sorted(FAMILIES.items()))
    return [f"{kind}:{reading.normal}" for kind, reading in readings if isinstance(reading, Reading)]
