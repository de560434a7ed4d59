"""Who speaks into the microphone is louder than those behind: words of others around a sentence are left out.

Talk nearby that runs into a command, before or after it, would make a sentence of two people's words, which
no grammar knows. Only words at the edges are left out, if they are much quieter than the rest. Of what is a
sentence as it stands none are, for people let their last word fall; but where the room is not still, "dock
four hundred" and a quiet "eight" behind it may be the sentence of one or of two: then both are proposed.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, takewhile

from handsfree.hear.edges import STEP_S, Levels, over_room_db, smoothed
from handsfree.ports import Sentences
from handsfree.signals import Alternative

BEHIND_DB = 15.0
"""A word at the edge is of others if it stays so far below the loudest. The first and last words of 700
sentences, in synthetic voices and by people, in quiet and in noise, lay at most 11 dB below, a last word that
one let fall 16; words of a babble that the speaker's loudest moment was 15 dB above lay 14 to 18 below."""

STILL_DB = 40.0
"""A room over which speech stands so far holds nobody else. Of 996 commands in quiet six ended as quietly as
babble does, all of them the speaker's own."""

EDGE_S = 0.05
"""Where a word begins or ends its neighbour may sound."""


def in_front(
    alternatives: tuple[Alternative, ...], levels_db: Levels, sentences: Sentences
) -> tuple[Alternative, ...]:
    """Readings without words of the room at their edges; of those that are alike then, the best.

    Ends of words are told from where the levels start. Alternatives come best first, and are so returned;
    those that are in doubt come last.
    """
    levels = smoothed(levels_db)
    still = over_room_db(levels_db) >= STILL_DB
    best: dict[tuple[str, ...], Alternative] = {}
    doubted: list[Alternative] = []
    for one in alternatives:
        front = _front(one, levels) if one.ends_s else one
        # The grammar is asked where there is something to ask: seldom is a word that quiet.
        if front.words != one.words and sentences.match(one.words):
            if not still and sentences.match(front.words):
                doubted.append(replace(front, price=one.price))
            front = one
        best.setdefault(front.words, front)
    return (*best.values(), *doubted)


def _front(one: Alternative, levels: Levels) -> Alternative:
    steps = [min(round(end_s / STEP_S), len(levels) - 1) for end_s in (0.0, *one.ends_s)]
    edge = round(EDGE_S / STEP_S)
    inside = [(begin + min(edge, (end - begin) // 2), end) for begin, end in pairwise(steps)]
    loudest = [levels[begin : max(begin, end - edge) + 1].max() for begin, end in inside]
    quiet = [level < max(loudest) - BEHIND_DB for level in loudest]
    first = sum(1 for _ in takewhile(bool, quiet))
    behind = len(quiet) - sum(1 for _ in takewhile(bool, reversed(quiet)))
    left = slice(first, behind)
    # What Vosk charged for words that are left out it has earned: they were there to be heard.
    price = one.price * len(one.words[left]) / len(one.words)
    begins_s, ends_s = one.begins_s[left], one.ends_s[left]
    return replace(one, words=one.words[left], begins_s=begins_s, ends_s=ends_s, price=price)
