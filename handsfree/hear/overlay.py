"""The model as we load it: its own big files, our few settings on top.

Of 200 synthetic commands at 6 dB, beam 2 gets 91.0 % wholly right and beam 6 gets 95.0 %.
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from handsfree.errors import ModelError
from handsfree.words import worded

SETTINGS = {
    # The feature extractor adds random noise by default; without it the same sound gives the same words.
    "mfcc.conf": ("--dither=0",),
    # The model's own beam of 2 throws most alternatives away before the grammar can judge them.
    # Its end-pointer only tells how long it has been silent: commit.py ends utterances, because only it asks
    # the grammar.
    # A roomful of voices makes lattices that take seconds to sort: beyond this memory (bytes) the beam
    # shrinks. Twelve voices at once: 0.35 of real time in place of 2.0, and no command is heard worse.
    # Its network computes so many frames of 10 ms at a time. 12 of them cost a quarter more and answer no
    # sooner; with 42, one answer in ten comes 0.1 s later.
    "model.conf": (
        "--lattice-beam=6",
        "--max-mem=5000000",
        "--endpoint.rule1.min-trailing-silence=3",
        *(f"--endpoint.rule{n}.min-trailing-silence=0.09" for n in range(2, 5)),
        "--frames-per-chunk=24",
    ),
}
"""Lines added to the files in `conf/`; in Kaldi's option files the last line of a name counts."""


@contextmanager
def overlaid(model: Path) -> Iterator[Path]:
    """Yield a temporary folder that reads as `model` with SETTINGS on top; the stored model is only read.

    Raises ModelError where it cannot be made.
    """
    with tempfile.TemporaryDirectory(prefix="handsfree-model-") as folder:
        try:
            _lay(model.resolve(), Path(folder))
        except OSError as wrong:
            raise ModelError(
                worded("The speech model cannot be prepared: {why}.", why=wrong.strerror),
                worded("Check the model and the room in the temporary folder."),
            ) from wrong
        yield Path(folder)


def _lay(model: Path, folder: Path) -> None:
    for entry in model.iterdir():
        if entry.name != "conf":
            _link(entry, folder / entry.name)
    shutil.copytree(model / "conf", folder / "conf")
    for name, lines in SETTINGS.items():
        file = folder / "conf" / name
        file.write_text("\n".join((file.read_text("utf-8").rstrip("\n"), *lines, "")), "utf-8")


def _link(entry: Path, name: Path) -> None:
    try:
        name.symlink_to(entry)
    except OSError:
        # Some systems keep links for administrators.
        (shutil.copytree if entry.is_dir() else shutil.copy2)(entry, name)
