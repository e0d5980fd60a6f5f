"""Oils for engines and for gears: two scales of viscosity, and classes of service."""
