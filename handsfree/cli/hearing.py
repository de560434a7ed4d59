"""Recordings through an ear and the judge, one after the other, as if each came from a microphone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from handsfree.cli.grammar_files import read_grammar_file
from handsfree.cli.hear_lines import Said, Summary
from handsfree.clock import SoundClock, SteadyClock
from handsfree.hear.recording import Recording
from handsfree.hear.sound_door import SoundDoor
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.judge import judge
from handsfree.ports import Ear
from handsfree.signals import Gate, Utterance
from handsfree.wiring import best_ear, make_ear, sounds


class Hearing:
    """One ear and one grammar for many recordings; adds up what they took."""

    def __init__(self, ear: Ear, grammar: Grammar) -> None:
        self._ear, self._grammar = ear, grammar
        self._clock = SteadyClock()
        self._files, self._audio_s, self._wall = 0, 0.0, timedelta()

    @classmethod
    def with_grammar(cls, ear: str | None, grammar: Path) -> Hearing:
        """Read a grammar, load an ear (None: the best that is there) and compile the one for the other.

        Raises GrammarError, UnknownWord, ModelError.
        """
        rules = read_grammar_file(grammar)
        loaded = make_ear(ear or best_ear())
        return cls(loaded, compile_grammar(rules, knows=loaded.knows, sounds=sounds()))

    def said_in(self, file: Path, *, whole: bool = True) -> Iterator[Said]:
        """Yield each utterance of a recording and what became of it.

        whole: what is cut short is refused, too. Raises SoundError.
        """
        recording = Recording(file, whole=whole)
        began = self._clock.now()
        for utterance in self._utterances(recording):
            heard = _ended_by(utterance, recording.length_s)
            yield Said(str(file), judge(self._grammar, heard), heard)
        self._wall += self._clock.now() - began
        self._files += 1
        self._audio_s += recording.length_s

    def summary(self) -> Summary:
        """What all recordings that were heard to their end took so far."""
        return Summary(self._files, self._audio_s, self._wall.total_seconds())

    def _utterances(self, recording: Recording) -> Iterator[Utterance]:
        self._ear.hear(None)  # the recording before may have broken off
        door = SoundDoor(recording, self._ear, SoundClock(self._clock.now()))
        door.open(self._grammar, Gate.OPEN, "")
        while isinstance(found := door.next(None), Utterance):
            yield found


def _ended_by(utterance: Utterance, length_s: float) -> Utterance:
    """The last frame of a recording is filled up with silence, which is not a part of it."""
    end_s, decided_s = (min(time_s, length_s) for time_s in (utterance.end_s, utterance.decided_s))
    return replace(utterance, end_s=end_s, decided_s=decided_s)
