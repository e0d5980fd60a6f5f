"""Circlips for shafts and bores (DIN 471, DIN 472) and E-clips (DIN 6799)."""
