"""Runs one session in its rooms, and leaves its record."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from math import ceil
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.manner import kept_manner
from handsfree.care.vocabulary import Vocabulary
from handsfree.clock import SoundClock, SteadyClock
from handsfree.conducts.table import CONDUCTS
from handsfree.errors import NotSo
from handsfree.hear.clip_door import ClipDoor
from handsfree.lexicon import Lexicon
from handsfree.loop import Corridor
from handsfree.mouth import Mouth
from handsfree.phrases.spelling import knows_all
from handsfree.record import Kept, Record, cut_off, load, named, new_id
from handsfree.rooms import Choices, Rooms
from handsfree.shelf import checklist_from, emergencies
from handsfree.show.dialogue import Dialogue
from handsfree.signals import Keeps
from handsfree.wiring import (
    make_ear,
    open_journal,
    read_shipped,
    resources,
    sounds,
    spare_voice,
)
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.keep.journal import SqlJournal


def run_new(checklist: Checklist, choices: Choices, rooms: Rooms) -> tuple[Any, Record]:
    """Run a new session of the chosen kind to its end; returns it as it ended, and its record.

    Raises StoreFailed, ModelError and UnknownWord at the start, SoundError.
    """
    conduct, at = CONDUCTS[choices.kind], rooms.clock.now()
    started = e.SessionStarted(
        checklist=checklist.name,
        file=checklist.file,
        text=checklist.text,
        ear=choices.ear,
        reads_back=choices.reads_back,
        utc_offset_min=rooms.local_min,
        signs_after_s=choices.signs_s,
        intervals=choices.intervals,
        kind=choices.kind,
        others=tuple(e.ChecklistText(one.file, one.text) for one in checklist.others),
        terms=choices.terms,
        trainees=choices.trainees,
        sound=choices.sound,
        limits=choices.limits,
    )
    session = conduct.new(checklist, started, at)
    with closing(_journal(choices)) as journal:
        lexicon = _lexicon(conduct.vocabulary(session), choices, rooms)
        journal.probe()
        record = Record(journal, new_id(at, checklist.name, journal.sessions()))
        journal.claim(record.session)
        kept = Kept(conduct, session, (), record)
        return _run(kept, conduct.begin(session, started, at), lexicon, choices, rooms)


def run_cut_off(name: str, choices: Choices, rooms: Rooms) -> tuple[Any, Record]:
    """Go on with a session that was cut off; an empty name means the last one. Raises NotSo, StoreDamaged."""
    with closing(_journal(choices)) as journal:
        journal.probe()
        name = named(journal, name) if name else cut_off(journal)
        journal.claim(name)
        kept = load(journal, name, emergencies())
        conduct, session = kept.conduct, kept.session
        lexicon = _lexicon(conduct.vocabulary(session), choices, rooms)
        at = rooms.clock.now()
        set_back_s = max(0, ceil((kept.records[-1].at - at).total_seconds()))
        resumed = e.SessionResumed(choices.ear, choices.reads_back, choices.signs_s, set_back_s, kept.lost)
        return _run(kept, conduct.resume(session, resumed, at), lexicon, choices, rooms)


def _journal(choices: Choices) -> SqlJournal:
    return open_journal(choices.sessions, choices.store, lasting=choices.lasting)


def _lexicon(words: Vocabulary, choices: Choices, rooms: Rooms) -> Lexicon:
    """The grammars of a session for this ear; a typed line may hold any word."""
    knows = rooms.ear.knows if rooms.ear is not None else knows_all
    return Lexicon(words, read_shipped, knows, sounds(), choices.call_word)


def _run(
    kept: Kept, first: tuple[e.Event, ...], lexicon: Lexicon, choices: Choices, rooms: Rooms
) -> tuple[Any, Record]:
    """Go on from the first events to the end, and close the record."""
    corridor = Corridor(
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
        clip=_clips(choices.sessions, kept),
        overheard=rooms.overheard,
        news=rooms.tape.news if rooms.tape else None,
        shown=rooms.shown,
        prepares=choices.ear == "vosk",
    )
    with closing(kept.record), _taped(kept, choices, rooms):
        return corridor.run(first), kept.record


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


def _clips(folder: Path, kept: Kept) -> Callable[[bytes], str]:
    """Keeps the sound of free words beside the journal, where the session does; typed lines have none."""
    from handsfree.keep.recorder import Clips

    clips, record, keeps = Clips(folder), kept.record, kept.session.keeps is not Keeps.NOTHING
    return lambda pcm: clips.keep(record.session, f"words-{record.seq + 1}", pcm) if pcm and keeps else ""


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
