"""Whose each event is: of which line, and in which checklist it happened. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.lines import evolve_lines
from handsfree.care.session import Session

_TURNING = (e.LineNamed, e.LineBegun, e.LineTaken, e.LineAside, e.LineResumed)
"""What says whose the events after it are is the first of them."""


@dataclass(frozen=True, slots=True)
class Whose:
    """An event, with the name of its line, empty where there is only one, and the checklist at hand."""

    record: e.Recorded
    line: str
    checklist: Checklist


def whose(session: Session, records: Iterable[e.Recorded]) -> Iterator[Whose]:
    """Each event of a session with whose it is. session: as it ended, folded over all of them."""
    return (Whose(record, at_hand.name, at_hand.checklist) for record, at_hand in met(session, records))


def met(session: Session, records: Iterable[e.Recorded]) -> Iterator[tuple[e.Recorded, Session]]:
    """Each event with the session that it met, of the line that it is about. session: as it ended.

    What was the only line before it got a name has had it all along. An event that refers to a lost one
    changes nothing.
    """
    records = tuple(records)
    if not records:
        return
    now = began(session, records[0].at)
    first = next((one.event.name for one in records if isinstance(one.event, e.LineNamed)), "")
    for record in records:
        after = now
        with suppress(LookupError):
            after = evolve_lines(now, record.event, record.at)
        at_hand = after if isinstance(record.event, _TURNING) else now
        yield record, at_hand if at_hand.name else replace(at_hand, name=first)
        now = after


def began(session: Session, at: datetime) -> Session:
    """A session as it was before its first event."""
    return Session(session.own_checklist, at, session.utc_offset_min)
