"""Part numbers: when two spellings are the same number."""

from __future__ import annotations

import functools
import re
import unicodedata
from typing import Final

_SEPARATORS: Final = re.compile(r"[\s.\-_/‐‑‒–—−∕·]+")


@functools.lru_cache(maxsize=8192)
def number_key(text: str) -> str:
    """The look-up key of a part number: compatibility forms folded, upper case, separators dropped, all else kept.

    Leading zeros, side digits, class letters and revision letters stay: they are significant unless the issuer says not.
    """
    return _SEPARATORS.sub("", unicodedata.normalize("NFKC", text)).upper()
