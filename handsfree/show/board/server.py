"""The board's server: one page, and a stream of what is to be seen on it (server-sent events)."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from importlib.resources import files
from ipaddress import IPv4Address
from socket import AF_INET, SO_REUSEADDR, SOCK_STREAM, SOL_SOCKET, socket
from threading import Thread

import uvicorn
from jinja2 import Environment, PackageLoader
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response, StreamingResponse
from starlette.routing import Route
from starlette.types import ASGIApp

from handsfree.errors import BoardFailed, WrongUse
from handsfree.show.board.guard import PASS, Codes, Guard
from handsfree.show.board.notice import Notices
from handsfree.show.board.visit import Visit
from handsfree.words import LANGUAGE, in_script, worded

STREAM_ALIVE_S = 10.0
"""In silence the stream tells the time so often, so that a page knows a lost connection."""

MOST_VIEWERS = 100

_KINDS = {"board.css": "text/css", "board.js": "text/javascript"}

_PAGES = Environment(loader=PackageLoader("handsfree.show.board", "page"), autoescape=True)


@dataclass(slots=True)
class Board:
    """The application. now: the session's time, as devices have other clocks. codes: what lets a device in;
    None where only this machine can look."""

    notices: Notices
    now: Callable[[], datetime]
    codes: Codes | None = None
    viewers: int = 0

    def app(self, hosts: frozenset[str]) -> ASGIApp:
        """As ASGI, for these names and ports."""
        routes = [
            Route("/", self._page),
            Route("/seen", self._seen),
            Route("/board.css", self._file),
            Route("/board.js", self._file),
        ]
        return Guard(Starlette(routes=routes), hosts)

    async def _page(self, request: Request) -> Response:
        if self._knows(request):
            return _worded("board.html")
        assert self.codes is not None
        given = self.codes.let_in(request.query_params["code"]) if "code" in request.query_params else None
        if given is None:
            return _worded("code.html", 403)
        response = RedirectResponse("/", 303)
        response.set_cookie(PASS, given, httponly=True, samesite="strict")
        return response

    async def _file(self, request: Request) -> Response:
        return _file(request.url.path.removeprefix("/"))

    async def _seen(self, request: Request) -> Response:
        if not self._knows(request):
            return PlainTextResponse(worded("Give the code first."), 403)
        if self.viewers >= MOST_VIEWERS:
            return PlainTextResponse(worded("Too many look at this board."), 503)
        return StreamingResponse(self._stream(), media_type="text/event-stream")

    async def _stream(self) -> AsyncIterator[str]:
        self.viewers += 1
        try:
            number = 0
            while True:
                newer, text = await self.notices.after(number, STREAM_ALIVE_S)
                # When it was put up says nothing of when it is read: the time goes with each sending.
                time = f"event: time\ndata: {self.now().isoformat()}\n\n"
                yield f"{time}data: {text}\n\n" if newer != number else time
                number = newer
        finally:
            self.viewers -= 1

    def _knows(self, request: Request) -> bool:
        return self.codes is None or self.codes.knows(request.cookies.get(PASS, ""))


def _file(name: str) -> Response:
    return Response(_source(name), media_type=_KINDS[name])


def _worded(name: str, status: int = 200) -> Response:
    """A page in the user's language, with the words for its script."""
    words = in_script(_source("board.js"))
    text = _PAGES.get_template(name).render(worded=worded, words=words, language=LANGUAGE)
    return Response(text, status, media_type="text/html")


def _source(name: str) -> str:
    return (files("handsfree.show.board") / "page" / name).read_text("utf-8")


def address_of(text: str) -> tuple[str, int]:
    """Address and port of "192.0.2.7:8437". Raises WrongUse."""
    address, _, port = text.rpartition(":")
    try:
        if 0 < int(port) < 65_536:
            return str(IPv4Address(address)), int(port)
    except ValueError:
        pass
    raise WrongUse(
        worded("{text} is no address for the board.", text=text),
        worded("Give one of this machine with a port, as 192.0.2.7:8437."),
    )


def _failed(address: str, port: int, fault: OSError) -> BoardFailed:
    why = {"address": address, "port": port, "why": fault.strerror}
    wrong = worded("The board cannot be served at {address}:{port} ({why}).", **why)
    return BoardFailed(wrong, worded("Choose another address or port."))


@contextmanager
def served(board: Board, address: str, port: int) -> Iterator[str]:
    """Serve in a thread of its own; gives the page's URL. port 0: any. Raises BoardFailed."""
    listening = socket(AF_INET, SOCK_STREAM)
    listening.setsockopt(SOL_SOCKET, SO_REUSEADDR, 1)
    try:
        listening.bind((address, port))
        listening.listen()
    except OSError as fault:
        listening.close()
        raise _failed(address, port, fault) from None
    port = listening.getsockname()[1]
    hosts = frozenset(
        f"{name}:{port}" for name in ({address, "localhost"} if board.codes is None else {address})
    )
    config = uvicorn.Config(
        board.app(hosts),
        log_config=None,
        lifespan="off",
        http=Visit,
        ws="none",
        server_header=False,
        timeout_keep_alive=5,
        timeout_graceful_shutdown=1,
        h11_max_incomplete_event_size=8192,
    )
    server = uvicorn.Server(config)
    thread = Thread(target=server.run, args=([listening],), name="board", daemon=True)
    thread.start()
    try:
        yield f"http://{address}:{port}/"
    finally:
        server.should_exit = True
        thread.join(3)
        listening.close()
