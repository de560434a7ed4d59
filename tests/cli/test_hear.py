"""`handsfree hear` on short clips: JSON lines, order, times, and files that cannot be read."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import numpy as np
import pytest
import soundfile

from handsfree.signals import SAMPLE_RATE
from tests.cli.conftest import Command, clip, speech, spoken
from tests.hear.sound import silence, tone

KEYS = {"file", "outcome", "text", "command", "parts", "confidence"}
TIMES = {"speech_start_s", "speech_end_s", "decided_s"}

EARS = ["sphinx", pytest.param("vosk", marks=pytest.mark.vosk)]


@pytest.mark.parametrize("ear", EARS)
def test_every_utterance_is_a_json_line_in_the_order_of_the_files(
    handsfree: Command, tmp_path: Path, grammar: Path, ear: str, request: pytest.FixtureRequest
) -> None:
    """Whole lines, all keys, files in the order given, not by name."""
    if ear == "vosk":
        request.getfixturevalue("vosk_model")
    second = spoken(tmp_path / "a.wav", "fifteen drops", "where am i")
    first = spoken(tmp_path / "b.flac", "where am i")
    ran = handsfree("hear", "--ear", ear, "--grammar", grammar, "--json", first, second)
    told = [json.loads(line) for line in ran.lines]
    assert [(str(first), "where am i"), (str(second), "fifteen drops"), (str(second), "where am i")] == [
        (one["file"], one["text"]) for one in told
    ]
    assert [set(one) for one in told] == [KEYS | TIMES] * 3
    assert told[1]["parts"] == {"drops": "fifteen drops", "number": "fifteen"}
    assert [one["command"] for one in told] == ["where", "drops", "where"]
    assert (ran.status, ran.err) == (0, "")


def test_a_rule_that_was_used_twice_is_a_list(handsfree: Command, tmp_path: Path, grammar: Path) -> None:
    """`parts` maps each rule to its words, or to all of them in order."""
    file = spoken(tmp_path / "two.wav", "twenty and fifteen drops")
    ran = handsfree("hear", "--ear", "sphinx", "--grammar", grammar, "--json", file)
    assert json.loads(ran.out)["parts"] == {
        "drops": "twenty and fifteen drops",
        "number": ["twenty", "fifteen"],
    }


def test_the_end_of_the_file_decides_no_later_than_it_is(
    handsfree: Command, tmp_path: Path, grammar: Path
) -> None:
    """Where the sound ends before the pause is over, `decided_s` is the length of the file."""
    sound = np.concatenate([silence(0.3), speech("where am i"), silence(0.05)])
    file = tmp_path / "short.wav"
    soundfile.write(file, sound, SAMPLE_RATE)
    told = json.loads(handsfree("hear", "--ear", "sphinx", "--grammar", grammar, "--json", file).out)
    assert round(len(sound) / SAMPLE_RATE, 3) == told["decided_s"]
    assert 0 < told["speech_start_s"] < told["speech_end_s"] <= told["decided_s"]


def test_a_file_is_heard_the_same_whatever_went_before(
    handsfree: Command, tmp_path: Path, grammar: Path
) -> None:
    """The ear begins anew with each file, also after one that was cut off in mid-word.

    PocketSphinx adapts to the voice that it heard, which moves its confidence a little, and nothing else.
    """
    cut = tmp_path / "cut.wav"
    soundfile.write(cut, speech("fifteen drops")[: SAMPLE_RATE // 3], SAMPLE_RATE)
    file = spoken(tmp_path / "next.wav", "where am i")
    hear = ("hear", "--ear", "sphinx", "--grammar", grammar, "--json")
    alone, after = (json.loads(handsfree(*hear, *files).lines[-1]) for files in ([file], [cut, file]))
    assert pytest.approx(alone.pop("confidence"), abs=0.05) == after.pop("confidence")
    assert alone == after


def test_what_no_sentence_is_like_is_not_understood(
    handsfree: Command, tmp_path: Path, grammar: Path
) -> None:
    """Other talk is a line with null and empty parts, and no failure."""
    file = spoken(tmp_path / "talk.wav", "could you hand me that blue towel please")
    ran = handsfree("hear", "--ear", "sphinx", "--grammar", grammar, "--json", file)
    told = [json.loads(line) for line in ran.lines]
    assert told
    assert {("not_understood", None)} == {(one["outcome"], one["command"]) for one in told}
    assert [{}] * len(told) == [one["parts"] for one in told]
    assert ran.status == 0


@pytest.mark.parametrize("ear", EARS)
def test_a_grammar_of_which_nothing_can_be_said_hears_nothing(
    handsfree: Command, tmp_path: Path, ear: str, request: pytest.FixtureRequest
) -> None:
    """JSpeech Grammar Format 1.0, section 2.4 (from memory): what needs <VOID> can never be spoken."""
    if ear == "vosk":
        request.getfixturevalue("vosk_model")
    void = tmp_path / "void.jsgf"
    void.write_text("#JSGF V1.0;\ngrammar void;\npublic <on> = where am i <VOID>;\n")
    file = spoken(tmp_path / "next.wav", "where am i")
    told = json.loads(handsfree("hear", "--ear", ear, "--grammar", void, "--json", file).out)
    assert (told["outcome"], told["command"]) == ("not_understood", None)


def test_two_meanings_are_told_as_candidates(handsfree: Command, tmp_path: Path) -> None:
    """One sentence that two rules accept is ambiguous."""
    two = tmp_path / "two.jsgf"
    two.write_text("#JSGF V1.0;\ngrammar two;\npublic <on> = where am i;\npublic <forth> = where am i;\n")
    file = spoken(tmp_path / "next.wav", "where am i")
    told = json.loads(handsfree("hear", "--ear", "sphinx", "--grammar", two, "--json", file).out)
    assert (told["outcome"], told["command"], told["parts"]) == ("ambiguous", None, {})
    assert sorted(told["candidates"], key=lambda one: one["command"]) == [
        {"text": "where am i", "command": "forth", "parts": {"forth": "where am i"}},
        {"text": "where am i", "command": "on", "parts": {"on": "where am i"}},
    ]


def test_a_file_without_speech_prints_nothing(handsfree: Command, tmp_path: Path, grammar: Path) -> None:
    """Silence and a tone are no utterances; that is no failure."""
    files = clip(tmp_path / "silence.wav", silence(2)), clip(tmp_path / "tone.wav", tone(2.0))
    ran = handsfree("hear", "--ear", "sphinx", "--grammar", grammar, *files)
    assert (ran.status, ran.out, ran.err) == (0, "", "")


def test_eight_kilohertz_stereo_is_heard(handsfree: Command, tmp_path: Path, grammar: Path) -> None:
    """Any rate, one or two channels."""
    import soxr

    sound = soxr.resample(np.concatenate([silence(0.3), speech("where am i")]), SAMPLE_RATE, 8_000)
    file = tmp_path / "stereo.wav"
    soundfile.write(file, np.stack([sound, sound], axis=1), 8_000)
    ran = handsfree("hear", "--ear", "sphinx", "--grammar", grammar, "--json", file)
    assert json.loads(ran.out)["text"] == "where am i"


def test_a_line_for_people(handsfree: Command, tmp_path: Path, grammar: Path) -> None:
    """Without --json: file, when, rule and words."""
    file = spoken(tmp_path / "next.wav", "where am i")
    ran = handsfree("hear", "--ear", "sphinx", "--grammar", grammar, file)
    assert ran.out.startswith(f"{file}, 0.")
    assert "where: “where am i”" in ran.out


def test_the_summary_is_the_last_line(handsfree: Command, tmp_path: Path, grammar: Path) -> None:
    """Files, seconds of sound and of computing, and their ratio."""
    files = spoken(tmp_path / "a.wav", "where am i"), clip(tmp_path / "b.wav", silence(1))
    ran = handsfree("hear", "--ear", "sphinx", "--grammar", grammar, "--json", "--summary", *files)
    told = json.loads(ran.lines[-1])["summary"]
    assert list(told) == ["files", "audio_s", "wall_s", "real_time_factor"]
    assert told["files"] == 2
    assert pytest.approx(sum(soundfile.info(file).duration for file in files), abs=0.001) == told["audio_s"]
    assert pytest.approx(told["wall_s"] / told["audio_s"], abs=0.001) == told["real_time_factor"]


def not_sound(file: Path) -> None:
    file.write_text("not a sound file " * 100)


def truncated(file: Path) -> None:
    whole = spoken(file.with_name("whole.wav"), "where am i")
    file.write_bytes(whole.read_bytes()[:-5000])


@pytest.mark.parametrize(
    ("make", "complaint"),
    [
        (not_sound, "is not a sound file that can be read."),
        (Path.touch, "is empty."),
        (truncated, "is cut short."),
        (lambda file: None, "There is no file"),
        (Path.mkdir, "is a folder."),
    ],
    ids=["not sound", "empty", "truncated", "missing", "a folder"],
)
def test_a_broken_file_is_named_and_the_others_go_on(
    handsfree: Command, tmp_path: Path, grammar: Path, make: object, complaint: str
) -> None:
    """One line on standard error, the other file's line on standard output, exit status 3."""
    broken, good = tmp_path / "broken.wav", spoken(tmp_path / "good.wav", "where am i")
    make(broken)  # type: ignore[operator]
    ran = handsfree("hear", "--ear", "sphinx", "--grammar", grammar, "--json", broken, good)
    assert ran.status == 3
    assert [json.loads(line)["text"] for line in ran.lines] == ["where am i"]
    assert len(ran.complaints) == 1
    assert complaint in ran.err
    assert str(broken) in ran.err


BAD_GRAMMARS = [
    ("#JSGF V1.0;\ngrammar g;\npublic <a> = (next ;\n", "g.jsgf:3:20: "),
    ("#JSGF V1.0;\ngrammar g;\nimport <no.b>;\npublic <a> = <b>;\n", "Put no.jsgf into the same folder."),
    ("#JSGF V1.0;\ngrammar g;\npublic <a> = <a> next;\n", "g.jsgf:3:14: <a> comes back to <a>"),
    ("#JSGF V1.0;\ngrammar g;\npublic <a> = <b>;\n", "<b> is not defined"),
    ("#JSGF V1.0;\ngrammar g;\npublic <a> = next xylozzz;\n", "does not know “xylozzz”"),
    ("#JSGF V1.0 KLINGON-8;\ngrammar g;\npublic <a> = next;\n", "this is not text in KLINGON-8."),
    ("#JSGF V1.0 punycode;\ngrammar g;\npublic <a> = next;\n", "this is not text in punycode."),
    ("", "this is not a grammar file."),
    ("\0" * 10_000_001, "g.jsgf: the grammar is longer than 10 MB."),
]


@pytest.mark.parametrize(("text", "complaint"), BAD_GRAMMARS)
def test_a_bad_grammar_is_refused_in_one_line(
    handsfree: Command, tmp_path: Path, text: str, complaint: str
) -> None:
    """File, line and column, and what to do; nothing is heard; exit status 2."""
    (tmp_path / "g.jsgf").write_text(text)
    ran = handsfree("hear", "--ear", "sphinx", "--grammar", tmp_path / "g.jsgf", "any.wav")
    assert (ran.status, ran.out, len(ran.complaints)) == (2, "", 1)
    assert complaint in ran.err


def test_the_encoding_of_a_grammar_is_the_one_its_header_names(handsfree: Command, tmp_path: Path) -> None:
    """JSpeech Grammar Format 1.0, section 3.1: the header may name a character encoding and a locale."""
    latin = "#JSGF V1.0 ISO8859-1 en;\ngrammar g; // café\npublic <a> = where am i;\n".encode("latin-1")
    (tmp_path / "named.jsgf").write_bytes(latin)
    (tmp_path / "bare.jsgf").write_bytes(latin.replace(b" ISO8859-1 en", b""))
    file = clip(tmp_path / "silence.wav", silence(0.5))
    named = handsfree("hear", "--ear", "sphinx", "--grammar", tmp_path / "named.jsgf", file)
    bare = handsfree("hear", "--ear", "sphinx", "--grammar", tmp_path / "bare.jsgf", file)
    assert (named.status, named.err) == (0, "")
    assert (2, "this is not text in utf-8." in bare.err) == (bare.status, True)


@pytest.mark.usefixtures("no_model")
def test_vosk_without_its_model_says_how_to_get_it(handsfree: Command, grammar: Path) -> None:
    """A missing part: exit status 3 and the next step."""
    ran = handsfree("hear", "--ear", "vosk", "--grammar", grammar, "any.wav")
    assert (ran.status, ran.out, len(ran.complaints)) == (3, "", 1)
    assert "handsfree model get" in ran.err


@pytest.mark.usefixtures("no_model")
def test_without_the_model_pocketsphinx_is_taken(handsfree: Command, tmp_path: Path, grammar: Path) -> None:
    """With pip alone a recording is heard."""
    ran = handsfree("hear", "--grammar", grammar, "--json", spoken(tmp_path / "a.wav", "where am i"))
    assert (ran.status, json.loads(ran.out)["text"]) == (0, "where am i")


def test_imports_come_from_the_folder_of_the_grammar(
    handsfree: Command, tmp_path: Path, grammar: Path
) -> None:
    """Not from where the program runs."""
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    shutil.copy(grammar, elsewhere)
    ran = handsfree("hear", "--ear", "sphinx", "--grammar", elsewhere / grammar.name, "any.wav")
    assert (ran.status, "there is no grammar count" in ran.err) == (2, True)
