"""What is written of a run afterwards, on its page and in its record. Pure."""

from __future__ import annotations

from handsfree.words import worded

RECORD_CAUTION = worded("A memory aid's record of what was said to it. Check every number independently.")
WHOLE_SESSION = worded("Of the whole session")

LOST_ON_THE_WAY = worded("lost on the way from the microphone")
DISK_TOO_SLOW = worded("the disk was too slow")

PROVISIONAL = worded(
    "What is marked was said, not seen. Marks are provisional until an instructor signs them."
)
GUIDED = worded("Guided: each step was said beforehand.")

NOT_UNDERSTOOD = worded("Asked, and not understood.")
GONE_ON = worded("Gone on with after it was cut off.")
TAKEN_BACK = worded("Took back what was said.")
SET_RIGHT = worded("Set right.")
ACCEPTED = worded("Accepted by the instructor.")
KEPT_AS_SOUND = worded("Words kept as sound.")

CUES = (
    worded("What was missed was asked for."),
    worded("A nudge."),
    worded("The step was told."),
    worded("The step was told, with its reason."),
)
"""What a cue of each rung gave."""

DRILL_SCORE = worded(
    "A point for each step with a mark: half where it was prompted or out of order, none where it was "
    "missed. What was not seen does not count. The rules are this program's; local ones come first."
)


def practice_score(checklist: str, prompted_percent: int) -> str:
    """Where the weights of a practice run come from."""
    return worded(
        "Weights stand in the checklist {checklist}. A step that was told counts "
        "{prompted_percent} per cent.",
        checklist=checklist,
        prompted_percent=prompted_percent,
    )


def cut_off(what: str) -> str:
    """what: session, run or drill."""
    return worded("This {what} was cut off: what came after is not in it.", what=what)


def no_mark(count: int, of: int) -> str:
    """Steps of which an instructor said nothing."""
    return worded("{count} of {of} steps have no mark: nothing is said of them.", count=count, of=of)


def no_sound(file: str) -> str:
    """A file that the record names."""
    return worded("The sound file {file} is missing or cannot be read.", file=file)


def unverified(sound: str) -> str:
    """Words that no grammar holds. sound: where they lie, empty where they were not kept."""
    return worded("unverified words, sound in {sound}", sound=sound) if sound else worded("unverified words")
