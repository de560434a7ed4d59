"""How long a sentence lasts where nobody says it: in a simulation."""

from __future__ import annotations

_SENTENCE_S = 0.4
"""The silence after a sentence."""

_LETTER_S = 0.065
"""A letter or a figure."""

_PAUSE_S = 0.2
"""A comma or the like inside a sentence."""

_PAUSES = ",;:"


def spoken_length_s(text: str) -> float:
    """Seconds that `text` takes to say, from its letters and pauses alone: the same on every machine."""
    letters = sum(character.isalnum() for character in text)
    pauses = sum(character in _PAUSES for character in text)
    return round(_SENTENCE_S + _LETTER_S * letters + _PAUSE_S * pauses, 2)
