"""Lamps: categories, caps, watts, volts and colours."""
