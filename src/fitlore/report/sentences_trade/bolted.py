"""Sentences on fasteners, spanners, wheel fixings, pipe unions."""

from __future__ import annotations

from typing import Final

_UNION: Final = {
    "pipe-union-same": "same union: {offered}",
    "pipe-union-ok": "{offered} goes where {needed} went",
    "pipe-union-ok-with-work": "{offered} goes where {needed} went, with work: {what}",
    "pipe-union-off": "{offered} does not go where {needed} went: {what}",
    "pipe-union-trap": "{offered} seems to go where {needed} went and does not: {what}",
    "pipe-union-unreadable": "{offered} for {needed}: not known yet: {what}",
    "pipe-union-flare-same": "same flare: {offered}",
    "pipe-union-flare-off": "{offered} and {needed} are no pipe ends for one another",
    "pipe-union-flare-trap": "a {offered} end on a seat for {needed}: the thread draws it up and it feels tight, but the "
    "two touch along an edge only; it weeps or splits, and pulling harder does not cure it",
    "pipe-union-angle-trap": "{offered} against {needed}: the thread is alike, but the cones of {offered-angle} and "
    "{needed-angle} degrees touch along a line; it weeps under pressure",
    "pipe-union-single": "a single flare where a double one is needed: one wall splits under brake pressure",
    "pipe-union-double": "a double flare where a single one is needed: it stands deeper, so that the nut may bottom before "
    "it clamps",
    "pipe-union-taper": "{offered} for {needed}: a taper thread jams before its nose is pressed on the seat",
    "pipe-union-tell": "{flare}: the pipe ends in {end}; its seat is {seat}",
    "pipe-union-pipe-same": "same pipe: {offered}",
    "pipe-union-pipe-unsaid": "the pipe is not said; needed {needed}: measure outside diameter of the pipe, or bore of the "
    "nut",
    "pipe-union-pipe-trap": "a pipe of {offered} in a nut for {needed}: too near to see; the flare comes out wrong and the "
    "pipe creeps or will not pass. Measure the bare pipe",
    "pipe-union-pipe-off": "a pipe of {offered} where {needed} is needed",
    "pipe-union-nut-same": "nut: [{offered} ]as needed",
    "pipe-union-nut-unsaid": "how far the nut is threaded is not said; needed {needed}: look at the end next to the flare",
    "pipe-union-nut-bottoms": "a nut threaded to its end[ where {needed} is needed]: with a {flare} flare it meets the bottom "
    "of the port before it clamps the pipe. It feels tight and weeps; the right one has a plain end next to the flare",
    "pipe-union-nut-lead": "a nut with a plain lead where {needed} is needed: it grips on too few threads",
    "pipe-union-size": "{union}[: {use}][ ({certainty})]",
    "pipe-union-unknown": "{text} is no pipe union; write such as {expected}",
    "pipe-union-thread": "{text}: the thread cannot be read; nearest: {expected}",
    "pipe-union-pipe-unlisted": "{text}: no such pipe is listed; nearest: {expected}",
    "pipe-union-no-flare": "{text} does not say the flare; look at the pipe's end and into the port. It could be {expected}",
}

_WHEEL: Final = {
    "wheel-length-open": "how long the bolt has to be is not said; {offered} is offered: a longer one meets the brake, a shorter "
    "one holds too little; measure the old one from its seat",
    "wheel-fixing-same": "same fixing: {offered}",
    "wheel-fixing-ok": "{offered} serves for {needed}",
    "wheel-fixing-ok-with-work": "{offered} serves for {needed}, with work: {what}",
    "wheel-fixing-off": "{offered} does not serve for {needed}: {what}",
    "wheel-fixing-trap": "{offered} goes on for {needed} and does not hold the wheel: {what}",
    "wheel-fixing-unreadable": "{offered} for {needed}: not known yet: {what}",
    "wheel-fixing-half": "{offered} for {needed}: one is a nut, the other a bolt",
    "wheel-fixing-seat-same": "same seat: {offered}",
    "wheel-fixing-seat-trap": "seat {offered} in a wheel for {needed}: they touch along a ring only; it takes its torque and "
    "works loose. Blue the seat, tighten by hand, look where the blue is gone",
    "wheel-fixing-cone-trap": "{offered} in a wheel for {needed}: the angles differ, so that the edge alone carries. Blue the "
    "seat and look where it is gone",
    "wheel-fixing-ball-trap": "{offered} in a wheel for {needed}: the radii differ by too little to see; they touch along a "
    "ring. Hold a radius gauge to it, or blue the seat",
    "wheel-fixing-tell": "{seat}: {tell}",
    "wheel-fixing-unsaid": "{what} is not said; needed {needed}: measure it",
    "wheel-fixing-size-ok": "{what} {offered} for {needed}",
    "wheel-fixing-sleeve-big": "a sleeve of {offered} does not go into a hole for {needed}",
    "wheel-fixing-sleeve-loose": "a sleeve of {offered} in a hole for {needed} lets the wheel move; measure sleeve and hole",
    "wheel-fixing-seat-small": "a seat of {offered} for one of {needed}: the hexagon meets the wheel before the seat does. It "
    "takes its torque and cracks the wheel; measure the large diameter",
    "wheel-fixing-seat-big": "a seat of {offered} for one of {needed}: it stands out of the wheel's hole",
    "wheel-fixing-short": "{offered} long for {needed}: {turns} turns fewer hold; count the turns by hand without the wheel, "
    "then with it",
    "wheel-fixing-long": "{offered} long for {needed}: its end can meet drum, shoes or hub behind before it clamps. Turn the "
    "hub by hand with the bolt in",
    "wheel-fixing-nut-few": "{offered} of thread holds {turns} turns; at least {least} are wanted",
    "wheel-fixing-nut-short": "{offered} of thread for {needed}",
    "wheel-fixing-hexagon": "hexagon {offered} for {needed}: keep its spanner in the car",
    "wheel-fixing-size": "{fixing}: {tell}",
    "wheel-fixing-unknown": "{text} is no wheel nut or bolt; write such as {expected}",
    "wheel-fixing-thread": "{text}: the thread cannot be read; nearest: {expected}",
    "wheel-fixing-several": "{text} leaves angle or radius open: {expected}. Hold a gauge to the seat",
    "wheel-fixing-no-seat": "{text} does not say its seat; look at the wheel's hole. It could be {expected}",
    "wheel-fixing-no-sleeve": "{text} does not say the diameter of the sleeve; measure it and write such as {expected}",
}

_CLASS: Final = {
    "property-class-same": "same strength: {offered}",
    "property-class-not-weaker": "{offered} is not weaker than {needed}: {offered-stress}; needed {needed-stress}",
    "property-class-stronger": "{offered} is much stronger than {needed}: tighten to the torque for {needed}, the thread "
    "it goes into is no stronger ({offered-stress}; needed {needed-stress})",
    "property-class-brittle": "{offered} for {needed}: strong enough, but so hard that plated or wet it may break without "
    "warning. Is the place dry, and may the bolt be brittle there?",
    "property-class-weaker": "{offered} is weaker than {needed}: {offered-stress}; needed {needed-stress}",
    "property-class-same-figure": "{offered} is no {needed}, though the figure is alike: {offered-stress}; needed "
    "{needed-stress}. It takes the torque once and stretches",
    "property-class-rusts": "{offered} for {needed}: strong enough, but it rusts where {needed} does not; is the place wet or "
    "salty?",
    "property-class-full-nut": "{offered} for {needed}: a full nut where a thin one is needed; look whether there is room, and "
    "whether the thread comes through",
    "property-class-stainless": "{offered} for {needed}: strong enough; grease the thread, stainless seizes on itself",
    "property-class-stainless-weak": "{offered} looks better than {needed} and is weaker: {offered-stress}; needed "
    "{needed-stress}",
    "property-class-unknown-yield": "{offered} for {needed}: where it stretches is not known of both ({offered-stress}; needed "
    "{needed-stress})",
    "property-class-by-size": "{offered} for {needed}: it depends on the diameter",
    "property-class-for-size": "over {from} and up to {to} mm:",
    "property-class-nut-and-bolt": "{offered} for {needed}: one is of a nut, the other of a bolt",
    "property-class-nut-stronger": "{offered} carries what {needed} carries: strips at {offered-strips}; needed {needed-strips}",
    "property-class-nut-weaker": "{offered} strips at {offered-strips}; needed {needed} at {needed-strips}. It goes to bolts "
    "up to {bolt}",
    "property-class-thin-nut": "{offered} is a thin nut: it screws on like {needed} and strips at {offered-strips}, not "
    "{needed-strips}",
    "property-class-tell-thin": "a thin nut is about half as high as the bolt is thick; a full one eight tenths",
    "property-class-tell": "{class} has on its head: {mark}",
    "property-class-unknown": "{text} is no property class; write such as {expected}",
    "property-class-several": "{text} could be {expected}: say which",
    "property-class-unlisted": "{text} is no listed class; listed: {expected}",
    "property-class-unmarked": "an unmarked bolt may be of any strength below {expected}",
}

_SPANNER: Final = {
    "spanner-same": "same spanner: {offered}",
    "spanner-holds": "spanner {needed} holds hexagon {offered} ({needed-flats} on {offered-flats})",
    "spanner-too-small": "spanner {needed} does not go on hexagon {offered} ({needed-flats} on {offered-flats})",
    "spanner-too-big": "spanner {needed} is plainly too big for hexagon {offered} ({needed-flats} on {offered-flats})",
    "spanner-rounds": "spanner {needed} goes on hexagon {offered} and rounds its corners: {play} of play",
    "spanner-tell": "it turns {turn} before it bites; the right one hardly turns",
    "spanner-size": "{spanner}: {flats} across flats[ ({certainty})]",
    "spanner-unknown": "{text} is no spanner; write such as {expected}",
    "spanner-unlisted": "{text}: no such spanner is listed; nearest: {expected}",
    "spanner-several": "{text}: heads were made with {expected}; measure across the flats",
}

_BOLT: Final = {
    "bolt-same": "same bolt: {offered}",
    "bolt-ok": "{offered} serves for {needed}",
    "bolt-ok-with-work": "{offered} serves for {needed}, with work: {what}",
    "bolt-off": "{offered} does not serve for {needed}: {what}",
    "bolt-trap": "{offered} goes in for {needed} and is wrong: {what}",
    "bolt-unreadable": "{offered} for {needed}: not known yet: {what}",
    "bolt-unsaid": "{what} is not said; needed: {needed}",
    "bolt-length-ok": "length {offered} for {needed}: within what the standard allows a bolt",
    "bolt-long": "{offered} long for {needed}: it bottoms in a blind hole before it clamps, or meets what is behind; measure "
    "the hole",
    "bolt-short": "{offered} long for {needed}: up to {turns} turns fewer hold",
    "bolt-head-ok": "same head: {offered}",
    "bolt-head-work": "{offered} for {needed}: another key, and room for it",
    "bolt-head-off": "{offered} for {needed}: they seat in another form of hole",
    "bolt-shank-ok": "shank {offered} for {needed}",
    "bolt-shank-thin": "a shank of {offered} in a hole for {needed}: the thread holds, but the part moves about. Measure the "
    "plain part of the bolt",
    "bolt-no-shank": "threaded to the head where a plain shank of {needed} locates the part: it goes in, and wears and moves",
    "bolt-head-unasked": "{offered}, and the head needed is not said: it seats only in a hole made for it; look at the old bolt",
    "bolt-shank-unasked": "a shank of {offered} over a thread of {thread}, and none is asked for: a hole made for the thread "
    "does not take it; measure the hole",
    "bolt-shank-thick": "a shank of {offered} does not go into a hole for {needed}",
    "bolt-proof": "{bolt} bears {load} without lasting stretch (stress area {area})",
    "bolt-unknown": "{text} is no bolt; write such as {expected}",
    "bolt-thread": "{text}: the thread cannot be read; nearest: {expected}",
}

BOLTED: Final[dict[str, str]] = {**_UNION, **_WHEEL, **_CLASS, **_SPANNER, **_BOLT}
"""Template per code, as in `report.sentences`."""
