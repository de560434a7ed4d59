"""A timed script: what the user says and when, and what happens to the machine meanwhile."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from handsfree.errors import WrongUse
from handsfree.webvtt import Cue, read_webvtt
from handsfree.words import worded


@dataclass(frozen=True, slots=True)
class Spoken:
    """The user speaks, from `at_s` on, for `lasts_s`. Times are seconds from the start."""

    at_s: float
    text: str
    lasts_s: float


@dataclass(frozen=True, slots=True)
class ClockSet:
    """Somebody sets the wall clock, forward or back."""

    at_s: float
    by_s: float


@dataclass(frozen=True, slots=True)
class Asleep:
    """The machine sleeps: what is said in that time is not heard."""

    at_s: float
    lasts_s: float


@dataclass(frozen=True, slots=True)
class Cut:
    """The power fails, and is back at once."""

    at_s: float


Moment = Spoken | ClockSet | Asleep | Cut


def read_script(text: str, name: str, lasts_s: Callable[[str], float]) -> tuple[Moment, ...]:
    """The moments of a WebVTT script in order. lasts_s: how long a sentence takes to say.

    Raises WrongUse with file and line.
    """
    return tuple(_moments(read_webvtt(text, name), name, lasts_s))


def _moments(cues: Iterable[Cue], name: str, lasts_s: Callable[[str], float]) -> Iterator[Moment]:
    for cue in cues:
        if cue.text.startswith("{"):
            steered = _steered(cue, name)
            if steered is not None:
                yield steered
        elif cue.text:
            yield Spoken(cue.start_ms / 1000, cue.text, lasts_s(cue.text))


def _steered(cue: Cue, name: str) -> Moment | None:
    """What a cue in braces does; None for silence, in which time passes."""
    at_s = cue.start_ms / 1000
    try:
        wanted = json.loads(cue.text)
    except ValueError:
        wanted = None
    match wanted:
        case {"clock": "jump", "s": int() | float() as by_s, **rest} if not rest and _is_number(by_s):
            return ClockSet(at_s, by_s)
        case {"sleep": int() | float() as for_s, **rest} if not rest and _is_number(for_s) and for_s >= 0:
            return Asleep(at_s, for_s)
        case {"cut": "power", **rest} if not rest:
            return Cut(at_s)
        case {"silence": True, **rest} if not rest:
            return None
    raise WrongUse(
        worded("{name}:{line}: {text} does not steer a script.", name=name, line=cue.line, text=cue.text),
        worded(
            'These do: {"clock": "jump", "s": 3600}, {"sleep": 3600}, {"cut": "power"}, {"silence": true}.'
        ),
    )


def _is_number(value: float) -> bool:
    """Neither true nor false, and no longer than a century either way (JSON may hold Infinity)."""
    return not isinstance(value, bool) and abs(value) <= 100 * 366 * 86_400
