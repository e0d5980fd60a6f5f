"""Sentences of the trade room's proofs: standards compared, and how to tell a near miss on the bench."""

from __future__ import annotations

from typing import Final

_GAP: Final = "[ (diameter {gap})]"
THREAD: Final[dict[str, str]] = {
    "thread-same": "same thread: {male}",
    "thread-equivalent": "{male} goes into {female}: the standard pairs them, or lists the same size twice",
    "thread-seal-thread": "{male} goes into {female} with compound on the thread; it does not seal by itself",
    "thread-seal-face": "{male} goes into {female}, but needs a washer and a flat face to seal",
    "thread-wrong-hand": "{male} and {female}: one is left-hand, the other right-hand",
    "thread-no-hold": f"{{male}} slides through {{female}} without touching{_GAP}",
    "thread-never-starts": f"{{male}} does not start in {{female}}{_GAP}",
    "thread-too-small": f"{{male}} is plainly too small for {{female}}{_GAP}",
    "thread-jams": "{male} in {female} jams within the first turn; force spoils both threads",
    "thread-trap-loose": "{male} in {female} starts by hand, holds {overlap} of its depth, feels tight after about {turns} "
    "turns and then strips[ (diameter {gap}, pitch {pitch-error})]",
    "thread-trap-runs-home": "{male} in {female} runs all the way on and never feels wrong ({turns} turns before it would "
    "bind), but holds only {overlap} of its depth[ (diameter {gap}, pitch {pitch-error})]",
    "thread-trap-tight": "{male} in {female} starts, then jams after at most {turns-most} turns; forced, it seems to "
    "hold[ (diameter {gap}, pitch {pitch-error})]",
    "thread-trap-wedges": "{male} in {female} starts and wedges as a taper should, but neither holds nor "
    "seals[ (diameter {gap}, pitch {pitch-error})]",
    "thread-trap-form": "{male} in {female}: same pitch, other flank angle; it screws in under strain. Some shops mix "
    "them, others forbid it",
    "thread-no-reading-goes": "{offered} for {needed}: none of the readings goes[ ({pairs})]",
    "thread-unknown": "{text} is no thread designation",
    "thread-several": "{text} could be {expected}: say which",
    "thread-incomplete": "{text} is not all of a designation; write {expected}",
    "thread-size-unlisted": "{text}: no standard lists that size; nearest: {expected}",
    "thread-pitch-unlisted": "{text}: no standard lists that pitch; nearest: {expected}",
    "thread-series-clash": "{text}: that series has no such pitch; nearest: {expected}",
    "thread-length-for-pitch": "{text}: that looks like a length, not a pitch; nearest: {expected}",
    "thread-tell-over-crests": "over the crests it measures {this}, the right one {right}",
    "thread-tell-across-bore": "across the bore it measures {this}, the right one {right}",
    "thread-tell-ten-pitches": "ten threads measure {this}, not {right}",
    "thread-tell-flank-angle": "its flanks stand at {this}, the right ones at {right}",
    "thread-tell-taper": "it is {this}, the right one {right}",
    "thread-implied-coarse-pitch": "{thread}: the coarse pitch, since none is written",
    "thread-implied-series": "{thread}: the series follows from the threads per inch",
    "thread-size": "{thread}: major {major}, pitch {pitch}, pitch diameter {pitch-diameter}, minor {minor}, "
    "{angle}[, {shape}][ ({certainty})]",
    "thread-not-said": "the designation does not say: {what}",
}
"""Template per code, as in `report.sentences`."""
