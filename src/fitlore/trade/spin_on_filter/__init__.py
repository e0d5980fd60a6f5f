"""Oil filters that screw on: thread, sealing ring, height and valves as one designation."""
