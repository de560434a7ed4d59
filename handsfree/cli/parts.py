"""The parts of the machine that a session uses, and a quick try of each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import islice

import click

from handsfree.errors import HandsfreeError, SoundError
from handsfree.ports import Source
from handsfree.say.wording_trial import heard, tried, wrong
from handsfree.signals import FRAME_S
from handsfree.trial import Flaw
from handsfree.wiring import best_ear, make_ear, read_shipped, resources, sessions_folder, sounds
from handsfree.words import worded

EARS = ("PocketSphinx ear", "Vosk ear")
MICROPHONE, SETTINGS, GRAMMARS, SESSIONS = "Microphone", "Settings", "Grammars", "Sessions folder"

_MOMENT_S = 0.05

LISTENED_S = 1.0
"""So long a microphone is listened to."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One part. wrong: what is wrong with it and what to do next, empty where it works.

    tells: what was found out besides.
    """

    part: str
    works: bool
    wrong: str = ""
    tells: str = ""


def findings(*, asks: bool = False) -> Iterator[Finding]:
    """Try one part after the other; no device is held longer than a moment.

    asks: somebody is there, who is asked to say one sentence into the microphone.
    """
    for part, attempt in (_ATTEMPTS | ({MICROPHONE: _try_speaking} if asks else {})).items():
        try:
            tells = attempt()
        except HandsfreeError as wrong:
            yield Finding(part, works=False, wrong=" ".join(str(wrong).split()))
        else:
            yield Finding(part, works=True, tells=tells or "")


def can_run(found: Iterable[Finding]) -> bool:
    """Tell whether a session can be run, if only with a recording and in print."""
    working = {finding.part for finding in found if finding.works}
    return not working.isdisjoint(EARS) and working >= {GRAMMARS, SESSIONS}


def _try_microphone() -> str:
    from handsfree.hear.microphone import Microphone

    return heard_by(Microphone())


def _try_speaking() -> str:
    from handsfree.cli.set_up import try_microphone
    from handsfree.hear.microphone import Microphone

    trial = try_microphone(Microphone(), make_ear(best_ear()))
    if trial.flaw is not None:
        raise SoundError(f"{tried(trial)}.", wrong(trial.flaw))
    return tried(trial)


def heard_by(source: Source) -> str:
    """The loudest sound of a moment, in words. Raises SoundError where there is none at all."""
    from handsfree.hear.watch import DEAD_DB

    frames = islice(source.frames(), round(LISTENED_S / FRAME_S))
    loudest_db = max((frame.taken.level_db for frame in frames), default=DEAD_DB)
    if loudest_db <= DEAD_DB:
        raise SoundError(wrong(Flaw.DEAD))
    return heard(loudest_db)


def _try_loudspeaker() -> None:
    from handsfree.say.voices.loudspeaker import default_loudspeaker
    from handsfree.say.voices.pcm import silence

    loudspeaker = default_loudspeaker()
    try:
        loudspeaker.play(silence(_MOMENT_S))
    finally:
        loudspeaker.close()


def _try_synthesiser() -> None:
    from handsfree.say.voices.spoken import DEFAULT_RATE_WPM, DEFAULT_VOICE
    from handsfree.say.voices.synthesis import synthesise

    synthesise("Ready.", DEFAULT_VOICE, DEFAULT_RATE_WPM)


def _try_settings() -> str:
    from handsfree.cli.session_options import settings_of
    from handsfree.settings import settings_file

    there = settings_of(click.get_current_context())
    return worded("{number} in {file}", number=len(there), file=settings_file()) if there else worded("none")


def _try_grammars() -> None:
    from handsfree.phrases.grammar import compile_grammar
    from handsfree.phrases.link import read_library

    names = sorted(file.stem for file in resources().grammars.glob("*.jsgf"))
    compile_grammar(read_library(names, read_shipped), knows=make_ear(best_ear()).knows, sounds=sounds())


def _try_sessions() -> None:
    from handsfree.keep.journal import SqlJournal

    SqlJournal(sessions_folder()).probe()


def _try_ear(name: str) -> None:
    make_ear(name)


_ATTEMPTS: dict[str, Callable[[], str | None]] = {
    EARS[0]: lambda: _try_ear("sphinx"),
    EARS[1]: lambda: _try_ear("vosk"),
    MICROPHONE: _try_microphone,
    "Loudspeaker": _try_loudspeaker,
    "Synthesiser": _try_synthesiser,
    SETTINGS: _try_settings,
    GRAMMARS: _try_grammars,
    SESSIONS: _try_sessions,
}
