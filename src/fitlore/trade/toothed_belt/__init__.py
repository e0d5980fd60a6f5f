"""Toothed belts of engines (ISO 9010, ISO 21342)."""
