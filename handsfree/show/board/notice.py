"""The notice that hangs on the board: always the newest, and whoever looks waits for the next."""

from __future__ import annotations

import asyncio
from threading import Lock


class Notices:
    """Put up by one thread, read by many viewers in the server's loop.

    Viewers keep no queue: one that is slow misses what was put up meanwhile, and holds nobody up.
    """

    def __init__(self) -> None:
        self._text, self._number = "", 0
        self._lock = Lock()
        self._loop: asyncio.AbstractEventLoop | None = None
        self._waiting: set[asyncio.Event] = set()

    def put_up(self, text: str) -> None:
        """Hang out a text, from any thread; returns at once. The same text again changes nothing."""
        with self._lock:
            if text == self._text:
                return
            self._text, self._number = text, self._number + 1
            loop = self._loop
        if loop is not None and not loop.is_closed():
            loop.call_soon_threadsafe(self._wake)

    async def after(self, number: int, most_s: float) -> tuple[int, str]:
        """The newest notice and its number, once it is another than `number`, at the latest in `most_s`."""
        woken = asyncio.Event()
        with self._lock:
            self._loop = asyncio.get_running_loop()
            if self._number != number:
                return self._number, self._text
            self._waiting.add(woken)
        try:
            async with asyncio.timeout(most_s):
                await woken.wait()
        except TimeoutError:
            pass
        finally:
            self._waiting.discard(woken)
        with self._lock:
            return self._number, self._text

    def _wake(self) -> None:
        for woken in self._waiting:
            woken.set()
