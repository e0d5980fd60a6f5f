"""Senders by their ohms, and switches by what their contact does where."""
