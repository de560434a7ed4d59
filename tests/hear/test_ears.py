"""Every ear keeps the contract: the fake, PocketSphinx, Vosk."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, partial
from pathlib import Path

import pytest

from handsfree.errors import ModelError
from handsfree.hear.awaited_ear import AwaitedEar
from handsfree.hear.sphinx_ear import SphinxEar
from handsfree.hear.vosk_ear import VoskEar
from handsfree.phrases.talk import Talk
from handsfree.ports import Ear
from handsfree.testing import ear_contract
from handsfree.testing.ear_contract import Spoken, utterances
from handsfree.testing.ears import FakeEar, written
from handsfree.testing.sentences import ListedSentences
from tests.ears import vosk
from tests.hear.sound import Sound, frames, noise, silence, speech

SENTENCES = ListedSentences(
    "next",
    "fifteen drops",
    "one hundred",
    "one hundred and twenty five millilitres an hour",
    "where am i",
)


@cache
def sphinx() -> SphinxEar:
    return SphinxEar()


@cache
def spoken(words: str) -> Spoken:
    return Spoken(SENTENCES, tuple(words.split()), tuple(frames(silence(0.5), speech(words), silence(0.1))))


FAKE = Spoken(SENTENCES, ("fifteen", "drops"), tuple(written("", "fifteen", "drops")))

EARS = [
    pytest.param(FakeEar, lambda: FAKE, id="fake"),
    pytest.param(partial(AwaitedEar, FakeEar), lambda: FAKE, id="awaited"),
    pytest.param(sphinx, lambda: spoken("fifteen drops"), id="sphinx"),
    pytest.param(vosk, lambda: spoken("fifteen drops"), id="vosk", marks=pytest.mark.vosk),
]

CHECKS = [
    ear_contract.check_silence,
    ear_contract.check_sentence,
    ear_contract.check_end_of_sound,
    ear_contract.check_half_heard,
    ear_contract.check_same_again,
]


@pytest.fixture(autouse=True)
def _model(request: pytest.FixtureRequest) -> None:
    if request.node.get_closest_marker("vosk"):
        request.getfixturevalue("vosk_model")


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
@pytest.mark.parametrize(("make", "said"), EARS)
def test_contract(
    make: Callable[[], Ear], said: Callable[[], Spoken], check: Callable[[Ear, Spoken], None]
) -> None:
    """What is promised of every ear."""
    check(make(), said())


def test_an_ear_that_cannot_be_loaded() -> None:
    """Who asks it first is told why."""

    def load() -> Ear:
        raise ModelError("There is no model.", "Fetch it.")

    with pytest.raises(ModelError, match="no model"):
        AwaitedEar(load).knows("next")


REAL = [pytest.param(sphinx, id="sphinx"), pytest.param(vosk, id="vosk", marks=pytest.mark.vosk)]


@pytest.mark.parametrize("make", [partial(FakeEar, "crystalloid"), *REAL])
def test_words(make: Callable[[], Ear]) -> None:
    """A word without a pronunciation is told before it is listened for in vain."""
    ear_contract.check_words(make(), "tourniquet", "crystalloid" if make not in (sphinx,) else "zzxq")


def heard(ear: Ear, *sounds: Sound) -> list[tuple[str, ...]]:
    ear.listen(SENTENCES)
    return [one.alternatives[0].words for one in utterances(ear, frames(*sounds))]


@pytest.mark.parametrize("make", REAL)
def test_breath_inside_a_number(make: Callable[[], Ear]) -> None:
    """ "One hundred … and twenty five" with a breath in between is one utterance."""
    parts = (speech("one hundred"), silence(0.5), speech("and twenty five millilitres an hour"))

    assert heard(make(), silence(0.5), *parts, silence(2)) == [
        ("one", "hundred", "and", "twenty", "five", "millilitres", "an", "hour")
    ]


@pytest.mark.parametrize("make", REAL)
def test_two_sentences(make: Callable[[], Ear]) -> None:
    """Nothing can follow a whole sentence: a short pause is enough between two."""
    sounds = (silence(0.5), speech("where am i"), silence(0.6), speech("fifteen drops"), silence(1))

    assert heard(make(), *sounds) == [("where", "am", "i"), ("fifteen", "drops")]


@pytest.mark.parametrize("make", REAL)
def test_times(make: Callable[[], Ear]) -> None:
    """First and last sound of speech are told within 50 ms, and the decision is quick."""
    ear, said = make(), speech("where am i")
    ear.listen(SENTENCES)

    (one,) = utterances(ear, frames(silence(1), said, silence(1)))

    end_s = 1 + len(said) / 16_000
    assert pytest.approx((1, end_s), abs=0.05) == (one.start_s, one.end_s)
    assert one.decided_s - end_s < 0.5


OTHER_TALK = ["could you hand me that blue towel please", "the helicopter will not be here before noon"]


@pytest.mark.parametrize("make", REAL)
@pytest.mark.parametrize("talk", OTHER_TALK)
def test_other_talk_is_outside(make: Callable[[], Ear], talk: str) -> None:
    """Speech outside the grammar is no sentence of it."""
    assert all("[unk]" in words for words in heard(make(), silence(0.5), speech(talk), silence(2)))


@pytest.mark.parametrize("make", REAL)
@pytest.mark.parametrize("level_db", [-50.0, -30.0, -10.0])
def test_noise_is_nothing(make: Callable[[], Ear], level_db: float) -> None:
    """A minute of noise is no command, and the ear hears on after it."""
    ear = make()
    words = heard(ear, noise(60, level_db), silence(1), speech("where am i"), silence(1))

    assert words[-1] == ("where", "am", "i")
    assert {("[unk]",)} >= set(words[:-1])


@pytest.mark.parametrize("make", REAL)
def test_speech_from_the_first_sample(make: Callable[[], Ear]) -> None:
    """A recording that begins in the middle of a word and is loud all through is heard as far as it goes."""
    assert ("where", "am", "i") in heard(make(), speech("where am i"), silence(1))


@pytest.mark.vosk
def test_stored_model_is_not_touched(vosk_model: Path) -> None:
    """Our settings are laid over a copy; the model stays as it was fetched."""
    before = {file: file.read_bytes() for file in (vosk_model / "conf").iterdir()}
    VoskEar(vosk_model)

    assert before == {file: file.read_bytes() for file in (vosk_model / "conf").iterdir()}


@pytest.mark.vosk
@pytest.mark.parametrize("loose", [False, True])
def test_dictation_hears_what_no_sentence_holds(vosk_model: Path, loose: bool) -> None:
    """Only where sentences stand amid other talk, and with times in the same sound, each time.

    The ear is new: what one has heard before, in other tests, has a say in what it hears.
    """
    ear, sound = VoskEar(vosk_model), speech("the weather is nice today")
    ear.listen(Talk(SENTENCES, ("the", "is")) if loose else SENTENCES)
    heard = utterances(ear, frames(silence(0.5), sound, silence(2), sound, silence(2)))

    for one in heard if loose else ():
        assert "weather" in one.dictated[0].words
        assert one.start_s < one.dictated[0].ends_s[0] < one.dictated[0].ends_s[-1] < one.end_s + 0.2
    assert loose == any(one.dictated for one in heard)
