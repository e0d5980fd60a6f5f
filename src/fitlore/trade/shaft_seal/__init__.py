"""Rotary shaft lip seals (ISO 6194-1, DIN 3760)."""
