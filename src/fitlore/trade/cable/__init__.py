"""Cable: cross-sections, gauges and strands, and the volts lost in them."""
