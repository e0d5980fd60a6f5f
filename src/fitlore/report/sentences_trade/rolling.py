"""Sentences on tyres, wheels, vehicle identification and sides."""

from __future__ import annotations

from typing import Final

_READ: Final = {
    "tyre-unknown": "{text} is no tyre; write such as {expected}",
    "tyre-rim-unlisted": "{text}: no rim of this diameter is listed; nearest: {expected}",
    "tyre-size-unlisted": "{text}: no car tyre has this width and profile; write such as {expected}",
    "tyre-no-build": "{text} does not say how the cords lie; a letter R is radial, a dash is cross-ply. It could be "
    "{expected}; look for the word radial on the wall",
    "tyre-load-unlisted": "{text}: no such load index is listed; they go from {expected}",
    "tyre-speed-unlisted": "{text}: no such speed symbol is listed; common ones are {expected}",
    "tyre-speed-clash": "{text}: the letter in the size and the one at the end name different speeds; it is {expected}",
    "tyre-no-reading-goes": "{text} may be read in several ways, and none of them goes",
    "tyre-size": "{tyre}: outside {outside}, {section} wide[, on a rim of {rim}][ (from {rims})], {turns} turns in a "
    "kilometre[ ({certainty})]",
}
_WHOLE: Final = {
    "tyre-same": "same tyre: {offered}",
    "tyre-ok": "{offered} goes where {needed} is asked for",
    "tyre-ok-with-work": "{offered} goes where {needed} is asked for, with work: {what}",
    "tyre-off": "{offered} does not go where {needed} is asked for: {what}",
    "tyre-trap": "{offered} seems to go where {needed} is asked for and does not: {what}",
    "tyre-unreadable": "{offered} for {needed}: not known yet: {what}",
    "tyre-rim-same": "same rim: {offered}",
    "tyre-rim-off": "a tyre for a rim of {offered} on one of {needed}",
    "tyre-rim-trap": "a tyre for a rim of {offered} on one of {needed}: only {apart} apart, so it may seem to mount, but the "
    "bead has another seat and it comes off or bursts while it is blown up. Read the rim's stamp; a whole figure of three "
    "digits is mm",
    "tyre-size-same": "same size: {offered}",
    "tyre-size-off": "{offered} is another size than {needed}; this is what would change",
    "tyre-size-letter": "{offered} and {needed}: sizes by a letter state a load, not a width; nothing here turns one into "
    "the other",
    "tyre-size-series": "{offered} took the place of {needed}; put it on in pairs on an axle, for it is not quite as high",
    "tyre-build-trap": "{offered-size} is {offered} and {needed-size} is {needed}: the figures are the same and it mounts, but "
    "on one axle the two pull against each other, and radials in front with cross-plies behind make the tail swing out. "
    "Look for the word radial or the letter R",
    "tyre-build-off": "{offered-size} is {offered} and {needed-size} is {needed}: another build and another size",
    "tyre-swap": "{offered-size} ({offered}) is put in the place of {needed-size} ({needed}) on all four wheels by custom; "
    "measure the width of the rim and weigh the axle first. Never both on one axle, never radials in front only",
    "tyre-swap-rim": "{tyre} is put on rims of {rims}; wider and narrower ones are not listed here",
    "tyre-service-ok": "service: {offered} as {needed}",
    "tyre-service-trap": "a tyre for {offered} where one for {needed} is asked for: the size is the same, its wall does not "
    "carry the load. Look for C or LT behind the size, and for two load figures",
    "tyre-service-spare": "a temporary spare: it gets one home and is no tyre to drive on. Look for T in front of the size",
    "tyre-service-full": "a full tyre where the temporary spare was: it may not go into its well",
    "tyre-service-hard": "a tyre for {offered} where one for {needed} was: it carries more, rides harder and wants more air",
}
_DEMANDS: Final = {
    "tyre-load-ok": "{what}: {offered}, needed {needed}",
    "tyre-load-low": "{what}: {offered} is less than {needed}",
    "tyre-load-unsaid": "{what}: not said; needed {needed}: read the figure behind the size on the wall",
    "tyre-load-not-known": "{what}: nobody said what is needed here; {offered} is right only if it carries and reaches enough: "
    "read the old tyre's wall or the handbook",
    "tyre-speed-ok": "speed: {offered} ({offered-kmh}), needed {needed} ({needed-kmh})",
    "tyre-speed-low": "speed: {offered} ({offered-kmh}) is less than {needed} ({needed-kmh})",
    "tyre-speed-unsaid": "speed: not said; needed {needed}: read the letter behind the load figure, or in front of R",
    "tyre-speed-open": "speed: of {offered} ({offered-kmh}) and {needed} ({needed-kmh}), V or Z in the size says only that it is "
    "more than so much; ask what the car reaches, or look for a figure and letter behind the size",
    "tyre-speed-snow": "speed: {offered} ({offered-kmh}) is less than {needed} ({needed-kmh}); some countries allow it for "
    "winter tyres with a sticker in sight of the driver: ask what holds where it is used",
    "tyre-plies-ok": "ply rating: {offered}, needed {needed}",
    "tyre-plies-low": "ply rating: {offered} is less than {needed}",
    "tyre-plies-unsaid": "ply rating: not said; needed {needed}: read it, or the greatest load, on the wall",
    "tyre-reinforced-unsaid": "{offered} does not say that it is reinforced: compare the load index on the wall",
}
_CHANGES: Final = {
    "tyre-change-unknown": "what changes between {needed} and {offered} is not known: dimensions are missing; measure both",
    "tyre-change-outside": "outside {offered}, was {needed}: {share}",
    "tyre-change-turns": "about {offered} turns in a kilometre, was {needed}: the engine turns with them",
    "tyre-change-rim": "it wants a rim of {offered} in, the old one {needed} in",
    "tyre-reading-low": "at {true} km/h a speedometer that was true shows {shown}: too little, which the rule never allows",
    "tyre-reading-high": "at {true} km/h a speedometer that was true shows {shown}: within the rule, if it was true before",
    "tyre-reading-beyond": "at {true} km/h a speedometer that was true shows {shown}: more than the rule allows",
}
_DATE: Final = {
    "tyre-date-unknown": "{text} is no tyre date; write such as {expected}",
    "tyre-date-week": "{text}: no year has such a week; write such as {expected}",
    "tyre-date-decade": "{text}: three figures are a week and the last figure of a year before 2000. It could be {expected}; "
    "a small triangle behind them means the nineties. The tyre is too old to drive on in any case",
    "tyre-date-no-decade": "{text} may be of several decades, and none of them is late enough",
    "tyre-date-ok": "made {offered}; needed {needed} or later",
    "tyre-date-old": "made {offered}, which is before {needed}",
}
_WHEEL: Final = {
    "wheel-unknown": "{text} is no wheel; write such as {expected}",
    "wheel-no-flange": "{text} may be a rim or many other things; write its letter as stamped, such as {expected}",
    "wheel-circle-unlisted": "{text}: no such bolt circle is listed; nearest: {expected}",
    "wheel-circle": "{circle}[ ({named})]: {spacing} from centre to centre of neighbouring holes[ ({certainty})]",
    "wheel-same": "same wheel: {offered}",
    "wheel-ok": "{offered} goes where {needed} is asked for; look for room at caliper and strut all the same",
    "wheel-ok-with-work": "{offered} goes where {needed} is asked for, with work: {what}",
    "wheel-off": "{offered} does not go where {needed} is asked for: {what}",
    "wheel-trap": "{offered} seems to go where {needed} is asked for and does not: {what}",
    "wheel-unreadable": "{offered} for {needed}: not known yet: {what}",
    "wheel-circle-same": "bolt circle: {offered}",
    "wheel-circle-open": "bolt circle: which one the hub has is not said; {offered} is offered: measure from stud to stud",
    "wheel-bore-open": "centre bore: what the hub needs is not said; {offered} is offered: measure the hub's collar",
    "wheel-circle-unsaid": "bolt circle: not said; needed {needed}: measure from hole to hole and count the holes",
    "wheel-circle-off": "bolt circle: {offered}, needed {needed}",
    "wheel-holes-off": "bolt circle: {offered} has another number of holes than {needed}",
    "wheel-circle-trap": "bolt circle: {offered}, needed {needed}: {apart} apart, so the nuts start and pull the studs over; the "
    "wheel sits beside the middle, shakes, and works loose. From centre to centre of neighbouring holes it is "
    "{offered-spacing}, not {needed-spacing}; hang it on two studs and look whether the others stand in the middle",
    "wheel-bore-same": "centre bore: {offered}",
    "wheel-bore-unsaid": "centre bore: not said; needed {needed}: measure it",
    "wheel-bore-small": "centre bore: {offered} does not go over a spigot of {needed}",
    "wheel-bore-ring": "centre bore: {offered} on a spigot of {needed}: it wants a spigot ring with a wall of {wall}",
    "wheel-bore-trap": "centre bore: {offered} on a spigot of {needed}: it goes on and hangs on its bolts; a ring with a wall of "
    "{wall} is too thin to be had. Push it up and down on the hub before the nuts go on: it moves",
    "wheel-rim-same": "rim: {offered}",
    "wheel-rim-unsaid": "rim: not said; needed {needed}: read the stamp behind the spokes or at the valve",
    "wheel-rim-off": "rim: {offered}, needed {needed}: other tyres",
    "wheel-width-off": "rim: {offered}, needed {needed}: another width",
    "wheel-rim-trap": "rim: {offered}, needed {needed}: only {apart} apart in diameter, so that the old tyres seem to mount; the "
    "seat of the bead is another and they come off. A diameter of three figures is in mm",
    "wheel-hump-same": "hump: {offered}, needed {needed}",
    "wheel-hump-unsaid": "hump: [{offered}, ]needed {needed}: without it a radial without a tube can leave its seat in a bend; "
    "feel for the ridge beside the seat",
    "wheel-flange-unsaid": "flange: not said; needed {needed}: read the letter in the stamp",
    "wheel-flange-other": "flange: {offered}, needed {needed}: tyres go on both; balance weights and trims may not",
    "wheel-offset-same": "offset: {offered}",
    "wheel-offset-unsaid": "offset: not said of both[; needed {needed}]: read ET in the stamp, or measure from rim edge to face",
    "wheel-offset-near": "offset: {offered} for {needed}: the inner edge lies {inwards} further in, the outer {outwards} further "
    "out; turn it on full lock and with the spring pressed in before it is driven",
    "wheel-offset-off": "offset: {offered} for {needed}: the inner edge lies {inwards} further in, the outer {outwards} "
    "further out",
    "wheel-seat-same": "seat: {offered}",
    "wheel-seat-unsaid": "seat: not said; needed {needed}: look into a bolt hole",
    "wheel-seat-trap": "seat: {offered}, needed {needed}: the nuts of the car touch it along a line only and work loose; buy the "
    "nuts or bolts that belong to the wheel, or leave it",
    "wheel-load-ok": "load: {offered}, needed {needed}",
    "wheel-load-low": "load: {offered} is less than {needed}",
    "wheel-load-unsaid": "load: not said; needed {needed}: read it in the stamp",
}
_VIN: Final = {
    "vin-unknown": "{text} is no vehicle identification number; write such as {expected}",
    "vin-length": "{text} has not the 17 characters of ISO 3779. Before 1981 each maker had chassis numbers of his own: take it "
    "as it is stamped, nothing can be checked or told from it",
    "vin-letter": "{text}: I, O and Q are never used; they are read for 1 and 0[. Try {expected}]",
    "vin-serial": "{text}: the last four are always figures; look at the stamp again",
    "vin-check": "{text}: the check digit at the ninth place does not agree, so that a character is misread, or the car was "
    "never meant for North America[. With one character that looks alike it could be {expected}]",
    "vin-same": "the same number: {offered}",
    "vin-alike": "{offered} and {needed} differ only at {places}, where the characters look alike: read the stamp again",
    "vin-sister": "{offered} is another car than {needed}: alike up to the works, another serial ({places})",
    "vin-other": "{offered} is another car than {needed}; they differ at {places}",
    "vin-told": "{vin}:[ {region}][, model year {years}]",
}
_HAND: Final = {
    "hand-unknown": "{text} is no side of a car; write such as {expected}",
    "hand-more": "{text} says more than a side, or something that is not understood; write the side alone, such as {expected}",
    "hand-no-side": "{text} says where one drives or where the steering is, not on which side the part goes; write such as "
    "{expected}",
    "hand-road": "{text} is left or right by the side of the road: the nearside is the one at the kerb. Ask in which country the "
    "car was driven, and write such as {expected}",
    "hand-steering": "{text} is left or right by the side of the steering of the car it came from. Ask which that is, and write "
    "such as {expected}",
    "hand-code": "{text}: the two letters may be a country or short for a place on the car; write the country's name, or such "
    "as {expected}",
    "hand-several": "{text} is one of two; ask which: {expected}",
    "hand-clash": "{text}: its words are of different sides; ask which it is: {expected}",
    "hand-viewed": "{text}: seen from the front, left and right are changed over; ask which it is from the driver's seat: "
    "{expected}",
    "hand-no-reading-goes": "{text} may be left or right, and neither goes",
    "hand-same": "same side: {offered}",
    "hand-both": "{offered}: one for the {needed} is among them",
    "hand-one": "for {needed} sides; this is the {offered} one alone",
    "hand-other": "{offered} where {needed} is needed: a part for the other side is a mirror image, and no work makes it go",
    "hand-near": "{word} is the side at the kerb; traffic keeps to the {by}[ in {country}][, since {since}]: {side}",
    "hand-off": "{word} is the side away from the kerb; traffic keeps to the {by}[ in {country}][, since {since}]: {side}",
    "hand-driver": "{word}: the steering is on the {by}, so it is the {side}",
    "hand-passenger": "{word}: the steering is on the {by}, so it is the {side}",
}
ROLLING: Final[dict[str, str]] = {
    **_READ,
    **_WHOLE,
    **_DEMANDS,
    **_CHANGES,
    **_DATE,
    **_WHEEL,
    **_VIN,
    **_HAND,
}
