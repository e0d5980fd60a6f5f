"""Reads people's text into records and puts changes back as text; the only room that touches a book."""
