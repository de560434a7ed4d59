"""Kills the real process at random moments: nothing that was said to the user may be missing from the record.

    python -m tests.bench.kills [--kills 200]

Each time a session with all its lines typed ahead is killed (SIGKILL) a random moment after a random sentence
was printed. Prints how many sentences were printed and kept; exits with 1 where one is missing, where the
record is not whole, or where `load` does not go on from it.
"""

from __future__ import annotations

import argparse
import random
import sys
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory

from handsfree.care import events as e
from handsfree.keep.journal import SqlJournal
from handsfree.record import cut_off, load
from handsfree.shelf import emergencies
from tests.dialogues import EQUIPMENT, FLUID, ORDER, PRIME
from tests.guide_process import killed

LINES = (*ORDER, *EQUIPMENT, *FLUID, *PRIME)
LATEST_S = 0.05


def missing(folder: Path, chance: random.Random) -> tuple[int, list[str]]:
    """Kill one session; returns how many sentences it printed, and what is missing or damaged."""
    printed = killed(folder, LINES, chance.randint(1, 20), chance.uniform(0, LATEST_S))
    with closing(SqlJournal(folder)) as journal:
        kept = load(journal, cut_off(journal), emergencies())
    announced = [one.event.text for one in kept.records if isinstance(one.event, e.Announced)]
    wrong = [str(one) for one in kept.damage]
    return len(printed), wrong + ([] if printed == announced[: len(printed)] else ["sentences differ"])


def main() -> int:
    """Run all of it."""
    given = argparse.ArgumentParser(description=__doc__)
    given.add_argument("--kills", type=int, default=200)
    kills, chance = given.parse_args().kills, random.Random(20310504)
    sentences, wrong = 0, list[str]()
    with TemporaryDirectory() as folder:
        for number in range(kills):
            printed, found = missing(Path(folder) / str(number), chance)
            sentences += printed
            wrong += [f"kill {number}: {one}" for one in found]
    print(f"{kills} kills, {sentences} sentences printed, {len(wrong)} missing or damaged", *wrong, sep="\n")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
