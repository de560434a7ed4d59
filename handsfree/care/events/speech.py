"""What was heard, and what was said."""

from __future__ import annotations

from dataclasses import dataclass

from handsfree.signals import Trouble


@dataclass(frozen=True, slots=True)
class SpeechUnderstood:
    """A sentence of the grammar. changes: it may close or change steps, so that it can be undone."""

    rule: str
    text: str
    confidence: float
    changes: bool


@dataclass(frozen=True, slots=True)
class SpeechNotUnderstood:
    """Speech that is no sentence now. sound: path of its clip, if kept.

    drowned: the room was nearly as loud.
    """

    text: str
    sound: str = ""
    drowned: bool = False


@dataclass(frozen=True, slots=True)
class SpeechWavered:
    """Speech that could be one of several sentences."""

    candidates: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """A question of the user was answered.

    topic: repeat, how, why, where, left, record, help, choices, nothing_to_undo, complete.
    """

    topic: str


@dataclass(frozen=True, slots=True)
class CommandRefused:
    """What was said makes no sense now. why: one sentence."""

    why: str


@dataclass(frozen=True, slots=True)
class Announced:
    """A sentence, before it is spoken."""

    text: str


@dataclass(frozen=True, slots=True)
class Played:
    """A sentence was spoken to its end."""

    text: str


@dataclass(frozen=True, slots=True)
class PlayingFailed:
    """A sentence could not be spoken."""

    text: str
    why: str


@dataclass(frozen=True, slots=True)
class SoundTroubled:
    """The microphone cannot be heard well from now on."""

    trouble: Trouble


@dataclass(frozen=True, slots=True)
class SoundMended:
    """The trouble with the microphone is over."""

    trouble: Trouble


@dataclass(frozen=True, slots=True)
class SignGiven:
    """Nobody spoke for long while an answer was waited for: the program said that it listens."""


@dataclass(frozen=True, slots=True)
class MannerChanged:
    """The program speaks otherwise from now on. way: how, by the command that asked for it."""

    way: str
