"""Finds the cheapest way to get a job's needs, proves the sum, says what blocks."""
