"""Notices: the newest is seen, and nobody who looks holds anybody up."""

from __future__ import annotations

import asyncio
from threading import Thread

from handsfree.show.board.notice import Notices

LONG_S, SHORT_S = 20.0, 0.01


def test_first_look_shows_the_newest() -> None:
    """Whoever comes, or comes back, sees what hangs there now, and nothing that hung there before."""
    notices = Notices()
    notices.put_up("one")
    notices.put_up("two")

    assert (2, "two") == asyncio.run(notices.after(0, SHORT_S))


def test_nothing_new_is_told_after_the_time() -> None:
    """The number stays; the same text again is nothing new."""
    notices = Notices()
    notices.put_up("one")
    notices.put_up("one")

    assert (1, "one") == asyncio.run(notices.after(1, SHORT_S))


def test_all_who_wait_are_woken_from_another_thread() -> None:
    """Fifty viewers wait; the session's thread puts something up."""
    notices = Notices()

    async def looked() -> list[tuple[int, str]]:
        viewers = [asyncio.create_task(notices.after(0, LONG_S)) for _ in range(50)]
        await asyncio.sleep(0)
        thread = Thread(target=notices.put_up, args=("new",))
        thread.start()
        seen = await asyncio.gather(*viewers)
        thread.join()
        return seen

    assert [(1, "new")] * 50 == asyncio.run(looked())


def test_nobody_looks_any_more() -> None:
    """The server is gone; the session goes on putting things up."""
    notices = Notices()
    asyncio.run(notices.after(0, SHORT_S))
    notices.put_up("after the end")

    assert (1, "after the end") == asyncio.run(notices.after(0, SHORT_S))
