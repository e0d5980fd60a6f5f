"""Words, tables, JSON and pages: says what was decided, and decides nothing."""
