"""Belts of accessory drives: V belts (ISO 2790, ISO 4184) and ribbed belts (ISO 9981, ISO 9982)."""
