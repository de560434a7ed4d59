"""WebVTT: timed text as cues, read strictly and written (W3C, WebVTT: The Web Video Text Tracks Format)."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from html import escape, unescape

from handsfree.errors import WrongUse
from handsfree.words import worded

_STAMP = r"(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})"
_TIMING = re.compile(rf"{_STAMP}[ \t]+-->[ \t]+{_STAMP}(?:[ \t].*)?", re.ASCII)
_HEADER = re.compile(r"WEBVTT(?:[ \t].*)?")
_NO_CUE = re.compile(r"(?:NOTE|STYLE|REGION)(?:[ \t].*)?")
_TAG = re.compile(r"<[^>]*>")

Block = list[tuple[int, str]]
"""Lines that follow one another, with their numbers."""


@dataclass(frozen=True, slots=True)
class Cue:
    """A text with its time, in milliseconds from the start.

    text: on one line, without tags. speaker: of its voice tag when it is written. line: where its times
    stand in the file that it was read from.
    """

    start_ms: int
    end_ms: int
    text: str
    speaker: str = ""
    line: int = 0


def read_webvtt(text: str, name: str) -> tuple[Cue, ...]:
    """The cues of a file; comments, styles, identifiers and settings are passed over.

    Raises WrongUse with file and line for what is no WebVTT, and for a cue that starts before the last one.
    """
    lines = re.split(r"\r\n|\n|\r", text.removeprefix("\ufeff"))
    if not _HEADER.fullmatch(lines[0]):
        raise _refused(name, 1, worded("A WebVTT file begins with the word WEBVTT on a line of its own."))
    cues: list[Cue] = []
    for block in list(_blocks(lines))[1:]:
        if _NO_CUE.fullmatch(block[0][1]):
            continue
        cue = _cue(block, name)
        if cues and cue.start_ms < cues[-1].start_ms:
            raise _refused(name, cue.line, worded("This cue starts before the one above it."))
        cues.append(cue)
    return tuple(cues)


def written_webvtt(cues: Iterable[Cue]) -> str:
    """A file of cues, in the order given."""
    return "WEBVTT\n" + "".join(
        f"\n{_stamp(cue.start_ms)} --> {_stamp(cue.end_ms)}\n{_voiced(cue)}\n" for cue in cues
    )


def _blocks(lines: list[str]) -> Iterator[Block]:
    """What stands between blank lines; the header is the first."""
    block: Block = []
    for number, line in enumerate([*lines, ""], 1):
        if line.strip():
            block.append((number, line.strip()))
        elif block:
            yield block
            block = []


def _cue(block: Block, name: str) -> Cue:
    at = 0 if "-->" in block[0][1] else 1
    number, timing = block[min(at, len(block) - 1)]
    found = _TIMING.fullmatch(timing)
    if found is None:
        raise _refused(name, number, worded("A cue needs its times, as 00:01:02.500 --> 00:01:04.000."))
    text = " ".join(line for _, line in block[at + 1 :])
    if "-->" in text:
        raise _refused(name, number, worded("A blank line is missing before the next cue."))
    groups = found.groups()
    return Cue(_ms(groups[:4]), _ms(groups[4:]), unescape(_TAG.sub("", text)).strip(), line=number)


def _ms(groups: tuple[str | None, ...]) -> int:
    hours, minutes, seconds, thousandths = (int(part or "0") for part in groups)
    return ((hours * 60 + minutes) * 60 + seconds) * 1000 + thousandths


def _stamp(ms: int) -> str:
    seconds, thousandths = divmod(ms, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}.{thousandths:03}"


def _voiced(cue: Cue) -> str:
    text = escape(" ".join(cue.text.split()), quote=False)
    return f"<v {cue.speaker}>{text}" if cue.speaker else text


def _refused(name: str, line: int, wrong: str) -> WrongUse:
    return WrongUse(f"{name}:{line}: {wrong}", worded("See: handsfree replay --help"))
