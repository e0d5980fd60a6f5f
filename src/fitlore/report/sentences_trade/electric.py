"""Sentences on lamps, fuses, relays, terminals, cable, switches, senders, coils and batteries."""

from __future__ import annotations

from typing import Final

from fitlore.report.sentences_trade.electric_parts import CURRENT, MACHINES

_KINDS: Final = (
    "lamp",
    "fuse",
    "relay",
    "flasher",
    "terminal",
    "cable",
    "sender",
    "switch-contact",
    "ignition-coil",
    "battery",
)
_OUTCOMES: Final = {
    "same": "same: {offered}",
    "ok": "{offered} serves for {needed}",
    "ok-with-work": "{offered} serves for {needed}, with work: {what}",
    "off": "{offered} does not serve for {needed}: {what}",
    "trap": "{offered} seems to serve for {needed} and does not: {what}",
    "unreadable": "{offered} for {needed}: not known yet: {what}",
}
_WHOLE: Final = {f"{kind}-{end}": said for kind in _KINDS for end, said in _OUTCOMES.items()}
"""The outcome of a whole designation; its pieces are told under it."""

_PIECES: Final = {
    "electric-agrees": "{what}: {value}",
    "electric-not-said": "{what}: not said; look at: {look}",
    "coil-volts-high": "a coil for {offered-volts} on {needed-volts} does not pull in, or only when it is warm",
    "coil-volts-low": "a coil for {offered-volts} on {needed-volts} pulls in and burns",
}

_LAMP: Final = {
    "lamp-cap-off": "a {offered-cap} cap does not go into a {needed-cap} holder",
    "lamp-cap-trap": "a {offered-cap} cap in a {needed-cap} holder goes in by force or half a turn round: one filament bridges "
    "two contacts, or stop and tail change places",
    "lamp-tell-cap": "{cap}: {pins}[; contacts: {contacts}]",
    "lamp-power-over": "{offered-watts} where {needed-watts} belong: it goes in, burns the lens and heats holder and wire",
    "lamp-power-under": "{offered-watts} where {needed-watts} belong: it goes in and is too dim; a flasher that counts watts "
    "races, a monitor calls it dead",
    "lamp-tell-watts": "the metal says {offered-watts}, not {needed-watts}[; it draws {amps}]",
    "lamp-volts-high": "a lamp for {offered-volts} on {needed-volts} only glows",
    "lamp-volts-low": "a lamp for {offered-volts} on {needed-volts} flashes up and is dead",
    "lamp-colour": "{offered-colour} where {needed-colour} is asked for: it goes in, and the light has the wrong colour by law",
    "lamp-led": "an LED in place of a filament: the lamp unit was approved with a filament; the beam, the flasher and a "
    "monitor go wrong. Where it is allowed at all the law of the place names the very lamp",
    "lamp-length-bend": "{offered-length} for {needed-length}: the tongues of the holder have to be bent",
    "lamp-length-off": "{offered-length} for {needed-length}: the tongues do not hold it",
    "lamp-size": "{lamp}: {cap}, {power}, {colour}[ ({certainty})]",
    "lamp-unknown": "{text} is no lamp; write such as {expected}",
    "lamp-unlisted": "{text}: no such lamp or cap is listed; nearest: {expected}",
    "lamp-clash": "{text}: that category has another cap: {expected}",
}

_FUSE: Final = {
    "fuse-form-off": "a {form} does not go into that holder",
    "fuse-holder": "a {form} does not go into the old holder; it needs one of its own",
    "fuse-clips": "the two glass lengths go into one holder after the clips are bent; see that they grip",
    "fuse-over": "it carries {offered-amps} where the circuit was given {needed-amps} ({share}): the cable burns before the "
    "fuse does",
    "fuse-next-step": "it carries {offered-amps} where the circuit was given {needed-amps} ({share}): only right if the cable "
    "bears it; look at its cross-section. Tellers do not agree on it",
    "fuse-under": "it carries {offered-amps} where {needed-amps} flow: it blows in ordinary use",
    "fuse-little-under": "it carries {offered-amps} for {needed-amps}: the next step below",
    "fuse-basis-over": "the same figure, but here it is what the fuse carries, and there it was what blew it: {offered-amps} "
    "for good instead of {needed-amps}",
    "fuse-basis-under": "the same figure, but here it is what blows the fuse, and there it was what it carried: only "
    "{offered-amps} for good instead of {needed-amps}",
    "fuse-tell-basis": "an old British one has a paper inside and says what blows it; one with the figure on its cap or body "
    "says what it carries. The wire inside tells: the thicker one carries more",
    "fuse-lasts": "at {amps} it may last {seconds}[ ({certainty})]",
    "fuse-too-slow": "a slow fuse where a quick one guards: what it guards is dead before it blows",
    "fuse-too-quick": "a quick fuse where a slow one was: it blows when the motor starts",
    "fuse-size": "{fuse}, {colour}[ ({certainty})]",
    "fuse-unknown": "{text} is no fuse; write such as {expected}",
    "fuse-unlisted": "{text}: no such rating is listed; nearest: {expected}",
    "fuse-colour": "{text}: that colour and that figure do not belong together; such as {expected}",
    "fuse-basis": "{text}: does it carry that, or does that blow it? {expected}. Old British ones say what blows them",
    "fuse-clash": "{text}: what blows it is about twice what it carries; such as {expected}",
    "fuse-blows": "{text}: these are marked with what they carry; such as {expected}",
}

_TERMINAL: Final = {
    "terminal-form-off": "a {form} is the other half, or another thing",
    "terminal-size-off": "{offered-size} for {needed-size}",
    "terminal-loose": "{offered-size} for {needed-size}: it goes on and grips nothing; it browns and then fails. Pull at it",
    "terminal-tight": "it is thicker than the other half opens",
    "terminal-ring-wide": "a hole of {offered-size} for {needed-size}: it sits under the nut by its edge only and gets hot. Put "
    "the stud through it and look at the play",
    "terminal-size": "{terminal}[ ({certainty})]",
    "terminal-unknown": "{text} is no terminal; write such as {expected}",
    "terminal-unlisted": "{text}: no such size is listed; nearest: {expected}",
    "terminal-thickness": "{text} comes in two thicknesses: {expected}; caliper across the tab",
    "terminal-spade": "{text} could be {expected}: say which half",
    "terminal-number-same": "same terminal: {offered}[, {offered-is}]",
    "terminal-number-equal": "{offered} and {needed} are two marks of one point",
    "terminal-number-trap": "{offered} looks like {needed} and is another point: {why}",
    "terminal-number-tell": "a meter tells: {why}",
    "terminal-number-off": "{offered} is {offered-is}, {needed} is {needed-is}",
    "terminal-number-unknown": "{text} is no mark of a terminal; write such as {expected}",
    "terminal-number-several": "{text} has become {expected}: which one depends on the wire",
}

ELECTRIC: Final[dict[str, str]] = {
    **_WHOLE,
    **_PIECES,
    **_LAMP,
    **_FUSE,
    **_TERMINAL,
    **CURRENT,
    **MACHINES,
}
"""Template per code, as in `report.sentences`."""
