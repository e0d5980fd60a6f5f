"""Keys in shafts: parallel keys (DIN 6885) and Woodruff keys (DIN 6888, ANSI B17.2)."""
