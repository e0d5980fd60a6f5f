"""Sides of a car: left and right, and the words that mean one of them only with something written beside."""
