"""What travels between the rooms: plain values, no behaviour, importable by every room.

    Frame ──hear──► Utterance ──phrases──► Heard | NotUnderstood | Ambiguous ──care──► events
                                                                       care ──Listen──► hear

All of them are frozen.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

SAMPLE_RATE = 16_000
"""Samples a second of every frame; sources resample to it."""

FRAME_SAMPLES = 512
"""Samples in a frame (32 ms): one size for all ears, so that the same sound gives the same words."""

FRAME_S = FRAME_SAMPLES / SAMPLE_RATE


@dataclass(frozen=True, slots=True)
class Taken:
    """How a frame's sound came from the device, before anything was done to it.

    level_db: root mean square in dB of full scale, without an offset. clipped: share of samples at full
    scale. lost: the machine was too slow; there is silence in place of the sound. late_s: how long before
    it came here its last sound was heard, as far as the device tells.
    """

    level_db: float = 0.0
    clipped: float = 0.0
    lost: bool = False
    late_s: float = 0.0


@dataclass(frozen=True, slots=True)
class Frame:
    """One piece of sound.

    pcm: FRAME_SAMPLES samples, 16-bit little-endian, one channel, SAMPLE_RATE.
    end_s: seconds of sound from the start of the source to the end of this frame.
    """

    pcm: bytes
    end_s: float
    taken: Taken = Taken()


UNKNOWN = "[unk]"
"""What every recogniser writes for speech outside the grammar, as Vosk does."""


@dataclass(frozen=True, slots=True)
class Alternative:
    """One reading of an utterance by a recogniser.

    words: in the recogniser's own spelling, or UNKNOWN.
    score: natural-log likelihood, higher is likelier; only differences within one utterance mean something.
    word_confidence: 0 to 1 for each word, or empty where the ear does not tell.
    begins_s, ends_s: when each word began and ended, in seconds from the start of the source; empty where the
    ear does not tell.
    unheard_s: how long there was sound as loud as these words, and none of them in it.
    price: nats that the score is lower for what the recogniser expected before it heard anything.
    """

    words: tuple[str, ...]
    score: float = 0.0
    word_confidence: tuple[float, ...] = ()
    begins_s: tuple[float, ...] = ()
    ends_s: tuple[float, ...] = ()
    unheard_s: float = 0.0
    price: float = 0.0

    @property
    def sound(self) -> float:
        """How likely the sound is for these words, whatever was expected."""
        return self.score + self.price


@dataclass(frozen=True, slots=True)
class Utterance:
    """What one person said in one breath, as an ear heard it.

    alternatives: best first, at least one.
    start_s, end_s: first and last sound of speech, seconds of sound from the start of the source.
    decided_s: how much sound had been heard when the ear closed the utterance.
    over_room_db: by how much its loud moments stand over its quiet ones, the room's sound.
    pcm: the sound itself, as in Frame; empty for typed lines.
    dictated: readings without a grammar, best first, where sentences are heard in the midst of other words;
    none from an ear that gives none.
    lost: the share of the speech in whose place there is silence, because the machine was too slow.
    late_s: how long ago the sound at `decided_s` was heard: a device holds it back, and a machine computes.
    below_db: by how much it is quieter than the loudest of what was said in the minute before.
    """

    alternatives: tuple[Alternative, ...]
    start_s: float = 0.0
    end_s: float = 0.0
    decided_s: float = 0.0
    pcm: bytes = b""
    over_room_db: float = 60.0
    lost: float = 0.0
    late_s: float = 0.0
    below_db: float = 0.0
    dictated: tuple[Alternative, ...] = ()


@dataclass(frozen=True, slots=True)
class Lapsed:
    """The door waited until the given time and nothing was said."""


class Trouble(Enum):
    """What keeps a microphone from being heard well."""

    DEAD = "dead"
    """Nothing comes, not even the hiss of a room."""

    FAINT = "faint"
    """Words are so quiet that some are lost."""

    CLIPPED = "clipped"
    """The sound is louder than the device can take."""

    LOST = "lost"
    """The machine is too slow to take all of the sound."""

    UNWRITTEN = "unwritten"
    """The sound is heard, and can no longer be written down."""


@dataclass(frozen=True, slots=True)
class Noticed:
    """The door noticed a trouble with the sound: it begins, or is over."""

    trouble: Trouble
    over: bool = False


@dataclass(frozen=True, slots=True)
class Stirred:
    """Somebody begins to speak, or has spoken: long before it is known what was said."""

    speaks: bool


@dataclass(frozen=True, slots=True)
class Closed:
    """Nothing more will come: end of the recording or of the input."""

    reason: str = ""


@dataclass(frozen=True, slots=True)
class Node:
    """One use of a grammar rule in a matched sentence.

    rule: its name. words: what it covered, in the grammar's spelling.
    tags: its own tags in order, not those of its children. children: rules used inside it, in order.
    spare: places in `words` of its own words that the grammar lets one leave out.
    """

    rule: str
    words: tuple[str, ...]
    tags: tuple[str, ...] = ()
    children: tuple[Node, ...] = ()
    spare: tuple[int, ...] = field(default=(), compare=False)


@dataclass(frozen=True, slots=True)
class Heard:
    """The grammar accepts one sentence, and it is far enough ahead of the next one.

    confidence: 0 to 1, calibrated. ends_s: when each of the recogniser's words ended, as in Alternative.
    """

    node: Node
    confidence: float
    ends_s: tuple[float, ...] = ()

    @property
    def command(self) -> str:
        """Name of the public rule that matched."""
        return self.node.rule

    @property
    def text(self) -> str:
        """The sentence in the grammar's own spelling."""
        return " ".join(self.node.words)


@dataclass(frozen=True, slots=True)
class NotUnderstood:
    """No reading is a sentence of the grammar. text: the recogniser's best guess."""

    text: str
    confidence: float = 0.0


@dataclass(frozen=True, slots=True)
class Ambiguous:
    """Two sentences or more are too close to call; candidates best first."""

    text: str
    candidates: tuple[Heard, ...]
    confidence: float = 0.0


Outcome = Heard | NotUnderstood | Ambiguous


class Gate(Enum):
    """Whether the ear takes in sound."""

    OPEN = "open"
    DEAF = "deaf"


@dataclass(frozen=True, slots=True)
class Manner:
    """How the program speaks.

    loudness, pace: steps above what it begins with. voice: which one, counted on from the first.
    """

    loudness: int = 0
    pace: int = 0
    voice: int = 0


class Keeps(Enum):
    """Which sound of a session is kept."""

    NOTHING = "nothing"

    WORDS = "words"
    """What no grammar holds: reasons and notes."""

    ALL = "all"


class Chime(Enum):
    """A short sound in place of words."""

    TAKEN = "taken"
    """What was said counts."""

    REFUSED = "refused"
    """It was heard, and changes nothing."""

    DUE = "due"
    """Something is to be attended to."""

    LISTENING = "listening"
    """The next words are waited for."""


LINE_NAME = "line_name"
"""Name of the rule that names a line or patient; where there are several it may lead any sentence."""

REPORT = "report"
"""Name of the rule that takes several answers in one breath; each answer is a child of its node."""


@dataclass(frozen=True, slots=True)
class Listen:
    """What may be said now: the one path back from the session to the ear.

    rules: names of the rules that may be heard alone. answers: names of rules of which several may be said
    in one breath. asks: the question that is open, for those who answer it (empty where none is).
    uncalled: names of rules that are heard without the call word too, where there is one.
    grammar: whose rules they are, where several checklists have rules of the same name.
    led_by: name of a rule that may stand before each sentence (empty for none).
    loose: answers are heard in the midst of other words too.
    """

    rules: tuple[str, ...]
    answers: tuple[str, ...] = ()
    asks: str = ""
    uncalled: tuple[str, ...] = ()
    grammar: str = ""
    led_by: str = ""
    loose: bool = False
