"""What the corridor brings to the session: something said, or time that has passed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from handsfree.signals import Trouble


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer inside a sentence: the grammar rule, the value as the record keeps it, and its words.

    said_at: when the last of them ended, where that is known. also: other rules that the same words belong
    to, where several are open.
    """

    rule: str
    value: str = ""
    words: str = ""
    said_at: datetime | None = None
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Say:
    """A sentence that the grammar accepted. rule: the public rule. reason: given in the same breath.

    sound: path of the clip that was kept, where it ended in words of no grammar.
    line: the name of a line or patient with which it begins.
    said_at: when its last word ended, where that is known: some time before it is understood.
    """

    rule: str
    text: str
    answers: tuple[Answer, ...] = ()
    reason: str = ""
    confidence: float = 1.0
    said_at: datetime | None = None
    line: str = ""
    sound: str = ""


@dataclass(frozen=True, slots=True)
class Mumble:
    """Speech that no open rule accepts. sound: path of the clip that was kept, if any.

    closed: the rules that would accept it at another moment. drowned: the room was nearly as loud.
    """

    text: str
    sound: str = ""
    closed: tuple[str, ...] = ()
    drowned: bool = False


@dataclass(frozen=True, slots=True)
class Waver:
    """Speech that could be two sentences or more; best first."""

    candidates: tuple[Say, ...]


@dataclass(frozen=True, slots=True)
class Tick:
    """Time has passed."""


@dataclass(frozen=True, slots=True)
class Close:
    """Nothing more will be heard: the input has ended."""

    reason: str = ""


@dataclass(frozen=True, slots=True)
class Notice:
    """The microphone cannot be heard well, or can again. over: the trouble is over."""

    trouble: Trouble
    over: bool = False


Command = Say | Mumble | Waver | Tick | Notice | Close
