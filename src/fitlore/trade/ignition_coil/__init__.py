"""Ignition coils: plain, for a ballast, for a module."""
