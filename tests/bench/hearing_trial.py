"""One recording heard as `handsfree hear` hears it, with real frames, and what came of it."""

from __future__ import annotations

import tempfile
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from time import process_time

import soundfile

from handsfree.cli.hear_lines import Said
from handsfree.cli.hearing import Hearing
from handsfree.phrases.grammar import Grammar
from handsfree.phrases.meaning import by_words
from handsfree.ports import Ear, Sentences
from handsfree.signals import FRAME_S, SAMPLE_RATE, Ambiguous, Frame, Heard, Outcome, Utterance
from tests.bench import hearing_grammars as grammars
from tests.bench.hearing_edges import sound_of
from tests.bench.hearing_manifest import Clip
from tests.bench.hearing_noises import BEFORE_S, NOISES, QUIET, mixed, piece, stream
from tests.bench.hearing_results import Overheard, Told
from tests.bench.hearing_stock import StockHeard, StockVosk
from tests.voice.synthesisers import Sound


class TimedEar:
    """An ear that notes how long was computed for each frame, from the file on, and for new grammars."""

    def __init__(self, ear: Ear) -> None:
        self._ear = ear
        self._since = process_time()
        self.frames: list[tuple[float, float]] = []
        self.swaps_s = 0.0

    def knows(self, word: str) -> bool:
        return self._ear.knows(word)

    def listen(self, sentences: Sentences) -> None:
        self._lap_s()
        self._ear.listen(sentences)
        self.swaps_s += self._lap_s()

    def hear(self, frame: Frame | None) -> Utterance | None:
        utterance = self._ear.hear(frame)
        if frame is not None:
            self.frames.append((frame.end_s, self._lap_s()))
        return utterance

    def _lap_s(self) -> float:
        """Seconds of computing since it was asked last."""
        since, self._since = self._since, process_time()
        return self._since - since


@dataclass(frozen=True)
class Trial:
    """One clip in one noise, ready to be heard."""

    corpus: Path
    clip: Clip
    noise: str
    level: str

    @cached_property
    def sound(self) -> Sound:
        """The sentence in its stream."""
        speech = stream(sound_of(self.corpus / self.clip.file))
        if self.level == QUIET:
            return speech
        track = NOISES[self.noise](self.corpus, self.clip.split)
        return mixed(speech, piece(track, len(speech), self.clip.file), float(self.level))

    @property
    def begins_s(self) -> float:
        """First sound of speech in the stream."""
        return BEFORE_S + self.clip.begins_s

    @property
    def ends_s(self) -> float:
        """Last sound of speech in the stream."""
        return BEFORE_S + self.clip.ends_s


def tell(name: str, ear: Ear, trial: Trial, stock: StockVosk | None) -> Told:
    """Hear one command. name: of the ear."""
    clip = trial.clip
    written = grammars.compiled(clip.name)
    timed = TimedEar(ear)
    said, used_s = _said(timed, grammars.compiled(clip.name, ear.knows), trial.sound)
    outcomes = [one.outcome for one in said]
    decided_s = _decided_s(said)
    over_s = max(trial.ends_s, decided_s or 0.0)
    still_used_s = sum(used for end_s, used in timed.frames if _is_still(end_s, trial.begins_s, over_s))
    still_s = sum(FRAME_S for end_s, _ in timed.frames if _is_still(end_s, trial.begins_s, over_s))
    found = stock.heard(clip.name, trial.sound) if stock else ()
    stock_s = next((one.decided_s for one in found if one.nodes), found[-1].decided_s if found else None)
    return Told(
        ear=name,
        file=clip.file,
        voice=clip.voice,
        synthesiser=clip.synthesiser,
        field=grammars.field(clip.name),
        rule=clip.rule,
        sentence=clip.sentence,
        noise=QUIET if trial.level == QUIET else trial.noise,
        level=trial.level,
        verdict=verdict(written, clip.sentence, outcomes),
        heard=tuple(map(_text, outcomes)),
        more=written.standing(tuple(clip.sentence.split())).more,
        wait_s=None if decided_s is None else round(decided_s - trial.ends_s, 3),
        speech_s=len(timed.frames) * FRAME_S - still_s,
        still_s=still_s,
        speech_used_s=used_s - timed.swaps_s - still_used_s,
        still_used_s=still_used_s,
        stock=stock_verdict(written, clip.sentence, found) if stock else "",
        stock_heard=tuple(one.text for one in found),
        stock_wait_s=None if stock_s is None else round(stock_s - trial.ends_s, 3),
    )


def overhear(name: str, ear: Ear, clip: Clip, sound: Sound, listening: tuple[str, str]) -> Overheard:
    """Hear a minute or two of other speech. listening: name of the grammar, and the call word or nothing."""
    grammar, call = listening
    said, used_s = _said(ear, grammars.compiled(grammar, ear.knows, call), sound)
    outcomes = [one.outcome for one in said]
    return Overheard(
        ear=name,
        file=clip.file,
        voice=clip.voice,
        kind=clip.rule,
        grammar=grammar,
        called=bool(call),
        accepted=tuple(one.text for one in outcomes if isinstance(one, Heard)),
        asked=sum(isinstance(one, Ambiguous) for one in outcomes),
        sound_s=len(sound) / SAMPLE_RATE,
        used_s=used_s,
    )


def verdict(written: Grammar, sentence: str, outcomes: Iterable[Outcome]) -> str:
    """right, wrong (another meaning was heard, or one command too many), asked or refused."""
    meant = _meanings(written, sentence)
    heard = [one for one in outcomes if isinstance(one, Heard)]
    if len(heard) > 1 or any(by_words(one.node) not in meant for one in heard):
        return "wrong"
    if heard:
        return "right"
    return "asked" if any(isinstance(one, Ambiguous) for one in outcomes) else "refused"


def stock_verdict(written: Grammar, sentence: str, found: Iterable[StockHeard]) -> str:
    """The same of a recogniser without a judge: an utterance that is a sentence counts as a command."""
    meant = _meanings(written, sentence)
    heard = [set(map(by_words, one.nodes)) for one in found if one.nodes]
    if not heard:
        return "refused"
    return "right" if len(heard) == 1 and heard[0] & meant else "wrong"


def _meanings(written: Grammar, sentence: str) -> set[Hashable]:
    return {by_words(node) for node in written.match(tuple(sentence.split()))}


def _said(ear: Ear, grammar: Grammar, sound: Sound) -> tuple[list[Said], float]:
    """What was said in a sound, and seconds of computing."""
    with tempfile.TemporaryDirectory(dir="/dev/shm") as folder:
        file = Path(folder) / "stream.wav"
        soundfile.write(file, sound, SAMPLE_RATE, subtype="PCM_16")
        began = process_time()
        said = list(Hearing(ear, grammar).said_in(file))
        return said, process_time() - began


def _decided_s(said: Sequence[Said]) -> float | None:
    """When the first command was accepted, or else the last thing refused or asked about."""
    times_s = [one.utterance.decided_s for one in said if isinstance(one.outcome, Heard)]
    return times_s[0] if times_s else said[-1].utterance.decided_s if said else None


def _is_still(end_s: float, begins_s: float, over_s: float) -> bool:
    return end_s < begins_s or end_s > over_s


def _text(outcome: Outcome) -> str:
    match outcome:
        case Heard():
            return outcome.text
        case Ambiguous(_, candidates):
            return " / ".join(one.text for one in candidates) + "?"
        case _:
            return f"({outcome.text})"
