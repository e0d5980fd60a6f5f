"""Which families of standards there are: the kind a feature has, and the package of this room that knows it.

A package has `tables.py` with `SECTIONS` (what its rows look like; needed only when tables are read) and `family.py` with
`FAMILIES` (kind to family). Both are imported when first needed, so that an answer pays only for the families it meets.
"""

from __future__ import annotations

from typing import Final

KINDS: Final[dict[str, str]] = {
    "thread": "thread",
    "pipe-union": "pipe_union",
    "wheel-fixing": "wheel_fixing",
    "property-class": "property_class",
    "spanner": "spanner",
    "bolt": "bolt",
    "bearing": "bearing",
    "o-ring": "o_ring",
    "shaft-seal": "shaft_seal",
    "circlip": "circlip",
    "key": "key",
    "belt": "belt",
    "toothed-belt": "toothed_belt",
    "lamp": "lamp",
    "fuse": "fuse",
    "relay": "relay",
    "flasher": "relay",
    "terminal": "terminal",
    "terminal-number": "terminal",
    "cable": "cable",
    "sender": "sender",
    "switch-contact": "sender",
    "ignition-coil": "ignition_coil",
    "battery": "battery",
    "tyre": "tyre",
    "tyre-date": "tyre",
    "wheel": "wheel",
    "vin": "vin",
    "brake-fluid": "brake_fluid",
    "spin-on-filter": "spin_on_filter",
    "thermostat": "thermostat",
    "radiator-cap": "radiator_cap",
    "lambda-probe": "lambda_probe",
    "damper": "damper",
    "hose": "hose",
    "hose-clip": "hose",
    "engine-oil": "oil",
    "gear-oil": "oil",
    "coolant": "coolant",
    "hand": "hand",
    "spark-plug": "spark_plug",
    "gas-strut": "gas_strut",
    "fuel-hose": "fuel_hose",
}
"""Feature kind to the package under `fitlore.trade`."""
