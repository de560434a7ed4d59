"""Words of others around a sentence are left out; what the speaker said never is."""

from __future__ import annotations

from itertools import accumulate

import numpy as np
import pytest

from handsfree.hear.edges import Levels, levels_of
from handsfree.hear.foreground import BEHIND_DB, in_front
from handsfree.signals import SAMPLE_RATE, Alternative
from handsfree.testing.sentences import ListedSentences

WORD_S = 0.4
SENTENCES = ListedSentences("run it through", "open the valve")

SPOKEN = [
    # words and how far each lies below the loudest (dB)          what is left
    ({"open": 0, "the": 9, "valve": 3}, "open the valve"),
    ({"run": 0, "it": 9, "through": 20}, "run it through"),
    ({"nine": 24, "friday": 26, "open": 0, "the": 9, "valve": 3}, "open the valve"),
    ({"open": 0, "the": 9, "valve": 3, "[unk]": 20}, "open the valve"),
    ({"open": 0, "the": 20, "valve": 3}, "open the valve"),
    ({"friday": 20, "do": 6, "not": 9, "open": 0}, "do not open"),
    ({"do": BEHIND_DB - 1, "open": 0}, "do open"),
    ({"correct": 0}, "correct"),
]


def spoken(levels_db: tuple[float, ...], still_s: int = 0) -> Levels:
    """A tone for each word, so far below full scale, and silence behind them."""
    step = np.arange(round(WORD_S * SAMPLE_RATE))
    tone = 0.9 * np.sin(2 * np.pi * 300 * step / SAMPLE_RATE)
    sound = np.concatenate([tone * 10 ** (-level / 20) for level in levels_db])
    return levels_of((sound * 32767).astype("<i2").tobytes() + bytes(2 * SAMPLE_RATE * still_s))


@pytest.mark.parametrize(("words", "left"), SPOKEN)
def test_words_left(words: dict[str, float], left: str) -> None:
    """Only at the edges, and only what is far quieter; the others keep their times."""
    ends_s = tuple(accumulate(WORD_S for _ in words))
    one = Alternative(tuple(words), 1.0, ends_s=ends_s, price=float(len(words)))
    (front,) = in_front((one,), spoken(tuple(words.values())), SENTENCES)
    assert " ".join(front.words) == left
    assert front.price == len(front.words)
    assert front.ends_s == tuple(ends_s[list(words).index(word)] for word in front.words)


def test_readings_that_are_alike_then() -> None:
    """The better one stays, in its place."""
    levels_db = spoken((20, 0, 3))
    ends_s = tuple(accumulate((WORD_S,) * 3))
    readings = [
        Alternative(tuple(text.split()), score, ends_s=ends_s)
        for text, score in (("not next please", 3.0), ("[unk] next please", 2.0), ("nine fix please", 1.0))
    ]
    found = in_front(tuple(readings), levels_db, SENTENCES)
    assert [(" ".join(one.words), one.score) for one in found] == [("next please", 3.0), ("fix please", 1.0)]


@pytest.mark.parametrize(
    ("levels_db", "proposed"),
    [
        ((0, 3, 16, 16), ["open the valve twice", "open the"]),
        ((0, 9, 3, 16), ["open the valve twice", "open the valve"]),
        ((0, 9, 3, BEHIND_DB - 1), ["open the valve twice"]),
        ((0, 20, 3, 6), ["open the valve twice"]),
    ],
)
def test_sentences_of_one_or_of_two(levels_db: tuple[float, ...], proposed: list[str]) -> None:
    """A quiet end that the sentence can do without may be of others: without it, it is as likely."""
    sentences = ListedSentences("open the valve twice", "open the valve", "open the")
    words = ("open", "the", "valve", "twice")
    one = Alternative(words, 1.0, ends_s=tuple(accumulate(WORD_S for _ in words)), price=4.0)
    found = in_front((one,), spoken(levels_db), sentences)
    assert [" ".join(each.words) for each in found] == proposed
    assert {each.sound for each in found} == {one.sound}
    assert in_front((one,), spoken(levels_db, still_s=1), sentences) == (one,)


def test_ears_that_tell_no_times() -> None:
    """Nothing is left out."""
    one = Alternative(("not", "next"), 1.0)
    assert in_front((one,), spoken((20, 0)), SENTENCES) == (one,)
