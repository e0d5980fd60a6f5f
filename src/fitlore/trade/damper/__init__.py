"""Dampers: lengths open and closed, and both mountings."""
