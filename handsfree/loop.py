"""The corridor, and the only place where the rooms meet: hear, judge, decide, write, evolve, speak."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from typing import Generic, assert_never

from handsfree.care import events as e
from handsfree.care.commands import Close, Command, Mumble, Notice, Tick, Waver
from handsfree.care.manner import changed
from handsfree.conducts.conduct import Conduct, S
from handsfree.errors import SoundError, StoreFailed
from handsfree.glance import Glance, Hearing, Status
from handsfree.lexicon import Lexicon, OnDemand
from handsfree.mouth import Mouth
from handsfree.phrases.judge import drowned
from handsfree.phrases.readings import reading
from handsfree.phrases.spotting import spotted
from handsfree.ports import Clock, Door, Sentences
from handsfree.said import begun, judged, spotted_answers, understood
from handsfree.say.wording_machine import CLIP_LOST, GO_ON, microphone_failed
from handsfree.say.wording_manner import manner_sentence
from handsfree.signals import (
    REPORT,
    Ambiguous,
    Chime,
    Closed,
    Gate,
    Heard,
    Lapsed,
    Noticed,
    NotUnderstood,
    Stirred,
    Utterance,
)

LISTENING_S = 10.0
"""With a call word: so long after a question was asked it can be answered without the word. Who looks at a
pack or a drip chamber answers within seconds; each second more is one in which others may be heard."""

HEARD_OUT_S = 5.0
"""An answer that begins while it needs no call word is heard to its end: the ear goes on for so long as
before, and what may be meant is asked of when the speech began."""

_NOT_ASKED = (
    e.CueFired,
    e.SignGiven,
    e.SoundTroubled,
    e.SoundMended,
    e.SoundStarted,
    e.SpeechUnderstood,
    e.SpeechNotUnderstood,
    e.SpeechWavered,
    e.EmergencyRaised,
)
"""Events after whose sentences nobody is waited for: what they say does not open the ear for others' talk."""

NEWS_S = 10.0
"""So often it is asked what became of the sound that is being kept."""

Keep = Callable[[Iterable[e.Recorded]], str]
"""Commits events, or holds them and returns a warning to be said; raises StoreFailed at the start."""


@dataclass(slots=True)
class Corridor(Generic[S]):
    """One running session of some kind, and its rooms.

    clip: keeps the sound of free words, gives its path.
    overheard: told every utterance as it was judged, for the dialogue on the screen.
    news: what became of the sound that is being kept; None where none is.
    shown: told what is to be seen from across the room, whenever it may have changed; None: nobody looks.
    prepares: phrases are made ahead, for an ear that learns from them; others take none.
    """

    conduct: Conduct[S]
    session: S
    lexicon: Lexicon
    door: Door
    mouth: Mouth
    clock: Clock
    keep: Keep
    clip: Callable[[bytes], str] = lambda pcm: ""
    overheard: Callable[[datetime, str], None] = lambda at, text: None
    news: Callable[[], tuple[e.Event, ...]] | None = None
    shown: Callable[[Glance, Status], None] | None = None
    prepares: bool = True
    _asking: bool = False
    _listening_until: datetime | None = None
    _status: Status = field(default_factory=Status)

    def run(self, first: tuple[e.Event, ...]) -> S:
        """Go on from the first events until the session is over; returns it as it ended."""
        self._happen(first)
        while not self.session.over:
            self._happen(self.conduct.decide(self.session, self._next(), self.clock.now()))
        self._show()
        return self.session

    def _next(self) -> Command:
        """Wait for the next command, or until something is due."""
        if self.news is not None:
            self._happen(self.news())
        now = self.clock.now()
        if self.mouth.is_done:
            self._played()
        heard_out = self._listening_until and self._listening_until + timedelta(seconds=HEARD_OUT_S)
        if heard_out is not None and heard_out <= now:
            self._listening_until = heard_out = None
        news_due = None if self.news is None else now + timedelta(seconds=NEWS_S)
        deadlines = (self.session.deadline(), self.mouth.until, heard_out, news_due)
        due = min((one for one in deadlines if one), default=None)
        called = heard_out is None
        allowed = self.conduct.listen(self.session, called)
        sentences = self.lexicon.sentences(allowed)
        self.door.open(sentences, Gate.DEAF if self.mouth.deafens else Gate.OPEN, allowed.asks)
        self._show()
        if self.prepares and self.mouth.until is not None:
            self.lexicon.prepare(self.conduct.ahead(self.session, called))
        match self._heard(due):
            case Utterance() as utterance:
                return self._judged(utterance)
            case Noticed(trouble, over):
                return Notice(trouble, over)
            case Stirred(speaks):
                self.mouth.gives_way = speaks
                return Tick()
            case Lapsed():
                return Tick()
            case Closed(reason):
                return Close(reason)
            case other:
                assert_never(other)

    def _heard(self, until: datetime | None) -> Utterance | Stirred | Noticed | Lapsed | Closed:
        """What comes through the door; a microphone that dies is said at once, and ends the run."""
        try:
            return self.door.next(until)
        except SoundError as fault:
            self._happen((e.CommandRefused(microphone_failed(str(fault))),))
            raise SoundError(fault.wrong, f"{fault.next_step} {GO_ON}") from fault

    def _judged(self, utterance: Utterance) -> Command:
        """The command of an utterance: a tick where nothing was said to the program."""
        allowed = self.conduct.listen(self.session, not self._answers(utterance))
        decided_at = self._decided_at(utterance)
        sentences = self.lexicon.grammar(allowed)
        outcome = judged(sentences, utterance)
        alone = isinstance(outcome, Heard) and outcome.command != REPORT
        loose = allowed.loose and not alone
        found = spotted(sentences, utterance, reading, self.lexicon.common) if loose else ()
        if found:
            said = spotted_answers(found, utterance, decided_at)
            self._overhear(said.text)
            return said
        match outcome:
            case Heard(node, confidence) if confidence < self.conduct.sure.get(node.rule, 0.0):
                return Mumble(outcome.text)
            case Heard():
                self._overhear(outcome.text)
                return understood(outcome, utterance, decided_at)
            case Ambiguous(_, candidates):
                self._overhear(f"{candidates[0].text}?")
                return Waver(tuple(understood(one, utterance, decided_at) for one in candidates))
            case NotUnderstood() if not self._meant(utterance):
                return Tick()
            case NotUnderstood(text):
                return self._not_understood(text, utterance, sentences)
            case other:
                assert_never(other)

    def _not_understood(self, text: str, utterance: Utterance, sentences: Sentences) -> Command:
        """The command of what is no sentence: words of no grammar are kept as sound where they are wanted."""
        words = utterance.alternatives[0].words
        free = self.session.wants_free_words and words
        if not text and not free:
            return Tick()
        self._overhear(f"({text})", understood=False)
        if free:
            return Mumble(text, self._clipped(utterance))
        open_ended = begun(sentences, utterance, self._decided_at(utterance))
        if open_ended is not None:
            return replace(open_ended, sound=self._clipped(utterance))
        if drowned(utterance):
            return Mumble(text, drowned=True)  # what it seems to be is no ground to explain why not
        return Mumble(text, closed=self.lexicon.rules_of(words))

    def _clipped(self, utterance: Utterance) -> str:
        """The path of an utterance's sound; what could not be kept is said."""
        try:
            return self.clip(utterance.pcm)
        except StoreFailed:
            self._happen((e.CommandRefused(CLIP_LOST),))
            return ""

    def _decided_at(self, utterance: Utterance) -> datetime:
        """When the sound was heard with which it was decided: some time ago, on a machine that is busy."""
        return self.clock.now() - timedelta(seconds=utterance.late_s)

    def _answers(self, utterance: Utterance) -> bool:
        """Whether speech began while an answer needed no call word."""
        began = self._decided_at(utterance) - timedelta(seconds=utterance.decided_s - utterance.start_s)
        return self._listening_until is not None and began < self._listening_until

    def _overhear(self, text: str, *, understood: bool = True) -> None:
        """Something was said to the program: tell the screen."""
        self._status = replace(self._status, heard=text, understood=understood)
        self.overheard(self.clock.now(), text)

    def _show(self) -> None:
        """Tell the board how things stand while the corridor waits."""
        if self.shown is None:
            return
        seen = self.conduct.glance(self.session, self._examples())
        ear = Hearing.DEAF if self.mouth.deafens else Hearing.OPEN if seen.hears else Hearing.PAUSED
        self.shown(seen, replace(self._status, ear=ear, said=self.mouth.last_said))

    def _meant(self, utterance: Utterance) -> bool:
        """Whether what was not understood may be meant for the program: others' talk gets no answer."""
        words = utterance.alternatives[0].words
        free = self.session.wants_free_words and self._answers(utterance)
        return free or self.lexicon.is_called(words)

    def _happen(self, events: tuple[e.Event, ...]) -> None:
        """Write the events and what will be said about them, then say it."""
        at = self.clock.now()
        sentences: list[str] = []
        for event in events:
            self.session = self.conduct.evolve(self.session, event, at)
            text = self._sentence(event)
            if text and not (sentences and sentences[-1] == text):
                sentences.append(text)
        if any(isinstance(event, e.Held) for event in events):
            self.mouth.hush()
        said = " ".join(sentences)
        announced = (e.Announced(said),) if said else ()
        warning = self._write(at, (*events, *announced))
        if said and not any(isinstance(event, e.MannerChanged) for event in events):
            self.mouth.last_said = said
        # Who cannot hear need not wait until speech is made.
        self._show()
        if said:
            self._asking = not all(isinstance(event, _NOT_ASKED) for event in events)
            self._speak(said)
        if warning:
            self._speak(warning)
        for chime in filter(None, [self.conduct.chime(event, self.session) for event in events]):
            self._chime(chime)
        self.mouth.beat(self.conduct.beat(self.session))

    def _sentence(self, event: e.Event) -> str:
        if event == e.Told("repeat"):
            return self.mouth.last_said
        if isinstance(event, e.MannerChanged):
            return self._in_manner(event.way)
        return self.conduct.sentence(event, self.session, self._examples())

    def _in_manner(self, way: str) -> str:
        """Speak otherwise from now on; gives what is said of it."""
        before, self.mouth.manner = self.mouth.manner, changed(self.mouth.manner, way)
        return manner_sentence(way, ends=self.mouth.manner == before)

    def _examples(self) -> Mapping[str, str]:
        """What can be said now, worked out if it is asked for: few sentences do."""
        session = self.session
        return OnDemand(lambda: self.lexicon.examples(self.conduct.listen(session, False)))

    def _write(self, at: datetime, events: tuple[e.Event, ...]) -> str:
        """Returns the warning of a store that does not take them."""
        return self.keep([e.Recorded(at, event) for event in events])

    def _speak(self, text: str) -> None:
        self._take(self.clock.now(), self.mouth.say(text))
        if self.mouth.is_done:
            self._played()

    def _chime(self, chime: Chime) -> None:
        now = self.clock.now()
        self._take(now, self.mouth.chime(chime))
        if self.lexicon.calls and chime is Chime.LISTENING:
            self._listening_until = now + timedelta(seconds=LISTENING_S)

    def _played(self) -> None:
        """All that was being said has been said: from now on it can be answered."""
        now = self.clock.now()
        self._take(now, self.mouth.played())
        if self.lexicon.calls and self._asking and self.conduct.listen(self.session, False).asks:
            self._listening_until = now + timedelta(seconds=LISTENING_S)

    def _take(self, at: datetime, events: tuple[e.Event, ...]) -> None:
        """Events that say nothing."""
        for event in events:
            self.session = self.conduct.evolve(self.session, event, at)
        warning = self._write(at, events)
        if warning:
            self._speak(warning)
