"""Sets up the rooms of one session, runs it, and leaves its record."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from math import ceil
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.infusion.limits import Limit
from handsfree.care.manner import kept_manner
from handsfree.care.practice.terms import Terms
from handsfree.care.reminders.policy import Interval
from handsfree.care.vocabulary import Vocabulary
from handsfree.clock import SoundClock, SteadyClock, utc_offset_min
from handsfree.conducts.table import CONDUCTS
from handsfree.errors import NotSo, WrongUse
from handsfree.glance import Glance, Status
from handsfree.hear.clip_door import ClipDoor
from handsfree.lexicon import Lexicon
from handsfree.loop import Corridor
from handsfree.mouth import Mouth
from handsfree.phrases.spelling import knows_all
from handsfree.ports import Clock, Door, Ear, Voice
from handsfree.record import Kept, Record, cut_off, load, named, new_id
from handsfree.shelf import checklist_from, emergencies
from handsfree.show.dialogue import Dialogue
from handsfree.signals import Keeps
from handsfree.tape import Tape
from handsfree.views import open_views
from handsfree.wiring import (
    await_ear,
    make_ear,
    open_door,
    open_journal,
    open_voice,
    read_shipped,
    resources,
    sounds,
    spare_voice,
)
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.keep.journal import SqlJournal


def unheard(at: datetime, text: str) -> None:
    """Tell nobody what was understood."""


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
    overheard: Callable[[datetime, str], None] = unheard
    shown: Callable[[Glance, Status], None] | None = None
    local_min: int = field(default_factory=utc_offset_min)
    tape: Tape | None = None


def run_new(checklist: Checklist, choices: Choices, rooms: Rooms) -> tuple[Any, Record]:
    """Run a new session of the chosen kind to its end; returns it as it ended, and its record.

    Raises StoreFailed, ModelError and UnknownWord at the start, SoundError.
    """
    conduct, at = CONDUCTS[choices.kind], rooms.clock.now()
    started = e.SessionStarted(
        checklist.name,
        checklist.file,
        checklist.text,
        choices.ear,
        choices.reads_back,
        rooms.local_min,
        choices.signs_s,
        choices.intervals,
        choices.kind,
        tuple(e.ChecklistText(one.file, one.text) for one in checklist.others),
        choices.terms,
        choices.trainees,
        choices.sound,
        choices.limits,
    )
    session = conduct.new(checklist, started, at)
    with closing(_journal(choices)) as journal:
        lexicon = _lexicon(conduct.vocabulary(session), choices, rooms)
        journal.probe()
        record = Record(journal, new_id(at, checklist.name, journal.sessions()))
        journal.claim(record.session)
        kept = Kept(conduct, session, (), record)
        with closing(record), _taped(kept, choices, rooms):
            corridor = _corridor(kept, lexicon, choices, rooms)
            return corridor.run(conduct.begin(session, started, at)), record


def run_cut_off(name: str, choices: Choices, rooms: Rooms) -> tuple[Any, Record]:
    """Go on with a session that was cut off; an empty name means the last one. Raises NotSo, StoreDamaged."""
    with closing(_journal(choices)) as journal:
        journal.probe()
        name = named(journal, name) if name else cut_off(journal)
        journal.claim(name)
        kept = load(journal, name, emergencies())
        conduct, session, record = kept.conduct, kept.session, kept.record
        lexicon = _lexicon(conduct.vocabulary(session), choices, rooms)
        at = rooms.clock.now()
        set_back_s = max(0, ceil((kept.records[-1].at - at).total_seconds()))
        resumed = e.SessionResumed(choices.ear, choices.reads_back, choices.signs_s, set_back_s, kept.lost)
        with closing(record), _taped(kept, choices, rooms):
            corridor = _corridor(kept, lexicon, choices, rooms)
            return corridor.run(conduct.resume(session, resumed, at)), record


@contextmanager
def rooms_for(choices: Choices) -> Iterator[Rooms]:
    """Open ear, door, voice, clock and board as chosen. The ear is loaded meanwhile, and asked later.

    Raises SoundError, PlaybackFailed, BoardFailed, WrongUse.
    """
    if choices.screen and choices.voice == "printed":
        raise WrongUse(
            worded("The screen and the printed voice both want the terminal."), worded("Leave out --screen.")
        )
    waits = choices.recording is not None
    tape = None if choices.ear == "typed" else Tape(waits=waits)
    tap = tape.tap if tape else lambda source: source
    ear = await_ear(choices.ear)
    with (
        open_voice(choices.voice, choices.speak_to) as voice,
        open_door(ear, choices.recording, tap, choices.speech_level) as (door, clock),
        open_views(choices.board, choices.screen, clock.now) as shown,
    ):
        live = choices.recording is None and ear is not None
        aloud = live and choices.voice == "spoken" and choices.speak_to is None
        deaf = aloud and not choices.headset
        yield Rooms(ear, door, voice, clock, deaf=deaf, aloud=aloud, shown=shown, tape=tape)


def _journal(choices: Choices) -> SqlJournal:
    return open_journal(choices.sessions, choices.store, lasting=choices.lasting)


def _lexicon(words: Vocabulary, choices: Choices, rooms: Rooms) -> Lexicon:
    """The grammars of a session for this ear; a typed line may hold any word."""
    knows = rooms.ear.knows if rooms.ear is not None else knows_all
    return Lexicon(words, read_shipped, knows, sounds(), choices.call_word)


def _corridor(kept: Kept, lexicon: Lexicon, choices: Choices, rooms: Rooms) -> Corridor[Any]:
    return Corridor(
        kept.conduct,
        kept.session,
        lexicon,
        rooms.door,
        Mouth(
            rooms.voice,
            rooms.clock,
            deaf=rooms.deaf,
            aloud=rooms.aloud,
            spare=spare_voice(),
            manner=kept_manner(kept.records),
        ),
        rooms.clock,
        kept.record.keep,
        clip=_no_clip if kept.session.keeps is Keeps.NOTHING else _clips(choices.sessions, kept.record),
        overheard=rooms.overheard,
        news=rooms.tape.news if rooms.tape else None,
        shown=rooms.shown,
        prepares=choices.ear == "vosk",
    )


@contextmanager
def _taped(kept: Kept, choices: Choices, rooms: Rooms) -> Iterator[None]:
    """Keep all sound meanwhile, where the session does. Raises StoreFailed at the start."""
    record = kept.record
    if rooms.tape is None or kept.session.keeps is not Keeps.ALL:
        yield
        return
    spare_voice().say(rooms.tape.begin(choices.sessions, record.session, rooms.clock))
    try:
        yield
    finally:
        record.keep(e.Recorded(rooms.clock.now(), event) for event in rooms.tape.end())


def _no_clip(_: bytes) -> str:
    return ""


def _clips(folder: Path, record: Record) -> Callable[[bytes], str]:
    """Keeps the sound of free words beside the journal; typed lines have none."""
    from handsfree.keep.recorder import Clips

    clips = Clips(folder)
    return lambda pcm: clips.keep(record.session, f"words-{record.seq + 1}", pcm) if pcm else ""


def run_demo(scene: str, choices: Choices, stream: TextIO) -> tuple[Any, Record]:
    """Run the main job with a recorded person who answers each question; prints the dialogue to `stream`.

    Raises NotSo where the person could not be understood to the end.
    """
    clock = SoundClock(SteadyClock().now())
    ear = make_ear(choices.ear)
    door = ClipDoor(resources().clips / scene, ear, clock)
    dialogue = Dialogue(stream, clock)
    rooms = Rooms(ear, door, dialogue, clock, deaf=True, overheard=dialogue.overheard)
    session, record = run_new(checklist_from("peripheral_iv"), choices, rooms)
    if session.open_steps():
        raise NotSo(
            worded("The demo stopped at the step {step}.", step=session.step),
            worded("Try the other ear: handsfree demo --ear sphinx."),
        )
    return session, record
