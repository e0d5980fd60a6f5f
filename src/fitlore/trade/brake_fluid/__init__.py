"""Brake fluids: base, grade, boiling points, thickness in the cold."""
