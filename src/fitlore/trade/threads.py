"""Screw threads: read a designation, give its dimensions, put a male to a female, name the trap.

The family's public face; the work is done in `fitlore.trade.thread`.
"""

from fitlore.trade.result import Unreadable
from fitlore.trade.thread.dimensions import ThreadDimensions, dimensions
from fitlore.trade.thread.engagement import Engagement, axial_clearance, engage, pitches_engaged
from fitlore.trade.thread.limits import Limits, engagement, least_turns, limits
from fitlore.trade.thread.match import Direction, Outcome, ThreadMatch, Why, as_replacement, compare
from fitlore.trade.thread.proof import code, proof
from fitlore.trade.thread.reading import read
from fitlore.trade.thread.rows import Family, ThreadRow
from fitlore.trade.thread.tell import Look, Tell
from fitlore.trade.thread.value import Hand, Thread, normal

__all__ = [
    "Direction",
    "Engagement",
    "Family",
    "Hand",
    "Limits",
    "Look",
    "Outcome",
    "Tell",
    "Thread",
    "ThreadDimensions",
    "ThreadMatch",
    "ThreadRow",
    "Unreadable",
    "Why",
    "as_replacement",
    "axial_clearance",
    "code",
    "compare",
    "dimensions",
    "engage",
    "engagement",
    "least_turns",
    "limits",
    "normal",
    "pitches_engaged",
    "proof",
    "read",
]
