"""What is said when a part of the machine fails, and where a session is kept and seen. Pure."""

from __future__ import annotations

from pathlib import PurePath

NOT_RECORDED = "Not recorded."
RECORDED_AGAIN = "Recording again. Nothing is missing."

GO_ON = "Then go on: handsfree resume."

CLIP_LOST = "The sound of that was not kept."

IN_A_NETWORK = "Whoever is in this network can see that it is there, and its words are not encrypted."


def recording_failed(why: str) -> str:
    """Said once, as soon as something cannot be written."""
    return f"Warning. This is not being recorded. {why}".strip()


def rows_lost(count: int, session: str) -> str:
    """At the end, where the store did not come back."""
    return f"The last {count} rows of session {session} are not kept."


def microphone_failed(fault: str) -> str:
    """The last that is said in a run."""
    return f"I cannot hear you. {fault}"


def sound_kept(where: PurePath, session: str) -> str:
    """Told at the start to whoever began the session."""
    return (
        f"All sound of this session is kept in {where}, and nowhere else. "
        f"To erase it with its record: handsfree sessions --erase {session}"
    )


def board_at(url: str) -> str:
    """Where to look."""
    return f"The board: {url}"


def board_code(code: str) -> str:
    """Each code lets one device in."""
    return f"Code for the next device: {code}"
