"""Says what can be true: frozen records, each knowing where it was written, and the two shapes every room speaks."""
