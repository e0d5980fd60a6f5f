"""The green estate at Lowbarn as plain data: an invented job (makers, shops, prices are ours), every number stated.

A Kestin Tolland estate with a Velm Packet's rear axle; fifteen findings, of which twelve must be put right; eight
suppliers. Money in pence, minutes whole, days from Thursday 3 December.
"""

from __future__ import annotations

import msgspec

from fitlore.sourcing.problem import (
    CERTAIN,
    Bring,
    Limits,
    Mode,
    Need,
    Offer,
    Option,
    Otherwise,
    Problem,
    SharedWork,
    Supplier,
    Trip,
    Want,
)

HOUR = 1200
FUEL_PER_KM = 18
TIN = 62000
RESERVE = 4000
MINUTES = 1080
IN_HAND_BY = 6


def _tariff(fee: int, free_from: int | None = None, minimum: int = 0) -> tuple[Mode, ...]:
    paid = Mode("carriage", fee, minimum=minimum)
    if free_from is None:
        return (paid,)
    return paid, Mode("free", 0, least_spend=free_from, minimum=minimum)


def suppliers(factor_free_from: int = 7500) -> tuple[Supplier, ...]:
    """Eight suppliers; the factor's basket is carried free from 75.00, that amount included."""
    return (
        Supplier("agent", _tariff(750), trips=("to-agent",)),
        Supplier("factor", _tariff(600, factor_free_from, 1000)),
        Supplier("postal", _tariff(695, 9000, 1500)),
        Supplier("yard", trips=("to-yard",)),
        Supplier("field"),
        Supplier("rewinder", trips=("to-rewinder",)),
        Supplier("counter", trips=("to-counter",)),
        Supplier("tyrebay", trips=("to-tyrebay",)),
    )


SUPPLIERS = suppliers()

# Kilometres are one way, minutes there and back.
TRIPS = tuple(
    Trip(f"to-{name}", 2 * km * FUEL_PER_KM, minutes)
    for name, km, minutes in (
        ("agent", 14, 40),
        ("yard", 22, 90),
        ("rewinder", 38, 75),
        ("counter", 9, 25),
        ("tyrebay", 6, 60),
    )
)


def _offer(name: str, supplier: str, price: int, days: int, brings: str, pull: int = 0) -> Offer:
    items = (text.split("*") for text in brings.split())
    packs = tuple(Bring(item[0], int(item[1]) if len(item) > 1 else 1) for item in items)
    return Offer(name, supplier, price, packs, days=days, minutes=pull)


OFFERS = (
    _offer("F-axle-set", "factor", 2830, 1, "cyl222*2 fluid"),
    _offer("F-cyl", "factor", 1540, 1, "cyl222"),
    _offer("P-cyl", "postal", 1390, 4, "cyl222"),
    _offer("F-fluid", "factor", 620, 1, "fluid"),
    _offer("P-fluid", "postal", 590, 4, "fluid"),
    _offer("A-joint-old", "agent", 2400, 8, "jointold"),
    _offer("P-joint-old", "postal", 1750, 4, "jointold"),
    _offer("F-joint-new", "factor", 890, 1, "jointnew"),
    _offer("P-joint-new", "postal", 860, 4, "jointnew"),
    _offer("F-rod-new", "factor", 1450, 1, "rodnew"),
    _offer("Y-rod-ostra", "yard", 300, 2, "rodnew", pull=10),
    _offer("C-bush", "counter", 620, 1, "bush"),
    _offer("P-arm-pair", "postal", 5400, 4, "armpair"),
    _offer("A-arm", "agent", 6400, 3, "arm"),
    _offer("F-damper", "factor", 1890, 1, "damper"),
    _offer("P-damper-pair", "postal", 3600, 7, "damper*2"),
    _offer("P-damper", "postal", 2150, 4, "damper"),
    _offer("F-rad", "factor", 8400, 1, "radiator"),
    _offer("P-rad", "postal", 7100, 7, "radiator"),
    Offer("R-rad-xch", "rewinder", 4800, (Bring("radiator"),), days=2, surcharge=2500, returned=7000),
    _offer("F-hose-corva", "factor", 940, 1, "hosecorva"),
    _offer("P-hose-corva", "postal", 790, 4, "hosecorva"),
    _offer("F-cool-set", "factor", 1330, 1, "thermostat coolant"),
    _offer("F-thermostat", "factor", 690, 1, "thermostat"),
    _offer("P-thermostat", "postal", 480, 4, "thermostat"),
    _offer("F-coolant", "factor", 870, 1, "coolant"),
    _offer("P-coolant", "postal", 740, 4, "coolant"),
    _offer("F-alt", "factor", 9600, 1, "alternator"),
    _offer("P-alt", "postal", 7900, 7, "alternator"),
    Offer("R-alt-xch", "rewinder", 5000, (Bring("alternator"),), days=2, surcharge=3000, returned=9000),
    _offer("Y-alt-corva", "yard", 2500, 2, "altcorva", pull=20),
    _offer("F-brushpack", "factor", 1350, 1, "brushpack"),
    _offer("P-brushpack", "postal", 1180, 4, "brushpack"),
    _offer("C-altbearings", "counter", 780, 1, "altbearings"),
    _offer("A-resistor", "agent", 3800, 8, "resistor"),
    _offer("P-resistor", "postal", 2700, 4, "resistor"),
    _offer("Y-resistor-ostra", "yard", 500, 2, "resostra", pull=15),
    _offer("F-stopswitch", "factor", 790, 1, "stopswitch"),
    _offer("P-stopswitch", "postal", 640, 4, "stopswitch"),
    _offer("A-lamp", "agent", 5800, 3, "lamp"),
    _offer("P-lamp", "postal", 3600, 4, "lamp"),
    _offer("Y-lamp", "yard", 1500, 2, "lamp", pull=10),
    _offer("T-tyre", "tyrebay", 4300, 1, "tyrefitted"),
    _offer("P-tyre", "postal", 3350, 4, "tyre"),
    _offer("T-fit", "tyrebay", 900, 1, "tyrefitting"),
    _offer("T-tracking", "tyrebay", 2800, 1, "tracking"),
    _offer("F-struts", "factor", 3190, 1, "strut*2"),
    _offer("P-strut", "postal", 1450, 4, "strut"),
    _offer("Y-seat-corva", "yard", 3000, 2, "seatcorva", pull=20),
    _offer("P-seatcover", "postal", 2200, 4, "seatcover"),
    _offer("Y-winder-corva", "yard", 1200, 2, "winder", pull=25),
    _offer("P-winder", "postal", 3900, 4, "winder"),
    _offer("F-earthtag", "factor", 150, 1, "filler"),
    # The whole saloon: its tyres are over the shop's age limit, so they count for nothing.
    Offer(
        "Q-donor-corva",
        "field",
        19000,
        tuple(
            Bring(item)
            for item in ("radcorva", "altcorva-heard", "seatcorva", "winder", "hosecorva", "resostra")
        ),
        days=2,
        minutes=360,
        back=8000,
        most=1,
    ),
)

SHARED = (
    SharedWork("coolant-out", minutes=30, wants=(Want(("coolant",)),)),
    SharedWork("bleed", minutes=25, wants=(Want(("fluid",)),)),
    SharedWork("arms-off", minutes=60),
    SharedWork("tracking", wants=(Want(("tracking",)),)),
)

MUST = (
    "wheel-cylinders",
    "track-rod-end",
    "arm-bush",
    "rear-dampers",
    "radiator",
    "thermostat",
    "alternator",
    "blower-resistor",
    "stop-lamp-switch",
    "rear-lamp-right",
    "front-tyres",
    "front-indicator-left",
)
NOTHING = Otherwise()
EXTRAS = ("tailgate-struts", "drivers-seat", "window-winder-right")


def _option(
    name: str,
    wants: str = "",
    minutes: int = 0,
    shared: str = "",
    adds: int = 0,
    money: int = 0,
    succeeds: int = CERTAIN,
    otherwise: Otherwise = NOTHING,
) -> Option:
    pairs = (text.split("*") for text in wants.split())
    asked = tuple(Want((pair[0],), int(pair[1]) if len(pair) > 1 else 1) for pair in pairs)
    need = name.split("/")[0]
    works = tuple(shared.split())
    return Option(name, need, money, minutes, adds, asked, works, succeeds, otherwise)


OPTIONS = (
    _option("wheel-cylinders/renew-both", "cyl222*2", 100, "bleed"),
    _option("track-rod-end/old-joint", "jointold", 45, "tracking"),
    _option("track-rod-end/new-joint-and-rod", "jointnew rodnew", 55, "tracking"),
    _option("arm-bush/press-two-bushes", "bush*2", 80, "arms-off tracking"),
    _option("arm-bush/arm-pair", "armpair", 10, "arms-off tracking"),
    _option("arm-bush/agent-arms", "arm*2", 10, "arms-off tracking"),
    _option("rear-dampers/renew-both", "damper*2", 60),
    _option("radiator/like-for-like", "radiator", 45, "coolant-out"),
    _option("radiator/corva", "radcorva hosecorva", 80, "coolant-out"),
    _option(
        "radiator/solder", "", 120, "coolant-out", money=400, succeeds=2000, otherwise=Otherwise(8400, 0)
    ),
    _option("thermostat/renew", "thermostat", 15, "coolant-out"),
    _option("alternator/like-for-like", "alternator", 35),
    _option("alternator/corva-untested", "altcorva", 60, succeeds=6000, otherwise=Otherwise(9600, 35)),
    _option("alternator/corva-heard-charging", "altcorva-heard", 60),
    _option(
        "alternator/refurbish", "brushpack altbearings", 125, succeeds=7500, otherwise=Otherwise(9600, 35)
    ),
    _option("blower-resistor/like-for-like", "resistor", 30),
    _option("blower-resistor/ostra-or-corva", "resostra", 45),
    _option("stop-lamp-switch/renew", "stopswitch", 15, "bleed"),
    _option("rear-lamp-right/like-for-like", "lamp", 15),
    _option("front-tyres/bay", "tyrefitted*2"),
    _option("front-tyres/bring-tyres", "tyre*2 tyrefitting*2", 10),
    _option("front-indicator-left/clean-earth", "", 20, succeeds=8000, otherwise=Otherwise(1100, 15)),
    _option("tailgate-struts/pair", "strut*2", 15, adds=3500),
    _option("drivers-seat/corva-seat", "seatcorva", 60, adds=6000),
    _option("drivers-seat/cover", "seatcover", 15, adds=2500),
    _option("window-winder-right/renew", "winder", 45, adds=3000),
)

GREEN_ESTATE = Problem(
    needs=tuple(Need(name) for name in MUST) + tuple(Need(name, must=False) for name in EXTRAS),
    options=OPTIONS,
    offers=OFFERS,
    suppliers=SUPPLIERS,
    shared=SHARED,
    trips=TRIPS,
    limits=Limits(minutes=MINUTES, cash=TIN - RESERVE, days=IN_HAND_BY),
    hour_worth=HOUR,
)


def with_limits(problem: Problem = GREEN_ESTATE, **changes: object) -> Problem:
    """The job with some limits changed."""
    limits = msgspec.structs.replace(problem.limits, **changes)
    return msgspec.structs.replace(problem, limits=limits)
