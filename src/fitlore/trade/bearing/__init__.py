"""Rolling bearings: designations of ISO 15, ISO 355 and ABMA 19.2, and the letters behind them."""
