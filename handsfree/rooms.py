"""The rooms of a session, opened as its user chose."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from handsfree.clock import utc_offset_min
from handsfree.errors import WrongUse
from handsfree.glance import Glance, Status
from handsfree.ports import Clock, Door, Ear, Voice
from handsfree.views import open_views
from handsfree.wiring import await_ear, open_door, open_voice
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.care.infusion.limits import Limit
    from handsfree.care.practice.terms import Terms
    from handsfree.care.reminders.policy import Interval
    from handsfree.tape import Tape


@dataclass(frozen=True, slots=True)
class Choices:
    """What the user chose on the command line.

    signs_after_s: seconds of silence before a microphone after which it is said that somebody listens; 0 for
    never. intervals, limits: of the policy. kind: of session, a name of `CONDUCTS`.
    sound: all of it is kept. terms: of a practice run. trainees: who can be named.
    board: address and port at which the session is shown, empty for nowhere. screen: in the terminal too.
    speech_level: of speech from the microphone, in dB of full scale, where it is known.
    lasting: each event outlives power that fails; a simulation can do without the wait.
    """

    sessions: Path
    ear: str
    voice: str = "spoken"
    recording: Path | None = None
    speak_to: Path | None = None
    store: str = ""
    call_word: str = ""
    headset: bool = False
    speech_level: int | None = None
    signs_after_s: int = 90
    intervals: tuple[Interval, ...] = ()
    limits: tuple[Limit, ...] = ()
    kind: str = "guide"
    sound: bool = False
    board: str = ""
    screen: bool = False
    terms: Terms | None = None
    trainees: tuple[str, ...] = ()
    lasting: bool = True

    @property
    def reads_back(self) -> bool:
        """PocketSphinx hears less well: every value is read back."""
        return self.ear == "sphinx"

    @property
    def signs_s(self) -> int:
        """Seconds of silence after which a session says once that it listens; 0 where nobody waits for it."""
        return self.signs_after_s if self.ear != "typed" and self.recording is None else 0


@dataclass(frozen=True, slots=True)
class Rooms:
    """The rooms that a session needs besides its record.

    ear: None for typed lines. deaf: the program would hear itself. aloud: somebody hears it speak.
    overheard: told what was understood. shown: told what is to be seen.
    local_min: minutes that local time is ahead of UTC. tape: takes all sound of a session that keeps it; None
    where there is no sound.
    """

    ear: Ear | None
    door: Door
    voice: Voice
    clock: Clock
    deaf: bool
    aloud: bool = True
    overheard: Callable[[datetime, str], None] = lambda at, text: None
    shown: Callable[[Glance, Status], None] | None = None
    local_min: int = field(default_factory=utc_offset_min)
    tape: Tape | None = None


@contextmanager
def rooms_for(choices: Choices) -> Iterator[Rooms]:
    """Open ear, door, voice, clock and board as chosen.

    The ear is loaded meanwhile and asked later: who imports what only a session needs does so within.
    Raises SoundError, PlaybackFailed, BoardFailed, WrongUse.
    """
    if choices.screen and choices.voice == "printed":
        raise WrongUse(
            worded("The screen and the printed voice both want the terminal."), worded("Leave out --screen.")
        )
    ear = await_ear(choices.ear)
    from handsfree.tape import Tape

    waits = choices.recording is not None
    tape = None if choices.ear == "typed" else Tape(waits=waits)
    tap = tape.tap if tape else lambda source: source
    with (
        open_voice(choices.voice, choices.speak_to) as voice,
        open_door(ear, choices.recording, tap, choices.speech_level) as (door, clock),
        open_views(choices.board, choices.screen, clock.now) as shown,
    ):
        live = choices.recording is None and ear is not None
        aloud = live and choices.voice == "spoken" and choices.speak_to is None
        deaf = aloud and not choices.headset
        yield Rooms(ear, door, voice, clock, deaf=deaf, aloud=aloud, shown=shown, tape=tape)
