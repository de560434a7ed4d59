"""Practice runs on recordings: the sentences of a run as one sound, through the whole program."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path

import numpy as np

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.practice.session import Practice
from handsfree.care.practice.terms import Terms
from handsfree.care.practice.vocabulary import practice_vocabulary
from handsfree.clock import SoundClock
from handsfree.conducts.practice import PRACTICE
from handsfree.hear.sound_door import SoundDoor
from handsfree.lexicon import Lexicon
from handsfree.loop import Corridor
from handsfree.mouth import Mouth
from handsfree.ports import Ear
from handsfree.record import Record
from handsfree.testing.dialogue import ScriptVoice
from handsfree.testing.journal import MemoryJournal
from handsfree.wiring import read_shipped, sounds
from tests.care.practice.runs import END, Line, Run
from tests.dialogues import shipped
from tests.voice.hearing import Samples, Sound, read
from tests.voice.manifest import FIXTURES
from tests.voice.sound_shape import AFTER_S, BEFORE_S, silence

BEGAN = datetime(2031, 5, 4, 8, tzinfo=UTC)
LEAD_S = 2.0
"""Silence before the first sentence."""

CLIPS = FIXTURES / "practice"


def clip_file(words: str, voice: str, folder: Path = CLIPS) -> Path:
    """Where the clip of a sentence lies."""
    return folder / voice / f"{words.replace(' ', '_')}.ogg"


@dataclass(frozen=True, slots=True)
class Spoken:
    """A run as one sound. ends_s: of each line, when its last word ends."""

    sound: Sound
    ends_s: tuple[float, ...]


def spoken(run: Run, voice: str, folder: Path = CLIPS) -> Spoken:
    """The sentences of a run, with their silences, and the two that end it."""
    parts, ends_s, now_s = [silence(LEAD_S)], [], LEAD_S
    for one in (*run.lines, *map(Line, END)):
        clip = read(clip_file(one.words, voice, folder)) if one.words else silence(BEFORE_S + AFTER_S)
        pause = silence(max(one.after_s - BEFORE_S - AFTER_S, 0))
        parts += [pause, clip]
        now_s += (len(pause) + len(clip)) / 16_000
        ends_s.append(now_s - AFTER_S)
    return Spoken(np.concatenate([*parts, silence(2.0)]), tuple(ends_s))


@cache
def lexicon(ear: Ear, of: Callable[[], Checklist] = shipped) -> Lexicon:
    return Lexicon(practice_vocabulary(of()), read_shipped, ear.knows, sounds())


def heard(sound: Sound, ear: Ear, of: Callable[[], Checklist] = shipped) -> Practice:
    """The session of a checklist that hears this sound to its end."""
    checklist, clock = of(), SoundClock(BEGAN)
    started = e.SessionStarted(
        checklist.name, checklist.file, checklist.text, "vosk", False, 0, kind="practice", terms=Terms()
    )
    session = PRACTICE.new(checklist, started, BEGAN)
    door = SoundDoor(Samples(sound), ear, clock)
    keep = Record(MemoryJournal(), "practice").keep
    mouth = Mouth(ScriptVoice([]), clock, deaf=False)
    corridor = Corridor(PRACTICE, session, lexicon(ear, of), door, mouth, clock, keep)
    return corridor.run(PRACTICE.begin(session, started, BEGAN))


def late_s(run: Run, said: Spoken, session: Practice) -> Iterator[tuple[str, float]]:
    """How much later than spoken each step is kept that ends its sentence: seconds, below zero if earlier."""
    sayings = [one.event for one in session.records if isinstance(one.event, e.StepSaid)]
    for one, end_s in zip(run.lines, said.ends_s, strict=False):
        at = BEGAN + timedelta(seconds=end_s)
        near = [s for s in sayings if one.steps and s.step == one.steps[-1]]
        if near:
            yield one.steps[-1], min(((s.said_at - at).total_seconds() for s in near), key=abs)
