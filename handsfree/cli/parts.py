"""The parts of the machine that a session uses, and a quick try of each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from handsfree.errors import HandsfreeError
from handsfree.wiring import best_ear, make_ear, read_shipped, resources, sessions_folder, sounds

EARS = ("PocketSphinx ear", "Vosk ear")
GRAMMARS, SESSIONS = "Grammars", "Sessions folder"

_MOMENT_S = 0.05


@dataclass(frozen=True, slots=True)
class Finding:
    """One part. wrong: what is wrong with it and what to do next, empty where it works."""

    part: str
    works: bool
    wrong: str = ""


def findings() -> Iterator[Finding]:
    """Try one part after the other; no device is held longer than a moment."""
    for part, attempt in _ATTEMPTS.items():
        try:
            attempt()
        except HandsfreeError as wrong:
            yield Finding(part, works=False, wrong=" ".join(str(wrong).split()))
        else:
            yield Finding(part, works=True)


def can_run(found: Iterable[Finding]) -> bool:
    """Tell whether a session can be run, if only with a recording and in print."""
    working = {finding.part for finding in found if finding.works}
    return not working.isdisjoint(EARS) and working >= {GRAMMARS, SESSIONS}


def _try_microphone() -> None:
    from handsfree.hear.microphone import Microphone

    next(iter(Microphone().frames()))


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


_ATTEMPTS: dict[str, Callable[[], object]] = {
    EARS[0]: lambda: make_ear("sphinx"),
    EARS[1]: lambda: make_ear("vosk"),
    "Microphone": _try_microphone,
    "Loudspeaker": _try_loudspeaker,
    "Synthesiser": _try_synthesiser,
    GRAMMARS: _try_grammars,
    SESSIONS: _try_sessions,
}
