"""Spark plugs: thread, seat, reach, hexagon, and whose scale a heat figure is of."""
