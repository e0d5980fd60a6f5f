"""Wheel nuts and wheel bolts: thread, seat, length and hexagon as one designation."""
