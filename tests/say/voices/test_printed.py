"""Sentences in print, and with a second voice."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from handsfree.errors import PlaybackFailed
from handsfree.say.voices.both import BothVoices
from handsfree.say.voices.printed import PrintedVoice
from handsfree.testing.voice import FakeVoice


def test_one_line_at_once(tmp_path: Path) -> None:
    """A sentence is one line, there for its reader before the stream is closed."""
    page = tmp_path / "page.txt"
    with page.open("w", encoding="utf-8") as stream:
        voice = PrintedVoice(stream)
        assert voice.say("Close the clamp.\nThen spike.") == 0.0
        voice.say("Correct?")

        assert page.read_text(encoding="utf-8") == "Close the clamp. Then spike.\nCorrect?\n"


def test_letters_that_the_stream_lacks() -> None:
    """A terminal without a letter shows a question mark in its place."""
    sink = io.BytesIO()
    stream = io.TextIOWrapper(sink, encoding="ascii")
    PrintedVoice(stream).say("5 µg")

    assert sink.getvalue() == b"5 ?g\n"


def test_closed_stream() -> None:
    """Where nothing can be printed, one sentence says so."""
    stream = io.StringIO()
    stream.close()

    with pytest.raises(PlaybackFailed, match="Nothing can be printed"):
        PrintedVoice(stream).say("Correct?")


@pytest.mark.parametrize("broken", [0, 1])
def test_one_fails_the_other_speaks(broken: int) -> None:
    """Of two voices, one that fails does not silence the other, and is told."""
    voices = FakeVoice(), FakeVoice()
    voices[broken].broken = True

    with pytest.raises(PlaybackFailed, match="broken"):
        BothVoices(*voices).say("Correct?")

    assert voices[1 - broken].said == ["Correct?"]


def test_both_fall_silent() -> None:
    """Both voices are hushed."""
    voices = FakeVoice(), FakeVoice()
    BothVoices(*voices).hush()

    assert [voice.hushes for voice in voices] == [1, 1]
