"""A program that is killed loses nothing of what append returned from."""

from __future__ import annotations

import multiprocessing
import random
from contextlib import closing
from multiprocessing.connection import Connection
from pathlib import Path

from handsfree.keep.journal import SqlJournal
from handsfree.testing.journal import row

KILLS = 30


def write_on(folder: Path, first: int, told: Connection) -> None:
    """Append row after row, telling each after it was kept, until killed."""
    journal = SqlJournal(folder)
    seq = first
    while True:
        journal.append([row("one", seq, text="x" * (seq % 700))])
        told.send(seq)
        seq += 1


def killed_after(folder: Path, first: int, rows: int, wait_s: float) -> int:
    """Let a process write at least so many rows and a moment more; returns the last row that it told."""
    spawn = multiprocessing.get_context("forkserver")
    spawn.set_forkserver_preload(["handsfree.keep.journal"])
    ours, theirs = spawn.Pipe(duplex=False)
    process = spawn.Process(target=write_on, args=(folder, first, theirs))
    process.start()
    theirs.close()
    last = 0
    for _ in range(rows):
        last = ours.recv()
    process.join(wait_s)
    process.kill()
    process.join()
    try:
        while True:
            last = ours.recv()
    except EOFError:
        ours.close()
        return last


def test_a_kill_at_any_moment_loses_nothing_that_was_told(tmp_path: Path) -> None:
    """After each of thirty kills at random moments every row that was told is there and the chain is
    whole; the next process goes on from there."""
    moments = random.Random(7)
    kept = 0
    for _ in range(KILLS):
        told = killed_after(tmp_path, kept + 1, moments.randint(1, 5), moments.uniform(0, 0.01))
        with closing(SqlJournal(tmp_path)) as journal:
            rows = journal.read("one")

        assert [each.seq for each in rows] == list(range(1, len(rows) + 1))
        assert told <= len(rows) <= told + 1
        kept = len(rows)
