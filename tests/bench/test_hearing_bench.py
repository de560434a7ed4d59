"""The hearing benchmark measures what it says. Its corpus is not needed here, nor any synthesiser."""

from __future__ import annotations

import json
from dataclasses import replace
from itertools import islice
from pathlib import Path

import numpy as np
import pytest
import soundfile

from handsfree.phrases.grammar import Grammar
from handsfree.signals import SAMPLE_RATE, Ambiguous, Heard, NotUnderstood, Outcome
from tests.bench import hearing_grammars as grammars
from tests.bench import hearing_manifest as manifest
from tests.bench import hearing_prose as prose
from tests.bench import hearing_voices as voices
from tests.bench.hearing import sample
from tests.bench.hearing_edges import edges, trimmed
from tests.bench.hearing_manifest import Clip
from tests.bench.hearing_noises import loudest, mixed, piece
from tests.bench.hearing_results import Overheard, Told, append, read
from tests.bench.hearing_sentences import drawn
from tests.bench.hearing_stock import StockHeard
from tests.bench.hearing_table import tables
from tests.bench.hearing_trial import stock_verdict, verdict
from tests.ears import vosk

RADIO = "tests/bench/grammars/radio.jsgf"

CLIP = Clip("a.wav", "joe", "piper", "report", RADIO, "roger", "roger", "roger", 0.0, 1.0)

FIELDS = ("garden", *grammars.REPORT)

WAREHOUSE = grammars.compiled("warehouse")


def tone(seconds: float, amplitude: float = 0.5) -> np.ndarray:
    t = np.arange(round(seconds * SAMPLE_RATE)) / SAMPLE_RATE
    return np.asarray(amplitude * np.sin(2 * np.pi * 200 * t), np.float32)


@pytest.mark.parametrize("louder_db", [24.0, 15.0, 6.0])
@pytest.mark.parametrize("amplitude", [0.02, 0.9])
def test_mixed_sound_has_the_level_it_is_named_by(louder_db: float, amplitude: float) -> None:
    """The loudest frame of speech stands so many dB over that of the noise, clipping nowhere."""
    speech = np.pad(tone(1.0, amplitude), 8000)
    noise = np.random.default_rng(1).normal(0, 3, len(speech)).astype(np.float32)

    whole = mixed(speech, noise, louder_db)
    scale = float(np.dot(whole, speech) / np.dot(speech, speech))
    under = np.asarray(whole - speech * scale, np.float32)

    assert louder_db == pytest.approx(20 * np.log10(loudest(speech) * scale / loudest(under)), abs=0.3)
    assert 1.0 >= float(np.abs(whole).max())


def test_piece_of_noise_goes_round_the_end_of_its_track() -> None:
    """A piece longer than what is left of a track goes on at the track's beginning."""
    found = piece(np.arange(10, dtype=np.float32), 25, "seed")

    assert {1.0, -9.0} == set(np.diff(found))


def test_last_sound_is_where_the_speech_ends() -> None:
    """Silence around a sentence is none of it, to the hundredth of a second."""
    sound = np.concatenate((np.zeros(4800), tone(0.5), np.zeros(8000)))

    assert (0.3, 0.8) == pytest.approx(edges(sound.astype(np.float32)), abs=0.011)
    assert pytest.approx(0.56, abs=0.021) == len(trimmed(sound.astype(np.float32))) / SAMPLE_RATE


def heard(words: str, grammar: Grammar = WAREHOUSE) -> Heard:
    return Heard(grammar.match(tuple(words.split()))[0], 0.9)


def asked(*words: str) -> Ambiguous:
    return Ambiguous(words[0], tuple(map(heard, words)))


@pytest.mark.parametrize(
    ("said", "outcomes", "meant"),
    [
        ("short by fifteen", [heard("short by fifteen")], "right"),
        ("short by fifteen", [NotUnderstood("by"), heard("short by fifteen")], "right"),
        ("the bin is empty", [heard("bin is empty")], "right"),
        ("short by fifteen", [heard("short by fifty")], "wrong"),
        ("short by fifteen", [heard("short by fifteen"), heard("yes")], "wrong"),
        ("short by fifteen", [asked("short by fifteen", "short by fifty")], "asked"),
        ("short by fifteen", [NotUnderstood("short by")], "refused"),
        ("short by fifteen", [], "refused"),
    ],
)
def test_verdict(said: str, outcomes: list[Outcome], meant: str) -> None:
    """Right is the meaning that was said, once; asking is neither right nor wrong."""
    assert meant == verdict(WAREHOUSE, said, outcomes)


@pytest.mark.parametrize(
    ("texts", "meant"),
    [
        (["short by fifteen"], "right"),
        (["short by", "short by fifteen"], "right"),
        (["short by fifty"], "wrong"),
        (["short by fifteen", "yes"], "wrong"),
        (["fifteen short"], "refused"),
        ([], "refused"),
    ],
)
def test_verdict_on_stock(texts: list[str], meant: str) -> None:
    """Stock Vosk has no judge: whatever it ends as a sentence of the grammar counts as a command."""
    found = [StockHeard(text, WAREHOUSE.match(tuple(text.split())), 1.0) for text in texts]

    assert meant == stock_verdict(WAREHOUSE, "short by fifteen", found)


@pytest.mark.parametrize("name", [*FIELDS, "own:order:patient", "own:order::confirming"])
def test_drawn_sentences_are_sentences_of_their_rule(name: str) -> None:
    """Whatever is drawn can be said, as the rule it was drawn from; short ones and long ones come."""
    grammar = grammars.compiled(name)
    found = list(islice(drawn(grammar, "test"), 200))

    assert [] == [
        (rule, sentence)
        for rule, sentence in found
        if rule not in [node.rule for node in grammar.match(tuple(sentence.split()))]
    ]
    assert set(grammar.public) == {rule for rule, _ in found}


@pytest.mark.parametrize("kind", ["talk", "near", "licence"])
def test_other_speech_is_no_command(kind: str) -> None:
    """No sentence of other speech is a sentence of a grammar, and many are different."""
    found = list(islice(prose.sentences(kind, "report", "test"), 100))

    assert [] == [
        text
        for text in found
        for name in grammars.REPORT
        if grammars.compiled(name).match(tuple(text.split()))
    ]
    assert 90 < len(set(found))


def test_what_is_tuned_on_is_not_reported_on() -> None:
    """No voice and no grammar is on both sides, and the babble has voices of its own."""
    assert set() == set(voices.TUNE) & set(voices.REPORT)
    assert set() == set(voices.BACKGROUND) & {*voices.TUNE, *voices.REPORT}
    assert set() == set(voices.BABBLE["tune"]) & set(voices.BABBLE["report"])
    assert set() == set(grammars.TUNE) & set(grammars.REPORT)


@pytest.mark.vosk
@pytest.mark.parametrize("name", FIELDS)
def test_ear_knows_every_word(name: str, vosk_model: Path) -> None:
    """Every word of the grammars can be heard, the call word before it too."""
    assert grammars.compiled(name, vosk().knows, "medic").phrases()


def test_manifest_of_people_is_read(tmp_path: Path) -> None:
    """What the manifest of people's recordings leaves out is found in the file."""
    sound = np.concatenate((np.zeros(4800), tone(0.5), np.zeros(8000)))
    soundfile.write(tmp_path / "a.wav", sound, SAMPLE_RATE)
    row = {"file": "a.wav", "kind": "cards", "voice": "joe", "source": "piper", "split": "report"}
    row |= {"grammar": RADIO, "sentence": "roger", "rule": "roger"}
    (tmp_path / "manifest.jsonl").write_text(json.dumps(row) + "\n", "utf-8")

    (clip,) = manifest.read(tmp_path)

    assert (0.3, 0.8) == pytest.approx((clip.begins_s, clip.ends_s), abs=0.011)
    assert replace(CLIP, begins_s=clip.begins_s, ends_s=clip.ends_s) == clip


def test_sample_is_even() -> None:
    """A sample has as much of every voice and field; the same every time."""
    clips = [
        replace(CLIP, file=f"{voice}{n}", voice=voice) for voice in ("joe", "slt", "ked") for n in range(50)
    ]
    found = sample(clips, 30)

    assert [10, 10, 10] == [sum(clip.voice == voice for clip in found) for voice in ("joe", "slt", "ked")]
    assert found == sample(clips, 30)
    assert "radio" == CLIP.name


TOLD = Told(
    ear="vosk", file="a.wav", voice="joe", synthesiser="piper", field="radio", rule="roger", sentence="roger",
    noise="quiet", level="quiet", verdict="right", heard=("roger",), more=True, wait_s=0.5, speech_s=1.0,
    still_s=3.0, speech_used_s=0.02, still_used_s=0.003, stock="wrong", stock_heard=(), stock_wait_s=0.9,
)  # fmt: skip

OVERHEARD = Overheard("vosk", "b.wav", "joe", "talk", "radio", False, ("roger", "copy"), 1, 1800.0, 18.0)


def test_results_are_kept(tmp_path: Path) -> None:
    """What is kept is read again; a line that was cut off is left out."""
    file = tmp_path / "results.jsonl"
    append(file, TOLD)
    append(file, OVERHEARD)
    with file.open("a", encoding="utf-8") as lines:
        lines.write('{"kind_of_result": "to')

    assert [TOLD, OVERHEARD] == list(read([file, tmp_path / "none.jsonl"]))


def test_tables() -> None:
    """Shares, waits, computing and commands an hour are as counted by hand; espeak-ng stands apart."""
    refused = replace(TOLD, file="c.wav", verdict="refused", wait_s=0.1)
    noisy = replace(TOLD, level="6", noise="wind", wait_s=0.7)
    hard = replace(TOLD, voice="rp", synthesiser="espeak-ng", verdict="wrong")

    stock = "0.90 / 0.90 / 0.90"
    printed = tables([TOLD, refused, noisy, hard, OVERHEARD])

    for line in (
        "| joe | 50.0 / 0.0 / 0.0 / 50.0 (2) | 100.0 / 0.0 / 0.0 / 0.0 (1) |",
        "| **all but espeak-ng** | 50.0 / 0.0 / 0.0 / 50.0 (2) | 100.0 / 0.0 / 0.0 / 0.0 (1) |",
        "| **espeak-ng** | 0.0 / 100.0 / 0.0 / 0.0 (1) |  |",
        "| stock Vosk, the same | 0.0 / 100.0 / 0.0 / 0.0 (2) | 0.0 / 100.0 / 0.0 / 0.0 (1) |",
        "| wind |  | 100.0 / 0.0 / 0.0 / 0.0 (1) |",
        f"| more can follow | 0.50 / 0.50 / 0.50 ({stock}) | 0.70 / 0.70 / 0.70 ({stock}) |",
        "| while somebody speaks | 0.0200 | 0.0200 |",
        "| while nobody speaks | 0.0010 | 0.0010 |",
        "| radio | no | 0.50 | 2 | 4.0 | 2.0 | 0.010 |",
    ):
        assert line in printed
