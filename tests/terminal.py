"""A terminal at which somebody sits."""

from __future__ import annotations

import os
import pty
import subprocess
from collections.abc import Mapping


class Terminal:
    """One command in a terminal of its own. seen: all that is to be seen so far."""

    def __init__(self, *words: str, environment: Mapping[str, str]) -> None:
        self._ours, theirs = pty.openpty()
        self._process = subprocess.Popen(
            words, stdin=theirs, stdout=theirs, stderr=theirs, env=environment, start_new_session=True
        )
        os.close(theirs)
        self.seen = ""

    def __enter__(self) -> Terminal:
        return self

    def __exit__(self, *_: object) -> None:
        self._process.kill()
        self._process.wait()
        os.close(self._ours)

    def until(self, words: str) -> bool:
        """Read until these words are to be seen, or the command is over; whether they are."""
        while words not in self.seen and (piece := self._read()):
            self.seen += piece
        return words in self.seen

    def type(self, line: str) -> None:
        """What somebody enters."""
        os.write(self._ours, f"{line}\n".encode())

    @property
    def is_over(self) -> bool:
        return self._process.poll() is not None

    def end(self) -> int:
        """Read to the end; the exit status."""
        while piece := self._read():
            self.seen += piece
        return self._process.wait()

    def _read(self) -> str:
        try:
            return os.read(self._ours, 4096).decode(errors="replace").replace("\r\n", "\n")
        except OSError:  # Linux: the other side is closed
            return ""


def in_terminal(*words: str, environment: Mapping[str, str]) -> tuple[int, str]:
    """Run a command to its end; its exit status, and all that is to be seen."""
    with Terminal(*words, environment=environment) as terminal:
        return terminal.end(), terminal.seen
