"""Words as the trade shortens and spells them, on job cards, parcels and telephones. Common practice throughout.

A shortened word is read as the words it stands for, and also as itself where some name has it: `rad` is a radiator, and a
German wheel. What is written with strokes or full stops (`g/box`, `h.l.`) is put together first.
"""

from __future__ import annotations

import re
from typing import Final

_AT: Final = {
    "vl": "vorn links", "vr": "vorn rechts", "hl": "hinten links", "hr": "hinten rechts",
    "avg": "avant gauche", "avd": "avant droite", "arg": "arriere gauche", "ard": "arriere droite",
    "lf": "left front", "rf": "right front", "lr": "left rear",
}  # fmt: skip
"""End and side in a few letters: `h.l.` and `hl`; the HR of a tyre (`165 HR 13`) stands between figures and is none."""

STROKES: Final = (
    (re.compile(r"\b(?:[dlns]|qu)['’](?=\w)"), ""),
    (re.compile(r"\b([lr])[./ ]?h(?:[./ ]?s)?\b\.?"), r"\1h"),
    (re.compile(r"\b([no])[./]?s[./]?f\b\.?"), r"\1s front"),
    (re.compile(r"\b([no])[./]?s[./]?r\b\.?"), r"\1s rear"),
    (re.compile(r"\b([no])[./]s\b\.?"), r"\1s"),
    (re.compile(r"\b([vhlr]|av|ar)[./]([lrgdf])\b\.?"), r"\1\2"),
    (re.compile(rf"(?<!\d )\b(?:{'|'.join(_AT)})\b(?! ?\d)"), lambda found: _AT[found[0]]),
    (re.compile(r"\bback-up\b"), "backup"),
    (re.compile(r"\b([a-z])[./]([a-z]{1,4})\b\.?"), r"\1\2"),
    (re.compile(r"\b([aouv])-(?=[a-z]{3})"), r"\1"),
    (re.compile(r"['’]s?\b"), ""),
)
"""Before a folded text is cut at other signs: `d'allumage`, `l/h`, `R.H.S.`, `nsf`, `o/s`, `h.l.`, `u/j`, `m/cyl`, `A-arm`,
`driver's` as words."""

SPELT: Final[dict[str, str]] = {
    word: meant
    for meant, words in {
        "disc": "disk", "discs": "disks", "caliper": "calliper", "calipers": "callipers",
        "carburettor": "carburetter carburetor", "carburettors": "carburetters carburetors",
        "gauge": "gage", "gauges": "gages", "center": "centre", "fiber": "fibre", "gray": "grey", "color": "colour",
        "stabiliser": "stabilizer", "stabilisers": "stabilizers", "immobiliser": "immobilizer", "shocks": "shox",
        "aluminium": "aluminum", "welch": "welsh",
    }.items()
    for word in words.split()
}  # fmt: skip
"""One word in several spellings, British and American, or as it is heard."""

MEANT: Final[dict[str, str]] = {
    "alt": "alternator", "altr": "alternator", "arb": "anti-roll bar", "aux": "auxiliary", "batt": "battery",
    "brg": "bearing", "brgs": "bearings", "brk": "brake", "bkt": "bracket", "carb": "carburettor",
    "carbs": "carburettors", "cat": "catalytic converter", "cond": "condenser", "crank": "crankshaft",
    "cyl": "cylinder", "cyls": "cylinders", "dist": "distributor", "dizzy": "distributor",
    "ecu": "engine control unit", "elec": "electric", "eng": "engine", "exh": "exhaust", "exp": "expansion",
    "fltr": "filter", "flex": "flexible", "flexi": "flexible", "gbox": "gearbox", "gskt": "gasket",
    "hbrake": "handbrake", "hlamp": "headlamp", "hlight": "headlight", "ign": "ignition", "ind": "indicator",
    "inj": "injector", "jnt": "joint", "mcyl": "master cylinder", "mstr": "master", "mtg": "mounting",
    "mtr": "motor", "mntg": "mounting", "pas": "power steering", "ps": "power steering", "pmp": "pump",
    "press": "pressure", "rad": "radiator", "rads": "radiators", "reg": "regulator", "scyl": "slave cylinder",
    "spdo": "speedometer", "speedo": "speedometer", "stat": "thermostat", "strg": "steering", "susp": "suspension",
    "sw": "switch", "tach": "tachometer", "tca": "track control arm", "temp": "temperature",
    "trans": "transmission", "tre": "track rod end", "uj": "universal joint", "volt": "voltage", "whl": "wheel",
    "whls": "wheels",
    "ha": "Hinterachse", "hbz": "Hauptbremszylinder", "hinterachse": "hintere Achse", "kat": "Katalysator",
    "lima": "Lichtmaschine", "stabi": "Stabilisator", "va": "Vorderachse",
    "vorderachse": "vordere Achse", "zkd": "Zylinderkopfdichtung",
    "amort": "amortisseur", "cata": "catalyseur", "retro": "rétroviseur",
}  # fmt: skip
"""Short for what."""
