"""Hydraulic pipe unions: thread, flare, pipe and nut as one designation."""
