"""Why a session refuses what was said, and what to say instead: every such sentence. Pure.

The record keeps them as they were said.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from handsfree.words import worded

NO_SENSE = worded("That makes no sense now.")
NEEDLE_FIRST = worded("The needle comes first.")

NO_STEP = worded("No step waits for that now.")
CONFIRM_FIRST = worded("First say correct, or wrong.")
ARM_FIRST = worded("First answer which arm.")
IS_STOPPED = worded("This step is stopped. Answer again, or say new order.")
CANNOT_BE_PASSED = worded("This cannot be passed over. Answer again, or say new order.")
IS_DONE = worded("This step is done already.")
WANTS_VALUE = worded("This step wants its value.")
IS_CRITICAL = worded("This step is critical: say its own words.")
FIRST_STEP = worded("This is the first step.")
NO_OTHER_CHECKLIST = worded("No other checklist is open. Say end session to finish.")

NO_SCORE = worded("No score follows from that.")
NO_DROPS = worded("Count again: no drops were counted.")
NO_RATE = worded("There is no drip rate yet: the order comes first.")
NOTHING_TICKS = worded("Nothing ticks now. Say start ticking once the bag hangs.")

NO_BAG = worded("No bag is running yet: the order and the start come first.")
EMPTY_BAG = worded("A bag holds more than nothing. Say its volume again.")
MORE_THAN_FULL = worded("That is more than was in the bag. Read it again.")

NO_REMINDER = worded("No reminder waits for an answer. Ask: what is next.")
MORE_REMINDERS = worded("More than one reminder waits. Answer each by its name.")
TIMER_RANGE = worded("A timer runs from one minute to a day.")
TIMER_IS_SET = worded("That is set already.")
DELAY_RANGE = worded("From one minute to an hour. Or say: reminder is not needed.")

NO_QUESTION = worded("There is no answer to go on from. Ask the whole question.")
NO_ANSWER = worded("There is no answer to be used. Ask first.")
NOTHING_NEW = worded("The plan takes nothing new of that answer.")
NOTHING_RUNS = worded("Nothing runs yet. Ask how long a volume lasts at a rate.")
SOUNDS_ALIKE = worded("That could be two things. Say it again, numbers digit by digit.")
NO_UNIT = worded("Say that number with its unit.")
KEEP_OPEN = worded("Keep open is not a rate. Ask for a number, and say how many millilitres an hour.")
TOO_LITTLE = worded("That is too little to be told.")

NO_NAME = worded("Name the one at hand first, for example: this is bed one.")

NO_MARK = worded("There is no mark.")
CLOCK_RUNS = worded("The clock runs already.")
NO_CLOCK = worded("No clock is running.")

NOTHING_SAID = worded("No step was said yet.")
NOTHING_FAILED = worded("Nothing failed so far.")

CLOSED: Mapping[str, str] = MappingProxyType(
    {
        **dict.fromkeys(("reminded", "later", "not_needed"), NO_REMINDER),
        **dict.fromkeys(("level", "bag_asked", "given_asked", "bag_changed", "beat", "count_drops"), NO_BAG),
        **dict.fromkeys(("beat_off", "faster", "slower"), NOTHING_TICKS),
        **dict.fromkeys(("follow_up", "use_that"), NO_QUESTION),
        "completion": f"{NO_STEP} {worded('To ask, begin with: what rate is.')}",
        **dict.fromkeys(("first", "second"), worded("There is nothing to choose from now.")),
        "correct": worded("Nothing waits to be confirmed."),
        "wrong": worded("Nothing waits to be confirmed. To take the last change back, say undo."),
        "leave": NO_OTHER_CHECKLIST,
        "line": worded("There is no other line yet. Say new line, and its name."),
        "tubing_changed": worded("No drip set hangs yet."),
        "override": worded("Nothing is stopped."),
        "end_it": worded("Say end session first."),
        "carry_on": worded("I am not on hold."),
        "listen": worded("I am listening."),
    }
)
"""By command: why it can be closed while an answer is waited for."""

_NEEDED: Mapping[str, str] = MappingProxyType(
    {
        "bag": worded("no bag hangs yet"),
        "tubing": worded("no drip set hangs yet"),
        "flow": worded("nothing is running yet"),
    }
)
"""By clock: what is so before it has begun; without any of these, no line is in."""

FOUND_BY_LOOKING: Mapping[str, str] = MappingProxyType(
    {
        "site": worded("Say what you see: site's fine, or what is wrong."),
        "recount": worded("Count the drops, and say how many in how many seconds."),
    }
)
"""By kind of reminder: what answers it, where "done" does not."""


def not_before(step: str) -> str:
    """step: what is to be done in the other one."""
    return worded("Not yet. First: {step}", step=step)


def not_for(seconds: int) -> str:
    """A step has to wait for so long."""
    if seconds > 1:
        return worded("Not yet. {seconds} more seconds.", seconds=seconds)
    return worded("Not yet. {seconds} more second.", seconds=seconds)


def needs(title: str, clock: str, here: str) -> str:
    """A checklist has to wait for a clock to begin. here: at which line, empty where there is one."""
    why = _NEEDED.get(clock, worded("no line is in yet"))
    if here:
        return worded("{title} has to wait: {why} at {line}.", title=title, why=why, line=here)
    return worded("{title} has to wait: {why}.", title=title, why=why)


def waits_for(title: str, other: str) -> str:
    """A checklist has to wait for the end of another."""
    return worded(
        "{title} has to wait. Finish {other} first, or say cancel the check.", title=title, other=other
    )


def is_open(title: str) -> str:
    """A checklist that is begun while it is open."""
    return worded("{title} is open already.", title=title)


def go_on_with(title: str) -> str:
    """An answer that belongs to the checklist underneath."""
    return worded("{title} is open: go on with it, or say cancel the check.", title=title)


def two_gauges(colour: str, number: str) -> str:
    """The colour of a cannula and the number on it do not go together."""
    return worded(
        "The colour says {colour}, the number {number}. Read the pack again.", colour=colour, number=number
    )


def two_values(quantity: str) -> str:
    """A question in which one quantity was told twice."""
    return worded("I heard two values of the {quantity}. Ask again with one.", quantity=quantity)


def no_line(name: str) -> str:
    """No line is called so."""
    return worded("There is no {name} yet. Say new patient {name}, or new line {name}.", name=name)


def name_taken(name: str) -> str:
    """The line at hand cannot be called as another."""
    return worded("There is {name} already. Choose another name.", name=name)


def line_taken(name: str) -> str:
    """A line cannot begin under the name of another."""
    return worded("There is {name} already. Say its name to go on there.", name=name)
