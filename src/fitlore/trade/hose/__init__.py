"""Hoses for water, air and vapour by their bore, and the clips that hold them."""
