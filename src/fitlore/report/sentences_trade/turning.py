"""Sentences on bearings, seals, rings, belts."""

from __future__ import annotations

from typing import Final

_BEARING: Final = {
    "bearing-same": "same bearing: {offered}[ ({size})]",
    "bearing-ok": "{offered} goes where {needed} went",
    "bearing-ok-with-work": "{offered} goes where {needed} went, with work: {what}",
    "bearing-off": "{offered} does not go where {needed} went: {what}",
    "bearing-trap": "{offered} seems to go where {needed} went and does not: {what}",
    "bearing-unreadable": "{offered} for {needed}: it depends; look at {what}",
    "bearing-no-reading-goes": "{offered} for {needed}: no bearing of that size goes",
    "bearing-size-same": "same size: {offered}",
    "bearing-size-off": "{offered} where {needed} is needed",
    "bearing-bore-small": "{offered} where {needed} is needed: the bore is too small for the shaft[ by {bore-gap}]",
    "bearing-outside-large": "{offered} where {needed} is needed: too big for the hole[ by {outside-gap}]",
    "bearing-bore-loose": "{offered} where {needed} is needed: it slides onto the shaft[ with {bore-gap} to spare] and turns "
    "on it until both are worn away",
    "bearing-outside-loose": "{offered} where {needed} is needed: it drops into the hole[ with {outside-gap} to spare] and "
    "turns in it",
    "bearing-narrow": "{offered} where {needed} is needed: it goes on and in, but is {width-gap} too narrow and wanders "
    "endwise",
    "bearing-wide": "{offered} where {needed} is needed: it goes on and in, but stands out by {width-gap}; circlip or cover "
    "will not go home, or clamps it",
    "bearing-tell-measure": "{what} measures {this} mm, the right one {right} mm",
    "bearing-form-off": "{offered} is no {needed} bearing",
    "bearing-form-trap": "a bearing of form {offered} where {needed} is needed: the same size outside, but it takes other "
    "loads; it runs at first and fails early",
    "bearing-tell-form": "{form}: {look}",
    "bearing-steep": "{offered} for {needed}: same bore and outside, other slope of the rollers; the play it was set for and "
    "the side load are no longer right",
    "bearing-tell-steep": "{steep} is the steep one: its outer ring is narrower and its rollers lean visibly more",
    "bearing-set-has-ring": "the set {set} holds the ring needed",
    "bearing-ring-only": "one ring only ({offered}) where a set is needed; rings are changed in pairs",
    "bearing-other-ring": "{offered} is not the ring needed ({needed})",
    "bearing-other-series": "a ring of another series never runs in this one",
    "bearing-groove-missing": "no groove where {needed} is needed: it goes in and feels right, and nothing holds it endwise",
    "bearing-tell-groove": "look for the groove round the outside near one edge",
    "bearing-groove-spare": "its groove is not needed and does no harm",
    "bearing-ring-off": "it comes with a snap ring that is not needed: take it off",
    "bearing-ring-over": "it comes without the snap ring: put the old one over",
    "bearing-ring-spare": "it comes with its snap ring",
    "bearing-bore-taper": "bore {offered} where {needed} is needed; a taper bore (1 in 12) wants its own sleeve",
    "bearing-cover-same": "covered both sides: {offered} for {needed}",
    "bearing-cover-missing": "{offered} where {needed} is needed: grease gets out and dirt in",
    "bearing-cover-spare": "{offered} where an open one is needed: where oil has to come through it, prise the covers out and "
    "wash the grease out",
    "bearing-cover-one-too-many": "{offered} for {needed}: take the one out that stands in the way of oil or grease",
    "bearing-shield-for-seal": "{offered} for {needed}: it fits, but lets dirt and water in unless there is a seal outside of "
    "it; look whether there is one",
    "bearing-seal-for-shield": "{offered} for {needed}: it rubs a little and bears less speed, and keeps more dirt out",
    "bearing-fewer-rollers": "{offered} where {needed} is needed: E has more and bigger rollers, the plain one bears less, and "
    "the rings of the two do not mix; ask what it carries",
    "bearing-more-rollers": "{offered} for {needed}: more and bigger rollers; both rings have to be changed",
    "bearing-finer": "accuracy {offered} for {needed}",
    "bearing-coarser": "accuracy {offered} where {needed} is needed",
    "bearing-angle-off": "contact angle {offered} degrees where {needed} is needed",
    "bearing-angle-unsaid": "the contact angle is not said by one of them; read the letters behind the number",
    "bearing-clearance-set": "clearance is set when it is fitted; the letters do not decide",
    "bearing-clearance-less": "clearance {offered} where {needed} was chosen[ ({offered-room} for {needed-room})]: it binds "
    "when it is warm or pressed on",
    "bearing-clearance-more": "clearance {offered} for {needed}[ ({offered-room} for {needed-room})]: usually fine in an "
    "alternator, to be chosen on purpose in a hub; say where it goes",
    "bearing-clearance-far": "clearance {offered} for {needed}[ ({offered-room} for {needed-room})]: too loose",
    "bearing-size": "{bearing}: {form}, {size}[ ({certainty})]",
    "bearing-unknown": "{text} is no bearing number; write such as {expected}",
    "bearing-unlisted": "{text}: no table lists that bearing; nearest: {expected}",
    "bearing-letters": "{text}: letters that no standard and no common spelling has; write such as {expected}",
    "bearing-rings-differ": "{text}: cone and cup are of two series and do not run together; pairs: {expected}",
    "bearing-only-size": "{text} is a size; it could be {expected}: read the number off the old one",
}

_RUBBER: Final = {
    "rubber-same": "same rubber: {offered}",
    "rubber-same-medium": "sold for {offered}, as needed",
    "rubber-other-medium": "sold for {offered} where it meets {needed}: no rubber bears both",
    "rubber-not-asked": "{offered}; nothing is said of what runs against it, and oil and petrol it bears",
    "rubber-special": "{offered}: it does not bear every fluid of a car; say what runs against it",
    "rubber-unsaid": "the rubber of the offered one is not said; needed {needed}: read the packet",
    "rubber-serves": "{offered} bears what {needed} bears there",
    "rubber-swells": "{offered} where {needed} is needed: {medium} swells or softens it; it seals on the day and fails within "
    "weeks",
    "rubber-some": "{offered} where {needed} is needed: it bears {medium} only for a while; ask its maker",
    "rubber-heat": "{offered} bears {offered-heat}, {needed} {needed-heat}: say how hot it gets there",
    "rubber-tell": "nobody sees it: trust the packet only, or lay an offcut in a jar of the fluid for two days and measure it",
}
_RING: Final = {
    "o-ring-same": "same ring: {offered}",
    "o-ring-ok": "{offered} goes where {needed} went",
    "o-ring-off": "{offered} does not go where {needed} went: {what}",
    "o-ring-trap": "{offered} seems to go where {needed} went and does not last: {what}",
    "o-ring-unreadable": "{offered} for {needed}: it depends; look at {what}",
    "o-ring-section-same": "same section: {offered}",
    "o-ring-section-within": "section {offered} for {needed}: within the tolerance of {tolerance}",
    "o-ring-section-off": "section {offered} where {needed} is needed",
    "o-ring-section-thin": "section {offered} where {needed} is needed: it lies in the groove, is squeezed too little and weeps",
    "o-ring-section-thick": "section {offered} where {needed} is needed: it fills the groove, is pinched or keeps the faces "
    "apart",
    "o-ring-tell-section": "its section measures {this}, the right one {right}, fresh from the packet; the eye does not see it",
    "o-ring-inside-same": "same inside: {offered}",
    "o-ring-inside-within": "inside {offered} for {needed}: within the tolerance of {tolerance}",
    "o-ring-inside-off": "inside {offered} where {needed} is needed ({share})",
    "o-ring-inside-small": "inside {offered} for {needed} ({share} small): on a shaft it may be stretched, in a bore it falls "
    "short; say where it sits",
    "o-ring-inside-large": "inside {offered} for {needed} ({share} large): pressed together in a bore it may do, on a shaft it "
    "hangs and is caught; say where it sits",
    "o-ring-softer": "{offered} Shore where {needed} is needed: pressure drives it into the gap",
    "o-ring-harder": "{offered} Shore for {needed}: it needs more squeeze; ask",
    "o-ring-size": "{number}: {ring}[ ({certainty})]",
    "o-ring-unknown": "{text} is no O-ring; write such as {expected}",
    "o-ring-unlisted": "{text}: no table lists that ring; nearest: {expected}",
    "o-ring-order": "{text}: inside first, then the section; is {expected} meant?",
    "o-ring-outside": "{text} looks like inside and outside; is {expected} meant?",
}

_SEAL: Final = {
    "shaft-seal-same": "same seal: {offered}",
    "shaft-seal-ok": "{offered} goes where {needed} went",
    "shaft-seal-ok-with-work": "{offered} goes where {needed} went, with work: {what}",
    "shaft-seal-off": "{offered} does not go where {needed} went: {what}",
    "shaft-seal-trap": "{offered} seems to go where {needed} went and weeps: {what}",
    "shaft-seal-unreadable": "{offered} for {needed}: it depends; look at {what}",
    "shaft-seal-shaft-same": "same shaft: {offered}",
    "shaft-seal-shaft-off": "for a shaft of {offered}, needed {needed}",
    "shaft-seal-lip-loose": "for a shaft of {offered} on one of {needed}: the lip goes on easily and presses too little; it "
    "may weep at once",
    "shaft-seal-lip-snug": "for a shaft of {offered} on one of {needed}: a little tighter, often works; measure the shaft",
    "shaft-seal-lip-tight": "for a shaft of {offered} on one of {needed}: it goes on with grease, runs hot and wears a groove",
    "shaft-seal-tell-shaft": "measure the shaft beside the old track, not the old seal: a worn lip measures too big",
    "shaft-seal-housing-same": "same hole: {offered}",
    "shaft-seal-housing-off": "for a hole of {offered}, needed {needed}",
    "shaft-seal-case-loose": "for a hole of {offered} in one of {needed}: it goes in by hand and the oil goes round it[ (a seal "
    "is made {over} bigger than its hole)]",
    "shaft-seal-case-tight": "for a hole of {offered} in one of {needed}: driven in, the case bends and the lip stands askew",
    "shaft-seal-tell-housing": "measure the hole, or the old seal's outside less 0.2 to 0.3 mm",
    "shaft-seal-width-same": "same width: {offered}",
    "shaft-seal-narrower": "width {offered} for {needed}: it may be set where the shaft is not worn",
    "shaft-seal-thin": "width {offered} for {needed}: much narrower; look whether it stays square in the hole",
    "shaft-seal-lip-ptfe": "a lip of {offered}: one of PTFE and one of rubber are fitted in different ways (PTFE dry, over a "
    "sleeve, on a shaft without a groove); ask which the place bears",
    "shaft-seal-wider": "width {offered} for {needed}: measure how deep the hole is before it meets a shoulder or an oil hole",
    "shaft-seal-dust-same": "lip[: {offered}] as needed",
    "shaft-seal-dust-spare": "its dust lip is not needed and does no harm where there is dirt; it rubs a little",
    "shaft-seal-dust-missing": "{offered} where {needed} is needed: dirt gets to the sealing lip",
    "shaft-seal-dust-unsaid": "whether it has a dust lip is not said; {needed} is needed: look at the outer face",
    "shaft-seal-cooler": "{offered} bears {offered-heat} where {needed} was chosen for up to {needed-heat}: it hardens and weeps",
    "shaft-seal-bears-heat": "{offered} bears {offered-heat}, {needed} {needed-heat}",
    "shaft-seal-case-unsaid": "what the case is made of is not said; needed {needed}: look at the outside",
    "shaft-seal-case-metal": "a bare metal case for a rubber one: smear sealant on its outside; in light metal it may creep",
    "shaft-seal-case-rubber": "a rubber covered case for a metal one: it seals a rough hole better",
    "shaft-seal-turns-same": "turns {offered}, needed {needed}",
    "shaft-seal-turns-wrong": "turns {offered} where {needed} is needed: it looks the same and pumps the oil out",
    "shaft-seal-tell-turning": "look for the arrow on the face, or for slanted ribs behind the lip",
    "shaft-seal-turns-spare": "good both ways",
    "shaft-seal-turns-ask": "made to turn {offered}; say which way the shaft turns, seen from outside",
    "shaft-seal-turns-unsaid": "needed turning {needed}; the offered one does not say: look for the arrow, or for a plain lip, "
    "which holds less",
    "shaft-seal-size": "{seal}[ ({certainty})]",
    "shaft-seal-unknown": "{text} is no shaft seal; write such as {expected}",
    "shaft-seal-words": "{text}: more is written than can be read of a seal; write such as {expected}",
    "shaft-seal-figures": "{text}: no seal has such figures; shaft, housing, width, such as {expected}",
}

_CLIP: Final = {
    "circlip-same": "same ring: {offered}",
    "circlip-off": "{offered} does not go where {needed} went: {what}",
    "circlip-trap": "{offered} seems to go where {needed} went and does not hold: {what}",
    "circlip-other-seat": "a ring for a {offered} where one for a {needed} is needed: the same figure, another spring",
    "circlip-tell-eyes": "a ring for a shaft has its eyes outside and springs open, one for a bore has them inside and springs "
    "shut",
    "circlip-tell-groove": "an E-clip is named by its groove and pushed on from the side; a circlip is named by the shaft",
    "circlip-size-off": "for {offered}, needed {needed}",
    "circlip-slack": "for {offered} on {needed}: it goes into the groove and does not grip; it turns and flies out",
    "circlip-strained": "for {offered} on {needed}: it goes over or in only when it is bent too far, and then does not "
    "spring back",
    "circlip-tell-turn": "fitted, the right one cannot be turned by hand without force",
    "circlip-thick": "{offered} thick where {needed} is needed: it does not go into the groove",
    "circlip-thin": "{offered} thick where {needed} is needed: what it holds has play, and hammers it out",
    "circlip-tell-thickness": "it measures {this}, the right one {right}",
    "circlip-size": "{clip}[ ({certainty})]",
    "circlip-unknown": "{text} is no circlip; write such as {expected}",
    "circlip-several": "{text} does not say shaft or bore; write such as {expected}",
    "circlip-unlisted": "{text}: no standard lists that ring; nearest: {expected}",
    "circlip-thickness": "{text}: that size has another thickness; nearest: {expected}",
}
_KEY: Final = {
    "key-same": "same key: {offered}",
    "key-ok": "{offered} goes where {needed} went",
    "key-ok-with-work": "{offered} goes where {needed} went, with work: {what}",
    "key-off": "{offered} does not go where {needed} went: {what}",
    "key-trap": "{offered} seems to go where {needed} went and does not hold: {what}",
    "key-unreadable": "{offered} for {needed}: it depends; look at {what}",
    "key-form-off": "{offered} is no key for the way of {needed}",
    "key-width-same": "same width: {offered}",
    "key-wide": "width {offered} where {needed} is needed: it does not go in",
    "key-narrow": "width {offered} where {needed} is needed: it lies loose",
    "key-slack": "width {offered} where {needed} is needed: it goes in, works to and fro and ruins both ways",
    "key-tell-rock": "in its way it must not rock, nor show light beside it",
    "key-third-off": "{what} {offered} where {needed} is needed",
    "key-longer": "length {offered} for {needed}: cut it",
    "key-shorter": "length {offered} where {needed} is needed: it bears less",
    "key-ends-file": "square ends (B) for round ones (A): file them round",
    "key-ends-round": "round ends (A) for square ones (B): it bears on less of its length; ask",
    "key-ends-unsaid": "the ends are not said; needed {needed} (A round, B square): look",
    "key-size": "{key}[ ({certainty})]",
    "key-unknown": "{text} is no key; write such as {expected}",
    "key-unlisted": "{text}: no standard lists that key; nearest: {expected}",
}

_BELT: Final = {
    "belt-same": "same belt: {offered}",
    "belt-ok": "{offered} goes where {needed} went",
    "belt-off": "{offered} does not go where {needed} went: {what}",
    "belt-trap": "{offered} seems to go where {needed} went and slips: {what}",
    "belt-unreadable": "{offered} for {needed}: it depends; look at {what}",
    "belt-no-reading-goes": "{text}: whichever length is meant, it does not go",
    "belt-form-off": "{offered} is no belt for the pulleys of {needed}",
    "belt-profile-off": "ribs {offered} apart where {needed} is needed",
    "belt-ribs-same": "{offered} ribs, as needed",
    "belt-ribs-over": "{offered} ribs where {needed} are needed: it stands out over the pulley",
    "belt-ribs-fewer": "{offered} ribs where {needed} are needed: it runs and carries less; it gets one home and no further",
    "belt-tell-ribs": "count the grooves of every pulley, not the ribs of the old belt",
    "belt-one-sided": "ribs on one side only where its back drives something",
    "belt-two-sided": "ribs on both sides: whether its back may run over the plain rollers has to be looked at",
    "belt-not-elastic": "a plain belt where an elastic one is needed: nothing tightens it, and it slips when it has set",
    "belt-elastic": "an elastic belt where something tightens a plain one: it is too short and pulls at the bearings",
    "belt-tell-elastic": "no adjuster and no sprung roller means an elastic belt; by hand it gives along its length",
    "belt-section-same": "same section: {offered}",
    "belt-wide": "section {offered}, {top} wide at the top, where {right} is needed: it rides on the rim",
    "belt-slim": "section {offered}, {top} wide at the top, where {right} is needed: it sinks to the bottom of the groove",
    "belt-deep": "section {offered} for {needed}: as wide, but {high} high where {right} is needed; it runs on the bottom of the "
    "groove and slips",
    "belt-tell-deep": "it is {high} high, the right one {right}; in the groove there must be daylight under it",
    "belt-shallow": "section {offered} for {needed}: as wide, but {high} high where {right} is needed; it carries less and may "
    "turn over; ask",
    "belt-alike": "section {offered} for {needed}: nearly the same size, made to another standard; lay it in the groove",
    "belt-not-notched": "no notches where the needed one has them: round a small pulley it runs hot; look how small they are",
    "belt-notched-too": "its notches are not needed and do no harm",
    "belt-length-same": "same length: {offered}[ (round the outside {outside})]",
    "belt-length-within": "length {offered} for {needed}[ (round the outside {outside})]: no more than such a belt is made short "
    "({tolerance})",
    "belt-length-unasked": "which length is needed is not said: read it off the old belt",
    "belt-length-unsaid": "its length is not said; needed {needed}",
    "belt-length-other-kind": "length {offered} for {needed}: two kinds of length, and nothing says how they compare; measure "
    "round the outside",
    "belt-long": "length {offered} where {needed} is needed[ (round the outside {outside})]: too long by {gap}",
    "belt-short": "length {offered} where {needed} is needed[ (round the outside {outside})]: too short by {gap}",
    "belt-longer": "length {offered} for {needed}[ (round the outside {outside})]: {gap} longer; look whether the adjuster has "
    "{move} left to go out",
    "belt-shorter": "length {offered} for {needed}[ (round the outside {outside})]: {gap} shorter; look whether the adjuster has "
    "{move} left to go in",
    "belt-elastic-length": "length {offered} for {needed}: nothing on the engine takes up {gap} of an elastic belt; it has to be "
    "the length itself",
    "belt-size": "{belt}[ ({certainty})]",
    "belt-unknown": "{text} is no belt; write such as {expected}",
    "belt-unlisted": "{text}: no standard listed here has that section; listed: {expected}",
    "belt-which-length": "{text} does not say which length; it could be {expected}: read the letters behind it, or measure the "
    "height",
}
_TOOTHED: Final = {
    "toothed-belt-same": "same belt: {offered}",
    "toothed-belt-ok": "{offered} goes where {needed} went",
    "toothed-belt-off": "{offered} does not go where {needed} went: {what}",
    "toothed-belt-trap": "{offered} seems to go where {needed} went and does not last: {what}",
    "toothed-belt-unreadable": "{offered} for {needed}: it depends; look at {what}",
    "toothed-belt-teeth-same": "{offered} teeth, as needed",
    "toothed-belt-teeth-off": "{offered} teeth where {needed} are needed: {gap} of length, which no roller takes up",
    "toothed-belt-form-same": "teeth {offered}, as needed",
    "toothed-belt-pitch-off": "teeth {offered-pitch} apart where {needed-pitch} is needed: it climbs out of the wheels",
    "toothed-belt-form": "teeth {offered} ({offered-shape}) where {needed} ({needed-shape}) is needed: as far apart, but another "
    "tooth; it goes on, and its teeth shear off",
    "toothed-belt-tell-form": "look at a tooth from the side: {offered} is {offered-shape}[, {offered-high} high], {needed} is "
    "{needed-shape}[, {needed-high} high]; in the wheel it must sit without daylight",
    "toothed-belt-width-same": "width {offered} for {needed}",
    "toothed-belt-wide": "width {offered} where {needed} is needed: it rubs on flange or cover",
    "toothed-belt-slim": "width {offered} where {needed} is needed: it goes on and carries less",
    "toothed-belt-tell-width": "measure across the back: {this}, the right one {right}",
    "toothed-belt-unsaid": "{what} is not said; needed {needed}: {look}",
    "toothed-belt-size": "{belt}: teeth {pitch} mm apart, {shape}[ ({certainty})]",
    "toothed-belt-unknown": "{text} is no toothed belt; write such as {expected}",
    "toothed-belt-unlisted": "{text}: no table lists that form of tooth; listed: {expected}",
}

TURNING: Final[dict[str, str]] = {
    **_BEARING,
    **_RUBBER,
    **_RING,
    **_SEAL,
    **_CLIP,
    **_KEY,
    **_BELT,
    **_TOOTHED,
}
"""Template per code, as in `report.sentences`."""
