"""What can be seen from across the room: plain values, made from a session, drawn by board and terminal."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum


@dataclass(frozen=True, slots=True)
class Running:
    """A clock. at: when it began, or will be due (UTC). due: it counts down to `at`, else up from it."""

    label: str
    at: datetime
    due: bool = False
    urgent: bool = False


@dataclass(frozen=True, slots=True)
class Glance:
    """One moment of a session, in words.

    place: where in the checklist. do: what is to be done now, or the question that is open. say: sentences
    that answer it. alert: what goes before everything, empty where nothing does. rate: the flow, by lines.
    clocks: the most urgent first. hears: whether anything but a word to listen again is heard.
    """

    title: str = ""
    place: str = ""
    do: str = ""
    say: tuple[str, ...] = ()
    alert: str = ""
    rate: tuple[str, ...] = ()
    clocks: tuple[Running, ...] = ()
    hears: bool = True


class Hearing(Enum):
    """Whether something that is said now is heard."""

    OPEN = "listening"
    DEAF = "speaking"
    PAUSED = "paused"


@dataclass(frozen=True, slots=True)
class Status:
    """What passes too quickly for the record.

    heard: what was understood last, or what it was taken for. understood: whether it was acted upon.
    said: the last sentence of the program.
    """

    ear: Hearing = Hearing.OPEN
    heard: str = ""
    understood: bool = True
    said: str = ""


def besides(seen: Glance, status: Status) -> str:
    """What was said last besides what is seen anyway, question or alert: who cannot hear reads it."""
    if seen.alert and seen.alert.partition(".")[0] in status.said:
        return ""
    return " ".join(status.said.replace(seen.do, "").split()) if seen.do else status.said
