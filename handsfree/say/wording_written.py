"""What is written of a run afterwards, on its page and in its record. Pure."""

from __future__ import annotations

RECORD_CAUTION = "A memory aid's record of what was said to it. Check every number independently."
WHOLE_SESSION = "Of the whole session"

LOST_ON_THE_WAY = "lost on the way from the microphone"
DISK_TOO_SLOW = "the disk was too slow"

PROVISIONAL = "What is marked was said, not seen. Marks are provisional until an instructor signs them."
GUIDED = "Guided: each step was said beforehand."

NOT_UNDERSTOOD = "Asked, and not understood."
GONE_ON = "Gone on with after it was cut off."
TAKEN_BACK = "Took back what was said."
SET_RIGHT = "Set right."
ACCEPTED = "Accepted by the instructor."
KEPT_AS_SOUND = "Words kept as sound."

CUES = (
    "What was missed was asked for.",
    "A nudge.",
    "The step was told.",
    "The step was told, with its reason.",
)
"""What a cue of each rung gave."""

DRILL_SCORE = (
    "A point for each step with a mark: half where it was prompted or out of order, none where it was "
    "missed. What was not seen does not count. The rules are this program's; local ones come first."
)


def practice_score(checklist: str, prompted_percent: int) -> str:
    """Where the weights of a practice run come from."""
    return (
        f"Weights stand in the checklist {checklist}. "
        f"A step that was told counts {prompted_percent} per cent."
    )


def cut_off(what: str) -> str:
    """what: session, run or drill."""
    return f"This {what} was cut off: what came after is not in it."


def no_mark(count: int, of: int) -> str:
    """Steps of which an instructor said nothing."""
    return f"{count} of {of} steps have no mark: nothing is said of them."


def no_sound(file: str) -> str:
    """A file that the record names."""
    return f"The sound file {file} is missing or cannot be read."


def unverified(sound: str) -> str:
    """Words that no grammar holds. sound: where they lie, empty where they were not kept."""
    return f"unverified words, sound in {sound}" if sound else "unverified words"
