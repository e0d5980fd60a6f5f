"""Knows the published standards: reads a designation, gives its dimensions, compares two, names the trap."""
