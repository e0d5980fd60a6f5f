"""Terminals: tabs, rings and bullets by size, and the numbers and letters beside them."""
