"""Gas struts: open and closed length, force at 20 degrees, ends."""
