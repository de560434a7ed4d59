"""Many viewers at once, some of them slow: each sees the newest, and nobody holds the session up."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import AsyncIterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, suppress
from threading import Event
from urllib.parse import urlsplit

import httpx
import pytest

from handsfree.show.board import visit
from handsfree.show.board.notice import Notices
from handsfree.show.board.server import MOST_VIEWERS, Board, served
from handsfree.testing.dialogue import START

VIEWERS = 50
TIME = f"data: {START.isoformat()}"
LARGE = "x" * 100_000
"""More than a connection holds that nobody reads from."""


async def notices_of(client: httpx.AsyncClient) -> AsyncIterator[str]:
    async with client.stream("GET", "/seen") as answer:
        assert 200 == answer.status_code
        async for line in answer.aiter_lines():
            if line.startswith("data: ") and line != TIME:
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

    with served(Board(notices, lambda: START), "127.0.0.1", 0) as url:
        assert ["second"] * VIEWERS == asyncio.run(looked(url))


async def last_seen(url: str, there: Event) -> str:
    """What a viewer sees in the end; it tells when it has seen anything."""
    async with httpx.AsyncClient(base_url=url, timeout=60) as client:
        async for text in notices_of(client):
            there.set()
            if text.endswith("last"):
                return text
    raise AssertionError("The stream ended.")


def address(url: str) -> tuple[str, int]:
    """As sockets want it."""
    place = urlsplit(url)
    assert place.hostname is not None
    assert place.port is not None
    return place.hostname, place.port


def test_slow_viewer_holds_nobody_up() -> None:
    """One asks and never reads, one never ends its request; the others see every last notice at once."""
    notices = Notices()

    with (
        served(Board(notices, lambda: START), "127.0.0.1", 0) as url,
        socket.socket() as mute,
        socket.socket() as endless,
    ):
        mute.connect(address(url))
        mute.sendall(f"GET /seen HTTP/1.1\r\nHost: {urlsplit(url).netloc}\r\n\r\n".encode())
        endless.connect(address(url))
        endless.sendall(b"GET / HTTP/1.1\r\nX-Endless: ")
        for number in range(200):
            notices.put_up(f"{LARGE}{number}")
        notices.put_up(f"{LARGE}last")

        assert f"{LARGE}last" == asyncio.run(last_seen(url, Event()))


def test_more_than_can_look_are_told_so() -> None:
    """Who comes when all places are taken gets an answer, and who was there stays."""
    board = Board(Notices(), lambda: START, viewers=MOST_VIEWERS)
    with served(board, "127.0.0.1", 0) as url:
        assert 503 == httpx.get(f"{url}seen").status_code


def turned_away(visitor: socket.socket) -> bool:
    """The server closes the connection."""
    with suppress(ConnectionError):
        while visitor.recv(4096):
            pass
    return True


def test_a_crowd_is_turned_away(monkeypatch: pytest.MonkeyPatch) -> None:
    """A thousand connect, half of them with a request that never ends: none stays, and who looks sees on."""
    monkeypatch.setattr(visit, "ASKS_WITHIN_S", 0.1)
    notices, there = Notices(), Event()
    notices.put_up("first")
    with (
        served(Board(notices, lambda: START), "127.0.0.1", 0) as url,
        ThreadPoolExecutor(1) as pool,
        ExitStack() as crowd,
    ):
        watching = pool.submit(asyncio.run, last_seen(url, there))
        there.wait()
        many = [crowd.enter_context(socket.create_connection(address(url))) for _ in range(1_000)]
        for one in many[::2]:
            with suppress(ConnectionError):
                one.sendall(b"GET / HTTP/1.1\r\nX-Endless: " + b"x" * 20_000)
        assert all(map(turned_away, many))
        notices.put_up("last")

        assert "last" == watching.result()
        assert 200 == httpx.get(url).status_code


def test_more_than_can_connect_are_turned_away() -> None:
    """The session needs file handles of its own."""
    with served(Board(Notices(), lambda: START), "127.0.0.1", 0) as url, ExitStack() as crowd:
        for _ in range(visit.MOST_VISITS):
            crowd.enter_context(socket.create_connection(address(url)))
        assert turned_away(crowd.enter_context(socket.create_connection(address(url))))
