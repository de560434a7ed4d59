"""The one table of back-ends, and where what is shipped with the program is found."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from handsfree.errors import HandsfreeError, ModelError
from handsfree.phrases.spelling import SoundsLike, read_sounds
from handsfree.ports import Clock, Door, Ear, Source, Voice

if TYPE_CHECKING:
    from handsfree.keep.journal import SqlJournal

_PACKAGE = Path(__file__).parent
_CHECKOUT = _PACKAGE.parent


def _vosk() -> Ear:
    from handsfree.hear.models import find_model

    model = find_model()
    from handsfree.hear.vosk_ear import VoskEar

    return VoskEar(model)


def _sphinx() -> Ear:
    from handsfree.hear.sphinx_ear import SphinxEar

    return SphinxEar()


EARS: Mapping[str, Callable[[], Ear]] = MappingProxyType({"vosk": _vosk, "sphinx": _sphinx})
"""Recognisers by name, the better one first; calling one loads it. Raises ModelError."""


def make_ear(name: str) -> Ear:
    """Load the ear of this name. Raises KeyError for another name, ModelError where its model is missing."""
    return EARS[name]()


def best_ear() -> str:
    """Name of the ear to take where none was asked for: Vosk where its model is there."""
    from handsfree.hear.models import find_model

    try:
        find_model()
    except ModelError:
        return "sphinx"
    return "vosk"


def await_ear(name: str) -> Ear | None:
    """Begin to load the ear of this name; None for "typed". Raises KeyError for another name.

    ModelError is raised where the ear is first asked.
    """
    from handsfree.hear.awaited_ear import AwaitedEar

    return None if name == "typed" else AwaitedEar(EARS[name])


@contextmanager
def open_door(
    ear: Ear | None, recording: Path | None, tap: Callable[[Source], Source], speech_db: float | None
) -> Iterator[tuple[Door, Clock]]:
    """The door for an ear, with its clock: a recording's sound is the clock, else the machine's.

    ear: None for lines of standard input. tap: what is put between sound and door.
    speech_db: how loud speech comes from the microphone, where it is known. Raises SoundError.
    """
    from handsfree.clock import SoundClock, SteadyClock

    steady = SteadyClock()
    if ear is None:
        from handsfree.hear.typed_door import TypedDoor

        # Unbuffered: a buffer that a thread still waits at can't be closed, and Python aborts at its end.
        lines = getattr(sys.stdin.buffer, "raw", sys.stdin.buffer)
        yield TypedDoor(lines, steady), steady
        return
    from handsfree.hear.sound_door import LiveDoor, SoundDoor

    if recording is not None:
        from handsfree.hear.recording import Recording

        clock = SoundClock(steady.now())
        yield SoundDoor(tap(Recording(recording)), ear, clock), clock
        return
    from handsfree.hear.microphone import Microphone

    with closing(LiveDoor(tap(Microphone(speech_db=speech_db)), ear, steady)) as door:
        yield door, steady


@contextmanager
def open_voice(voice: str, speak_to: Path | None) -> Iterator[Voice]:
    """The voice by name, "spoken" or "printed"; with `speak_to`, speech goes into that file too.

    Raises PlaybackFailed, WrongUse.
    """
    from handsfree.say.voices.printed import PrintedVoice

    printed = PrintedVoice(sys.stdout)
    if voice == "printed" and speak_to is None:
        yield printed
        return
    from handsfree.say.voices.spoken import SpokenVoice

    if speak_to is None:
        from handsfree.say.voices.loudspeaker import default_loudspeaker

        with closing(default_loudspeaker()) as loudspeaker:
            try:
                yield SpokenVoice(loudspeaker)
            except HandsfreeError:
                loudspeaker.finish()
                raise
            loudspeaker.finish()
        return
    from handsfree.say.voices.both import BothVoices
    from handsfree.say.voices.speech_file import SpeechFile

    with closing(SpeechFile(speak_to)) as file:
        spoken = SpokenVoice(file)
        yield BothVoices(printed, spoken) if voice == "printed" else spoken


def spare_voice() -> Voice:
    """What says a sentence when the chosen voice fails: print, beside the data."""
    from handsfree.say.voices.printed import PrintedVoice

    return PrintedVoice(sys.stderr)


def open_journal(folder: Path, url: str, *, lasting: bool = True) -> SqlJournal:
    """The journal in a sessions folder, or in the database that `url` names. Raises StoreFailed."""
    from handsfree.keep.journal import SqlJournal

    return SqlJournal(folder, url, lasting=lasting)


@dataclass(frozen=True, slots=True)
class Resources:
    """Folders of what is shipped: grammars (*.jsgf), checklists, policies (*.toml), clips for each demo."""

    grammars: Path
    checklists: Path
    profiles: Path
    clips: Path


def resources() -> Resources:
    """Where the shipped files are: in the installed package, else in the checkout around it."""
    return Resources(
        grammars=_shipped("grammars", "grammars"),
        checklists=_PACKAGE / "checklists",
        profiles=_PACKAGE / "profiles",
        clips=_shipped("clips", "audio_fixtures/sessions"),
    )


def read_shipped(name: str) -> str:
    """Text of the shipped grammar of this full name. Raises OSError where there is none."""
    return (resources().grammars / f"{name}.jsgf").read_text("utf-8")


def sounds() -> SoundsLike:
    """The table of sounds-like spellings, for words that a recogniser lacks."""
    file = _PACKAGE / "phrases" / "sounds_like.toml"
    return read_sounds(file.read_text("utf-8"), file.name)


def sessions_folder() -> Path:
    """Where sessions are kept unless the user says otherwise; it need not exist."""
    import platformdirs

    return platformdirs.user_data_path("handsfree") / "sessions"


def _shipped(installed: str, checkout: str) -> Path:
    folder = _PACKAGE / installed
    return folder if folder.is_dir() else _CHECKOUT / checkout
