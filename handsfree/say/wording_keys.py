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
        # what stands in the record
        "count": worded("count"),
        "check": worded("check"),
        "finding": worded("finding"),
        "rate": worded("rate"),
        "computed": worded("computed"),
        "off the order": worded("off the order"),
        "read-back": worded("read-back"),
        "not confirmed": worded("not confirmed"),
        "session": worded("session"),
        "checklist": worded("checklist"),
        "line": worded("line"),
        "run": worded("run"),
        "began": worded("began"),
        "begun": worded("begun"),
        "ended": worded("ended"),
        "gone on with": worded("gone on with"),
        "gone on anyway": worded("gone on anyway"),
        "lifted": worded("lifted"),
        "named": worded("named"),
        "not named": worded("not named"),
        "left out": worded("left out"),
        "not understood": worded("not understood"),
        "opened again": worded("opened again"),
        "used up": worded("used up"),
        "course": worded("course"),
        "branch": worded("branch"),
        "not chosen": worded("not chosen"),
        "critical steps only": worded("critical steps only"),
        "taken back": worded("taken back"),
        "the last change": worded("the last change"),
        "reminder": worded("reminder"),
        "set": worded("set"),
        "later": worded("later"),
        "bag": worded("bag"),
        "left in it": worded("left in it"),
        "tubing": worded("tubing"),
        "changed": worded("changed"),
        "patient or line": worded("patient or line"),
        "trouble": worded("trouble"),
        "microphone": worded("microphone"),
        "not said aloud": worded("not said aloud"),
        "words": worded("words"),
        "moved": worded("moved"),
        "taken away": worded("taken away"),
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
        "dead, over": worded("dead, over"),
        "faint, over": worded("faint, over"),
        "clipped, over": worded("clipped, over"),
        "lost, over": worded("lost, over"),
        "unwritten, over": worded("unwritten, over"),
    }
)


class Key(str):
    """A key among free words: data keep it, and it is called otherwise where it is read."""

    __slots__ = ()


def key(name: str) -> Key:
    """A name of an event or of a step as a Key, with spaces."""
    return Key(name.replace("_", " "))


def as_read(text: str) -> str:
    """Free words as they are, a Key as it is called."""
    return called(text) if isinstance(text, Key) else text


def called(key: str) -> str:
    """A key in words; one that is not known here, as the name of a step, with spaces."""
    return _CALLED.get(key) or key.replace("_", " ")
