"""Road wheels: rim, bolt circle, offset, centre bore and seat as one designation."""
