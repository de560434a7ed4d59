"""Of several channels the one to listen to: a mix would cancel what comes in opposite phase, and halve speech
beside a dead channel."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from handsfree.hear.level import SILENT_DB
from handsfree.signals import FRAME_S

LEAD_DB = 6.0
"""Another channel is chosen where it is louder by this."""

FALL_DB = 60.0 * FRAME_S
"""A channel's level is that of its loudest sound of late; it falls by 60 dB a second, as an echo does. So two
that are alike do not take turns, and one that dies is left after a tenth of a second."""

Piece = NDArray[np.float64]
"""Samples from -1 to 1, one row each, one column for each channel."""


class LoudestChannel:
    """Passes one channel of a stream on, the loudest of late; goes over to another within one piece."""

    def __init__(self) -> None:
        self._levels_db: NDArray[np.float64] | None = None
        self._chosen: int | None = None

    def of(self, piece: Piece) -> NDArray[np.float64]:
        """One channel of the next piece, which lasts FRAME_S and has no offset."""
        if piece.shape[1] == 1:
            return piece[:, 0]
        was, now = self._chosen, self._choose(piece)
        self._chosen = now
        if was in (None, now):
            return piece[:, now]
        into = np.linspace(0.0, 1.0, len(piece))
        return (1 - into) * piece[:, was] + into * piece[:, now]

    def _choose(self, piece: Piece) -> int:
        power = np.einsum("ij,ij->j", piece, piece) / len(piece)
        now_db = 10 * np.log10(power + 10 ** (SILENT_DB / 10))
        levels_db = now_db if self._levels_db is None else np.maximum(now_db, self._levels_db - FALL_DB)
        self._levels_db, loudest = levels_db, int(np.argmax(levels_db))
        if self._chosen is None or levels_db[loudest] > levels_db[self._chosen] + LEAD_DB:
            return loudest
        return self._chosen
