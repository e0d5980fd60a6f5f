"""What a command says when it could not answer."""

from __future__ import annotations


class CouldNot(Exception):
    """No answer could be formed: one or more lines that say why and what to do. Exit code 2."""
