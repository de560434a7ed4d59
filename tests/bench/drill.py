"""Half an hour of a drill with sixty marks, from sound to the record: how many are found, and how late.

    python -m tests.bench.drill [--ear vosk|sphinx]

Needs the synthesisers of tests/bench/hearing_voices.py. The instructors' voices are those on which no
threshold was chosen; a trainee talks between the marks, in other voices and further from the microphone.
"""

from __future__ import annotations

import argparse
import tempfile
import time
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from random import Random

import numpy as np

from tests.bench.hearing_voices import said
from tests.voice.drill_track import Breath, Mark, heard, laid, meant
from tests.voice.sound_shape import Sound

LENGTH_S = 1800.0

INSTRUCTORS = ("piper_joe", "kokoro_alpha", "flite_slt", "kokoro_kumo", "festival_slt", "kokoro_nezumi")
TRAINEES = ("flite_rms", "kokoro_gongitsune", "espeak_gb", "kokoro_tebukuro", "flite_kal16")

MARKED = """\
identity check done|done patient
octopus the allergies|done allergies
consent done|done consent
hand hygiene done|done hands
gauge done & spare prompted|done gauge|prompted spare
missed the drop factor|missed drop_factor
lap|lap
equipment check octopus|done kit
antiseptic done|done antiseptic
giraffe|prompted
flush expiry not seen|not seen flush_expiry
sharps container done|done sharps_box
bag label done & bag date missed|done bag_fluid|missed bag_expiry
clarity done|done clear
squeeze test harvest|missed dry_bag
first clamp out of order|out of order clamp_shut
spike contaminated|contaminated spiked
unsafe|unsafe
drip chamber done|done chamber
priming octopus|done run_through
air check done|done no_air
start the clock|clock started
second clamp penguin|not seen clamp_again
choice of site done|done site
first tourniquet done|done tie
done the vein|done vein_felt
first tourniquet release missed|missed untie_first
second gloves done|done fresh_gloves
skin cleaning done|done scrubbed
stop the clock|clock stopped
drying time missed|missed dry
contaminated|contaminated
second tourniquet waterfall|out of order tie_again
puncture done|done needle
attempt|attempt
lap time|lap
flashback not seen|not seen flash
violin|contaminated
tornado the puncture|attempt needle
tourniquet release done & pressure done|done untie|done pressed
umbrella the needle disposal|unsafe needle_away
connection done|done connected
prompted the blood return|prompted draws_back
flushing done|done flushes
missed the swelling check|missed no_swelling
site dressing octopus|done dressed
out of order|out of order
number of attempts not seen|not seen attempts
harvest the written label|missed labelled
last air check done|done air_again
drip rate done|done clamp_open
giraffe the drop count|prompted counted
last look done|done site_fine
patient advice missed|missed told
lap|lap
penguin|not seen
octopus|done"""
"""Sixty marks: what is said, then each mark that it sets."""

TALK = """\
good morning i am going to put a cannula into your arm
can you tell me your name and date of birth
i have washed my hands and i am gloved
are you allergic to anything
i have a green eighteen
the sharps box is open and within reach
normal saline one litre expires march twenty thirty four
it's clear and it's not leaking
the clamp is closed
the bag is spiked
half full
no more bubbles in the line
the left forearm looks good
the tourniquet is on
i can feel the vein
i am scrubbing for thirty seconds now
scrub done
it's visibly dry
sharp scratch now
there is a flash
i am sliding the cannula off the needle
the tourniquet is off
the needle is away in the container
the line is connected
it draws back and flushes easily
does that hurt at all
please keep your arm still
i think that went well
where did you run today
the weather on the ridge is getting worse
could somebody pass me the tape please
just a moment
i will tell you before anything happens
tell me if you feel unwell
that is the label done
the drip is running
forty two in a minute
i should have done that before
he missed the turn at the hut""".splitlines()
"""What trainees and others say: at work, to the patient, and about other things."""


def breaths() -> Iterator[Breath]:
    """The drill: a mark about every half minute, talk between."""
    random = Random(7)
    rows = MARKED.splitlines()
    yield Breath(3.0, INSTRUCTORS[0], (Mark("trainee ben"),))
    yield Breath(4.0, INSTRUCTORS[0], (Mark("go!"),))
    for number, row in enumerate(rows):
        for words in random.sample(TALK, random.choice((1, 2, 2, 3))):
            yield Breath(random.uniform(2.0, 5.0), random.choice(TRAINEES), (Mark(words),), further=True)
        yield Breath(random.uniform(3.0, 8.0), INSTRUCTORS[number % len(INSTRUCTORS)], _marks(row))


def _marks(row: str) -> tuple[Mark, ...]:
    """The marks of a row of MARKED."""
    words, *marks = row.split("|")
    return tuple(Mark(said, *meant(one)) for said, one in zip(words.split(" & "), marks, strict=True))


@cache
def _sound(words: str, voice: str) -> Sound:
    return said(voice, words)


def main() -> None:
    """Make the track, play it through the program, and print what became of each mark."""
    parser = argparse.ArgumentParser(description="Sixty marks in half an hour, from sound to the record.")
    parser.add_argument("--ear", choices=["vosk", "sphinx"], default="vosk")
    ear = parser.parse_args().ear
    track, expected = laid(breaths(), _sound, LENGTH_S)
    began = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        outcome = heard(track, expected, Path(folder), ear, sound=True)
    late_ms = np.abs(outcome.late_s) * 1000
    print(f"\n{ear}: {len(track) / 16_000 / 60:.1f} minutes heard in {time.perf_counter() - began:.0f} s")
    print(f"{len(outcome.found)} of {len(expected)} marks found, {len(outcome.invented)} invented")
    print(f"time less the word's end: median {np.median(late_ms):.0f} ms, worst {np.max(late_ms):.0f} ms")
    print("runs:", [(run.trainee, len(run.marks)) for run in outcome.session.runs])
    for one in outcome.missing:
        print(f"missing: {one.kind.value} {one.step} at {one.end_s:.1f} s")
    for text in outcome.invented:
        print(f"invented: {text}")


if __name__ == "__main__":
    main()
