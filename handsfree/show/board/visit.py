"""One connection to the board: there are not too many at once, and each has to ask for something soon."""

from __future__ import annotations

import asyncio

from uvicorn.protocols.http.h11_impl import H11Protocol

MOST_VISITS = 200
"""Each takes a file handle, and a process has about a thousand: the session needs some to go on."""

ASKS_WITHIN_S = 5.0


class Visit(H11Protocol):
    """HTTP as uvicorn speaks it, which by itself waits for whoever connects and says nothing."""

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Turn away who comes when all places are taken; give the others some time to ask."""
        super().connection_made(transport)
        if len(self.connections) > MOST_VISITS:
            transport.abort()
        else:
            self.loop.call_later(ASKS_WITHIN_S, self._asked_or_gone)

    def _asked_or_gone(self) -> None:
        if self.cycle is None:
            self.transport.abort()
