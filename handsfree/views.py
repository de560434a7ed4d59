"""Where a session can be seen: on a board in browsers, and in the terminal."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from datetime import datetime

from handsfree.glance import Glance, Status
from handsfree.say.wording_machine import IN_A_NETWORK, board_at, board_code

THIS_MACHINE = "127.0.0.1:8437"
"""Where the board is shown to nobody else."""

Show = Callable[[Glance, Status], None]
"""Puts up the newest moment; returns at once."""


@contextmanager
def open_views(board: str, screen: bool, now: Callable[[], datetime]) -> Iterator[Show | None]:
    """Open what was chosen; gives what shows a moment on all of it, None where nothing was chosen.

    board: address and port, empty for none. screen: the terminal. now: the session's time.
    Raises WrongUse, BoardFailed.
    """
    with ExitStack() as stack:
        views: list[Show] = []
        if board:
            views.append(stack.enter_context(_board(board, now)))
        if screen:
            views.append(stack.enter_context(_screen(now)))

        def show(seen: Glance, status: Status) -> None:
            for view in views:
                view(seen, status)

        yield show if views else None


@contextmanager
def _screen(now: Callable[[], datetime]) -> Iterator[Show]:
    from rich.console import Console

    from handsfree.show.screen import Screen

    with Screen(Console(), now) as screen:
        yield screen.show


@contextmanager
def _board(at: str, now: Callable[[], datetime]) -> Iterator[Show]:
    """Whoever started the session is told where to look, and the code for other devices."""
    from handsfree.show.board.guard import Codes
    from handsfree.show.board.notice import Notices
    from handsfree.show.board.server import Board, address_of, served
    from handsfree.show.board.written import written

    address, port = address_of(at)
    notices = Notices()
    board = Board(notices, now, None if at == THIS_MACHINE else Codes(_tell_code))
    with served(board, address, port) as url:
        _tell(board_at(url))
        if board.codes is not None:
            _tell(IN_A_NETWORK)
            _tell_code(board.codes.code)
        yield lambda seen, status: notices.put_up(written(seen, status))


def _tell_code(code: str) -> None:
    _tell(board_code(code))


def _tell(line: str) -> None:
    print(line, file=sys.stderr, flush=True)
