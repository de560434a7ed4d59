"""What was heard in a recording, as a JSON object and as a line for people."""

from __future__ import annotations

from dataclasses import dataclass
from typing import assert_never

from handsfree.phrases.match import parts
from handsfree.signals import Ambiguous, Heard, NotUnderstood, Outcome, Utterance
from handsfree.words import worded


@dataclass(frozen=True, slots=True)
class Said:
    """One utterance of a file and what became of it."""

    file: str
    outcome: Outcome
    utterance: Utterance


@dataclass(frozen=True, slots=True)
class Summary:
    """What hearing some files took. wall_s: without the loading of the recogniser."""

    files: int
    audio_s: float
    wall_s: float

    @property
    def real_time_factor(self) -> float:
        """Seconds of computing for each second of sound; 0 without sound."""
        return self.wall_s / self.audio_s if self.audio_s else 0.0


def as_object(said: Said) -> dict[str, object]:
    """The object of interface.md: all keys always there, `candidates` only where ambiguous."""
    outcome, utterance = said.outcome, said.utterance
    return {
        "file": said.file,
        **_of_outcome(outcome),
        "confidence": round(outcome.confidence, 4),
        "speech_start_s": round(utterance.start_s, 3),
        "speech_end_s": round(utterance.end_s, 3),
        "decided_s": round(utterance.decided_s, 3),
    }


def as_line(said: Said) -> str:
    """The same in words: file, when, and what was heard."""
    match said.outcome:
        case Heard(confidence=confidence) as heard:
            sure = worded("confidence {confidence:.2f}", confidence=confidence)
            told = f"{heard.command}: “{heard.text}” ({sure})"
        case NotUnderstood(text):
            told = worded("not understood: “{text}”", text=text) if text else worded("not understood")
        case Ambiguous(candidates=candidates):
            told = worded(" or ").join(f"{one.command}: “{one.text}”" for one in candidates) + "?"
        case _:
            assert_never(said.outcome)
    start_s, end_s = said.utterance.start_s, said.utterance.end_s
    when = worded("{start_s:.2f} to {end_s:.2f} s", start_s=start_s, end_s=end_s)
    return f"{said.file}, {when}: {told}"


def summary_object(summary: Summary) -> dict[str, object]:
    """The last line of `--summary`."""
    figures = {
        "files": summary.files,
        "audio_s": round(summary.audio_s, 3),
        "wall_s": round(summary.wall_s, 3),
        "real_time_factor": round(summary.real_time_factor, 4),
    }
    return {"summary": figures}


def summary_line(summary: Summary) -> str:
    """The same in words."""
    sound = worded(
        "{audio_s:.1f} s of sound in {wall_s:.1f} s", audio_s=summary.audio_s, wall_s=summary.wall_s
    )
    return worded(
        "Files: {files}, {sound} ({real_time_factor:.3f} of real time).",
        files=summary.files,
        sound=sound,
        real_time_factor=summary.real_time_factor,
    )


def _of_outcome(outcome: Outcome) -> dict[str, object]:
    match outcome:
        case Heard():
            return {"outcome": "heard", **_reading(outcome)}
        case NotUnderstood(text):
            return {"outcome": "not_understood", **_no_reading(text)}
        case Ambiguous(text, candidates):
            readings = [_reading(one) for one in candidates]
            return {"outcome": "ambiguous", **_no_reading(text), "candidates": readings}
        case _:
            assert_never(outcome)


def _reading(heard: Heard) -> dict[str, object]:
    return {"text": heard.text, "command": heard.command, "parts": parts(heard.node)}


def _no_reading(text: str) -> dict[str, object]:
    return {"text": text, "command": None, "parts": {}}
