"""One session's record: its events go into a journal and come back as a session."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from handsfree.care import events as e
from handsfree.care.checklist_file import read_checklist
from handsfree.conducts.conduct import Conduct
from handsfree.conducts.table import CONDUCTS
from handsfree.errors import NotSo, StoreDamaged
from handsfree.keep.codec import Codec
from handsfree.keep.fields import read_time, written_time
from handsfree.ports import Journal, Row

CODEC = Codec(e.EVENTS)

BY_VOICE = "by voice"
"""How a session ends that nobody goes on with."""


class Record:
    """Appends the events of one session, numbered from 1. seq: the last number that is kept."""

    def __init__(self, journal: Journal, session: str, seq: int = 0) -> None:
        self._journal, self.session, self.seq = journal, session, seq

    def keep(self, records: Iterable[e.Recorded]) -> None:
        """Commit events, all or none. Raises StoreFailed."""
        rows = [self._row(number, one) for number, one in enumerate(records, self.seq + 1)]
        self._journal.append(rows)
        self.seq += len(rows)

    def _row(self, seq: int, one: e.Recorded) -> Row:
        return Row(self.session, seq, written_time(one.at), *CODEC.encode(one.event))


def new_id(at: datetime, checklist: str, taken: Iterable[str]) -> str:
    """A name for a session that none has yet: when it began, and its checklist."""
    name = f"{at:%Y%m%dT%H%M%S}-{checklist}"
    used = set(taken)
    return next(one for one in (name, *(f"{name}-{n}" for n in range(2, len(used) + 3))) if one not in used)


@dataclass(frozen=True, slots=True)
class Kept:
    """A kept session as it stands, of its kind, the events until now, and its record to go on with."""

    conduct: Conduct[Any]
    session: Any
    records: tuple[e.Recorded, ...]
    record: Record


def load(journal: Journal, session: str, emergencies: str) -> Kept:
    """Read a session from its events. Raises NotThere, StoreDamaged."""
    rows = journal.read(session)
    records = tuple(e.Recorded(read_time(row.at), CODEC.decode(row)) for row in rows)
    started = records[0].event
    if not isinstance(started, e.SessionStarted):
        raise StoreDamaged(f"The session {session} has no beginning.", "Start a new one: handsfree guide.")
    checklist = read_checklist(started.text, started.file, emergencies)
    conduct = CONDUCTS[started.kind]
    now = conduct.fold(conduct.new(checklist, started, records[0].at), records)
    return Kept(conduct, now, records, Record(journal, session, rows[-1].seq))


def cut_off(journal: Journal) -> str:
    """Id of the last session that was cut off. Raises NotSo where the last one was ended by voice."""
    for session in reversed(journal.sessions()):
        if not any(
            row.type == "SessionEnded" and row.body["how"] == BY_VOICE for row in journal.read(session)
        ):
            return session
    raise NotSo("No session was cut off.", "Start a new one: handsfree guide.")
