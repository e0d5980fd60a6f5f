"""What a question about fitting is, and what an answer to it looks like."""

from __future__ import annotations

from enum import Enum

import msgspec

from fitlore.model.because import Because
from fitlore.model.category import Category, Feature, RenewWith
from fitlore.model.choices import Renew, SafetyClass, Sides, UsedOnes
from fitlore.model.kleene import Tri
from fitlore.model.numbers import number_key
from fitlore.model.origin import Origin
from fitlore.model.part import Companion, CrossFit, Law, Part
from fitlore.model.placed import PlaceOn
from fitlore.model.platform import Car, Contained


class Word(Enum):
    """The verdict, best first."""

    FITS = "fits"
    FITS_WITH_WORK = "fits-with-work"
    BY_MEASURE = "by-measure"
    DEPENDS = "depends"
    UNPROVEN = "unproven"
    DISPUTED = "disputed"
    DOES_NOT_FIT = "does-not-fit"

    @property
    def rank(self) -> int:
        """0 for the best."""
        return list(Word).index(self)


class State(Enum):
    """How one feature of a candidate stands against what is needed."""

    OK = "ok"
    WORK = "ok-with-work"
    OFF = "off"
    TRAP = "trap"
    UNKNOWN = "unknown"


class Question(msgspec.Struct, frozen=True):
    """A place on a car, or on a platform with its facts unknown. `side` is empty where it does not matter or is not said."""

    place: PlaceOn
    car: Car | None = None
    side: str = ""
    both: bool = False
    """The other side gets its own new part too, so that nothing has to agree with what stays there."""
    only: tuple[Part, ...] = ()
    """Parts asked about by number; they are answered whatever speaks for them."""
    nearest: int | None = None
    """Of parts that nobody has claimed the nearest so many, and so many traps among them; None: all."""


class Ask(msgspec.Struct, frozen=True, order=True):
    """Something to ask or to look at: a fact of the car, or a feature of the part or of the place."""

    about: str
    """`fact`, `feature`, `place` or `other-side`."""
    name: str
    look: str = ""
    choices: tuple[str, ...] = ()


class Interface(msgspec.Struct, frozen=True):
    """A category with all it inherits."""

    category: Category
    features: dict[str, Feature]
    safety: SafetyClass
    sides: Sides
    look_first: tuple[str, ...]
    always_new: bool
    renew: Renew
    renew_with: tuple[RenewWith, ...]
    used: UsedOnes
    keep: tuple[str, ...]
    cautions: tuple[str, ...]
    shares: tuple[str, ...]
    names: tuple[str, ...]
    """Itself and all broader categories, narrowest first."""


class Needed(msgspec.Struct, frozen=True):
    """What is needed of one feature, as one of the place's alternatives says it."""

    values: tuple[str, ...]
    origin: Origin
    any_will_do: bool
    """True: one of the values is enough (a must-be); false: the original suits each of them."""
    error: str = ""
    """How far the value may be wrong, where it was measured on the original."""


class Listed(msgspec.Struct, frozen=True):
    """An original that is right for this car, or may be: its condition, what to ask, and where it is listed."""

    part: Part
    condition: Tri
    asks: tuple[Ask, ...]
    because: Because


class Requirement(msgspec.Struct, frozen=True):
    """What the place demands: one or more alternatives (originals that may be right for this car), each feature by name."""

    alternatives: tuple[dict[str, Needed], ...]
    valid: tuple[Part, ...]
    """Originals that are right for this car, or may be."""
    conditions: tuple[tuple[str, Tri], ...]
    """Key of each valid original and whether its condition holds."""
    asks: tuple[Ask, ...]
    because: Because
    listed: tuple[Listed, ...] = ()
    otherwise: dict[str, Needed] | None = None
    """Where none of the listed originals may be right for this car: all that is known of its need then."""


class Check(msgspec.Struct, frozen=True):
    """One row of the interface table."""

    feature: str
    definition: Feature
    state: State
    needed: str
    offered: str
    because: Because

    differs: bool = False
    """Unknown only because the place's alternatives, or two sources, differ: an answer to a question decides."""
    conflict: bool = False
    """It differs, and one of the possible answers is a plain no."""
    perhaps_trap: bool = False
    """It differs, and one of the possible answers is a trap, which nothing waives."""

    @property
    def required(self) -> bool:
        """Whether it must be known and satisfied for a fit by dimensions."""
        return self.definition.role.value in ("mates", "works", "safe") and not self.definition.optional


class Way(msgspec.Struct, frozen=True):
    """One way in which a candidate comes to be one."""

    kind: str
    """`original`, `successor`, `claim`, `place-claim`, `measure`, `book`, `asked`."""
    claims: tuple[CrossFit, ...] = ()
    links: tuple[str, ...] = ()
    """The marks of its links, see `Link.mark`."""
    condition: Tri = Tri.TRUE
    forbidden: bool = False
    """A piece that it must never meet is on the car."""
    changed: bool = False
    """A known change point says no."""
    applies: bool = True
    hint: bool = False
    """It held elsewhere, or the link is weaker than a claim."""
    proven: bool = True
    """The evidence reaches the threshold of the safety class."""
    spoken_against: str = ""
    """`shop`, `others`, `outweighed`, `taken-back` or empty: the gravest of its claims, see `Weighed.against`."""
    own_trial: str = ""
    """What the shop's own trial of this very part says: `shop` (no), `outweighed` (no, but answered later), or empty."""
    spoken_for: bool = False
    """Somebody's word stands for each of its claims."""
    first_hand: bool = False
    measured: bool = False
    """Claims that do not say where they were made are backed by measurements."""
    asks: tuple[Ask, ...] = ()
    start: tuple[str, str] | None = None
    """The original it starts from (issuer and key), where it starts from one."""
    own_condition: Tri = Tri.TRUE
    """Its condition, apart from whether that original is the right one for this car."""
    own_asks: tuple[Ask, ...] = ()
    """Its questions, apart from that one."""
    companions: tuple[Companion, ...] = ()
    extras: tuple[Contained, ...] = ()
    minutes: int = 0
    work: tuple[str, ...] = ()
    waives: frozenset[str] = frozenset()
    vouched: frozenset[str] = frozenset()
    """Of the waived features those that a claim waives on enough first-hand evidence."""
    keep: tuple[str, ...] = ()
    tell_buyer: tuple[str, ...] = ()
    law: tuple[Law, ...] = ()
    because: Because = Because("way")


class Likely(msgspec.Struct, frozen=True):
    """The chance that at least one chain of words for a candidate is right, 0 to 1: between two bounds, or exactly."""

    low: float
    high: float
    exact: bool
    """Both are the same figure, worked out exactly."""
    pieces: int
    """Independent pieces of evidence that it rests on; all that name one source are one."""
    claims: int
    if_answered: bool
    """It holds if what is asked is answered as it has to be."""


class Verdict(msgspec.Struct, frozen=True):
    """What is to be said of one candidate."""

    part: Part
    word: Word
    way: Way
    others: tuple[Way, ...]
    checks: tuple[Check, ...]
    asks: tuple[Ask, ...]
    missing: tuple[str, ...]
    danger: tuple[Because, ...]
    because: Because
    other_words: tuple[Word, ...] = ()
    """The verdict by each of the other ways, in their order."""
    asks_country: bool = False
    """The law differs by country, and nobody said in which one the car is."""
    chance: Likely | None = None
    """None where it rests on nobody's word, or that word is in dispute. It informs and sorts, and decides nothing."""

    @property
    def key(self) -> str:
        """The look-up key of the part's number."""
        return number_key(self.part.part)

    @property
    def minutes(self) -> int:
        """Hands needed beyond changing the part like for like."""
        return self.way.minutes + sum(
            c.definition.work.minutes for c in self.checks if self.does(c) and c.definition.work
        )

    def does(self, check: Check) -> bool:
        """Whether the stated work of the category has to be done for this feature."""
        return check.state is State.WORK and check.feature not in self.way.waives


class Answer(msgspec.Struct, frozen=True):
    """All that is to be said of one place on one car, best first."""

    place: PlaceOn
    side: str
    car: Car | None
    interface: Interface
    requirement: Requirement
    verdicts: tuple[Verdict, ...]
    cautions: tuple[str, ...]
    because: Because
    asks: tuple[Ask, ...] = ()
    """What has to be looked at before anything is bought for the place, and nobody has yet."""
    more: int = 0
    """Parts that nobody has claimed and that are not among the verdicts, since enough nearer ones are: at most so many go."""
    more_traps: int = 0
    """The same of traps: at most so many more are one."""
