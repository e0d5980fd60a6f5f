"""Lambda probes: what they work by, wires, heater and thread."""
