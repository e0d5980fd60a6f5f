"""Sentences of the trade room's proofs, a file for each group of families."""

from __future__ import annotations

from typing import Final

from fitlore.report.sentences_trade.bolted import BOLTED
from fitlore.report.sentences_trade.electric import ELECTRIC
from fitlore.report.sentences_trade.fluid import FLUID
from fitlore.report.sentences_trade.plugs import PLUGS
from fitlore.report.sentences_trade.rolling import ROLLING
from fitlore.report.sentences_trade.service import SERVICE
from fitlore.report.sentences_trade.thread import THREAD
from fitlore.report.sentences_trade.turning import TURNING

TRADE: Final[dict[str, str]] = {
    **THREAD,
    **BOLTED,
    **TURNING,
    **ROLLING,
    **ELECTRIC,
    **FLUID,
    **SERVICE,
    **PLUGS,
}
