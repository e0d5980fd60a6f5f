"""Sentences on fluids, hoses, spark plugs, probes, struts and thermostats."""

from __future__ import annotations

from typing import Final

_BRAKE: Final = {
    "brake-fluid-same": "same fluid: {offered}",
    "brake-fluid-ok": "{offered} serves where {needed} is asked for; of a mixture the lower grade counts",
    "brake-fluid-off": "{offered} does not serve where {needed} is asked for: {what}",
    "brake-fluid-unreadable": "{offered} where {needed} is asked for: not known yet: {what}",
    "brake-fluid-base-same": "both are {base}",
    "brake-fluid-trap-seals": "{offered} is {offered-base}, {needed} is {needed-base}: it goes in as easily and spoils the "
    "rubber, which is {rubber} here; cups swell, brakes drag or fail. Once in, all rubber has to be renewed",
    "brake-fluid-trap-parts": "{offered} is {offered-base}, {needed} is {needed-base}: the numbers are no ladder; the two stay "
    "apart in layers, hold air and water in pockets and boil there. Never together; a change of base means clean pipes and new "
    "rubber",
    "brake-fluid-tell": "{base}: {colour}; put a few drops in water: {water}",
    "brake-fluid-boils-ok": "{what} at least {offered}, needed {needed}",
    "brake-fluid-boils-low": "{what} at least {offered} only, needed {needed}: it may boil in a long descent",
    "brake-fluid-cold-ok": "at most {offered} mm²/s at -40 °C, needed {needed}",
    "brake-fluid-cold-little": "up to {offered} mm²/s at -40 °C where {needed} is the limit: a little slower in deep frost",
    "brake-fluid-cold-thick": "up to {offered} mm²/s at -40 °C where the valves are made for {needed}: "
    "too slow in the cold",
    "brake-fluid-class-unsaid": "{offered} alone does not promise {needed}; look on the bottle for the ISO class",
    "brake-fluid-unknown": "{text} is no brake fluid; write such as {expected}",
    "brake-fluid-grade": "{text}: no such grade is listed; write such as {expected}",
    "brake-fluid-either": "{text} leaves the choice; write each grade by itself: {expected}",
    "brake-fluid-two-bases": "{text} names two bases that never meet; which is it: {expected}",
    "brake-fluid-no-grade": "{text} does not say its grade; read the bottle, or the cap of the reservoir: {expected}",
}

_KINDS: Final = {
    f"{kind}-{code}": sentence
    for kind in ("engine-oil", "gear-oil")
    for code, sentence in {
        "same": "same oil: {offered}",
        "ok": "{offered} serves where {needed} is asked for",
        "off": "{offered} does not serve where {needed} is asked for: {what}",
        "trap": "{offered} goes in where {needed} is asked for and does harm there: {what}",
        "unreadable": "{offered} where {needed} is asked for: not known yet: {what}",
    }.items()
}

_OIL: Final = {
    "engine-oil-unknown": "{text} is no engine oil; write such as {expected}",
    "gear-oil-unknown": "{text} is no gear oil; write such as {expected}",
    "engine-oil-of-gears": "{text} is a gear oil, of another scale; for an engine write such as {expected}",
    "oil-grade": "{text}: no such grade, or grades of two scales; write such as {expected}",
    "oil-class": "{text}: no such class of service is listed; write such as {expected}",
    "oil-unsaid": "{offered} does not say its {what}; needed {needed}: read the can",
    "oil-hot-ok": "SAE {offered} when hot: {offered-band} mm²/s at 100 °C",
    "oil-hot-old": "SAE {offered} ({offered-band} mm²/s at 100 °C) lies in what SAE {needed} was before 2005 ({old-band})",
    "oil-hot-thin": "SAE {offered} is thinner when hot than SAE {needed}: {offered-band} for {needed-band} mm²/s at 100 °C",
    "oil-hot-thick": "SAE {offered} is thicker when hot than SAE {needed}: {offered-band} for {needed-band} mm²/s at 100 °C; "
    "where the handbook allows it, list it too",
    "oil-cold-ok": "{offered} flows down to {offered-at} °C, needed {needed-at} °C",
    "oil-cold-none": "{offered} promises nothing in the cold; {needed} flows down to {needed-at} °C",
    "oil-cold-stiff": "{offered} flows down to {offered-at} °C only; {needed} down to {needed-at} °C",
    "oil-scales-apart": "{offered} is of the {offered-scale} scale, {needed} of the {needed-scale} scale: {offered-band} for "
    "{needed-band} mm²/s at 100 °C",
    "oil-scales-near": "{offered} is of the {offered-scale} scale, {needed} of the {needed-scale} scale; about as thick "
    "({offered-band} for {needed-band} mm²/s at 100 °C), but made for other work: ask what the maker of the box allows",
    "oil-class-ok": "class {offered} for {needed}",
    "oil-class-open": "{needed} does not say which class belongs there; {offered} does: look up whether brass or bronze runs in "
    "it, and whether it is a hypoid drive",
    "oil-class-unsaid": "{offered} does not say its class of service; needed {needed}: read the can",
    "oil-class-low": "class {offered} is older than {needed}[; it was meant for cars up to {until}]",
    "oil-class-alone": "class {offered} is later than {needed}, but does not include it: ask what the can says of {needed}",
    "oil-class-lean": "class {offered} includes {needed}, but in grades up to SAE {grade} holds phosphorus to {phosphorus} %: "
    "said to be too little for sliding cam followers. Ask for its data sheet, or take a thicker grade of the class",
    "oil-class-weak": "class {offered} for {needed}: too little under the pressure of {for}",
    "oil-class-trap-yellow": "class {offered} for {needed} is no step up: made for hypoid drives, its additives can attack brass "
    "synchro rings and let them slip. Tellers disagree on how much harm it does",
    "oil-class-both": "{offered} claims both for {needed}: the stronger one may harm brass; ask for its word on yellow metal",
    "oil-class-plain": "{offered} for {needed}: it has additives where plain oil is asked for; ask, for clutches and bronze",
    "oil-tell-yellow": "only the can tells the two apart; of the old oil put a drop on white paper in the sun: a golden "
    "shimmer is brass",
    "oil-ep-ok": "{offered} is an oil for gears under pressure",
    "oil-ep-none": "{offered} is no oil for gears under pressure",
    "oil-ep-strong": "{offered} for EP alone: is it a hypoid drive, or a box with brass rings? Look in the handbook",
}

_COOLANT: Final = {
    "coolant-same": "same coolant: {offered}",
    "coolant-ok": "{offered} serves where {needed} is asked for",
    "coolant-ok-with-work": "{offered} serves where {needed} is asked for, with work: {what}",
    "coolant-off": "{offered} does not serve where {needed} is asked for: {what}",
    "coolant-unreadable": "{offered} where {needed} is asked for: not known yet: {what}",
    "coolant-additive-same": "same kind of additive: {offered}",
    "coolant-additive-open": "which kind of additive belongs there is not said; {offered} is offered: look in the handbook, "
    "never at the colour",
    "coolant-additive-unsaid": "the kind of additive is not said; needed {needed}: read the can and never the colour",
    "coolant-old-system": "{offered} ({offered-holds}) for {needed} ({needed-holds}): is the system open, with its overflow to "
    "the ground? Then {needed} only. Sealed ones take it after a rinse; on solder and copper tellers disagree",
    "coolant-short-life": "{offered} ({offered-holds}) for {needed} ({needed-holds}): its filling is used up years sooner",
    "coolant-additive-other": "{offered} ({offered-holds}) for {needed} ({needed-holds}): kinds are not mixed; ask the maker of "
    "the coolant",
    "coolant-paper": "it says {needed}",
    "coolant-no-paper": "{offered} does not say {needed}: read the can",
    "coolant-strength-unsaid": "{offered} does not say how strong it is: concentrate, or mixed for which frost?",
    "coolant-watered": "{offered} is mixed with water already: no concentrate",
    "coolant-mixed": "{offered} is mixed already",
    "coolant-mix-first": "{offered} is to be mixed with soft water before it goes in",
    "coolant-mix": "mix {share} of it with soft water for {needed}",
    "coolant-frost-ok": "it stands {offered}, needed {needed}",
    "coolant-frost-weak": "it stands {offered} only, needed {needed}",
    "coolant-unknown": "{text} is no coolant; write such as {expected}",
    "coolant-several": "{text} names several kinds of additive; which is it: {expected}",
    "coolant-colour": "{text} says a colour, which is no kind: the same colour is on different ones; read the can",
    "coolant-bare": "{text} says neither kind nor strength; write such as {expected}",
    "coolant-strength": "{text}: such a mixture is in no table here; write such as {expected}",
    "coolant-both": "{text} is a concentrate and mixed at once; which is it?",
}

FLUID: Final[dict[str, str]] = {**_BRAKE, **_KINDS, **_OIL, **_COOLANT}
