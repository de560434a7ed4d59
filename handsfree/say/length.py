"""How long a sentence lasts when nobody synthesises it: a fixed formula, for demos and simulations."""

from __future__ import annotations

WORD_S = 0.4
"""A word at 150 words a minute, the default rate of the spoken voice."""

PAUSE_S = 0.3
"""A breath after each sentence."""


def spoken_length_s(text: str) -> float:
    """Seconds that the text takes to say; 0 for none."""
    sentences = sum(text.count(mark) for mark in ".?!:")
    return len(text.split()) * WORD_S + sentences * PAUSE_S
