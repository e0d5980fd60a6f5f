"""fitlore: what fits here, what else would fit, where it is cheapest, and how the shop keeps what it found out."""

__version__ = "0.1.0"
