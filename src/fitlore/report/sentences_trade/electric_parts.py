"""More sentences on electrics: relays, flashers and cable; senders, switches, coils and batteries."""

from __future__ import annotations

from typing import Final

CURRENT: Final = {
    "relay-size": "a {size} relay does not go into that socket",
    "relay-middle-rest": "a changeover relay for a make one: only where nothing is wired to the middle place of the "
    "socket, for its 87a is live at rest",
    "relay-middle-live": "a double make relay for a make one: only where nothing is wired to the middle place of the socket, for "
    "it is live when the relay pulls",
    "relay-contact-trap": "{offered-contact} for {needed-contact}: it plugs in alike and works backwards[; its fifth terminal is "
    "{middle}]",
    "relay-contact-off": "{offered-contact} for {needed-contact}: a contact is missing",
    "relay-tell-contact": "on the bench, with nothing on the coil: a lamp from 30 to 87a burns, from 30 to 87 it does not; with "
    "the coil fed it is the other way round",
    "relay-layout-trap": "layout {offered-layout} in a socket for {needed-layout}: 30 and 86 have changed places; the coil gets "
    "the battery for good, or the contact feeds the switch",
    "relay-tell-layout": "layout {layout}: {tells}",
    "relay-coil-plain": "plain where a {needed-coil} lay across the coil: it works, and its kick may kill what drives it",
    "relay-tell-coil": "a meter across 85 and 86 both ways: a diode shows two readings; a resistor makes it a little "
    "less than the "
    "coil alone",
    "relay-amps": "its contact bears {offered-amps}, needed {needed-amps}",
    "relay-unknown": "{text} is no relay; write such as {expected}",
    "relay-no-layout": "{text}: layout A or B? 30 and 86 change places; look at the drawing on the lid. {expected}",
    "relay-clash": "{text}: those terminals make another contact than the one named; such as {expected}",
    "flasher-terminal-missing": "it has no {terminals}",
    "flasher-needs-earth": "it needs a wire to earth (31) that the old one did not have",
    "flasher-hot-for-electronic": "a hot wire where an electronic one was: it counts the watts, and lamps of other watts make it "
    "race or stand still",
    "flasher-load-trap": "a hot wire for {offered-watts} on {needed-watts} of lamps: it flashes, at the wrong rate, or goes on "
    "when a lamp is dead. Count the flashes: 60 to 120 a minute",
    "flasher-load-off": "it bears {offered-watts} of lamps, needed {needed-watts}",
    "flasher-no-load": "{text}: for which lamps? The rate follows the watts; write such as {expected}",
    "flasher-unknown": "{text} is no flasher; write such as {expected}",
    "cable-enough": "{offered-copper} of copper for {needed-copper}; loses {loss} a metre and ampere",
    "cable-thick": "{offered-copper} of copper for {needed-copper}; too thick perhaps for the old terminals and seals",
    "cable-thin": "{offered-copper} of copper for {needed-copper} ({share}): it gets warm and loses {loss} a metre and ampere "
    "instead of {needed-loss}",
    "cable-figure": "the same figure in another measure: {offered-copper} of copper where {needed-copper} are needed",
    "cable-tell": "bare the end: count the strands and measure one; strands x 0.785 x diameter x diameter is the copper",
    "cable-carries": "{cable} carries {amps} for good, single and in free air[ ({certainty})]",
    "cable-size": "{cable}: {area}[, carries {carries}][ ({certainty})]",
    "cable-unknown": "{text} is no cable; write such as {expected}",
    "cable-unlisted": "{text}: no such size is listed; nearest: {expected}",
    "cable-mm": "{text} could be {expected}: the copper's section, or the width over the insulation?",
}
"""Relays, flashers, cable."""

MACHINES: Final = {
    "sender-subject": "that one tells {subject}",
    "sender-is-switch": "a contact in a sender's place: the gauge stands at one end or the other and never between",
    "sender-no-switch": "a sender in a contact's place: the lamp only glows, or never goes out",
    "sender-tell-switch": "a meter on it while it moves or the pressure rises: a sender changes bit by bit, a contact jumps",
    "sender-range": "{offered-range} on a gauge for {needed-range}: it screws in and the needle lies: {at-low} "
    "of the scale at the "
    "low end, {at-high} at the high end",
    "sender-backwards": "{offered-range} on a gauge for {needed-range}: the needle goes backwards",
    "sender-tell-ohms": "a meter on it at both ends: {needed-range} is right, this one has {offered-range}",
    "sender-warm-range": "{offered-points}, needed {needed-points}: {off} off; the gauge or the mixture is wrong",
    "sender-warm-backwards": "its ohms go the other way with heat; they have to be such that warm {way}",
    "sender-tell-warm": "a meter on it in cold and in hot water: {needed-points} is right",
    "sender-volts": "made for {offered-volts}, the gauge is fed {needed-volts}",
    "sender-unknown": "{text} is no sender; write such as {expected}",
    "sender-one-end": "{text} says one end only; write both, such as {expected}",
    "switch-contact-both": "a changeover serves for {needed-free}; take the terminal that does it",
    "switch-contact-half": "one contact where two are needed",
    "switch-contact-backwards": "free {offered-free} where free {needed-free} is needed: it goes in and works backwards",
    "switch-contact-tell": "a meter across it on the bench, nothing pressing: {needed-free} is right",
    "switch-contact-job-off": "that one is for another job: {job}",
    "switch-contact-unknown": "{text} says no contact; write such as {expected}",
    "switch-contact-normally": "{text}: free, or at rest in the car, where something presses on it? {expected}",
    "switch-contact-job": "{text}: at rest in the car, but of which switch? Such as {expected}",
    "ignition-coil-burns": "a coil of kind {offered-kind} ({offered-ohms}) where a {needed-kind} one ({needed-ohms}) was: "
    "{offered-amps} instead of {needed-amps}; coil and points or module burn, after it has run well",
    "ignition-coil-bypass": "a plain coil where a ballast one was: the ballast has to come out of the line, or the spark is weak",
    "ignition-coil-weak": "{offered-ohms} of kind {offered-kind} where {needed-ohms} of kind {needed-kind} belong: a weak spark",
    "ignition-coil-low": "{offered-ohms} for {needed-ohms}: {offered-amps} instead of {needed-amps} through the contact",
    "ignition-coil-own-ballast": "its own ballast ({ballast}) has to go with it",
    "ignition-coil-tell": "a meter across its two small terminals, wires off: {needed-ohms} is right",
    "ignition-coil-unknown": "{text} is no ignition coil; write such as {expected}",
    "ignition-coil-clash": "{text} says two kinds; write such as {expected}",
    "ignition-coil-kind": "{text}: those ohms lie between two kinds; say which, such as {expected}",
    "battery-volts": "{offered-volts} for {needed-volts}",
    "battery-too-big": "{what}: {offered-size}, room for {needed-size}",
    "battery-small": "{what}: {offered-size} where {needed-size} were: pack it so that it cannot slide",
    "battery-low": "{what}: {offered-size} where {needed-size} were: the clamp has to reach down",
    "battery-layout": "plus on the {offered-side} where it has to be on the {needed-side}: it sits in the tray, "
    "and the leads reach "
    "the wrong posts; the diodes of the alternator die in the moment they touch",
    "battery-tell-layout": "posts towards you: plus stands {offered-side}; it has to be {needed-side}",
    "battery-posts-thin": "{offered-posts} posts for {needed-posts} clamps: the clamp goes on, pulls up and stays loose[; tops: "
    "{tops}]",
    "battery-posts-thick": "{offered-posts} posts for {needed-posts} clamps: they do not go on[; tops: {tops}]",
    "battery-tell-posts": "caliper across the top of the posts: {tops}",
    "battery-ledge-off": "{offered-ledge} has no ledge like that of {needed-ledge} at the {sides} side: the clamp finds no hold",
    "battery-notches": "{offered-ledge} lacks the notches of {needed-ledge}",
    "battery-weak": "{what}: {offered-figure}, needed {needed-figure}",
    "battery-norms-enough": "{offered-figure} for {needed-figure}, enough by every opinion: {in-sae}",
    "battery-norms-weak": "{offered-figure} for {needed-figure}, too little by every opinion: {in-sae}",
    "battery-norms-near": "{offered-figure} for {needed-figure}: the norms do not compare so closely: {in-sae}",
    "battery-size": "{battery}[ ({certainty})]",
    "battery-unknown": "{text} is no battery; write such as {expected}",
    "battery-unlisted": "{text}: no such case or ledge is listed; such as {expected}",
}
"""Senders, switches, coils, batteries."""
