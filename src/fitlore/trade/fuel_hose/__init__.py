"""Fuel hoses: standard and type, what pressure they stand, bore, and the fuel."""
