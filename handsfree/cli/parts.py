"""The parts of the machine that a session uses, and a quick try of each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import islice

from handsfree.errors import HandsfreeError, SoundError
from handsfree.ports import Source
from handsfree.signals import FRAME_S
from handsfree.wiring import best_ear, make_ear, read_shipped, resources, sessions_folder, sounds

EARS = ("PocketSphinx ear", "Vosk ear")
GRAMMARS, SESSIONS = "Grammars", "Sessions folder"

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


def findings() -> Iterator[Finding]:
    """Try one part after the other; no device is held longer than a moment."""
    for part, attempt in _ATTEMPTS.items():
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


def heard_by(source: Source) -> str:
    """The loudest sound of a moment, in words. Raises SoundError where there is none at all."""
    from handsfree.hear.watch import DEAD_DB

    frames = islice(source.frames(), round(LISTENED_S / FRAME_S))
    loudest_db = max((frame.taken.level_db for frame in frames), default=DEAD_DB)
    if loudest_db <= DEAD_DB:
        raise SoundError("The microphone gives no sound at all.", "See that it is on, and not muted.")
    return f"hears {loudest_db:.0f} dB; full scale is 0, speech lies about -25, a room below -50"


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
    "Microphone": _try_microphone,
    "Loudspeaker": _try_loudspeaker,
    "Synthesiser": _try_synthesiser,
    GRAMMARS: _try_grammars,
    SESSIONS: _try_sessions,
}
