"""Relays and flashers: contacts, layouts, coils and loads."""
