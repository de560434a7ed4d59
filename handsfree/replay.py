"""Runs a timed script through the whole program on a simulated clock."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path

from handsfree.care.checklist import Checklist
from handsfree.clock import SimulatedClock
from handsfree.errors import WrongUse
from handsfree.hear.script import Moment, read_script
from handsfree.hear.script_door import PowerCut, ScriptDoor, TimeUp
from handsfree.record import new_id
from handsfree.rooms import Choices, Rooms
from handsfree.say.length import spoken_length_s
from handsfree.sessions import run_cut_off, run_new
from handsfree.show.captions import Captions
from handsfree.webvtt import Cue
from handsfree.wiring import open_journal
from handsfree.words import worded


@dataclass(frozen=True, slots=True)
class Simulation:
    """What is to be simulated. start: aware; its zone is the user's. until_s: seconds after it."""

    moments: tuple[Moment, ...]
    checklist: Checklist
    start: datetime
    until_s: float


def script_from(file: Path) -> tuple[Moment, ...]:
    """The moments of a script. Raises WrongUse."""
    try:
        text = file.read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        raise WrongUse(
            worded("The script {file} cannot be read.", file=file), worded("Name a WebVTT file in UTF-8.")
        ) from None
    return read_script(text, file.name, spoken_length_s)


def replay(simulation: Simulation, choices: Choices) -> tuple[str, tuple[Cue, ...]]:
    """Run a simulation; returns the session's id and everything said on either side.

    The user wears a headset. Raises StoreFailed.
    """
    clock = SimulatedClock(simulation.start.astimezone(UTC))
    captions = Captions(lambda: clock.passed_s)
    door = ScriptDoor(simulation.moments, clock, simulation.until_s, captions.spoke)
    offset = simulation.start.utcoffset() or timedelta()
    local_min = round(offset.total_seconds() / 60)
    rooms = Rooms(None, door, captions, clock, deaf=False, local_min=local_min)
    session = _name(simulation, choices)
    choices = replace(choices, lasting=False)
    run: Callable[[], object] = partial(run_new, simulation.checklist, choices, rooms)
    while True:
        try:
            run()
            break
        except PowerCut:
            captions.hush()
            clock.restart()
            run = partial(run_cut_off, session, choices, rooms)
        except TimeUp:
            captions.hush()
            break
    return session, captions.cues()


def _name(simulation: Simulation, choices: Choices) -> str:
    """The id that the session will get."""
    with closing(open_journal(choices.sessions, choices.store)) as journal:
        return new_id(simulation.start.astimezone(UTC), simulation.checklist.name, journal.sessions())
