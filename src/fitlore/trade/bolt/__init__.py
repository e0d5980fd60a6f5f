"""Bolts and screws: thread, length, strength, head and shank as one designation."""
