"""A whole session as a list of lines: what was said to the program, how time passed, what it answered."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from typing import Any

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.clock import SoundClock
from handsfree.conducts.table import CONDUCTS
from handsfree.hear.typed_words import typed_words
from handsfree.lexicon import Lexicon
from handsfree.loop import Corridor, Keep
from handsfree.mouth import Mouth
from handsfree.ports import Sentences
from handsfree.record import Record
from handsfree.signals import Alternative, Chime, Closed, Gate, Lapsed, Manner, Utterance
from handsfree.testing.journal import MemoryJournal

START = datetime(2031, 5, 4, 8, 0, tzinfo=UTC)
SESSION = "dialogue"
CLIP = "sound/dialogue/words.wav"
"""What the path of every clip is."""

LOUD_ROOM_DB = 6.0
"""How far what is said in a loud room stands over it."""


@dataclass(frozen=True, slots=True)
class Talk:
    """A dialogue that has ended.

    lines: both sides in order, the user's behind "> ", passing time as "+60".
    session: as it ended; over only where that was asked for. journal: what was kept.
    """

    lines: tuple[str, ...]
    session: Any
    journal: MemoryJournal
    corridor: Corridor[Any]

    @property
    def said(self) -> tuple[str, ...]:
        """The program's side."""
        return tuple(line for line in self.lines if not line.startswith((">", "+")))

    @property
    def last(self) -> str:
        """What the program said last."""
        return self.said[-1]


class ScriptEnded(Exception):
    """All lines are said; the session stays as it is."""


class ScriptDoor:
    """Door over a script; time passes only by its lines "+seconds". Raises ScriptEnded.

    "fifteen | fifty" is speech that could be either, "~next" is said in a room that is nearly as loud.
    """

    def __init__(self, clock: SoundClock, script: Iterable[str], lines: list[str]) -> None:
        self._clock, self._left, self._lines = clock, list(script), lines
        self._pause_until: datetime | None = None

    def open(self, sentences: Sentences, gate: Gate, asks: str) -> None:
        """Nothing to prepare: the grammar judges what was said."""

    def next(self, until: datetime | None) -> Utterance | Lapsed | Closed:
        """Take the next line, or let its time pass."""
        while self._pause_until is not None or self._left:
            if self._pause_until is None:
                line = self._left.pop(0)
                self._lines.append(line if line.startswith("+") else f"> {line}")
                if not line.startswith("+"):
                    return _spoken(line)
                self._pause_until = self._clock.now() + timedelta(seconds=float(line))
            if until is not None and until <= self._pause_until:
                self._pass_to(until)
                return Lapsed()
            self._pass_to(self._pause_until)
            self._pause_until = None
        raise ScriptEnded

    def _pass_to(self, at: datetime) -> None:
        self._clock.advance((at - self._clock.now()).total_seconds())


def _spoken(line: str) -> Utterance:
    said = line.removeprefix("~")
    read = tuple(Alternative(typed_words(one)) for one in said.split("|"))
    return Utterance(read, over_room_db=LOUD_ROOM_DB) if line != said else Utterance(read)


class ScriptVoice:
    """Voice that writes its sentences into the script's lines and takes no time."""

    def __init__(self, lines: list[str]) -> None:
        self._lines = lines

    def say(self, text: str) -> float:
        """Write one sentence down."""
        self._lines.append(text)
        return 0.0

    def chime(self, chime: Chime) -> float:
        """Write its name down, in brackets."""
        return self.say(f"[{chime.value}]")

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Tick for nobody."""

    def speak_as(self, manner: Manner) -> None:
        """Speak for nobody."""

    def hush(self) -> None:
        """Nothing is left to be said."""


def talk(
    script: Iterable[str],
    checklist: Checklist,
    lexicon: Lexicon,
    *,
    change: Callable[[Corridor[Any]], None] = lambda corridor: None,
    reads_back: bool = False,
    **begun: Any,
) -> Talk:
    """Run a new session on a script: a line is said at once, "+60" lets a minute pass.

    change: puts other rooms into the corridor before it runs. begun: more fields of `SessionStarted`, as the
    kind of session.
    """
    lines: list[str] = []
    clock, journal = SoundClock(START), MemoryJournal()
    others = tuple(e.ChecklistText(one.file, one.text) for one in checklist.others)
    started = e.SessionStarted(
        checklist.name, checklist.file, checklist.text, "typed", reads_back, 0, others=others, **begun
    )
    conduct = CONDUCTS[started.kind]
    session = conduct.new(checklist, started, START)
    keep: Keep = Record(journal, SESSION).keep
    mouth = Mouth(ScriptVoice(lines), clock, deaf=False)
    corridor = Corridor(conduct, session, lexicon, ScriptDoor(clock, script, lines), mouth, clock, keep)
    corridor.clip = lambda pcm: CLIP
    change(corridor)
    with suppress(ScriptEnded):
        corridor.run(conduct.begin(session, started, START))
    return Talk(tuple(lines), corridor.session, journal, corridor)
