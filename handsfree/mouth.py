"""The program's own speech: what is being said and until when, and what ticks meanwhile."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from fractions import Fraction

from handsfree.care import events as e
from handsfree.errors import PlaybackFailed
from handsfree.ports import Clock, Voice
from handsfree.signals import Chime, Manner

ECHO_S = 0.3
"""The ear stays deaf so long after the program's own speech, for the room to fall silent."""


@dataclass(slots=True)
class Mouth:
    """Says one thing after the other; knows when all was said, as far as anybody can.

    deaf: the ear does not hear while the program speaks. aloud: somebody hears it speak, in that time; else
    a sentence counts as said at once. spare: says what the voice failed to say.
    last_said: the last sentence, but for warnings and what is said of the manner. manner: how it speaks.
    gives_way: somebody else speaks. until: when all will have been said; None after that.
    """

    voice: Voice
    clock: Clock
    deaf: bool = True
    aloud: bool = True
    spare: Voice | None = None
    last_said: str = ""
    gives_way: bool = False
    manner: Manner = field(default_factory=Manner)
    until: datetime | None = None
    _playing: list[str] = field(default_factory=list)
    _ticking: Fraction | None = None
    _adopted: Manner = field(default_factory=Manner)

    @property
    def deafens(self) -> bool:
        """Whether the ear would hear the program itself."""
        return self.deaf and self.until is not None

    @property
    def is_done(self) -> bool:
        """Whether all that was being said has just been said, and nobody was told of it yet."""
        return self.until is not None and self.until <= self.clock.now()

    def say(self, text: str) -> tuple[e.Event, ...]:
        """Start to say a sentence, behind what is being said; gives what went wrong."""
        now = self.clock.now()
        self._adopt()
        try:
            length_s = self.voice.say(text)
        except PlaybackFailed as fault:
            if self.spare is not None:
                self.spare.say(f"{text} ({fault})")
            return (e.PlayingFailed(text, fault.wrong),)
        if not self.aloud:
            length_s = 0.0
        echo_s = ECHO_S if length_s and self.deaf else 0.0
        self._playing.append(text)
        self.until = max(self.until or now, now) + timedelta(seconds=length_s + echo_s)
        return ()

    def chime(self, chime: Chime) -> tuple[e.Event, ...]:
        """Start a short sound; gives what went wrong.

        It is too short to make the ear deaf, and no word that the ear could take for one.
        """
        self._adopt()
        try:
            self.voice.chime(chime)
        except PlaybackFailed as fault:
            if self.spare is not None:
                self.spare.chime(chime)
            return (e.PlayingFailed(f"[{chime.value}]", fault.wrong),)
        return ()

    def beat(self, drops_per_min: Fraction | None) -> None:
        """Tick at this rate, or no more; not while somebody else speaks. A voice that fails is heard of with
        the next sentence."""
        heard = None if self.gives_way else drops_per_min
        if heard != self._ticking:
            self._ticking = heard
            with suppress(PlaybackFailed):
                self.voice.beat(heard)

    def played(self) -> tuple[e.Event, ...]:
        """What has been said to its end since this was last asked."""
        played = tuple(e.Played(text) for text in self._playing)
        self._playing.clear()
        self.until = None
        return played

    def hush(self) -> None:
        """Fall silent; what was not said to its end was not said."""
        self.voice.hush()
        self._playing.clear()
        self.until = None

    def _adopt(self) -> None:
        """Have the voice sound as it should from now on."""
        if self.manner != self._adopted:
            self.voice.speak_as(self.manner)
            self._adopted = self.manner
