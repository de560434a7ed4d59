"""What both sides said, as captions: the record keeps when a sentence was decided on, not how long it was."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime

from handsfree.care import events as e
from handsfree.say.length import spoken_length_s
from handsfree.show.captions import PROGRAM, USER
from handsfree.webvtt import Cue
from handsfree.words import worded


def captions(records: Iterable[e.Recorded], began: datetime) -> Iterator[Cue]:
    """A cue for each sentence of either side, its length worked out from its letters.

    What was not understood stands in brackets; what could be one of several, with all of them.
    """
    for record in records:
        at_s = (record.at - began).total_seconds()
        match record.event:
            case e.Announced(text):
                yield _cue(at_s, at_s + spoken_length_s(text), text, PROGRAM)
            case e.SpeechUnderstood(text=text):
                yield _heard(at_s, text)
            case e.SpeechNotUnderstood(text):
                yield _heard(at_s, f"({text or worded('not understood')})")
            case e.SpeechWavered(candidates):
                yield _heard(at_s, f"{' or '.join(candidates)}?")
            case _:
                pass


def _heard(ended_s: float, text: str) -> Cue:
    return _cue(ended_s - spoken_length_s(text), ended_s, text, USER)


def _cue(start_s: float, end_s: float, text: str, speaker: str) -> Cue:
    return Cue(round(1000 * max(start_s, 0)), round(1000 * max(end_s, 0)), text, speaker)
