"""The sound of a whole session, written as it comes: a kill costs no more than its last two seconds."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from queue import Empty, Full, Queue, SimpleQueue
from threading import Thread
from typing import Any, BinaryIO

from handsfree.errors import StoreFailed
from handsfree.keep.folder import made
from handsfree.signals import FRAME_S, FRAME_SAMPLES, SAMPLE_RATE, Frame, Noticed, Trouble
from handsfree.timeline import LostBy, Silence
from handsfree.words import worded

WAITING_S = 60.0
"""So much sound waits for a slow disk, in two megabytes; what comes beyond is lost, and stands as silence."""

SYNC_FRAMES = round(1 / FRAME_S)
"""After so many frames the file is sent through to the disk, in case the power fails. libsndfile hands a page
of Opus to the system each second by itself (measured), and a killed program loses no more than that."""

LOOK_S = 1.0
"""So often a frame that waits for room looks whether anybody still writes."""

CLOSE_S = 10.0
"""So long a disk that hangs may hold up the end of a session."""

_SILENT = bytes(2 * FRAME_SAMPLES)


class Soundtrack:
    """One file of Ogg Opus, `sound/<session>/soundtrack-<n>.ogg` in the sessions folder, n counted from 1.

    Opened when made; raises StoreFailed. Frames are taken in one thread and written in another, so that a
    slow disk holds nobody up. waits: who brings the sound can wait for the disk, as a recording can, which
    is heard faster than it is written. place: the file's path in the folder.
    """

    def __init__(self, folder: Path, session: str, *, waits: bool = False) -> None:
        self._waits = waits
        self.place, self._disk = _created(folder, session)
        self._begins: int | None = None
        self._next = 0
        self._silence: Silence | None = None
        self._waiting: Queue[Frame | None] = Queue(round(WAITING_S / FRAME_S))
        self._found: SimpleQueue[Silence | Noticed] = SimpleQueue()
        self._writer = Thread(target=self._write, name="soundtrack", daemon=True)
        self._writer.start()

    @property
    def written_s(self) -> float:
        """Seconds of sound that were handed to the file until now."""
        return (self._next - (self._begins or 0)) * FRAME_S

    def take(self, frame: Frame) -> None:
        """Take the next frame. One that finds no room waits, or else is lost, and stands as silence."""
        if self._begins is None:
            self._begins = self._next = _number(frame)
        while self._writer.is_alive():
            try:
                self._waiting.put(frame, self._waits, LOOK_S)
            except Full:
                if self._waits:
                    continue
            return

    def news(self) -> Iterator[Silence | Noticed]:
        """What went wrong and was not told yet: silence in place of sound, or that nothing is written."""
        while True:
            try:
                yield self._found.get_nowait()
            except Empty:
                return

    def close(self) -> None:
        """Write what waits, and end the file; what goes wrong then is in the news."""
        if self._writer.is_alive():
            try:
                self._waiting.put(None, timeout=CLOSE_S)
            except Full:
                self._found.put(Noticed(Trouble.UNWRITTEN))
            self._writer.join(CLOSE_S)

    def _write(self) -> None:
        import soundfile

        try:
            with self._disk as disk:
                with closing(_opus(disk)) as file:
                    while (frame := self._waiting.get()) is not None:
                        for _ in range(self._next, _number(frame)):
                            self._put(_SILENT, LostBy.STORE, file)
                        self._put(frame.pcm, LostBy.DEVICE if frame.taken.lost else None, file)
                os.fsync(disk.fileno())
        except (OSError, soundfile.SoundFileError):
            self._found.put(Noticed(Trouble.UNWRITTEN))
        self._note(None)

    def _put(self, pcm: bytes, lost_by: LostBy | None, file: Any) -> None:
        file.buffer_write(pcm, dtype="int16")
        self._note(lost_by)
        self._next += 1
        if self._next % SYNC_FRAMES == 0:
            os.fsync(self._disk.fileno())

    def _note(self, lost_by: LostBy | None) -> None:
        """Tell each silence once, when it is over."""
        known = self._silence
        if known is not None and known.lost_by is lost_by:
            self._silence = replace(known, lasted_s=known.lasted_s + FRAME_S)
            return
        if known is not None:
            self._found.put(known)
        self._silence = None if lost_by is None else Silence(self.written_s, FRAME_S, lost_by)


def _number(frame: Frame) -> int:
    """How many frames of the source came before this one."""
    return round(frame.end_s / FRAME_S) - 1


def _created(folder: Path, session: str) -> tuple[str, BinaryIO]:
    """The next free place, and the new file there, unbuffered. Raises StoreFailed."""
    held = folder / "sound" / session
    number = 1
    try:
        made(held)
        while (file := held / f"soundtrack-{number}.ogg").exists():
            number += 1
        return file.relative_to(folder).as_posix(), file.open("x+b", buffering=0)
    except OSError as fault:
        raise StoreFailed(
            worded("The sound can't be kept in {file}: {why}.", file=held, why=fault.strerror),
            worded("Free some space, or give another --sessions."),
        ) from fault


def _opus(disk: BinaryIO) -> Any:
    """A file of Opus on an open one, which stays open. Raises SoundFileError."""
    import soundfile

    return soundfile.SoundFile(
        disk.fileno(), "w", SAMPLE_RATE, 1, format="OGG", subtype="OPUS", closefd=False
    )
