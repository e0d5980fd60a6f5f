"""What must change together, and what must never be on a car together."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from fitlore.fitting.conditions import holds, merge_asks
from fitlore.fitting.parts import alike, keys_of
from fitlore.fitting.place import numbers_on, split_side, stays_on
from fitlore.fitting.shape import Ask
from fitlore.model.because import Because
from fitlore.model.kleene import Tri, all_of
from fitlore.model.part import Companion, CrossFit, Never, Part
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car
from fitlore.model.record import Number, PlacePath

if TYPE_CHECKING:
    from fitlore.fitting.ways import Setting
    from fitlore.graph.open import Graph


class Beside(NamedTuple):
    """Whether the pieces beside a part allow it."""

    condition: Tri
    never: bool
    asks: tuple[Ask, ...]
    steps: tuple[Because, ...]


def companion_state(companions: Iterable[Companion], never_with: Iterable[Never], setting: Setting) -> Beside:
    """A package is bought as a whole, so companions never make a doubt; a forbidden pair does, until the other is known."""
    together = list(companions)
    steps = [
        Because(
            "with",
            {"at": c.at, "use": " or ".join(c.use), "why": c.why},
            (c.origin,) if c.origin.book else (),
        )
        for c in together
    ]
    apart = kept_apart(never_with, together, setting)
    return apart._replace(steps=(*steps, *apart.steps))


def kept_apart(
    never_with: Iterable[Never], together: Iterable[Companion], setting: Setting, *, by_the_book: bool = False
) -> Beside:
    """Whether none of the forbidden pieces will be on the car beside the part and its companions.

    `by_the_book`: for a part the maker himself put here, what a claim forbids is asked only where the book lists it.
    """
    verdicts: list[tuple[Tri, tuple[Ask, ...]]] = []
    steps: list[Because] = []
    beside = list(together)
    for never in never_with:
        tri = _apart(never, beside, setting)
        if by_the_book and tri is Tri.ASK and not _listed_there(never, setting):
            continue
        use = " or ".join(never.use)
        ask = Ask("place", never.at or use, never.why, never.use)
        verdicts.append((tri, (ask,) if tri is Tri.ASK else ()))
        origins = (never.origin,) if never.origin.book else ()
        steps.append(
            Because(f"never-with-{tri.value}", {"use": use, "why": never.why, "at": never.at or ""}, origins)
        )
    condition = all_of(tri for tri, _ in verdicts)
    return Beside(condition, condition is Tri.FALSE, merge_asks(asks for _, asks in verdicts), tuple(steps))


def forbidden_pairs(part: Part, setting: Setting, judged: Iterable[CrossFit] = ()) -> tuple[Never, ...]:
    """What any claim says the part must never meet, and what on the car must never meet the part; holds on every way.

    `judged` are claims whose own list is judged elsewhere.
    """
    names, keys = {claim.crossfit for claim in judged}, alike(setting.graph, keys_of(part))
    own = [
        never
        for claim in setting.graph.claims_to(keys)
        if claim.crossfit not in names
        for never in claim.never_with
    ]
    refused = [refusal.never for refusal in setting.refusals if refusal.keys & keys]
    return (*dict.fromkeys(own), *refused)


def still_to_buy(companions: Iterable[Companion], setting: Setting) -> tuple[Companion, ...]:
    """Companions the car does not have already, as far as somebody said what is on it."""
    rest = []
    for companion in companions:
        key, known = stays_on(setting.car, companion.at, setting.side)
        if not (known and key in alike(setting.graph, companion.use)):
            rest.append(companion)
    return tuple(rest)


class Refusal(NamedTuple):
    """A piece known to be on the car that some claim forbids to meet, at the place asked about, what has these keys."""

    keys: frozenset[str]
    never: Never


def refusals(graph: Graph, place: PlaceOn, car: Car | None) -> tuple[Refusal, ...]:
    """What the pieces known to be on the car refuse at a place, whichever part is asked about."""
    rows = []
    for path, number, found in numbers_on(car):
        if split_side(path)[0] == place.path:
            continue
        for claim in graph.claims_to(alike(graph, [number])):
            for never in claim.never_with:
                if never.at is not None and split_side(_on(never.at, place))[0] != place.path:
                    continue
                origin = never.origin if never.origin.book else claim.origin
                refused = Never(
                    use=(Number(number),),
                    at=PlacePath(path),
                    why=never.why,
                    origin=found.origin if found.origin.book else origin,
                )
                rows.append(Refusal(alike(graph, never.use), refused))
    return tuple(rows)


def _apart(never: Never, together: list[Companion], setting: Setting) -> Tri:
    """True: the forbidden piece is certainly not on the car. A companion that takes its place makes sure of it."""
    banned = alike(setting.graph, never.use)
    if never.at is None:
        on_it = alike(setting.graph, [number for _, number, _ in numbers_on(setting.car)])
        return Tri.FALSE if banned & on_it else Tri.ASK
    at, side = split_side(_at(never.at, setting))
    for companion in together:
        base, own = split_side(_at(companion.at, setting))
        if base == at and own in ("", side or setting.side):
            return Tri.ASK if banned & alike(setting.graph, companion.use) else Tri.TRUE
    if at == setting.resolved.place.path:
        return _across(banned, setting)
    found = [
        number
        for path, number, _ in numbers_on(setting.car)
        if split_side(path)[0] == at and _meets(split_side(path)[1], side or setting.side)
    ]
    if banned & alike(setting.graph, found):
        return Tri.FALSE
    return Tri.TRUE if stays_on(setting.car, at, side or setting.side)[1] else Tri.ASK


def _across(banned: frozenset[str], setting: Setting) -> Tri:
    """A piece that must not be at this very place: what is there goes, so that only the other side counts."""
    place = setting.resolved.place
    sides = [side for side in place.sides if side != setting.side]
    if setting.both or not setting.side or not sides:
        return Tri.TRUE
    on_them = [stays_on(setting.car, f"{place.path}@{side}") for side in sides]
    if any(key in banned for key, _ in on_them):
        return Tri.FALSE
    return Tri.TRUE if all(known for _, known in on_them) else Tri.ASK


def _listed_there(never: Never, setting: Setting) -> bool:
    """Whether the book lists the forbidden piece, for cars like this one, at the place where it must not be."""
    if never.at is None:
        return False
    graph, resolved = setting.graph, setting.resolved
    place = graph.place(resolved.place.on, _at(never.at, setting))
    listed = [
        original.number
        for original in (place.place.original if place else ())
        if holds(original.only_if, resolved.facts).value is not Tri.FALSE
    ]
    return bool(alike(graph, never.use) & alike(graph, listed))


def _meets(own: str, wanted: str) -> bool:
    return not own or not wanted or own == wanted


def _at(path: str, setting: Setting) -> str:
    return _on(path, setting.resolved.place)


def _on(path: str, place: PlaceOn) -> str:
    """A path on the car, without the platform in front."""
    return path.removeprefix(f"{place.on}/")
