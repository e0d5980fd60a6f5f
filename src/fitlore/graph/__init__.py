"""Joins the records of all books up so that they can be asked: a store, a snapshot of it, named queries, look-up by word."""
