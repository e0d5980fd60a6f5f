"""Tyres: size, load, speed and construction as one designation; and the week and year they were made."""
