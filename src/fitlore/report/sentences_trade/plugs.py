"""Sentences on spark plugs, gas struts and fuel hoses."""

from __future__ import annotations

from typing import Final

_NAMES: Final = {"spark-plug": "plug", "gas-strut": "strut", "fuel-hose": "fuel hose"}
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
        "unknown": f"{{text}} is no {name} that can be read; write such as {{expected}}",
    }.items()
}

_PLUG: Final = {
    "spark-plug-thread": "{text}: besides seat and figures something is left that is no thread; plugs have {expected}",
    "spark-plug-no-thread": "{text} does not say its thread; measure it and write such as {expected}",
    "spark-plug-no-seat": "{text} does not say its seat; look for a ring under a flat shoulder and write such as {expected}",
    "spark-plug-no-reach": "{text} does not say its reach in figures; measure from the seat to the end of the thread and "
    "write such as {expected}",
    "spark-plug-heat-scale": "{text}: a heat figure says nothing without the scale it is of, for some scales count up and "
    "others down; write such as {expected}",
    "spark-plug-trap-seat": "{offered} where {needed} is needed: it screws in, and does not seal; there it is {seals}. It blows, "
    "and gets too hot",
    "spark-plug-tell-seat": "{seat}: {tell}",
    "spark-plug-trap-long": "a reach of {offered} in a head for {needed}: {by} of it stands in the chamber; the piston or a "
    "valve may strike it, and its free turns coke up and tear the thread on the way out",
    "spark-plug-trap-short": "a reach of {offered} in a head for {needed}: it sits {by} back in its hole; it misfires, and the "
    "free turns in the head coke up, so that the right one does not go in any more",
    "spark-plug-tell-reach": "hold both side by side, seat to seat: the ends of the threads have to be level",
    "spark-plug-reach-near": "a reach of {offered} for {needed}: one of the two may be measured with the gasket; measure both "
    "from the seat",
    "spark-plug-hexagon-small": "a hexagon of {offered}, needed {needed}: it goes, by another spanner",
    "spark-plug-hexagon-big": "a hexagon of {offered} where {needed} was: neither it nor its spanner need go into the well",
    "spark-plug-gap": "a gap of {offered}, needed {needed}: set it",
    "spark-plug-no-resistor": "no resistor where one is needed: it disturbs the radio and may upset the ignition's control",
    "spark-plug-resistor": "a resistor where none was: with resistive leads and caps the spark may be weak; what do the leads "
    "measure?",
    "spark-plug-trap-tip-long": "{offered} where {needed} is needed: the piston may strike it",
    "spark-plug-tell-tip": "a pea of plasticine on the tip, the plug in, the engine turned by hand twice: how thick is it now?",
    "spark-plug-tip-short": "{offered} where {needed} is needed: it fouls and misfires",
    "spark-plug-nut-on": "{offered} where {needed} is needed: screw the nut on, tight",
    "spark-plug-nut-fixed": "{offered} where {needed} is needed: its nut does not come off, the cap does not go on",
    "spark-plug-heat": "{offered} where {needed} is needed: too cold fouls, too hot burns a hole in a piston; which way the "
    "scale counts is its maker's own",
    "spark-plug-heat-other-scale": "{offered} where {needed} is needed: two scales, and no figure carries over; only a printed "
    "list of its maker for this engine does",
    "spark-plug-size": "{plug}[ ({certainty})]",
}

_STRUT: Final = {
    **{
        f"gas-strut-no-{end}-end": f"{{text}} does not say the form of the {end}'s end; write such as {{expected}}"
        for end in ("rod", "tube")
    },
    **{
        f"gas-strut-no-{end}-size": f"{{text}} does not say the size of the {end}'s end; measure ball, pin or thread and write "
        "such as {expected}"
        for end in ("rod", "tube")
    },
    "gas-strut-no-open": "{text} does not say its open length, from the middle of one end to that of the other; write such as "
    "{expected}",
    "gas-strut-no-closed": "{text} does not say its closed length or its stroke; struts are compared pulled out, and closed "
    "they bend hinges; write such as {expected}",
    "gas-strut-no-force": "{text} does not say its force with a unit; it is printed on the tube; write such as {expected}",
    "gas-strut-lengths": "{text}: closed it has to be shorter than open and longer than half of it, and the stroke is what lies "
    "between; write such as {expected}",
    "gas-strut-opens-less": "open {offered}, needed {needed}: the lid opens less far, and heads meet it",
    "gas-strut-trap-opens-far": "open {offered}, needed {needed}: it goes on, and presses the lid past its stop; hinge or "
    "glass give way",
    "gas-strut-tell-open": "open the lid on the old strut; the new one pulled out must not pass its ball",
    "gas-strut-trap-too-long": "closed {offered}, needed {needed}: it goes on with the lid open, and is {by} too long when it "
    "shuts; it bends the hinge or breaks the glass",
    "gas-strut-tell-closed": "prop the lid, leave one end off and shut it by hand as far as the pushed-in strut lets it",
    "gas-strut-trap-weak": "{offered} where {needed} is needed, and {cold}: it holds the lid for a while and lets it fall on "
    "whoever stands under it",
    "gas-strut-tell-force": "press it slowly, rod down, on a bathroom scale: this one shows about {kg}, the right one "
    "{needed-kg}",
    "gas-strut-strong": "{offered} where {needed} is needed: the lid flies up, is hard to shut and tears at its mountings",
    "gas-strut-screw-on": "a bare thread where a {needed} is needed: ends can be screwed on, and both lengths change; measure "
    "again with them on",
    "gas-strut-other-end": "{what}: {offered} where {needed} is needed",
    "gas-strut-tell-end": "{form}: {tell}",
    "gas-strut-end-size": "{what} {offered}, needed {needed}: it does not go on",
    "gas-strut-trap-loose": "{what} {offered} on one of {needed}: it goes on and comes off under load; the lid falls",
    "gas-strut-tell-loose": "the right one snaps on with a push and cannot be rocked on its {form}'s seat",
}

_HOSE: Final = {
    "fuel-hose-no-bore": "{text} does not say its bore; measure the stub and write such as {expected}",
    "fuel-hose-no-type": "{text}: the bore alone decides nothing; read what is printed along it, type or pressure, and write "
    "such as {expected}",
    "fuel-hose-type": "{text}: no such type is listed; listed are {expected}",
    "fuel-hose-clash": "{text}: the type is made for another thing than is said; do you mean {expected}?",
    "fuel-hose-sub-type": "{offered} where {needed} is needed: what the letter T says is not listed; ask for the same",
    "fuel-hose-serves": "{offered} where {needed} is needed: it stands more",
    "fuel-hose-duty": "made for {offered}, needed {needed}: ask for this one",
    "fuel-hose-trap-injection": "made for {offered} ({print}) where {needed} is needed: it goes on, swells and bursts or slips "
    "off; petrol sprays on the hot engine. FIRE",
    "fuel-hose-trap-vent": "made for {offered} ({print}) where {needed} is needed: it goes on, and stands no pressure. FIRE",
    "fuel-hose-trap-tank": "made for {offered} ({print}) where {needed} is needed: it goes on, and its outside is not made to "
    "lie in petrol; it swells, comes apart and blocks the pump",
    "fuel-hose-trap-bursts": "stands {offered}, needed {needed}: it goes on and bursts or slips off; petrol sprays on the hot "
    "engine. FIRE",
    "fuel-hose-tell-print": "read the print along it ({print}); one without print is for nothing under pressure",
    "fuel-hose-tight": "{offered} lets little vapour through, as {needed} does",
    "fuel-hose-lets-through": "{offered} for {needed}: does it let as little vapour through? It may smell",
    "fuel-hose-other-type": "{needed} is asked for, and what it stands is not listed, so that {offered} cannot be held against "
    "it; ask for the same type",
    "fuel-hose-trap-no-ethanol": "for {offered} where {needed} runs: it goes on, hardens and cracks within a few years, or "
    "softens from inside. FIRE",
    "fuel-hose-tell-old": "bend a used piece double and smell at it: cracks or a wet smell say that it does not stand the fuel",
    "fuel-hose-other-fuel": "for {offered}, needed {needed}: does its lining stand it? Ask",
    "fuel-hose-bore-tight": "a bore of {offered} on a stub for {needed}: warm it in hot water, never over a flame, and "
    "push it on",
    "fuel-hose-bore-small": "a bore of {offered} does not go on a stub for {needed}",
    "fuel-hose-bore-big": "a bore of {offered} is plainly too big for a stub for {needed}",
    "fuel-hose-trap-loose": "a bore of {offered} on a stub for {needed}: it slides on; the clip draws it into a fold, and the "
    "fold weeps petrol. FIRE",
    "fuel-hose-tell-loose": "the right one has to be pushed and turned to go over the bead; one that slides on is too big",
    "fuel-hose-other-clips": "outside {offered}, needed {needed}: it needs other clips",
    "fuel-hose-short": "length {offered}, needed {needed}",
}

PLUGS: Final[dict[str, str]] = {**_KINDS, **_PLUG, **_STRUT, **_HOSE}
"""Template per code, as in `report.sentences`."""
