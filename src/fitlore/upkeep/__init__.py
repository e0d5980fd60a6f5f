"""Keeps the knowledge sound, and is the only way to change it."""
