"""Runs for the tests of the page: an aid station at a mountain run, and sound that is known by its pitch."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import UTC, datetime
from functools import cache

import numpy as np
import soundfile

from handsfree.show.debrief.marks import Fault, Kind, Mark, Point, State, Step, Who
from handsfree.show.debrief.run import Run, Sort, Sound
from handsfree.show.debrief.score import Limit, Measure, Rule, Score
from handsfree.show.debrief.tracks import Recording
from handsfree.signals import SAMPLE_RATE
from handsfree.webvtt import Cue

FILE = "sound/drill/track.ogg"

_STEPS = (
    ("hands", "Clean your hands, then gloves and eye protection.", "Equipment", State.DONE, 20.0),
    ("sharps", "Sharps container open, within reach.", "Equipment", State.PROMPTED, 41.0),
    ("tourniquet", "Tourniquet on.", "Site", State.DONE, 63.0),
    ("scrub", "Clean with friction.", "Site", State.OUT_OF_ORDER, 71.0),
    ("dry", "Let it dry.", "Site", State.MISSED, None),
    ("flash", "Needle in. Flash?", "Cannulate", State.DONE, 118.0),
    ("needle_out", "Needle out and into the sharps container.", "Cannulate", State.NOT_SEEN, None),
    ("tell", "Tell the patient what to report.", "Watch", State.LEFT_OPEN, None),
)


def _steps() -> tuple[Step, ...]:
    return tuple(
        Step(
            name, title, state, at_s, phase, critical=name in ("sharps", "needle_out"), seen=at_s is not None
        )
        for name, title, phase, state, at_s in _STEPS
    )


MARKS = (
    Mark(20.0, Kind.DONE, Who.INSTRUCTOR, "Clean your hands, then gloves and eye protection."),
    Mark(41.0, Kind.PROMPTED, Who.INSTRUCTOR, "Sharps container open, within reach.", "Asked twice."),
    Mark(63.5, Kind.CUE, Who.TRAINEE, text="What did I miss?"),
    Mark(71.0, Kind.OUT_OF_ORDER, Who.INSTRUCTOR, "Clean with friction."),
    Mark(84.0, Kind.CONTAMINATED, Who.INSTRUCTOR, text="Touched the skin after it was clean.", critical=True),
    Mark(101.0, Kind.NOTE, Who.INSTRUCTOR, until_s=104.0),
    Mark(118.0, Kind.ATTEMPT, Who.INSTRUCTOR, "Needle in. Flash?"),
    Mark(126.0, Kind.UNSAFE, Who.INSTRUCTOR, text="Needle lay on the blanket.", critical=True),
    Mark(131.0, Kind.LAP, Who.INSTRUCTOR),
)

DRILL = Run(
    session="20310504T080000-peripheral_iv",
    sort=Sort.DRILL,
    title="Peripheral I V",
    began=datetime(2031, 5, 4, 8, 0, tzinfo=UTC),
    length_s=150.0,
    trainee="Blue three",
    marks=MARKS,
    steps=_steps(),
    strengths=(Point("Said every step before doing it.", 20.0), Point("Calm when the first vein was lost.")),
    gaps=(Point("The skin was not left to dry.", 84.0),),
    measures=(
        Measure("Whole run", 150.0, 600.0),
        Measure("Tourniquet", 71.0, 60.0, at_s=55.0, source="venous blood sampling, 1 min"),
        Measure("Cleaning", 18.0, 30.0, Limit.AT_LEAST, at_s=71.0),
        Measure("Needle out to container", None, 5.0),
    ),
    faults=(Fault(95.0, "No flash", "Tourniquet off, needle safe, press, new cannula.", 99.0),),
    score=Score(
        (
            Rule("Hands, gloves and eye protection before the kit is touched.", 2, 2),
            Rule("Skin dry to see before the needle.", 0, 3, "Needle 12 s after cleaning.", 84.0),
        ),
        "Weights stand in the checklist file.",
    ),
    captions=(
        Cue(19_000, 20_500, "hands are clean", "Trainee"),
        Cue(82_000, 84_500, "I can still feel it there", "Trainee"),
        Cue(117_000, 118_000, "flash", "Trainee"),
    ),
    sounds=(Sound(FILE),),
)

EARLIER = replace(
    DRILL,
    session="20310503T080000-peripheral_iv",
    began=datetime(2031, 5, 3, 8, 0, tzinfo=UTC),
    length_s=190.0,
    marks=(*MARKS, Mark(140.0, Kind.UNSAFE, Who.INSTRUCTOR, critical=True)),
    measures=DRILL.measures[:2],
)


@cache
def recording(length_s: float = 150.0, rate: int = SAMPLE_RATE) -> Recording:
    """Sound in bursts, its pitch higher from second to second, as Ogg Opus."""
    t = np.arange(round(length_s * rate)) / rate
    bursts = np.clip(np.sin(2 * np.pi * t / 7), 0, 1) * np.clip(np.sin(2 * np.pi * t / 0.4), 0.1, 1)
    sound = (0.4 * bursts * np.sin(2 * np.pi * (200 + t % 60) * t)).astype(np.float32)
    file = io.BytesIO()
    soundfile.write(file, sound, rate, format="OGG", subtype="OPUS")
    parts = np.array_split(np.abs(sound), max(round(length_s * 10), 1))
    return Recording(file.getvalue(), length_s, tuple(float(part.max()) for part in parts))
