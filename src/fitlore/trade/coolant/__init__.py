"""Engine coolants: kind of additive, share of glycol, frost limit."""
