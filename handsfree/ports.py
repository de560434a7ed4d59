"""The Protocols between the rooms. Each has a fake and shipped contract checks in `testing/`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from typing import Protocol

from handsfree.signals import Chime, Closed, Frame, Gate, Lapsed, Manner, Node, Noticed, Stirred, Utterance


class Clock(Protocol):
    """Time as the program sees it. Only clocks may ask the machine what time it is."""

    def now(self) -> datetime:
        """Aware UTC time that never goes back within a run: steady for waiting, UTC for the record."""


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a run of words stands in a grammar.

    possible: some sentence begins with them. complete: they are a sentence. more: a longer one begins so.
    counting: a longer one goes on with a word of a number, or with the last word again: figures, letters and
    lists have no end that could be heard. Or it would, if the last word was not a teen but a ten.
    """

    possible: bool
    complete: bool
    more: bool
    counting: bool = False


@dataclass(frozen=True, slots=True)
class Graph:
    """Sentences as states and the words between them; no state has two ways on with one word.

    moves: for each state, the next one by word; sentences begin in state 0. ends: where they may end.
    """

    moves: tuple[Mapping[str, int], ...]
    ends: frozenset[int]


class Sentences(Protocol):
    """A compiled grammar, as ears and the judge see it. Words are in the recogniser's spelling."""

    @property
    def words(self) -> frozenset[str]:
        """Every word that some sentence uses."""

    @property
    def loose(self) -> bool:
        """Whether they are listened for in the midst of other words."""

    def standing(self, words: tuple[str, ...]) -> Standing:
        """Tell whether `words` are a sentence and whether more can follow."""

    def match(self, words: tuple[str, ...]) -> tuple[Node, ...]:
        """All readings of `words` as a whole sentence, in order of the grammar; empty where there is none."""

    def phrases(self) -> tuple[str, ...]:
        """Few phrases that together use every pair of neighbouring words the grammar allows, and no other."""

    def opposites(self) -> tuple[str, ...]:
        """Phrases with one word turned into its opposite: an ear that knows them does not take them for
        sentences."""

    def graph(self) -> Graph:
        """A graph of words that has these sentences and no other."""


class Source(Protocol):
    """Sound, frame by frame."""

    def frames(self) -> Iterator[Frame]:
        """Yield frames until the sound ends; a live source blocks. Raises SoundError for a failing device."""


class Ear(Protocol):
    """A recogniser. Gets frames in order, closes an utterance as soon as the grammar and the sound allow."""

    @property
    def stirred(self) -> bool:
        """Whether what it hears now may be speech."""

    def knows(self, word: str) -> bool:
        """Tell whether the ear can hear this word (lower case)."""

    def listen(self, sentences: Sentences) -> None:
        """Swap the grammar; what was half heard is dropped."""

    def hear(self, frame: Frame | None) -> Utterance | None:
        """Take one frame; None ends the sound. Returns an utterance when one is complete."""


class Door(Protocol):
    """The one place where speech comes in: microphone, recording or typed lines, with the ear behind it."""

    def open(self, sentences: Sentences, gate: Gate, asks: str) -> None:
        """Say what may be heard from now on, and which question is open (empty: none)."""

    def next(self, until: datetime | None) -> Utterance | Stirred | Noticed | Lapsed | Closed:
        """Wait for the next utterance, its beginning or trouble with the sound, until the clock reads `until`
        (None: as long as it takes)."""


class Voice(Protocol):
    """Says sentences aloud, in print or into a file."""

    def say(self, text: str) -> float:
        """Start to say one sentence; returns at once with its length in seconds. Raises PlaybackFailed."""

    def chime(self, chime: Chime) -> float:
        """Start one short sound, behind what is being said; returns as `say` does. Raises PlaybackFailed."""

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Tick once a drop from now on, wherever nothing is said; None: no more. Raises PlaybackFailed."""

    def speak_as(self, manner: Manner) -> None:
        """Sound in this manner from the next sentence on."""

    def hush(self) -> None:
        """Fall silent at once, but for the beat; what was not said yet is dropped."""


@dataclass(frozen=True, slots=True)
class Row:
    """One stored event. at: RFC 3339 UTC with microseconds and Z. body: the event's fields as JSON values."""

    session: str
    seq: int
    at: str
    type: str
    v: int
    body: dict[str, object]


@dataclass(frozen=True, slots=True)
class Damage:
    """Rows of a session that are missing or not what was written, from first to last, or what else can't be
    told of it (then both are 0). says: one sentence about it."""

    first: int
    last: int
    says: str

    def __str__(self) -> str:
        return self.says


@dataclass(frozen=True, slots=True)
class Salvaged:
    """What is whole of a session, in order, and what is not. chain: the link of each row, 64 hex digits.

    last: the highest number that a row of it ever had, as far as is known.
    """

    rows: tuple[Row, ...]
    chain: tuple[str, ...]
    damage: tuple[Damage, ...]
    last: int


class Journal(Protocol):
    """Keeps the events of sessions; what `append` returned from is on the disk."""

    def append(self, rows: Iterable[Row]) -> None:
        """Commit all rows or none. Raises StoreFailed."""

    def read(self, session: str) -> tuple[Row, ...]:
        """All rows of a session in order. Raises NotThere, StoreDamaged (naming the first bad row)."""

    def salvage(self, session: str) -> Salvaged:
        """What of a session is what was written, and what is not. Raises NotThere, StoreFailed."""

    def sessions(self) -> tuple[str, ...]:
        """Ids of all sessions, oldest first."""
