"""What the keys of events and marks are called where they are read. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from handsfree.words import worded

_CALLED: Mapping[str, str] = MappingProxyType(
    {
        # what became of a step, and what a mark says
        "done": worded("done"),
        "prompted": worded("prompted"),
        "out of order": worded("out of order"),
        "missed": worded("missed"),
        "not seen": worded("not seen"),
        "skipped": worded("skipped"),
        "left open": worded("left open"),
        "unsafe": worded("unsafe"),
        "contaminated": worded("contaminated"),
        "attempt": worded("attempt"),
        "mark": worded("mark"),
        "note": worded("note"),
        "lap": worded("lap"),
        "stop-clock": worded("stop-clock"),
        "clock started": worded("clock started"),
        "clock stopped": worded("clock stopped"),
        "cue": worded("cue"),
        "seen": worded("seen"),
        "accepted": worded("accepted"),
        "fault": worded("fault"),
        "timer": worded("timer"),
        "stop": worded("stop"),
        "emergency": worded("emergency"),
        # who did it, in what kind of session
        "instructor": worded("instructor"),
        "program": worded("program"),
        "trainee": worded("trainee"),
        "user": worded("user"),
        "User": worded("User"),
        "guide": worded("guide"),
        "practice": worded("practice"),
        "drill": worded("drill"),
        # how it ended
        "by voice": worded("by voice"),
        "input ended": worded("input ended"),
        "cut off": worded("cut off"),
        "left": worded("left"),
        "found": worded("found"),
        "not needed": worded("not needed"),
        "wrong": worded("wrong"),
        "lapsed": worded("lapsed"),
        "misheard": worded("misheard"),
        "new order": worded("new order"),
        "new rate": worded("new rate"),
        # why a step was stopped, or did not count
        "out_of_date": worded("out of date"),
        "differs": worded("differs"),
        "clash": worded("clash"),
        "attempts": worded("attempts"),
        "disagrees": worded("disagrees"),
        "answers disagree": worded("answers disagree"),
        "too short": worded("too short"),
        "too long": worded("too long"),
        # short sounds
        "taken": worded("taken"),
        "refused": worded("refused"),
        "due": worded("due"),
        "listening": worded("listening"),
        # parts of the machine
        "PocketSphinx ear": worded("PocketSphinx ear"),
        "Vosk ear": worded("Vosk ear"),
        "Microphone": worded("Microphone"),
        "Loudspeaker": worded("Loudspeaker"),
        "Synthesiser": worded("Synthesiser"),
        "Settings": worded("Settings"),
        "Grammars": worded("Grammars"),
        "Sessions folder": worded("Sessions folder"),
        # a time and its target; what is wrong with the sound
        "at most": worded("at most"),
        "at least": worded("at least"),
        "dead": worded("dead"),
        "faint": worded("faint"),
        "clipped": worded("clipped"),
        "lost": worded("lost"),
        "unwritten": worded("unwritten"),
    }
)


def called(key: str) -> str:
    """A key in words; one that is not known here, as the name of a step, with spaces."""
    return _CALLED.get(key) or key.replace("_", " ")
