"""How well an ear hears commands, how long it takes, and what it makes of talk that is not meant for it.

    python -m tests.bench.hearing --make                     makes the corpus, or what is missing of it
    python -m tests.bench.hearing --count 200 --jobs 2       hears, keeps the results, prints the tables
    python -m tests.bench.hearing --table RESULTS.jsonl …    prints the tables of runs that are over
    python -m tests.bench.hearing --errors RESULTS.jsonl …   prints every command that was not heard right

Thresholds are chosen on the split "tune": grammars garden and the program's own, phase by phase; voices flite
kal16, awb, rms; festival kal; espeak-ng en-us, en-gb, en-gb-scotland. Figures are reported on the split
"report", on which nothing was chosen: grammars workshop, warehouse, radio; voices flite slt; festival slt
(HTS) and kdl; piper joe; Kokoro-82M alpha, nezumi, kumo (English with a Japanese accent); espeak-ng en-us+f3,
en-gb-x-rp. The babble has voices of its own, other ones for each split.

Each sentence is heard in a stream of real frames with 0.6 s before and 2.5 s after, the noise running through
it all, by what `handsfree hear` uses. The last sound is that of the clean synthesis. A sentence gets one kind
of noise, by chance from a fixed seed, at all levels. Results are kept one by one: a run that is started again
with the same --out goes on. After a change of the program take another file.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from itertools import chain, islice, zip_longest
from pathlib import Path
from random import Random

from handsfree.hear.models import find_model
from handsfree.ports import Ear
from handsfree.wiring import EARS, make_ear
from tests.bench import hearing_grammars as grammars
from tests.bench import hearing_manifest, hearing_results
from tests.bench.hearing_edges import sound_of
from tests.bench.hearing_manifest import CORPUS, Clip
from tests.bench.hearing_noises import LEVELS, NOISES, QUIET, noise_of
from tests.bench.hearing_results import Overheard, Result, Told
from tests.bench.hearing_stock import StockVosk
from tests.bench.hearing_table import tables
from tests.bench.hearing_trial import Trial, overhear, tell

CALL = "medic"

OWN_OTHER = ("own:order", "own:equipment", "own:order::confirming")
"""Moments of the program in which other speech is tried."""

Task = tuple[str, Trial, str, str, bool]
"""Name of the ear, what is heard, the grammar for other speech, its call word, and whether stock runs too."""


def tasks(given: argparse.Namespace) -> Iterator[Task]:
    """Everything that was asked for."""
    clips = [clip for clip in hearing_manifest.read(given.corpus) if _wanted(clip, given)]
    if given.other != "only":
        spoken = [one for one in clips if one.sentence and grammars.holds(one.name, one.sentence)]
        for clip in sample(spoken, given.count):
            for level in given.levels:
                trial = Trial(given.corpus, clip, noise_of(clip.file, tuple(given.noises)), level)
                yield given.ear, trial, "", "", not given.no_stock
    if given.other != "no":
        for clip in [one for one in clips if not one.sentence]:
            for name in ("garden", *OWN_OTHER) if clip.split == "tune" else grammars.REPORT:
                for call in ("", CALL):
                    yield given.ear, Trial(given.corpus, clip, "", QUIET), name, call, False


def sample(clips: Iterable[Clip], count: int | None) -> list[Clip]:
    """As many clips, evenly over voices and fields, by chance from a fixed seed; None: all."""
    cells: dict[tuple[str, str], list[Clip]] = {}
    for clip in clips:
        cells.setdefault((clip.voice, grammars.field(clip.name)), []).append(clip)
    for cell in cells.values():
        Random("sample").shuffle(cell)
    in_turn = chain.from_iterable(zip_longest(*cells.values()))
    return list(islice((clip for clip in in_turn if clip is not None), count))


def done(task: Task) -> Result:
    """Hear one recording."""
    name, trial, grammar, call, with_stock = task
    ear = _ear(name)
    if trial.clip.sentence:
        return tell(name, ear, trial, _stock() if with_stock else None)
    return overhear(name, ear, trial.clip, sound_of(trial.corpus / trial.clip.file), (grammar, call))


def key(task: Task) -> tuple[str, ...]:
    """The key that the result will have."""
    name, trial, grammar, call, _ = task
    if trial.clip.sentence:
        return "told", name, trial.clip.file, trial.level
    return "overheard", name, trial.clip.file, f"{grammar} {bool(call)}"


@cache
def _ear(name: str) -> Ear:
    return make_ear(name)


@cache
def _stock() -> StockVosk:
    return StockVosk(find_model())


def _wanted(clip: Clip, given: argparse.Namespace) -> bool:
    """Whether a clip is of the split, and its field, voice, synthesiser or kind is among those asked for."""
    names = {grammars.field(clip.name), clip.voice, clip.synthesiser, clip.rule if not clip.sentence else ""}
    return clip.split == given.split and (not given.only or bool(names & set(given.only)))


def run(given: argparse.Namespace) -> None:
    """Hear what was not heard before, keep each result."""
    there = {one.key for one in hearing_results.read([given.out])}
    waiting = [task for task in tasks(given) if key(task) not in there]
    with ProcessPoolExecutor(given.jobs) as workers:
        for result in workers.map(done, waiting):
            hearing_results.append(given.out, result)


def errors(results: Iterable[Result]) -> Iterator[str]:
    """A line for every command that was not heard right, and for everything accepted from other speech."""
    for one in results:
        match one:
            case Told() if one.verdict != "right":
                heard = " | ".join(one.heard)
                yield f"{one.verdict:7} {one.voice:14} {one.noise} {one.level}: {one.sentence} -> {heard}"
            case Overheard() if one.accepted:
                called = "called " if one.called else ""
                yield f"accepted {one.voice} {one.kind} {called}{one.grammar}: {' | '.join(one.accepted)}"
            case _:
                pass


def _given() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="How well an ear hears.")
    parser.add_argument("--ear", choices=tuple(EARS), default="vosk")
    parser.add_argument("--corpus", type=Path, default=CORPUS)
    parser.add_argument("--make", action="store_true", help="make the corpus and stop")
    parser.add_argument("--split", choices=("tune", "report"), default="report")
    parser.add_argument("--only", nargs="+", help="fields, voices, synthesisers or kinds of other speech")
    parser.add_argument("--levels", nargs="+", choices=LEVELS, default=LEVELS)
    parser.add_argument("--noises", nargs="+", choices=tuple(NOISES), default=tuple(NOISES))
    parser.add_argument("--count", type=int, help="commands, each heard at all levels (all if not given)")
    parser.add_argument("--other", choices=("yes", "no", "only"), default="yes", help="other speech too")
    parser.add_argument("--no-stock", action="store_true", help="without stock Vosk beside it")
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--out", type=Path, help="file of results, which goes on where it ends")
    parser.add_argument("--table", nargs="+", type=Path, help="print the tables of these results and stop")
    parser.add_argument("--errors", nargs="+", type=Path, help="print what went wrong in these and stop")
    given = parser.parse_args()
    given.out = given.out or given.corpus / "results" / f"{given.ear}-{given.split}.jsonl"
    return given


def main() -> None:
    """Make, hear or print, as asked."""
    given = _given()
    if given.make:
        from tests.bench.hearing_corpus import make

        make(given.corpus)
    elif given.errors:
        print("\n".join(errors(hearing_results.read(given.errors))))
    else:
        if not given.table:
            run(given)
        print(tables(hearing_results.read(given.table or [given.out])))


if __name__ == "__main__":
    main()
