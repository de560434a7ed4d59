"""WebVTT as it is read and written."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.errors import WrongUse
from handsfree.webvtt import Cue, read_webvtt, written_webvtt


def test_what_is_read() -> None:
    """Identifiers, settings, comments, styles and tags are passed over; a text of two lines is one."""
    text = (
        "\ufeffWEBVTT - a shift\r\nKind: captions\r\n\r\nNOTE\r\nat night\r\n\r\nSTYLE\r\n::cue {}\r\n\r\n"
        "first\r\n00:01.500 --> 00:02.000 align:start\r\n<v User>two\r\nidentifiers\r\n\r\n\r\n"
        "100:00:00.000 --> 100:00:01.000\r\nsalt &amp; water\r\n"
    )

    assert read_webvtt(text, "a.vtt") == (
        Cue(1500, 2000, "two identifiers", line=11),
        Cue(360_000_000, 360_001_000, "salt & water", line=16),
    )


REFUSED = (
    ("", 1, "begins with the word WEBVTT"),
    ("WEBVTTX\n", 1, "begins with the word WEBVTT"),
    ("WEBVTT\n\nhello\n", 3, "needs its times"),
    ("WEBVTT\n\n00:01 --> 00:02\nhello\n", 3, "needs its times"),
    ("WEBVTT\n\n00:61.000 --> 00:62.000\nhello\n", 3, "needs its times"),
    ("WEBVTT\n\na\nb\n00:01.000 --> 00:02.000\nhello\n", 4, "needs its times"),
    ("WEBVTT\n\n00:02.000 --> 00:03.000\na\n00:04.000 --> 00:05.000\nb\n", 3, "A blank line is missing"),
    (
        "WEBVTT\n\n00:02.000 --> 00:03.000\na\n\n00:01.000 --> 00:05.000\nb\n",
        6,
        "starts before the one above",
    ),
)


@pytest.mark.parametrize(("text", "line", "wrong"), REFUSED)
def test_what_is_refused(text: str, line: int, wrong: str) -> None:
    """What is no WebVTT is refused with file and line."""
    with pytest.raises(WrongUse, match=rf"^a\.vtt:{line}: .*{wrong}"):
        read_webvtt(text, "a.vtt")


words = st.text(st.characters(categories=("L", "N", "P", "S")), min_size=1).filter(
    lambda word: "-->" not in word
)


@given(st.lists(st.tuples(st.integers(0, 10**9), st.integers(0, 10**5), st.lists(words, min_size=1))))
def test_what_is_written_is_read(said: list[tuple[int, int, list[str]]]) -> None:
    """Any text comes back, whatever signs it has."""
    cues = [Cue(start, start + length, " ".join(text), "User") for start, length, text in sorted(said)]
    read = read_webvtt(written_webvtt(cues), "a.vtt")

    assert [(cue.start_ms, cue.end_ms, cue.text) for cue in read] == [
        (cue.start_ms, cue.end_ms, cue.text) for cue in cues
    ]
