"""The closed lists of words a book may use."""

from __future__ import annotations

from enum import Enum


class SafetyClass(Enum):
    """Which safety policy a category falls under; the order is from the strictest."""

    BRAKING = "braking"
    STEERING = "steering"
    RESTRAINT = "restraint"
    SUSPENSION = "suspension"
    WHEELS = "wheels"
    FUEL = "fuel"
    LIGHTING = "lighting"
    NONE = "none"


class Role(Enum):
    """What a feature is for."""

    MATES = "mates"
    WORKS = "works"
    SAFE = "safe"
    JOINS = "joins"
    LOOKS = "looks"


class Rule(Enum):
    """How an offered value is held against the needed one."""

    SAME = "same"
    WITHIN = "within"
    AT_LEAST = "at-least"
    AT_MOST = "at-most"
    RANGE_HOLDS = "range-holds"
    ONE_OF = "one-of"
    AGREES_WITH = "agrees-with"


class Sides(Enum):
    """Whether left and right ones differ."""

    NONE = "none"
    MIRROR = "mirror"
    SAME_BOTH_SIDES = "same-both-sides"
    CHANGEABLE = "changeable"
    OTHER_LENGTH = "other-length"


class Side(Enum):
    """Seen from the driver's seat facing forwards."""

    LEFT = "left"
    RIGHT = "right"
    EITHER = "either"


class How(Enum):
    """How somebody knows; the first three are first-hand."""

    FITTED = "fitted"
    OFFERED_UP = "offered-up"
    MEASURED = "measured"
    PRINTED = "printed"
    TOLD = "told"

    @property
    def first_hand(self) -> bool:
        """Whether somebody saw it on the part itself."""
        return self in (How.FITTED, How.OFFERED_UP, How.MEASURED)


class Goes(Enum):
    """In which direction a cross-fit holds."""

    ONE_WAY = "one-way"
    BOTH_WAYS = "both-ways"


class Reason(Enum):
    """Why a number was replaced."""

    IDENTICAL = "identical"
    IMPROVED = "improved"
    CONSOLIDATED = "consolidated"
    KIT_ONLY = "kit-only"
    SUPPLIER = "supplier"
    UNKNOWN = "unknown"


class State(Enum):
    """In which state a thing is offered."""

    NEW = "new"
    USED = "used"
    EXCHANGE = "exchange"
    OLD_STOCK = "old-stock"


class RouteKind(Enum):
    """How a need is met."""

    RENEW = "renew"
    EXCHANGE = "exchange"
    USED = "used"
    REFURBISH = "refurbish"
    ADJUST = "adjust"
    LEAVE = "leave"


class Must(Enum):
    """Why a finding has to be met."""

    SAFETY = "safety"
    INSPECTION = "inspection"
    RUNS = "runs"
    LAW = "law"


class Trade(Enum):
    """What kind of supplier it is."""

    DEALER = "dealer"
    FACTOR = "factor"
    SPECIALIST = "specialist"
    BREAKER = "breaker"
    RECONDITIONER = "reconditioner"
    CLUB = "club"
    PRIVATE = "private"


class Renew(Enum):
    """Whether one is renewed alone or with its twin across the axle."""

    EACH = "each"
    ACROSS_AXLE = "across-axle"


class UsedOnes(Enum):
    """Whether used ones are sensible."""

    SENSIBLE = "sensible"
    IF_SOUND = "if-sound"
    NEVER = "never"


class End(Enum):
    """Which half of a joint the part itself has."""

    MALE = "male"
    FEMALE = "female"


class Sure(Enum):
    """How sure a finding is."""

    SEEN = "seen"
    SUSPECTED = "suspected"
    NOT_LOOKED_AT = "not-looked-at"


class SoldBy(Enum):
    """What a supplier counts in."""

    EACH = "each"
    PAIR = "pair"
    SET = "set"


class TaxView(Enum):
    """Whether prices are said with value added tax."""

    NONE = "none"
    """There is none to pay: a private seller, or one below the limit."""
    IN_THE_PRICE = "in-the-price"
    ON_TOP = "on-top"


class Divider(Enum):
    """What stands between two columns of a list in text."""

    COMMA = "comma"
    SEMICOLON = "semicolon"
    TAB = "tab"
    BAR = "bar"

    @property
    def sign(self) -> str:
        """The character itself."""
        return {"comma": ",", "semicolon": ";", "tab": "\t", "bar": "|"}[self.value]


class DecimalMark(Enum):
    """What stands before the decimals of a price."""

    POINT = "point"
    COMMA = "comma"

    @property
    def sign(self) -> str:
        """The character itself."""
        return "." if self is DecimalMark.POINT else ","


class Progress(Enum):
    """How far a bought thing has come."""

    ON_ORDER = "on-order"
    HERE = "here"
    FITTED = "fitted"
    WENT_BACK = "went-back"


class Ignored(Enum):
    """What makes no difference in an issuer's numbers. Spaces, dots, dashes, slashes and underlines never do, in anybody's."""

    SPACES = "spaces"
    DOTS = "dots"
    DASHES = "dashes"
    SLASHES = "slashes"
    UNDERLINES = "underlines"
    STARS = "stars"
    PLUSES = "pluses"
    COLONS = "colons"
    COMMAS = "commas"
    BRACKETS = "brackets"
    HASHES = "hashes"
    LEADING_ZEROS = "leading-zeros"


class Meaning(Enum):
    """What signs before or behind a part number say."""

    REVISION = "revision"
    COLOUR = "colour"
    SIDE = "side"
    CLASS = "class"
    MARKET = "market"
    PACK = "pack"


class LawSays(Enum):
    """What a law does with a thing."""

    REQUIRES = "requires"
    FORBIDS = "forbids"
    ALLOWS = "allows"
