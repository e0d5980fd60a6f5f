"""A thread match as a proof: codes and figures, worded nowhere here."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from fitlore.model.because import Because
from fitlore.trade.thread.dimensions import dimensions
from fitlore.trade.thread.match import Direction, Outcome, ThreadMatch, Why
from fitlore.trade.thread.tell import Tell
from fitlore.trade.thread.value import Thread, normal

HOME: Final = 10
"""Pitches in an ordinary nut or port, at most: a thread that goes further never feels wrong (nut heights: 0.8 d)."""
_NO: Final = {
    Direction.NO_HOLD: "thread-no-hold",
    Direction.NEVER_STARTS: "thread-never-starts",
    Direction.LOOSE: "thread-too-small",
    Direction.TIGHT: "thread-jams",
}
_ALL: Final = ("male-is", "gap", "overlap", "pitch-error", "turns", "turns-most")
_FIGURES_OF: Final = {
    "thread-no-hold": ("gap",),
    "thread-never-starts": ("male-is", "gap", "pitch-error"),
    "thread-too-small": ("gap", "overlap"),
    "thread-jams": ("male-is", "gap", "pitch-error", "turns-most"),
    "thread-trap-form": ("male-is", "gap"),
    "thread-trap-tight": _ALL,
    "thread-trap-wedges": _ALL,
    "thread-trap-loose": _ALL,
    "thread-trap-runs-home": _ALL,
}
"""The figures that each no tells; a figure that means nothing there (turns of what never starts) is left out."""


def proof(match: ThreadMatch) -> Because:
    """The conclusion, under it the bench tells, what was implied, the sizes taken, and what the names leave open."""
    name = code(match)
    values = {"male": normal(match.male), "female": normal(match.female)}
    values |= {key: value for key, value in _figures(match).items() if key in _FIGURES_OF.get(name, ())}
    threads = (match.male, match.female)
    under = [_tell(tell) for tell in match.tells]
    under += {normal(thread): _implied(thread) for thread in threads if thread.implied}.values()
    under += {normal(thread): size(thread) for thread in threads}.values()
    if match.fits:
        under.append(Because("thread-not-said", {"what": ", ".join(match.not_said)}))
    return Because(
        code=name,
        values=values,
        origins=tuple(dict.fromkeys(thread.row.origin for thread in threads)),
        sources=match.sources,
        under=tuple(under),
    )


def code(match: ThreadMatch) -> str:
    """The name of the sentence that says the outcome."""
    if match.outcome is Outcome.SAME:
        return "thread-same"
    if match.outcome is Outcome.EQUIVALENT:
        return "thread-equivalent"
    if match.outcome is Outcome.WITH_WORK:
        return f"thread-{match.why.value}"
    if match.why is Why.WRONG_HAND:
        return "thread-wrong-hand"
    if match.outcome is Outcome.TRAP:
        return _trap(match)
    return _NO[match.direction or Direction.NEVER_STARTS]


def _trap(match: ThreadMatch) -> str:
    if match.male.form.taper or match.female.form.taper:
        return "thread-trap-wedges"
    if match.direction is Direction.LOOSE:
        runs_home = match.turns is None or match.turns >= HOME
        return "thread-trap-runs-home" if runs_home else "thread-trap-loose"
    other_form = match.male.form.angle != match.female.form.angle
    return "thread-trap-form" if other_form and not match.pitch_error else "thread-trap-tight"


def size(thread: Thread) -> Because:
    """One thread's basic sizes, with the line of the table they come from."""
    sizes = dimensions(thread)
    values = {
        "thread": normal(thread),
        "major": f"{sizes.major:.3f} mm",
        "pitch": f"{sizes.pitch:.3f} mm",
        "pitch-diameter": f"{sizes.pitch_diameter:.3f} mm",
        "minor": f"{sizes.minor:.3f} mm",
        "angle": f"{sizes.angle} deg",
        "shape": "taper" if sizes.taper else "parallel",
        "certainty": thread.row.certainty.value,
    }
    sources = tuple(dict.fromkeys((thread.row.source, sizes.standard)))
    return Because("thread-size", values, origins=(thread.row.origin,), sources=sources)


def _figures(match: ThreadMatch) -> dict[str, str]:
    """The figures of a no, rounded for people. `turns` are at basic size, `turns-most` in the loosest parts."""
    return {
        "male-is": "smaller" if match.gap > 0 else "bigger" if match.gap < 0 else "equal",
        "gap": f"{abs(match.gap):.3f} mm",
        "overlap": f"{max(match.overlap, Decimal(0)):.0f} %",
        "pitch-error": f"{match.pitch_error:+.1f} %",
        "turns": _turns(match.turns),
        "turns-most": _turns(match.turns_loosest),
    }


def _turns(turns: Decimal | None) -> str:
    """`4.6`, `25` from ten on, `0` where the flanks clash at once, `no limit`."""
    if turns is None:
        return "no limit"
    return f"{turns:.0f}" if turns >= HOME else f"{turns:.1f}" if turns > 0 else "0"


def _tell(tell: Tell) -> Because:
    return Because(f"thread-tell-{tell.look.value}", {"this": tell.this, "right": tell.right})


def _implied(thread: Thread) -> Because:
    source = {"coarse-pitch": "ISO 965-1"}.get(thread.implied, thread.row.source)
    return Because(f"thread-implied-{thread.implied}", {"thread": normal(thread)}, sources=(source,))
