"""Every cut and 2,000 random ones of a real session's log, and 2,000 flipped bytes of log and of database.

    python -m tests.bench.damage [--places 2000]

Prints, for each kind, how many images were read, how many were hurt, and how many rows were wrong or silent;
exits with 1 where there is any.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from tests.keep.damage import Image, readings, recorded


def kinds(live: Image, closed: Image, places: int) -> dict[str, Iterator[Image]]:
    """The images to read, by kind."""
    chance = random.Random(places)
    return {
        "log cut in its header, at each frame and a byte beside it": (live.cut(end) for end in live.cuts()),
        "log cut at random": (live.cut(chance.randrange(len(live.log))) for _ in range(places)),
        "byte of the log flipped": (live.flipped("log", chance) for _ in range(places)),
        "byte of the database flipped": (closed.flipped("database", chance) for _ in range(places)),
    }


def main() -> int:
    """Run all of it."""
    given = argparse.ArgumentParser(description=__doc__)
    given.add_argument("--places", type=int, default=2000)
    places = given.parse_args().places
    memory = Path("/dev/shm")
    wrong = 0
    with TemporaryDirectory(dir=memory if memory.is_dir() else None) as folder:
        live, closed = recorded(Path(folder) / "kept")
        print(f"{len(live.rows)} rows, log {len(live.log)} bytes, database {len(closed.database)} bytes")
        for kind, images in kinds(live, closed, places).items():
            begin = perf_counter()
            found = readings(images, Path(folder) / "sessions")
            took_s = perf_counter() - begin
            print(f"{kind}: {found.read} read, {found.hurt} hurt, {len(found.wrong)} rows wrong or silent,")
            print(*found.wrong[:5], f"  {took_s:.0f} s", sep="\n", flush=True)
            wrong += len(found.wrong)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
