"""When an utterance is over: by the grammar, by silence, by the clock, by the end of the sound."""

from __future__ import annotations

import pytest

from handsfree.hear.commit import BEFORE_S, LATELY_S, LONGEST_S, RESTS_LATE_S, Committer, Pause, pause_after
from handsfree.hear.detector import loudness_db
from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.judge import judge
from handsfree.signals import FRAME_S, Alternative, Frame, Heard, Taken, Utterance
from handsfree.testing.ears import SILENCE
from tests.phrases.oracle import read

SENTENCES = compile_grammar(
    read("""
    public <said> = next | next step | one hundred and ten | go back | two | two (two | hundred) [two three];
    """)
)

VOICE = b"v" * len(SILENCE)


class Recogniser:
    """Understands the given words as soon as there is voice."""

    def __init__(self, *words: str) -> None:
        self.words, self.fed, self.last = words, 0, b""
        self.resting = False
        self._voice = False

    def feed(self, pcm: bytes) -> None:
        self.fed += 1
        self.last = pcm
        self._voice = self._voice or any(pcm)

    def partial(self) -> tuple[str, ...]:
        return self.words if self._voice else ()

    def rests(self) -> bool:
        return self.resting

    def dictated(self) -> tuple[Alternative, ...]:
        return ()

    def result(self) -> tuple[Alternative, ...]:
        self._voice = False
        return (Alternative(self.words),) if self.words else ()


class Detector:
    def hears(self, frame: Frame) -> bool:
        return frame.pcm == VOICE

    def stirs(self) -> bool:
        return False

    def reset(self) -> None:
        pass


def heard(recogniser: Recogniser, *spans: tuple[bytes, float]) -> list[Utterance]:
    """Hear spans of voice or silence, in seconds, and not the end of the sound."""
    committer = Committer(Detector())
    committer.listen(SENTENCES, lambda: recogniser)
    pieces = [pcm for pcm, seconds in spans for _ in range(round(seconds / FRAME_S))]
    found = [committer.hear(Frame(pcm, n * FRAME_S)) for n, pcm in enumerate(pieces, start=1)]
    return [utterance for utterance in found if utterance]


PAUSES = [
    ("", Pause.OUTSIDE),
    ("[unk]", Pause.OUTSIDE),
    ("next [unk]", Pause.OUTSIDE),
    ("next step", Pause.WHOLE),
    ("go back", Pause.WHOLE),
    ("next", Pause.MAY_GO_ON),
    ("one hundred and ten", Pause.WHOLE),
    ("two", Pause.COUNTING),
    ("two two", Pause.COUNTING),
    ("one hundred", Pause.UNFINISHED),
]


@pytest.mark.parametrize(("words", "pause"), PAUSES)
def test_pause_follows_the_grammar(words: str, pause: Pause) -> None:
    """The more can follow, the longer a pause may be; and that is how long the ear waits."""
    assert pause is pause_after(tuple(words.split()), SENTENCES)


@pytest.mark.parametrize(("words", "pause"), [row for row in PAUSES if row[0]])
def test_utterance_ends_with_its_pause(words: str, pause: Pause) -> None:
    """The decision falls in the first frame in which the pause is over."""
    (utterance,) = heard(Recogniser(*words.split()), (SILENCE, 0.96), (VOICE, 0.64), (SILENCE, 3.0))

    assert (pytest.approx(0.96), pytest.approx(1.6)) == (utterance.start_s, utterance.end_s)
    assert 0 <= utterance.decided_s - utterance.end_s - pause.value < FRAME_S


def test_breath_inside_an_unfinished_sentence() -> None:
    """A breath of 0.7 s where the grammar wants more does not cut the utterance."""
    spans = ((SILENCE, 1.0), (VOICE, 0.5), (SILENCE, 0.7), (VOICE, 0.5), (SILENCE, 2.0))

    (utterance,) = heard(Recogniser("one", "hundred"), *spans)

    assert pytest.approx(2.7, abs=FRAME_S) == utterance.end_s


def test_noise_that_never_ends() -> None:
    """Where the detector does not let go, the recogniser's own silence ends the utterance."""

    class Resting(Recogniser):
        def feed(self, pcm: bytes) -> None:
            super().feed(pcm)
            self.resting = self.fed > 20

    (utterance, *_) = heard(Resting("go", "back"), (VOICE, 3.0))

    assert pytest.approx(20 * FRAME_S + Pause.WHOLE.value, abs=RESTS_LATE_S) == utterance.decided_s


def test_first_syllable_is_not_lost() -> None:
    """The recogniser gets the moment before the first speech, and the utterance keeps it."""
    recogniser = Recogniser("next", "step")
    (utterance,) = heard(recogniser, (SILENCE, 9.6), (VOICE, 0.32), (SILENCE, 0.6))

    before_s = utterance.start_s - (utterance.decided_s - recogniser.fed * FRAME_S)
    assert pytest.approx(BEFORE_S, abs=FRAME_S) == before_s
    assert len(SILENCE) * recogniser.fed == len(utterance.pcm)


@pytest.mark.parametrize(("lost", "share"), [(0, 0.0), (5, 0.25), (20, 1.0), (40, 1.0)])
def test_lost_sound_is_told(lost: int, share: float) -> None:
    """Of twenty frames of speech, so many were lost: the utterance tells their share."""
    committer = Committer(Detector())
    committer.listen(SENTENCES, lambda: Recogniser("go", "back"))
    pieces = [VOICE] * 20 + [SILENCE] * 60
    frames = [Frame(pcm, n * FRAME_S, Taken(lost=n <= lost)) for n, pcm in enumerate(pieces, start=1)]

    utterance = next(filter(None, map(committer.hear, frames)))

    assert share == pytest.approx(utterance.lost, abs=0.05)


def test_how_much_quieter_it_is_than_what_was_said_lately() -> None:
    """Of a minute the loudest counts; what went on before that, or in another source, does not."""
    committer = Committer(Detector())
    committer.listen(SENTENCES, lambda: Recogniser("go", "back"))
    now_s, found = 0.0, []

    def speak(level_db: float, pause_s: float) -> None:
        nonlocal now_s
        for pcm, seconds in ((VOICE, 0.5), (SILENCE, pause_s)):
            for _ in range(round(seconds / FRAME_S)):
                now_s += FRAME_S
                frame = Frame(pcm, now_s, Taken(level_db if pcm == VOICE else -60.0))
                found.append(committer.hear(frame))

    for level_db, pause_s in ((-20.0, 5.0), (-34.0, 5.0), (-15.0, 2 * LATELY_S), (-30.0, 5.0), (-37.0, 0.0)):
        speak(level_db, pause_s)
    found.append(committer.hear(None))
    speak(-40.0, 5.0)
    assert [one.below_db for one in found if one] == [0.0, 14.0, 0.0, 0.0, 7.0, 0.0]


@pytest.mark.parametrize(("ended", "fainter"), [(True, False), (False, True)])
def test_the_room_is_known_until_the_sound_ends(ended: bool, fainter: bool) -> None:
    """A hum that has gone on is taken out of what is said; another recording has another room."""
    recogniser, hum = Recogniser("next"), b"h" * len(SILENCE)
    committer = Committer(Detector())
    committer.listen(SENTENCES, lambda: recogniser)
    before = [Frame(hum, n * FRAME_S) for n in range(1, 40)]
    for frame in (*before, *([None] if ended else []), *(Frame(VOICE, n * FRAME_S) for n in range(40, 60))):
        committer.hear(frame)

    assert fainter == (loudness_db(recogniser.last) < loudness_db(VOICE) - 3)


@pytest.mark.parametrize(("ends_s", "unheard_s"), [(0.4, 1.0), (1.4, 0.0)])
def test_voice_that_no_word_covers_is_doubt(ends_s: float, unheard_s: float) -> None:
    """A sentence that is over long before the voice is not believed; one that fills it is."""

    class Timed(Recogniser):
        def result(self) -> tuple[Alternative, ...]:
            times = {"begins_s": (BEFORE_S, BEFORE_S + 0.2), "ends_s": (BEFORE_S + 0.2, BEFORE_S + ends_s)}
            return (Alternative(self.words, **times),)

    (one,) = heard(Timed("go", "back"), (SILENCE, 1.0), (VOICE, 1.4), (SILENCE, 2.0))
    assert one.alternatives[0].unheard_s == pytest.approx(unheard_s, abs=0.15)
    assert one.alternatives[0].begins_s[0] == pytest.approx(one.start_s, abs=0.05)
    assert isinstance(judge(SENTENCES, one), Heard) is (unheard_s == 0.0)


def test_silence_costs_nothing() -> None:
    """No frame of silence reaches the recogniser."""
    recogniser = Recogniser("next")

    assert heard(recogniser, (SILENCE, 60)) == []
    assert recogniser.fed == 0


def test_noise_without_words_is_nothing() -> None:
    """Where the recogniser found no word there is no utterance."""
    assert heard(Recogniser(), (SILENCE, 1.0), (VOICE, 1.0), (SILENCE, 3.0)) == []


def test_longest_utterance() -> None:
    """Speech without a pause is closed and the next utterance begins at once: nobody keeps the ear busy."""
    utterances = heard(Recogniser("[unk]"), (VOICE, 3 * LONGEST_S + 1))

    assert len(utterances) == 3
    assert all(LONGEST_S <= one.decided_s - one.start_s < LONGEST_S + 2 * FRAME_S for one in utterances)


def test_end_of_sound_closes() -> None:
    """What was said up to the end of the sound is an utterance; after it there is none."""
    committer = Committer(Detector())
    committer.listen(SENTENCES, lambda: Recogniser("one"))
    assert committer.hear(Frame(VOICE, FRAME_S)) is None

    closed = committer.hear(None)

    assert closed is not None
    assert closed.decided_s == FRAME_S
    assert committer.hear(None) is None


def test_a_recogniser_is_kept_for_the_same_sentences() -> None:
    """Another is made for other sentences, and where something was half heard."""
    made: list[Recogniser] = []

    def recogniser() -> Recogniser:
        made.append(Recogniser("one"))
        return made[-1]

    committer, others = Committer(Detector()), compile_grammar(read("public <said> = one;"))
    for sentences, pcm, makes in (
        (SENTENCES, SILENCE, 1),
        (SENTENCES, VOICE, 1),
        (SENTENCES, SILENCE, 2),
        (others, SILENCE, 3),
        (SENTENCES, SILENCE, 4),
    ):
        committer.listen(sentences, recogniser)
        committer.hear(Frame(pcm, FRAME_S))
        assert makes == len(made)


def test_nothing_is_heard_without_a_grammar() -> None:
    """An ear that was never told what to listen for hears nothing."""
    assert Committer(Detector()).hear(Frame(VOICE, FRAME_S)) is None
