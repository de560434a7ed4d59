"""Moments of a session as the board gets them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from handsfree.conducts.guide import GUIDE
from handsfree.glance import Hearing, Status
from handsfree.shelf import policy_from
from handsfree.show.board.written import written
from tests.dialogues import EQUIPMENT, ORDER, RUN, TO_RUN, lexicon, told

RUNS = (*TO_RUN, *RUN)

MOMENTS: Mapping[str, tuple[str, ...]] = {
    "a step": TO_RUN[:24],
    "a read-back": (*ORDER[:5], "over eight hours"),
    "a stop": (*ORDER, *EQUIPMENT, "dextrose five percent"),
    "it runs": RUNS,
    "a reminder due": (*RUNS, "+4500"),
    "an emergency": (*RUNS, "needle stick"),
    "a long answer": (*RUNS, "read the record"),
    "held": (*RUNS, "stop"),
    "several lines": (*TO_RUN[:40], "this is bed one", "new patient bed two", "two identifiers"),
    "not understood": (*RUNS, "what ever that is over there on the table"),
    "asleep": (*RUNS, "stop listening"),
}
"""By what is to be seen: what was said until then."""


def notice(moment: str) -> tuple[str, datetime]:
    """What is put up at a moment, and its time."""
    talk = told(after=MOMENTS[moment], intervals=policy_from("common").intervals)
    seen = GUIDE.glance(talk.session, lexicon().examples(GUIDE.listen(talk.session, False)))
    status = Status(
        ear=Hearing.OPEN if seen.hears else Hearing.PAUSED,
        heard=[line for line in MOMENTS[moment] if not line.startswith("+")][-1],
        understood=moment != "not understood",
        said=talk.corridor.mouth.last_said,
    )
    return written(seen, status), talk.corridor.clock.now()
