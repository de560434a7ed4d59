"""How long it takes from the start of a command until it listens: `python -m tests.bench.startup --runs 9`.

Each run is a process of its own, on Vosk and on sound from a file, with bytecode kept as an installed program
has it. Beside the sessions run a reference, which loads Vosk's model and nothing else, and `handsfree rate`,
which listens to nobody. Prints medians: seconds by the clock and of both processors together, times the
reference's, and the most memory. Other work on the machine tells on all rows alike: compare by the reference.
"""

from __future__ import annotations

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import soundfile

from handsfree.hear.models import find_model
from handsfree.signals import SAMPLE_RATE

REFERENCE = """
import sys, numpy, vosk
vosk.SetLogLevel(-2)
vosk.Model(sys.argv[1])
"""

UNTIL_IT_LISTENS = """
import os
from handsfree.__main__ import main
from handsfree.hear.sound_door import SoundDoor
SoundDoor.next = lambda *_: os._exit(0)
main()
"""

RATE = ("-m", "handsfree", "rate", "--volume", "1000 mL", "--time", "8 h", "--drop-factor", "15 gtt/mL")

SESSIONS = ("guide", "drill", "practice")


@dataclass(frozen=True, slots=True)
class Cost:
    """What one process took: seconds by the clock, seconds of processors, megabytes at most."""

    wall_s: float
    processor_s: float
    memory_mb: float


def commands(folder: Path) -> dict[str, tuple[str, ...]]:
    """By name, what Python is given."""
    silence = folder / "silence.wav"
    soundfile.write(silence, np.zeros(SAMPLE_RATE), SAMPLE_RATE)
    options = ("--ear", "vosk", "--voice", "printed", "--from", str(silence), "--sessions", str(folder))
    sessions = {kind: ("-c", UNTIL_IT_LISTENS, kind, *options) for kind in SESSIONS}
    return {"reference": ("-c", REFERENCE, str(find_model())), **sessions, "rate": RATE}


def cost(given: tuple[str, ...], folder: Path) -> Cost:
    """Run one process to its end."""
    ours = {**os.environ, "PYTHONPYCACHEPREFIX": str(folder / "bytecode"), "PYTHONDONTWRITEBYTECODE": ""}
    began_s = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, *given], env=ours, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True
    )
    with process.stderr as told:
        said = told.read()
    _, status, used = os.wait4(process.pid, 0)
    wall_s = time.perf_counter() - began_s
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(said)
    return Cost(wall_s, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def costs(runs: int, folder: Path) -> dict[str, list[Cost]]:
    """Of each command, in turn; a first run makes the bytecode, and does not count."""
    given = commands(folder)
    for each in given.values():
        cost(each, folder)
    turns = [{name: cost(each, folder) for name, each in given.items()} for _ in range(runs)]
    return {name: [turn[name] for turn in turns] for name in given}


def row(name: str, of: list[Cost], reference: list[Cost]) -> str:
    """One line of the table."""
    wall_s = statistics.median(one.wall_s for one in of)
    processor_s = statistics.median(one.processor_s for one in of)
    times = statistics.median(
        one.processor_s / beside.processor_s for one, beside in zip(of, reference, strict=True)
    )
    memory_mb = max(one.memory_mb for one in of)
    return f"{name:<10}{wall_s:>8.2f}{processor_s:>8.2f}{times:>8.2f}{memory_mb:>8.0f}"


def main() -> None:
    """Measure and print."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--runs", type=int, default=9)
    with tempfile.TemporaryDirectory() as folder:
        found = costs(options.parse_args().runs, Path(folder))
    print(f"{'':<10}{'wall s':>8}{'proc. s':>8}{'times':>8}{'MB':>8}")
    for name, of in found.items():
        print(row(name, of, found["reference"]))


if __name__ == "__main__":
    main()
