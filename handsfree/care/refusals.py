"""Why a session refuses what was said, and what to say instead: every such sentence. Pure.

The record keeps them as they were said.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

NO_SENSE = "That makes no sense now."
NEEDLE_FIRST = "The needle comes first."

NO_STEP = "No step waits for that now."
CONFIRM_FIRST = "First say correct, or wrong."
ARM_FIRST = "First answer which arm."
IS_STOPPED = "This step is stopped. Answer again, or say new order."
CANNOT_BE_PASSED = "This cannot be passed over. Answer again, or say new order."
IS_DONE = "This step is done already."
WANTS_VALUE = "This step wants its value."
IS_CRITICAL = "This step is critical: say its own words."
FIRST_STEP = "This is the first step."
NO_OTHER_CHECKLIST = "No other checklist is open. Say end session to finish."

NO_SCORE = "No score follows from that."
NO_DROPS = "Count again: no drops were counted."
NO_RATE = "There is no drip rate yet: the order comes first."
NOTHING_TICKS = "Nothing ticks now. Say start ticking once the bag hangs."

NO_BAG = "No bag is running yet: the order and the start come first."
EMPTY_BAG = "A bag holds more than nothing. Say its volume again."
MORE_THAN_FULL = "That is more than was in the bag. Read it again."

NO_REMINDER = "No reminder waits for an answer. Ask: what is next."
MORE_REMINDERS = "More than one reminder waits. Answer each by its name."
TIMER_RANGE = "A timer runs from one minute to a day."
TIMER_IS_SET = "That is set already."
DELAY_RANGE = "From one minute to an hour. Or say: reminder is not needed."

NO_QUESTION = "There is no answer to go on from. Ask the whole question."
NO_ANSWER = "There is no answer to be used. Ask first."
NOTHING_NEW = "The plan takes nothing new of that answer."
NOTHING_RUNS = "Nothing runs yet. Ask how long a volume lasts at a rate."
SOUNDS_ALIKE = "That could be two things. Say it again, numbers digit by digit."
NO_UNIT = "Say that number with its unit."
KEEP_OPEN = "Keep open is not a rate. Ask for a number, and say how many millilitres an hour."
TOO_LITTLE = "That is too little to be told."

NO_NAME = "Name the one at hand first, for example: this is bed one."

NO_MARK = "There is no mark."
CLOCK_RUNS = "The clock runs already."
NO_CLOCK = "No clock is running."

NOTHING_SAID = "No step was said yet."
NOTHING_FAILED = "Nothing failed so far."

CLOSED: Mapping[str, str] = MappingProxyType(
    {
        **dict.fromkeys(("reminded", "later", "not_needed"), NO_REMINDER),
        **dict.fromkeys(("level", "bag_asked", "given_asked", "bag_changed", "beat", "count_drops"), NO_BAG),
        **dict.fromkeys(("beat_off", "faster", "slower"), NOTHING_TICKS),
        **dict.fromkeys(("follow_up", "use_that"), NO_QUESTION),
        "completion": f"{NO_STEP} To ask, begin with: what rate is.",
        **dict.fromkeys(("first", "second"), "There is nothing to choose from now."),
        "correct": "Nothing waits to be confirmed.",
        "wrong": "Nothing waits to be confirmed. To take the last change back, say undo.",
        "leave": NO_OTHER_CHECKLIST,
        "line": "There is no other line yet. Say new line, and its name.",
        "tubing_changed": "No drip set hangs yet.",
        "override": "Nothing is stopped.",
        "end_it": "Say end session first.",
        "carry_on": "I am not on hold.",
        "listen": "I am listening.",
    }
)
"""By command: why it can be closed while an answer is waited for."""

_NEEDED: Mapping[str, str] = MappingProxyType(
    {"bag": "no bag hangs", "tubing": "no drip set hangs", "flow": "nothing is running"}
)
"""By clock: what is so before it has begun; without any of these, no line is in."""

FOUND_BY_LOOKING: Mapping[str, str] = MappingProxyType(
    {
        "site": "Say what you see: site's fine, or what is wrong.",
        "recount": "Count the drops, and say how many in how many seconds.",
    }
)
"""By kind of reminder: what answers it, where "done" does not."""


def not_before(step: str) -> str:
    """step: what is to be done in the other one."""
    return f"Not yet. First: {step}"


def not_for(seconds: int) -> str:
    """A step has to wait for so long."""
    return f"Not yet. {seconds} more second{'s' if seconds > 1 else ''}."


def needs(title: str, clock: str, here: str) -> str:
    """A checklist has to wait for a clock to begin. here: at which line, empty where there is one."""
    return f"{title} has to wait: {_NEEDED.get(clock, 'no line is in')} yet{f' at {here}' if here else ''}."


def waits_for(title: str, other: str) -> str:
    """A checklist has to wait for the end of another."""
    return f"{title} has to wait. Finish {other} first, or say cancel the check."


def is_open(title: str) -> str:
    """A checklist that is begun while it is open."""
    return f"{title} is open already."


def go_on_with(title: str) -> str:
    """An answer that belongs to the checklist underneath."""
    return f"{title} is open: go on with it, or say cancel the check."


def two_gauges(colour: str, number: str) -> str:
    """The colour of a cannula and the number on it do not go together."""
    return f"The colour says {colour}, the number {number}. Read the pack again."


def two_values(quantity: str) -> str:
    """A question in which one quantity was told twice."""
    return f"I heard two values of the {quantity}. Ask again with one."


def no_line(name: str) -> str:
    """No line is called so."""
    return f"There is no {name} yet. Say new patient {name}, or new line {name}."


def name_taken(name: str) -> str:
    """The line at hand cannot be called as another."""
    return f"There is {name} already. Choose another name."


def line_taken(name: str) -> str:
    """A line cannot begin under the name of another."""
    return f"There is {name} already. Say its name to go on there."
