"""Strength of bolts and nuts by class, grade, letter or mark on the head."""
