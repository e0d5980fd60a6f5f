"""The sentences of a plan's lines, of what clashes, and of what could be chosen instead."""

from __future__ import annotations

from typing import Final

PLAN: Final[dict[str, str]] = {
    "plan-line": "{need} ({fault}): {option}",
    "plan-line-left": "{need} ({fault}): left, it adds less than it costs",
    "bought": "{packs} x {offer} at {price}[, {here} of them for this][, shared with {others}]",
    "next-best": "next best: {option}, {dearer} dearer",
    "next-best-near": "next best near by: {option}, at most {dearer} dearer",
    "no-other": "no other part or way would do",
    "no-other-near": "nothing near by would do instead; `fitlore plan --exact` looks further",
    "not-chosen": "not chosen: {option}, {dearer} dearer",
    "not-chosen-impossible": "not chosen: {option}, with which no plan keeps to the limits",
    "not-to-buy": "not to be bought: {part}, {word}",
    "price-up": "{offer} stays up to {price} a pack, now {now}[ ({about})]",
    "price-any": "{offer} stays whatever it costs, now {now}",
    "price-down": "{offer} comes in below {price} a pack, now {now}[ ({about})]",
    "price-never": "{offer} comes in at no price, now {now}[ ({about})]",
    "clash-need": "{need} has to be met ({fault}); the ways to meet it:",
    "clash-option": "{option}[, {minutes} min]",
    "clash-offer": "{offer} at {price}, here {day}",
    "clash-nobody": "nobody in the books sells {item} (wanted: {count})",
    "clash-refused": "{part} may not be bought: {word}",
    "clash-days": "all in hand by {day}[, {asked}]",
    "clash-cash": "{cash} to spend now[, {asked}]",
    "clash-hands": "{hands} of hands[, {asked}]",
    "clash-suppliers": "no more suppliers than {count}[, {asked}]",
    "clash-without": "nothing from {supplier}[, {asked}]",
    "clash-banned": "{offer} is not taken for {need}[ ({why})]",
    "clash-limit": "limit: {kind} {id}",
    "trade-off": "{cost}, all in hand {day}, with a chance of {chance} in 100 that all of it proves right the first time",
    "trade-off-takes": "{need}: {option}",
    "trade-off-leaves": "{need}: left",
    "trade-off-same": "as line 1",
}
"""By code, as in `sentences`."""
