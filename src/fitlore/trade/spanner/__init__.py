"""Spanners and hexagons: across flats, and the names that mean the bolt."""
