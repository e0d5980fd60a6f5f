"""Words as people type them: folded, split, cut to their stem, and the words for a side taken out."""

from __future__ import annotations

import functools
import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from typing import Final, NamedTuple

from fitlore.graph.shorthand import MEANT, SPELT, STROKES

_UMLAUTS: Final = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "æ": "ae", "ø": "oe", "œ": "oe"})
_FOR: Final = re.compile(r"\b(?:for|of|fuer|fur|von|vom|zum|zur|pour|para)\b")
_WORD: Final = re.compile(r"[^\W_]+")
_EMPTY: Final = frozenset(
    {
        "a", "an", "and", "the", "of", "on", "to", "my", "der", "die", "das", "den", "dem", "des", "ein",
        "eine", "fuer", "und", "am", "im", "le", "la", "les", "de", "du", "et", "el", "los",
        "las", "del", "y", "for", "in", "at", "with", "from", "vom", "von", "zum", "zur", "fur", "pour", "para",
        "al", "au", "aux", "con", "en",
    }
)  # fmt: skip
"""Words that carry nothing; dropped from names and questions alike."""

_SAME: Final[dict[str, str]] = {
    word: meant
    for meant, words in {
        "front": "frt vo vorn vorne vordere vorderer vorderes vorderen vordern av avant avants delantero delantera delanteros"
        " delanteras fore",
        "rear": "rr back hi hinten hintere hinterer hinteres hinteren ar arriere arrieres trasero trasera traseros traseras",
        "upper": "upr top oben obere oberer oberes oberen superieur superieure superior superiores",
        "lower": "lwr bottom unten untere unterer unteres unteren inferieur inferieure inferior inferiores",
        "inner": "inside innen innere innerer inneres inneren interieur interieure interior",
        "outer": "outside aussen aeussere aeusserer aeusseres aeusseren exterieur exterieure exterior",
    }.items()
    for word in words.split()
}
"""Words for where, that names of assemblies carry."""
ENDS: Final = {
    **{end: end for end in ("front", "rear", "upper", "lower", "inner", "outer")},
    "vorderachse": "front",
    "hinterachse": "rear",
    "axle": "",
}
"""Words that say where on a car a thing sits and not what it is, and the end they mean."""
APART: Final = frozenset({"inner", "outer"})
"""Those that make another part of it as often: an outer tie rod is a tie rod's end, and an inner wing is no wing."""


_AGAINST: Final = {
    one: other
    for pair in (("front", "rear"), ("upper", "lower"), ("inner", "outer"), ("left", "right"))
    for one, other in (pair, pair[::-1])
}


def speak_against(wanted: Iterable[str], name: frozenset[str]) -> bool:
    """Whether a name says the other end or side than one that is wanted: `rear` was typed, and it is `front`."""
    return any(_AGAINST.get(word) in name and word not in name for word in wanted)


def read_ends(typed: Sequence[str]) -> frozenset[int]:
    """Which of the words say at which end something sits; `axle` does so beside `front` or `rear` only."""
    axle = {"front", "rear"} & set(typed)
    return frozenset(at for at, word in enumerate(typed) if ENDS.get(word) or (axle and word in ENDS))


def fold(text: str) -> str:
    """Case, compatibility forms and accents folded; German umlauts become two letters (ä is ae, ß is ss)."""
    folded = unicodedata.normalize("NFKC", text).casefold().translate(_UMLAUTS)
    return "".join(c for c in unicodedata.normalize("NFKD", folded) if not unicodedata.combining(c))


def words(text: str) -> tuple[str, ...]:
    """The words of a name or question, folded, without those that carry nothing (unless there is no other)."""
    text = fold(text)
    for pattern, instead in STROKES:
        text = pattern.sub(instead, text)
    found = [_SAME.get(word) or SPELT.get(word, word) for word in _WORD.findall(text)]
    return tuple([word for word in found if word not in _EMPTY] or found)


LANGUAGES: Final = ("en", "de", "fr", "es")
_ENDINGS: Final[dict[str, re.Pattern[str]]] = {
    "en": re.compile(r"(?:(?<=ch)|(?<=sh)|(?<=x)|(?<=ss)|(?<=zz))es$|(?<![su])s$"),
    "de": re.compile(r"(?<=...)(?:ern|en|er|es|e|n|s)$"),
    "fr": re.compile(r"(?<=...)[sx]$"),
    "es": re.compile(r"(?<=...[^aeiou])es$|(?<=...)s$"),
}


@functools.lru_cache(maxsize=1024)
def meant(word: str) -> tuple[str, ...]:
    """The words that a shortened one stands for; none where it stands for nothing but itself."""
    return words(MEANT[word]) if word in MEANT else ()


def head_of(text: str) -> int:
    """Which of the words of a text stands before its first `for`, `of` or the like; -1 where there is none."""
    before = _FOR.split(fold(text), maxsplit=1)
    return len(words(before[0])) - 1 if len(before) > 1 and before[0].strip() else -1


def bare(word: str) -> str:
    """A folded word as typed by somebody whose keyboard lacks the accents: `rueck` is `ruck`."""
    return word.replace("ae", "a").replace("oe", "o").replace("ue", "u")


@functools.lru_cache(maxsize=4096)
def stem(word: str, language: str) -> str:
    """A folded word without the ending of its plural, by the rules of one of the four languages; rough but even-handed."""
    word = bare(word)
    if language == "en" and word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    return _ENDINGS[language].sub("", word)


class Side(NamedTuple):
    """A word for a side: as typed, the side it means (`left`, `right`, `both`), or what has to be known first."""

    text: str
    side: str
    asks: str = ""
    """`country` (which side of the road) or `steering` (where the driver sits), where the side is not known without."""
    at: tuple[int, ...] = ()
    """Which of the typed words it is."""


_FIXED: Final[dict[str, str]] = {
    "left": "left", "lh": "left", "lhs": "left", "li": "left", "links": "left", "linke": "left", "linker": "left",
    "linkes": "left", "linken": "left", "gauche": "left", "izquierdo": "left", "izquierda": "left", "izq": "left",
    "right": "right", "rh": "right", "rhs": "right", "re": "right", "rechts": "right", "rechte": "right", "rechter": "right",
    "rechtes": "right", "rechten": "right", "dcho": "right", "dcha": "right", "droite": "right", "droit": "right",
    "derecho": "right", "derecha": "right", "both": "both", "beide": "both", "beiden": "both",
    "beidseitig": "both", "ambos": "both",
}  # fmt: skip
_KERB: Final = {
    "nearside": True,
    "ns": True,
    "offside": False,
    "os": False,
    "kerbside": True,
    "curbside": True,
}
_DRIVER: Final = {
    "driver": True, "drivers": True, "driverside": True, "fahrerseite": True, "fahrer": True,
    "passenger": False, "passengers": False, "passengerside": False, "beifahrerseite": False, "beifahrer": False,
    "fahrertuer": True, "beifahrertuer": False,
}  # fmt: skip
_PAIRS: Final = {("near", "side"): "nearside", ("off", "side"): "offside", ("kerb", "side"): "kerbside"}
_KEEPS_LEFT: Final = frozenset(
    {
        "AU", "CY", "GB", "GG", "HK", "ID", "IE", "IM", "IN", "JE", "JP", "KE", "LK", "MT", "MY", "NZ",
        "PK", "SG", "TH", "UK", "ZA",
    }
)  # fmt: skip
_KEEPS_RIGHT: Final = frozenset(
    {
        "AR", "AT", "BE", "BG", "BR", "CA", "CH", "CL", "CN", "CZ", "DE", "DK", "EE", "ES", "FI", "FR",
        "GR", "HR", "HU", "IS", "IT", "LT", "LU", "LV", "MX", "NL", "NO", "PL", "PT", "RO", "RS", "SE",
        "SI", "SK", "TR", "UA", "US",
    }
)  # fmt: skip
"""ISO 3166 codes of countries by the side of the road they keep to (memory); of others the side is asked."""


def read_sides(typed: tuple[str, ...], country: str, steering: str) -> tuple[Side, ...]:
    """The words for a side among these.

    `steering` is the side the driver sits on; `country` an ISO 3166 code: the nearside is the one at the kerb.
    """
    found: list[Side] = []
    for at, word in _candidates(typed):
        side = _side(word, country.upper(), steering)
        if side is not None and not any(set(at) & set(other.at) for other in found):
            found.append(Side(" ".join(typed[i] for i in at), *side, at))
    return tuple(found)


def _candidates(typed: tuple[str, ...]) -> Iterator[tuple[tuple[int, ...], str]]:
    for here in range(len(typed)):
        pair = typed[here : here + 2]
        if pair in _PAIRS:
            yield (here, here + 1), _PAIRS[pair]
        elif len(pair) == 2 and pair[1] in ("side", "hand") and (pair[0] in _FIXED or pair[0] in _DRIVER):
            yield (here, here + 1), pair[0]
        elif len(pair) == 2 or typed[here] not in ("driver", "passenger"):
            yield (here,), typed[here]


def _side(word: str, country: str, steering: str) -> tuple[str, str] | None:
    if word in _FIXED:
        return _FIXED[word], ""
    if word in _KERB:
        if country not in _KEEPS_LEFT | _KEEPS_RIGHT:
            return "", "country"
        return ("left" if (country in _KEEPS_LEFT) == _KERB[word] else "right"), ""
    if word in _DRIVER:
        if steering not in ("left", "right"):
            return "", "steering"
        return (steering if _DRIVER[word] else "left" if steering == "right" else "right"), ""
    return None
