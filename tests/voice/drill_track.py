"""A drill as one long sound: an instructor who marks, a trainee who talks, and the noise of a room."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

import numpy as np
import soundfile

from handsfree.care.drill.marks import Kind
from handsfree.care.drill.session import Session
from handsfree.rooms import Choices, rooms_for
from handsfree.sessions import run_new
from handsfree.shelf import checklist_from
from handsfree.signals import SAMPLE_RATE
from tests.voice.noises import at_level, white, wind
from tests.voice.sound_shape import Sound, levelled, silence, trimmed

ROOM_DB = -50.0
"""Root mean square of the room, full scale being 0; an instructor speaks at -23."""

FURTHER_DB = -8.0
"""A trainee stands further from the microphone than the instructor who wears it."""

BETWEEN_S = 0.12
"""Silence between the marks of one breath."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark as it is said, and what it means; no kind: words that set none, a name or a note's own."""

    words: str
    kind: Kind | None = None
    step: str = ""


@dataclass(frozen=True, slots=True)
class Breath:
    """What one person says in one breath, so many seconds after the one before. marks: empty for talk."""

    pause_s: float
    voice: str
    marks: tuple[Mark, ...]
    further: bool = False


@dataclass(frozen=True, slots=True)
class Expected:
    """A mark that was said. end_s: where its last sound is in the track."""

    kind: Kind
    step: str
    end_s: float


def laid(
    breaths: Iterable[Breath], sound_of: Callable[[str, str], Sound], length_s: float
) -> tuple[Sound, list[Expected]]:
    """The track, and the marks in it. sound_of: how words sound in a voice."""
    parts: list[Sound] = []
    expected: list[Expected] = []
    at = 0
    for breath in breaths:
        pieces = [silence(breath.pause_s)]
        for mark in breath.marks:
            spoken = levelled(trimmed(sound_of(mark.words, breath.voice)))
            pieces += [spoken * 10 ** (FURTHER_DB / 20) if breath.further else spoken]
            if mark.kind is not None:
                end_s = (at + sum(map(len, pieces))) / SAMPLE_RATE
                expected.append(Expected(mark.kind, mark.step, end_s))
            pieces += [silence(BETWEEN_S)]
        parts += pieces
        at += sum(map(len, pieces))
    track = np.concatenate(parts)
    whole = np.pad(track, (0, max(0, round(length_s * SAMPLE_RATE) - len(track))))
    seconds = len(whole) / SAMPLE_RATE
    room = at_level(white(seconds, 5) * 0.5 + wind(seconds) / 4, ROOM_DB)[: len(whole)]
    return np.asarray(whole + room, np.float32), expected


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of the marks. late_s: of those that were found, in order, the time less the word's end."""

    found: list[Expected]
    missing: list[Expected]
    invented: list[str]
    late_s: list[float]
    session: Session


def heard(
    track: Sound, expected: Sequence[Expected], folder: Path, ear: str, *, sound: bool = False
) -> Outcome:
    """Play the track through the whole program, as a recording in place of the microphone."""
    file = folder / "track.wav"
    soundfile.write(file, track, SAMPLE_RATE)
    choices = Choices(
        folder, ear, "printed", recording=file, kind="drill", sound=sound, trainees=("Anna", "Ben")
    )
    with rooms_for(choices) as rooms:
        session, _ = run_new(checklist_from("peripheral_iv"), choices, rooms)
    return _compared(session, expected)


def meant(text: str) -> tuple[Kind, str]:
    """Kind and step of a mark that is written as "missed dry"."""
    kind = next(kind for kind in Kind if text == kind.value or text.startswith(f"{kind.value} "))
    return kind, text.removeprefix(kind.value).strip()


def _compared(session: Session, expected: Sequence[Expected]) -> Outcome:
    """Each mark that is there goes with one that was said of its kind, on its step, within two seconds."""
    marks = [
        Expected(mark.kind, mark.step, (mark.at - session.started) / timedelta(seconds=1))
        for run in session.runs
        for mark in run.marks
    ]
    outcome = Outcome([], [], [], [], session)
    for said in expected:
        near = [
            m for m in marks if (m.kind, m.step) == (said.kind, said.step) and abs(m.end_s - said.end_s) < 2
        ]
        if near:
            marks.remove(near[0])
            outcome.found.append(said)
            outcome.late_s.append(near[0].end_s - said.end_s)
        else:
            outcome.missing.append(said)
    outcome.invented.extend(f"{m.kind.value} {m.step} at {m.end_s:.1f} s" for m in marks)
    return outcome
