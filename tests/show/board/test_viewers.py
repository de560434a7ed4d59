"""Many viewers at once, some of them slow: each sees the newest, and nobody holds the session up."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import AsyncIterator
from urllib.parse import urlsplit

import httpx

from handsfree.show.board.notice import Notices
from handsfree.show.board.server import MOST_VIEWERS, Board, served

VIEWERS = 50
LARGE = "x" * 100_000
"""More than a connection holds that nobody reads from."""


async def notices_of(client: httpx.AsyncClient) -> AsyncIterator[str]:
    async with client.stream("GET", "/seen") as answer:
        assert 200 == answer.status_code
        async for line in answer.aiter_lines():
            if line.startswith("data: "):
                yield line.removeprefix("data: ")


async def newest(client: httpx.AsyncClient, seen: asyncio.Semaphore) -> str:
    """The second notice that a viewer gets; it tells when it has got the first."""
    async for text in notices_of(client):
        if text != "first":
            return text
        seen.release()
    raise AssertionError("The stream ended.")


def test_fifty_viewers_see_what_is_put_up() -> None:
    """All of them, from one notice to the next."""
    notices = Notices()
    notices.put_up("first")

    async def looked(url: str) -> list[str]:
        limits, seen = httpx.Limits(max_connections=VIEWERS), asyncio.Semaphore(0)
        async with httpx.AsyncClient(base_url=url, limits=limits, timeout=60) as client:
            viewers = [asyncio.create_task(newest(client, seen)) for _ in range(VIEWERS)]
            for _ in viewers:
                await seen.acquire()
            notices.put_up("second")
            return await asyncio.gather(*viewers)

    with served(Board(notices), "127.0.0.1", 0) as url:
        assert ["second"] * VIEWERS == asyncio.run(looked(url))


def test_slow_viewer_holds_nobody_up() -> None:
    """One asks and never reads, one never ends its request; the others see every last notice at once."""
    notices = Notices()

    async def last_seen(url: str) -> str:
        async with httpx.AsyncClient(base_url=url, timeout=60) as client:
            async for text in notices_of(client):
                if text.endswith("last"):
                    return text
        raise AssertionError("The stream ended.")

    with served(Board(notices), "127.0.0.1", 0) as url, socket.socket() as mute, socket.socket() as endless:
        place = urlsplit(url)
        assert place.hostname is not None
        assert place.port is not None
        mute.connect((place.hostname, place.port))
        mute.sendall(f"GET /seen HTTP/1.1\r\nHost: {place.netloc}\r\n\r\n".encode())
        endless.connect((place.hostname, place.port))
        endless.sendall(b"GET / HTTP/1.1\r\nX-Endless: ")
        for number in range(200):
            notices.put_up(f"{LARGE}{number}")
        notices.put_up(f"{LARGE}last")

        assert f"{LARGE}last" == asyncio.run(last_seen(url))


def test_more_than_can_look_are_told_so() -> None:
    """Who comes when all places are taken gets an answer, and who was there stays."""
    board = Board(Notices(), viewers=MOST_VIEWERS)
    with served(board, "127.0.0.1", 0) as url:
        assert 503 == httpx.get(f"{url}seen").status_code
