"""What is said when a part of the machine fails, and where a session is kept and seen. Pure."""

from __future__ import annotations

from pathlib import PurePath

from handsfree.words import worded

NOT_RECORDED = worded("Not recorded.")
RECORDED_AGAIN = worded("Recording again. Nothing is missing.")

GO_ON = worded("Then go on: handsfree resume.")

CLIP_LOST = worded("The sound of that was not kept.")

IN_A_NETWORK = worded("Whoever is in this network can see that it is there, and its words are not encrypted.")


def recording_failed(why: str) -> str:
    """Said once, as soon as something cannot be written."""
    return worded("Warning. This is not being recorded. {why}", why=why).strip()


def rows_lost(count: int, session: str) -> str:
    """At the end, where the store did not come back."""
    return worded("The last {count} rows of session {session} are not kept.", count=count, session=session)


def microphone_failed(fault: str) -> str:
    """The last that is said in a run."""
    return worded("I cannot hear you. {fault}", fault=fault)


def kept_as(session: str, where: PurePath) -> str:
    """The last that is told to whoever began the session."""
    return worded("Kept as {session} in {where}.", session=session, where=where)


def sound_kept(where: PurePath, session: str) -> str:
    """Told at the start to whoever began the session."""
    return worded(
        "All sound of this session is kept in {where}, and nowhere else. To erase it with its "
        "record: handsfree sessions --erase {session}",
        where=where,
        session=session,
    )


def board_at(url: str) -> str:
    """Where to look."""
    return worded("The board: {url}", url=url)


def board_code(code: str) -> str:
    """Each code lets one device in."""
    return worded("Code for the next device: {code}", code=code)
