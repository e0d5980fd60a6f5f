"""Screw threads, behind `fitlore.trade.threads`."""
