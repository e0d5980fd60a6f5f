"""Sentences on service parts: oil filters, hoses and their clips, thermostats, radiator caps, lambda probes, dampers."""

from __future__ import annotations

from typing import Final

_NAMES: Final = {
    "spin-on-filter": "filter",
    "hose": "hose",
    "hose-clip": "clip",
    "thermostat": "thermostat",
    "radiator-cap": "cap",
    "lambda-probe": "probe",
    "damper": "damper",
}
_KINDS: Final = {
    f"{kind}-{code}": sentence
    for kind, name in _NAMES.items()
    for code, sentence in {
        "same": f"same {name}: {{offered}}",
        "ok": "{offered} serves for {needed}",
        "ok-with-work": "{offered} serves for {needed}, with work: {what}",
        "off": "{offered} does not serve for {needed}: {what}",
        "trap": "{offered} goes on for {needed} and is wrong: {what}",
        "unreadable": "{offered} for {needed}: not known yet: {what}",
        "unknown": f"{{text}} is no {name}; write such as {{expected}}",
    }.items()
}

_COMMON: Final = {
    "service-agrees": "{what}: {offered}, needed {needed}",
    "service-other-size": "{what} {offered} where {needed} is needed",
    "service-not-said": "{what} is not said; needed {needed}: look at {look}",
}

_FILTER: Final = {
    "spin-on-filter-thread": "{text}: the thread cannot be read; nearest: {expected}",
    "spin-on-filter-no-thread": "{text} does not say its thread; measure the spigot; filters have {expected}",
    "spin-on-filter-no-gasket": "{text} does not say its sealing ring, which is half of the fit; measure it and write such as "
    "{expected}",
    "spin-on-filter-trap-ring-small": "a ring of {offered} on a seat for {needed}: it screws on and lies partly over the edge "
    "of the port; it holds until cold oil pushes it out, and then the sump is empty in a minute",
    "spin-on-filter-trap-ring-big": "a ring of {offered} on a seat for {needed}: it screws on and lies partly beside the turned "
    "face; it holds until cold oil pushes it out, and then the sump is empty in a minute",
    "spin-on-filter-tell-ring": "oil the ring, screw the can on by hand until it touches, take it off: the print has to lie "
    "whole on the turned face",
    "spin-on-filter-height": "height {offered}, needed {needed}: shorter goes, with less paper",
    "spin-on-filter-tall": "{offered} high where {needed} was: {by} more; it meets what is below, or is the lowest thing of the "
    "car",
    "spin-on-filter-trap-bypass-low": "its valve opens at {offered}, needed {needed}: cold oil passes the paper by",
    "spin-on-filter-trap-bypass-high": "its valve opens at {offered}, needed {needed}: cold or dirty, it starves the engine "
    "before it opens",
    "spin-on-filter-trap-no-bypass": "it has no valve where one of {needed} is needed: blocked, it starves the engine or its "
    "paper bursts",
    "spin-on-filter-tell-bypass": "push a thin stick through the middle hole: a plate at the far end gives against its spring, "
    "or there is none; at what pressure is on the can only",
    "spin-on-filter-second-bypass": "it has a valve ({offered}) where the engine has its own: some engines allow it, ask for "
    "this one",
    "spin-on-filter-trap-drains": "no valve against draining where one is needed: it holds, and every start rattles until it has "
    "filled",
    "spin-on-filter-tell-drain": "the rubber disc under the small holes is seen from outside; blow into one of them: it lets no "
    "air back",
}

_HOSE: Final = {
    "hose-of-fuel": "{text}: such a hose goes by its standard and type, not by its bore alone; this list is for {expected}",
    "hose-no-bore": "{text} does not say its bore; measure the stub and write such as {expected}",
    "hose-bore-listed": "a bore of {offered} for {needed}: both are the listed bore {bore}",
    "hose-bore-alike": "a bore of {offered} for {needed}",
    "hose-bore-tight": "a bore of {offered} on a stub for {needed}: warm it in hot water, then it can be pushed on",
    "hose-bore-small": "a bore of {offered} does not go on a stub for {needed}",
    "hose-bore-big": "a bore of {offered} is plainly too big for a stub for {needed}",
    "hose-trap-loose": "a bore of {offered} on a stub for {needed}: it slides on too easily; the clip draws it into a fold, "
    "and the fold weeps when it is cold",
    "hose-tell-loose": "the right one has to be pushed and turned to go over the bead; one that slides on is too big",
    "hose-not-for-hot-water": "a hose for {offered} is not made for hot coolant ({needed})",
    "hose-trap-vapour": "a hose for {offered} where {needed} is needed: it goes on, and vapour of oil and petrol softens it "
    "from inside; it closes up or splits",
    "hose-trap-suction": "a hose for {offered} where {needed} is needed: it goes on and suction closes it",
    "hose-tell-vapour": "read the print along the hose; without one lay a cut end in oil over night: the wrong rubber swells",
    "hose-tell-suction": "pinch both between two fingers: the right one hardly gives",
    "hose-other-clips": "outside {offered}, needed {needed}: it needs other clips",
    "hose-short": "length {offered}, needed {needed}",
    "hose-long": "length {offered}, needed {needed}: cut it",
    "hose-size": "{size}[ ({certainty})]",
    "hose-clip-size": "{size}[, size {number}][ ({certainty})]",
    "hose-clip-unlisted": "{text}: no such size is listed; write such as {expected}",
    "hose-clip-holds": "{offered} holds what is needed: {needed}",
    "hose-clip-apart": "{offered} does not hold {needed}",
    "hose-clip-overlaps": "{offered} and {needed} agree in part; measure the outside of the hose on its stub",
    "hose-clip-small": "{offered} does not go over a hose {needed}",
    "hose-clip-trap-loose": "{offered} on a hose {needed}: it goes on and sits with little force",
    "hose-clip-big": "{offered} on a hose {needed}: it does not reach the hose",
    "hose-clip-tell-loose": "the right one cannot be turned on the hose by hand",
    "hose-clip-trap-cuts": "{offered} where {needed} is needed: its slots or wires cut into a soft or small hose and do not draw "
    "round evenly",
    "hose-clip-tell-form": "{form}: {tell}",
    "hose-clip-stiff": "{offered} for {needed}: it does not follow a hose that shrinks; tighten it again when it has been warm",
    "hose-clip-narrow": "a band of {offered} where {needed} is needed",
    "hose-clip-wide": "a band of {offered} for {needed}: is there room between the bead and the hose's end?",
}

_COOLING: Final = {
    "thermostat-no-opens": "{text} does not say where it opens; read the frame and write such as {expected}",
    "thermostat-cold": "opens at {offered}, needed {needed}: the engine stays cold, rich and wears; it does not cool better once "
    "both are open",
    "thermostat-hot": "opens at {offered}, needed {needed}: less is left before it boils",
    "thermostat-trap-flange-small": "a flange of {offered} in a recess for {needed}: it goes in and lies askew; water passes it "
    "by",
    "thermostat-tell-flange": "lay it into the recess: the right one cannot be shifted",
    "thermostat-flange-big": "a flange of {offered} does not go into a recess for {needed}",
    "thermostat-trap-flange-thin": "a flange {offered} thick for {needed}: it is not clamped; water passes it by and it warms up "
    "slowly",
    "thermostat-tell-thin": "lay a straight edge over the housing: the right flange is level with it",
    "thermostat-trap-flange-thick": "a flange {offered} thick for {needed}: the cover bends over it and weeps, or its ear breaks",
    "thermostat-tell-thick": "lay a straight edge over the housing: the right flange is level with it",
    "thermostat-low": "height {offered}, needed {needed}: lower goes",
    "thermostat-tall": "height {offered}, needed {needed}: it meets the casting",
    "thermostat-trap-plate-low": "height {offered}, needed {needed}: its plate does not reach the bypass, so that hot water goes "
    "round past the radiator; it boils with the thermostat wide open",
    "thermostat-tell-plate": "hang both in hot water and hold them side by side: the plates have to stand level",
    "thermostat-trap-bypass-open": "{offered} where {needed} closes the bypass: it goes in, and hot water goes round past the "
    "radiator; it boils with the thermostat wide open",
    "thermostat-tell-bypass": "look for a second opening in the housing under the thermostat: what closes it when warm?",
    "thermostat-other-bypass": "{offered} where the housing is made for {needed}",
    "thermostat-plate-meets": "{offered} where the housing is made for {needed}: it meets the casting as it opens",
    "thermostat-drill": "{offered} for {needed}: drill a hole of 3 mm into the flange, or it locks in air",
    "radiator-cap-no-pressure": "{text} does not say a pressure that a cooling system has; read the lid, with its unit, and "
    "write such as {expected}",
    "radiator-cap-weak": "{offered}, needed {needed}: it opens early; water alone boils at {offered-boils} °C under it, not "
    "{needed-boils}",
    "radiator-cap-trap-strong": "{offered} where {needed} is needed: it goes on like the right one, and the weakest part gives, "
    "mostly the heater matrix; water alone boils at {offered-boils} °C under it, not {needed-boils}",
    "radiator-cap-trap-longer": "{offered} where {needed} is needed: the weakest part gives, mostly the heater matrix. By its "
    "standard it reaches {offered-reach} mm, not {needed-reach}, and should not lock; not all caps keep to it",
    "radiator-cap-tell-strong": "pump the cap alone and read where it opens",
    "radiator-cap-neck": "neck {offered}, needed {needed}",
    "radiator-cap-trap-short": "a reach of {offered} in a neck {needed} deep: it locks, and its seal stands free; it holds no "
    "pressure and boils over",
    "radiator-cap-tell-short": "chalk the seat in the neck, lock the cap, take it off: the chalk has to mark the seal all round",
    "radiator-cap-trap-long": "a reach of {offered} in a neck {needed} deep: its spring is pressed before it starts, so that it "
    "opens far above its figure, or bends the lugs",
    "radiator-cap-tell-long": "the right one turns home by hand; one that has to be leaned on is too long",
    "radiator-cap-fixing": "{offered} on a neck for {needed}",
    "radiator-cap-trap-no-return": "{offered} where {needed} is needed: it goes on; cooling down it draws nothing back and "
    "sucks the hoses flat",
    "radiator-cap-tell-return": "lift the small plate in the middle of the seal with a fingernail: it has to move",
}

_PROBE: Final = {
    "lambda-probe-thread": "{text}: the thread cannot be read; nearest: {expected}",
    "lambda-probe-no-works-by": "{text} does not say what it works by; read the box, or look whether it makes a voltage in a "
    "flame: {expected}",
    "lambda-probe-no-wires": "{text} does not say how many wires it has; count them and write such as {expected}",
    "lambda-probe-wires": "{text}: no probe of this kind has so many wires, or is heated with so many; listed: {expected}",
    "lambda-probe-trap-kind": "{offered} where {needed} is needed: it screws in and plugs in, and the control reads it wrong "
    "at once or runs the engine rich until the catalyst melts",
    "lambda-probe-tell-kind": "{works}: {signal}; {tell}",
    "lambda-probe-few-wires": "{offered} wires where {needed} are needed: no heater, or no earth of its own",
    "lambda-probe-more-wires": "{offered} wires where {needed} are needed: what would feed the rest? Ask before wires are joined",
    "lambda-probe-heater": "a heater of {offered}, needed {needed}: the control sees another current",
    "lambda-probe-earth-body": "{offered} where it has {needed}: the rust of the exhaust is in its signal",
    "lambda-probe-earth-wire": "{offered} where it has {needed}: where is its earth to be joined?",
    "lambda-probe-size": "{probe}[ ({certainty})]",
}

_DAMPER: Final = {
    "damper-lengths": "{text}: closed it has to be shorter than open, and longer than a third of it; write such as {expected}",
    "damper-no-open": "{text} does not say its open length; measure it and write such as {expected}",
    "damper-no-closed": "{text} does not say its closed length; push it right in, measure it and write such as {expected}",
    "damper-no-upper-mounting": "{text} does not say its upper mounting; look and write such as {expected}",
    "damper-no-lower-mounting": "{text} does not say its lower mounting; look and write such as {expected}",
    "damper-trap-tops-out": "open {offered}, needed {needed}: it bolts on, and stops the wheel before the strap or the spring "
    "does; its mounting is pulled out",
    "damper-tell-open": "jack the body and let the wheel hang: is there still a little travel left in the damper?",
    "damper-trap-droops": "open {offered}, needed {needed}: it bolts on, and the wheel hangs lower; brake hose and spring may "
    "come to their end first",
    "damper-tell-droop": "jack the body and let the wheel hang: is the spring still in its seat, and the hose slack?",
    "damper-closed-short": "closed {offered}, needed {needed}: shorter goes",
    "damper-trap-bottoms": "closed {offered}, needed {needed}: it bolts on and bottoms {by} before the bump stop; then it "
    "breaks its mounting",
    "damper-tell-closed": "push both right in and hold them side by side, mount to mount",
    "damper-other-mount": "{offered} where {needed} is needed",
    "damper-tell-mount": "{mount}: {tell}",
    "damper-trap-loose-outside": "{what} {offered}, needed {needed}: the thin stud moves in its rubbers and knocks",
    "damper-tell-loose-outside": "measure the stud's plain part, not its thread",
    "damper-tight-outside": "{what} {offered}, needed {needed}: the stud does not pass",
    "damper-trap-loose-hole": "{what} {offered}, needed {needed}: the sleeve moves on its bolt and knocks however tight it is",
    "damper-tell-loose-hole": "put the bolt through the sleeve by hand: it must not rock",
    "damper-tight-hole": "{what} {offered}, needed {needed}: the bolt does not pass",
    "damper-lifts": "filled with gas where oil was: the car stands higher; change both of the axle",
    "damper-sinks": "filled with oil where gas was: the car stands lower; change both of the axle",
}

SERVICE: Final[dict[str, str]] = {**_KINDS, **_COMMON, **_FILTER, **_HOSE, **_COOLING, **_PROBE, **_DAMPER}
"""Template per code, as in `report.sentences`."""
