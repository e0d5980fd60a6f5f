"""Texts that are near to the spellings a family shows, or leave something open."""

from __future__ import annotations

from typing import Final

NEAR: Final[dict[str, list[str]]] = {
    "spark-plug": [
        "spark plug M14x1.25, conical seat, reach 19 mm",
        "spark plug M14x1.25, flat seat, reach 12 mm, resistor, heat 5 of Merrow",
        "spark plug M14x1.25, flat seat, reach 19 mm, heat 7 of Brede, plain tip",
        "spark plug M14x1.25, flat seat, heat 7, reach 19 mm",
        "spark plug M14x1.5, flat seat, reach 19 mm",
        "plug M14x1.25",
    ],
    "gas-strut": [
        "gas strut 505/318 mm, 380 N, both ends ball 10 mm",
        "gas strut 505/305 mm, 300 N, both ends ball 13 mm",
        "gas strut 505/305 mm, 380 N, rod stud M8, tube ball 10 mm",
        "gas strut 530/305 mm, 380 N, both ends ball 10 mm",
        "gas strut 505/305 mm, both ends ball 10 mm",
        "gas strut 505/252.5 mm, 380 N, both ends ball 10 mm",
        "gas strut",
    ],
    "fuel-hose": [
        "fuel hose SAE J30R6, bore 8 mm",
        "fuel hose SAE J30R10, bore 8 mm",
        "fuel hose SAE J30R12, bore 8 mm",
        "fuel hose R14T2, bore 8 mm",
        "fuel hose R11, bore 8 mm, petrol",
        "DIN 73379 2B fuel hose 8 mm",
        "injection hose 8.6 mm, 3 bar, diesel",
        "R7 injection hose 8 mm",
        "fuel hose 8 mm, 10 bar",
        "fuel hose 8 mm",
    ],
    "spin-on-filter": [
        "oil filter M20x1.5, gasket 72 mm",
        "oil filter 3/4-16 UNF, gasket 70 mm, no anti-drain",
        "oil filter 3/4",
    ],
    "hose": ["6 mm hose", "hose, vacuum, bore 32 mm", "fuel hose 8 mm", "hose"],
    "hose-clip": [
        "hose clip 40-60 mm",
        "hose clip for 52 mm",
        "spring clip 24 mm",
        "wire hose clip 30-40 mm",
        "clip",
    ],
    "thermostat": ["thermostat 88", "thermostat, no bypass, opens 82 C", "thermostat"],
    "radiator-cap": [
        "16 psi radiator cap",
        "radiator cap 0.9 bar, no return valve, reach 12 mm",
        "radiator cap 13",
    ],
    "lambda-probe": ["lambda probe titania 4 wires", "lambda probe zirconia 5 wires", "lambda probe M18x1.5"],
    "damper": [
        "damper 520/345 mm, top stud 10 mm, bottom eye 12 mm",
        "damper 500/330 mm, top eye, bottom eye",
        "damper",
    ],
}
