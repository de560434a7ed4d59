"""A reading is as likely as its sound: what Vosk's n-gram charged for its words is given back."""

from __future__ import annotations

import json
import math

import pytest
import vosk

from handsfree.hear.models import find_model
from handsfree.hear.overlay import overlaid
from handsfree.hear.vosk_ear import ALTERNATIVES, WEIGHTS
from handsfree.hear.vosk_prices import COUNTED, Prices
from handsfree.signals import SAMPLE_RATE
from handsfree.testing.sentences import ListedSentences
from tests.ears import vosk as vosk_ear
from tests.hear.sound import frames, silence, speech

PHRASES = ("set fifteen", "set fifty one", "set fifty two")
# Eleven words, ends among them: set 3, fifteen 1, fifty 2, one 1, two 1, end 3.

PRICED = [
    # words                 share of each: half of its share behind the one before, or anywhere
    (("set",), [3 / 11 / 2, 3 / 11 / 4]),
    (("set", "fifteen"), [3 / 11 / 2, 1 / 3 / 2, 1 / 1 / 2]),
    (("set", "fifty", "one"), [3 / 11 / 2, 2 / 3 / 2, 1 / 2 / 2, 1 / 1 / 2]),
    (("two", "set"), [1 / 11 / 2, 3 / 11 / 4, 3 / 11 / 4]),
]


@pytest.mark.parametrize(("words", "shares"), PRICED)
def test_price_of_words(words: tuple[str, ...], shares: list[float]) -> None:
    """Worked out by hand from Vosk 0.3.45, `src/language_model.cc`: discount 0.5, order 2."""
    assert Prices(PHRASES).of(words) == pytest.approx(-COUNTED * sum(map(math.log, shares)))


@pytest.mark.vosk
@pytest.mark.usefixtures("vosk_model")
def test_what_is_listed_more_often_is_no_likelier() -> None:
    """Vosk takes a phrase that it is shown more often for likelier; without its prices both are as before."""
    once = (*PHRASES, "set fifteen one", "fifty")
    often = (*once, *["set fifteen"] * 30)
    with overlaid(find_model()) as folder:
        model = vosk.Model(str(folder))
    few, many = scores(model, once), scores(model, often)
    both = few.keys() & many.keys()
    assert max(few[words] - many[words] for words in both) > 1
    for words in both:
        sound = few[words] + Prices(once).of(words)
        assert sound == pytest.approx(many[words] + Prices(often).of(words), abs=0.5)


@pytest.mark.vosk
@pytest.mark.usefixtures("vosk_model")
def test_the_ear_tells_the_price_of_each_reading() -> None:
    """What it charged for the words goes with them to the judge."""
    sentences = ListedSentences(*PHRASES)
    ear = vosk_ear()
    ear.listen(sentences)
    (heard,) = [one for one in map(ear.hear, [*frames(speech("set fifteen"), silence(0.1)), None]) if one]
    prices = Prices([*sentences.phrases(), *sentences.opposites(), *WEIGHTS])
    assert [one.price for one in heard.alternatives] == [prices.of(one.words) for one in heard.alternatives]


def scores(model: vosk.Model, phrases: tuple[str, ...]) -> dict[tuple[str, ...], float]:
    """What Vosk makes of "set fifteen", prices included; of the same words the best."""
    recogniser = vosk.KaldiRecognizer(model, SAMPLE_RATE, json.dumps(phrases))
    recogniser.SetMaxAlternatives(ALTERNATIVES)
    recogniser.AcceptWaveform((speech("set fifteen") * 32767).astype("<i2").tobytes())
    found = json.loads(recogniser.FinalResult())["alternatives"]
    return {tuple(one["text"].split()): one["confidence"] for one in reversed(found)}
