"""Who may look at the board: requests for this address, from this page, by devices that were let in."""

from __future__ import annotations

import secrets
from collections.abc import Callable, Mapping
from types import MappingProxyType

from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from handsfree.words import worded

HEADERS: Mapping[str, str] = MappingProxyType(
    {
        "content-security-policy": "default-src 'none'; script-src 'self'; style-src 'self'; "
        "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
        "x-frame-options": "DENY",
        "x-content-type-options": "nosniff",
        "referrer-policy": "no-referrer",
        "cross-origin-opener-policy": "same-origin",
        "cross-origin-resource-policy": "same-origin",
        "permissions-policy": "camera=(), microphone=(), geolocation=()",
        "cache-control": "no-store",
    }
)
"""Sent with every answer: the page loads nothing from elsewhere, and stands in no other page (W3C, Content
Security Policy Level 3; WHATWG, Fetch)."""

PASS = "handsfree_board"
"""Name of the cookie of a device that was let in."""

WRONG_CODES = 5
"""After so many wrong codes nobody is let in any more: one of a million is not to be guessed."""


class Codes:
    """One-time codes of six figures: each lets one device in, and then there is another.

    told: hears of each new code. code: the one that is good now.

    """

    def __init__(self, told: Callable[[str], None]) -> None:
        self._told, self.code = told, _code()
        self._passes: set[str] = set()
        self._wrong = 0

    def let_in(self, code: str) -> str | None:
        """A pass for whoever gives the code, which is used up by it; None for a wrong one."""
        if self._wrong >= WRONG_CODES:
            return None
        if not secrets.compare_digest(code.encode(), self.code.encode()):
            self._wrong += 1
            return None
        self.code, given = _code(), secrets.token_urlsafe(32)
        self._passes.add(given)
        self._told(self.code)
        return given

    def knows(self, given: str) -> bool:
        """Whether a pass was given out."""
        return any(secrets.compare_digest(given.encode(), one.encode()) for one in self._passes)


class Guard:
    """Around an application: refuses what is not for it, and sends HEADERS with all that goes out.

    hosts: `name:port` under which the board is called; another name is another page's trick to read this one.
    """

    def __init__(self, app: ASGIApp, hosts: frozenset[str]) -> None:
        self._app, self._hosts = app, hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request, as ASGI has it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                added = [(name.encode(), value.encode()) for name, value in HEADERS.items()]
                message["headers"] = [*message.get("headers", []), *added]
            await send(message)

        wrong = self._wrong_with(Headers(scope=scope), scope["method"])
        app = PlainTextResponse(wrong, 403) if wrong else self._app
        await app(scope, receive, guarded)

    def _wrong_with(self, headers: Headers, method: str) -> str:
        """What speaks against a request; empty where nothing does."""
        host, origin = headers.get("host", ""), headers.get("origin")
        if host not in self._hosts:
            return worded("This board has another address.")
        if origin is not None and origin != f"http://{host}":
            return worded("This board does not answer other pages.")
        if headers.get("sec-fetch-site", "none") not in ("none", "same-origin"):
            return worded("This board does not answer other pages.")
        return "" if method in ("GET", "HEAD") else worded("This board can only be looked at.")


def _code() -> str:
    return f"{secrets.randbelow(1_000_000):06}"
