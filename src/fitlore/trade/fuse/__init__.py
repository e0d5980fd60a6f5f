"""Fuses: forms, ratings and what the rating means."""
