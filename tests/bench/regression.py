"""Logistic regression, for what is fitted to recordings."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

RIDGE = 0.01
"""A trace of it keeps a weight finite where some evidence decides alone."""


def weights(pieces: NDArray[np.float64], true: NDArray[np.float64]) -> NDArray[np.float64]:
    """One for each column of pieces, under which what was true is likeliest (Newton's method)."""
    found = np.zeros(pieces.shape[1])
    for _ in range(40):
        sure = 1 / (1 + np.exp(-pieces @ found))
        slope = pieces.T @ (true - sure) - RIDGE * found
        bend = (pieces.T * (sure * (1 - sure))) @ pieces + RIDGE * np.eye(len(found))
        found += np.linalg.solve(bend, slope)
    return found
