"""How likely at least one chain of claims holds: exact while it is small enough, certain bounds beyond.

Plain data in, plain figures out: nothing here knows of books or graphs.
"""

from fitlore.fitting.chance.network import Arc, Network
from fitlore.fitting.chance.worked_out import CASES, Chance, chance

__all__ = ["CASES", "Arc", "Chance", "Network", "chance"]
