"""What spotting's scale was fitted on: the weights, and the table from which the threshold was read.

    python -m tests.bench.spotting_scale --voices flite_kal16,flite_awb --keep FOLDER

Only the half "choose" of the practice benchmark is used. Every answer that some reading holds is one row; was
it said? (Logistic regression.) Answers that the words of other talk really hold, "the battery is half full",
are left out: no sound tells them from a step.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from dataclasses import astuple
from pathlib import Path

import numpy as np

from handsfree.odds import Scale
from handsfree.phrases import spotting
from handsfree.phrases.readings import reading
from handsfree.phrases.spotting import Candidate, Evidence
from handsfree.signals import Alternative, Utterance
from tests.bench.practice import Sentence, Tally, kept, sets, strict, ticked
from tests.bench.regression import weights
from tests.ears import vosk
from tests.voice.practice import lexicon

Rows = list[tuple[Sentence, list[Utterance]]]

PER_RULE = 4
THRESHOLDS = (0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7)


def candidates(one: Sentence, utterances: list[Utterance]) -> Iterator[tuple[Candidate, bool]]:
    """Each answer that a reading of a sentence holds, and whether it was said."""
    wanted = frozenset[str]().union(*one.wanted)
    written = Utterance((Alternative(tuple(one.words.split())),))
    held = frozenset[str]().union(*ticked(written)) - wanted
    for utterance in utterances:
        for each in spotting.candidates(strict(), utterance, reading, lexicon(vosk()).common):
            if not each.rules & held:
                yield each, bool(each.rules & wanted)


def fitted(rows: Rows) -> Scale[Evidence]:
    """The weights that make what was said likeliest."""
    found = [pair for one, utterances in rows for pair in candidates(one, utterances)]
    pieces = np.array([[1.0, *astuple(each.evidence)] for each, _ in found])
    said = np.array([float(was) for _, was in found])
    base, *pieces = np.round(weights(pieces, said), 2).tolist()
    return Scale(base, Evidence(*pieces))


def main() -> None:
    """Fit, and print how much is found and how much is false at each threshold."""
    parser = argparse.ArgumentParser(description="What spotting's scale was fitted on.")
    parser.add_argument("--voices", default="flite_kal16,flite_awb")
    parser.add_argument("--keep", type=Path, default=None, help="folder for what was heard")
    options = parser.parse_args()
    rows = [
        row
        for voice in options.voices.split(",")
        for name, said in sets("choose", PER_RULE).items()
        for row in kept(options.keep, ("choose", voice, name), said)
    ]
    print(fitted(rows))
    for needed in THRESHOLDS:
        tally = Tally()
        for one, utterances in rows:
            tally.take(one, [rules for each in utterances for rules in ticked(each, needed)])
        print(tally.line(f"{needed}"))


if __name__ == "__main__":
    main()
