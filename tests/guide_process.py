"""`handsfree guide` and others as processes of their own, fed line by line."""

from __future__ import annotations

import multiprocessing
import os
import subprocess
import sys
from multiprocessing.connection import Connection
from pathlib import Path

WAIT_S = 60


def walked(folder: Path, *arguments: object, lines: tuple[str, ...]) -> subprocess.CompletedProcess[str]:
    """Run a command on typed lines to the end of the input."""
    words = [sys.executable, "-m", "handsfree", *map(str, arguments), "--ear", "typed", "--sessions", folder]
    said = "".join(f"{line}\n" for line in lines)
    return subprocess.run(words, input=said, capture_output=True, text=True, check=False, timeout=WAIT_S)


def killed(
    folder: Path,
    lines: tuple[str, ...],
    after: int,
    wait_s: float = 0.0,
    command: tuple[str, ...] = ("guide",),
) -> list[str]:
    """Start a session with all its lines typed ahead, kill it a while after some printed sentences.

    Returns every whole line that it printed.
    """
    typed = folder.with_suffix(".lines")
    typed.write_text("".join(f"{line}\n" for line in lines))
    spawn = multiprocessing.get_context("forkserver")
    spawn.set_forkserver_preload(["handsfree.cli.guide", "handsfree.sessions", "handsfree.keep.journal"])
    ours, theirs = spawn.Pipe(duplex=False)
    process = spawn.Process(target=_run, args=(command, folder, typed, theirs))
    process.start()
    theirs.close()
    with os.fdopen(os.dup(ours.fileno()), encoding="utf-8") as stdout:
        printed = [stdout.readline() for _ in range(after)]
        process.join(wait_s)
        process.kill()
        printed += stdout.readlines()
    process.join()
    ours.close()
    return [line.rstrip("\n") for line in printed if line.endswith("\n")]


def _run(command: tuple[str, ...], folder: Path, typed: Path, out: Connection) -> None:
    """The command in a process whose imports are done, with a pipe for its standard output."""
    from handsfree.cli import run
    from handsfree.cli.process import collect_seldom

    collect_seldom()
    with (
        typed.open(encoding="utf-8") as sys.stdin,
        os.fdopen(os.dup(out.fileno()), "w", encoding="utf-8") as sys.stdout,
    ):
        run([*command, "--ear", "typed", "--sessions", str(folder)])
