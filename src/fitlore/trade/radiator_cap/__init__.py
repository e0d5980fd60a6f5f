"""Radiator caps: pressure, reach, neck and valves."""
