"""Thermostats: where they open, flange, height, and what closes the bypass."""
