"""What the way in does to hearing: level, offset, clipping, drop-outs, rates, channels.

    python -m tests.bench.sound_as_it_comes [--every 2] [WORD...]

Every second command of the fixtures, with the words of its phase open and room tone 30 dB under it, through
the Framer and Vosk. Prints a line for each condition (those that have one of the words in their name): right,
wrong, asked, refused; and in how many recordings the outcome differs from that of the plain sound.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial

import numpy as np
import soxr
from numpy.typing import NDArray

from handsfree.hear.framing import Framer, Samples
from handsfree.ports import Ear
from handsfree.signals import SAMPLE_RATE, Frame
from handsfree.wiring import make_ear
from tests.voice import moments
from tests.voice.hearing import Sound, hear_source, read, verdict
from tests.voice.manifest import Fixture, below
from tests.voice.noises import at_level, white
from tests.voice.sound_shape import LEVEL_DB

ROOM_DB = -30.0
"""Room tone under speech."""

VERDICTS = ("right", "wrong", "asked", "refused")


@dataclass(frozen=True, slots=True)
class Arriving:
    """Source over sound as a device brings it: any rate, any channels, in pieces of 20 ms."""

    samples: Samples
    rate: float = SAMPLE_RATE

    def frames(self) -> Iterator[Frame]:
        """Yield its frames."""
        framer = Framer(self.rate, self.samples.shape[1])
        step = round(self.rate / 50)
        for start in range(0, len(self.samples), step):
            yield from framer.cut(self.samples[start : start + step])
        yield from framer.cut(self.samples[:0], last=True)


Way = Callable[[Sound], Arriving]


def mono(change: Callable[[Sound], NDArray[np.floating]], rate: float = SAMPLE_RATE) -> Way:
    """One channel."""
    return lambda sound: Arriving(np.asarray(change(sound), np.float32).reshape(-1, 1), rate)


def channels(*gains: float, offset: float = 0.0) -> Way:
    """The same sound in each channel, louder or softer; a dead one has an offset of its own and no sound."""
    return lambda sound: Arriving(
        np.stack([gain * sound if gain else np.full_like(sound, offset) for gain in gains], axis=1)
    )


def level(sound: Sound, level_db: float) -> Sound:
    """Speech at this level, room tone with it."""
    return np.asarray(np.clip(sound * 10 ** ((level_db - LEVEL_DB) / 20), -1, 1), np.float32)


def sixteen_bit(sound: Sound, level_db: float) -> Sound:
    """As a quiet microphone gives it."""
    return np.asarray(np.rint(level(sound, level_db) * 32768) / 32768, np.float32)


def shifted(sound: Sound, by: float) -> Sound:
    """With an offset."""
    return np.asarray(np.clip(sound + by, -1, 1), np.float32)


def clipped(sound: Sound, share: float) -> Sound:
    """So loud that this share of the samples of speech is clipped."""
    loud = np.abs(sound[np.abs(sound) > 0.01])
    return np.asarray(np.clip(sound / float(np.quantile(loud, 1 - share)), -1, 1), np.float32)


def dropped(sound: Sound, length_s: float) -> Sound:
    """This much missing once in every second, zeros in its place."""
    holes = (np.arange(len(sound)) / SAMPLE_RATE + 0.3) % 1.0 < length_s
    return np.where(holes, np.float32(0), sound)


def at_rate(rate: int) -> Way:
    """Sampled at another rate."""
    return mono(lambda sound: soxr.resample(sound, SAMPLE_RATE, rate), rate)


WAYS: Mapping[str, Way] = {
    "plain": mono(lambda sound: sound),
    **{
        f"level {db}": mono(partial(sixteen_bit, level_db=db)) for db in (-70, -60, -50, -40, -30, -10, -3, 6)
    },
    **{f"offset {by}": mono(partial(shifted, by=by)) for by in (0.01, 0.1, 0.5)},
    **{f"clipped {share:.0%}": mono(partial(clipped, share=share)) for share in (0.05, 0.2, 0.4)},
    **{f"drop-outs {ms} ms": mono(partial(dropped, length_s=ms / 1000)) for ms in (20, 50, 100, 200)},
    **{f"rate {rate}": at_rate(rate) for rate in (8_000, 11_025, 22_050, 44_100, 48_000, 96_000, 192_000)},
    "channels of opposite phase": channels(1, -1),
    "channels, one dead": channels(1, 0),
    "channels, the first dead, with an offset": channels(0, 1, offset=0.2),
    "channels, one softer by 6 dB and turned over": channels(1, -0.5),
    "channels, four": channels(0, 0.3, -1, 0.5),
}


def prepared(fixture: Fixture) -> Sound:
    """The recording, room tone all through it, also under the silence around it."""
    sound = read(fixture.path)
    room = at_level(white(len(sound) / SAMPLE_RATE, 7)[: len(sound)], LEVEL_DB + ROOM_DB)
    return np.asarray(np.clip(sound + room, -1, 1), np.float32)


def outcome(ear: Ear, fixture: Fixture, way: Way) -> str:
    """What becomes of one recording on one way in."""
    listen = moments.of_words(fixture.sentence)
    said = hear_source(ear, moments.compiled(listen, ear.knows), way(prepared(fixture)))
    return verdict(moments.compiled(listen), fixture.sentence, said)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="What the way in does to hearing.")
    parser.add_argument("words", nargs="*", help="Only conditions with one of these in their name.")
    parser.add_argument("--every", type=int, default=2, help="Take one recording of so many.")
    given = parser.parse_args()
    fixtures = [one for one in below("utterances") if one.sentence][:: given.every]
    ear = make_ear("vosk")
    plain = [outcome(ear, one, WAYS["plain"]) for one in fixtures]
    for name, way in WAYS.items():
        if name == "plain" or not given.words or any(word in name for word in given.words):
            found = plain if name == "plain" else [outcome(ear, one, way) for one in fixtures]
            number = Counter(found)
            differ = sum(one != other for one, other in zip(found, plain, strict=True))
            cells = " / ".join(str(number[verdict]) for verdict in VERDICTS)
            print(f"| {name} | {cells} | {differ} |", flush=True)


if __name__ == "__main__":
    main()
