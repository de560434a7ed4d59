"""One session's record: its events go into a journal and come back as a session."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.checklist_file import read_checklist
from handsfree.care.checklist_others import with_others
from handsfree.conducts.conduct import Conduct
from handsfree.conducts.table import CONDUCTS
from handsfree.errors import NotSo, NotThere, StoreDamaged, StoreFailed
from handsfree.keep.codec import Codec
from handsfree.keep.fields import read_time, written_time
from handsfree.ports import Damage, Journal, Row, Salvaged
from handsfree.say.wording_machine import NOT_RECORDED, RECORDED_AGAIN, recording_failed, rows_lost
from handsfree.words import worded

CODEC = Codec(e.EVENTS)

BY_VOICE = "by voice"
"""How a session ends that nobody goes on with."""

TRY_AGAIN = timedelta(seconds=5)
"""So long after a write that failed the next one is tried: a locked database lets each one wait."""


class Record:
    """Appends the events of one session, numbered from 1. seq: the last number that was given.

    What can't be written is held, and written in order as soon as the store takes it again.
    """

    def __init__(self, journal: Journal, session: str, seq: int = 0) -> None:
        self._journal, self.session, self.seq = journal, session, seq
        self._held: list[Row] = []
        self._has_begun = False
        self._try_at: datetime | None = None

    def keep(self, records: Iterable[e.Recorded]) -> str:
        """Commit events, all or none, after those that are held; or hold them too.

        Returns what is to be said of that, nothing while all is well. Raises StoreFailed where not even the
        first ones could be kept.
        """
        records = tuple(records)
        if not records:
            return ""
        if self._try_at is not None and records[-1].at < self._try_at:
            return self._hold(records)
        again = RECORDED_AGAIN if self._held else ""
        rows = self._rows(records, again)
        try:
            self._journal.append([*self._held, *rows])
        except StoreFailed as fault:
            if not self._has_begun:
                raise
            self._try_at = records[-1].at + TRY_AGAIN
            return self._hold(records, fault.aloud)
        self.seq += len(rows)
        self._held, self._try_at, self._has_begun = [], None, True
        return again

    def close(self) -> None:
        """Write what is held. Raises StoreFailed where that is lost."""
        if not self._held:
            return
        try:
            self._journal.append(self._held)
        except StoreFailed as fault:
            lost = rows_lost(len(self._held), self.session)
            raise StoreFailed(f"{lost} {fault.wrong}", fault.next_step) from fault
        self._held = []

    def _hold(self, records: tuple[e.Recorded, ...], wrong: str = "") -> str:
        """Number what can't be written now, with the warning, which is part of the record too."""
        speaks = any(isinstance(one.event, e.Announced) for one in records)
        again = NOT_RECORDED if speaks else ""
        warning = again if self._held else recording_failed(wrong)
        rows = self._rows(records, warning)
        self._held += rows
        self.seq += len(rows)
        return warning

    def _rows(self, records: tuple[e.Recorded, ...], said: str) -> list[Row]:
        announced = (e.Recorded(records[-1].at, e.Announced(said)),) if said else ()
        return [
            Row(self.session, seq, written_time(one.at), *CODEC.encode(one.event))
            for seq, one in enumerate((*records, *announced), self.seq + 1)
        ]


def new_id(at: datetime, checklist: str, taken: Iterable[str]) -> str:
    """A name for a session that none has yet: when it began, and its checklist."""
    name = f"{at:%Y%m%dT%H%M%S}-{checklist}"
    used = set(taken)
    return next(one for one in (name, *(f"{name}-{n}" for n in range(2, len(used) + 3))) if one not in used)


@dataclass(frozen=True, slots=True)
class Kept:
    """A kept session as it stands, of its kind, the events until now, and its record to go on with.

    damage: what of it is lost; then the session is what follows from the rest.
    """

    conduct: Conduct[Any]
    session: Any
    records: tuple[e.Recorded, ...]
    record: Record
    damage: tuple[Damage, ...] = ()

    @property
    def started(self) -> e.SessionStarted:
        """How it began."""
        started = self.records[0].event
        assert isinstance(started, e.SessionStarted)
        return started

    @property
    def lost(self) -> int:
        """How many of its rows are lost."""
        return sum(one.last - one.first + 1 for one in self.damage if one.first)


def load(journal: Journal, session: str, emergencies: str) -> Kept:
    """Read a session from its events, as far as they are whole. Raises NotThere, StoreDamaged where its
    beginning is lost."""
    found = journal.salvage(session)
    records, damage = recorded(found)
    started = records[0].event if records else None
    if not isinstance(started, e.SessionStarted):
        raise StoreDamaged(
            worded("The session {session} has no beginning.", session=session),
            worded("Start a new one: handsfree guide."),
        )
    checklist = _checklist(started, emergencies)
    conduct = CONDUCTS[started.kind]
    new = conduct.new(checklist, started, records[0].at)
    now = _pieced(conduct, new, records) if damage else conduct.fold(new, records)
    return Kept(conduct, now, records, Record(journal, session, found.last), damage)


def _checklist(started: e.SessionStarted, emergencies: str) -> Checklist:
    """The checklist of a session and those that may begin over it, as they were when it began."""
    texts = {one.file: one.text for one in started.others}
    main = read_checklist(started.text, started.file, emergencies)
    return with_others(main, lambda place: read_checklist(texts[place], place, emergencies))


def recorded(found: Salvaged) -> tuple[tuple[e.Recorded, ...], tuple[Damage, ...]]:
    """The events of the rows that are whole, and what is damaged, rows that can't be read as events too."""
    records, unread = [], []
    for row in found.rows:
        try:
            records.append(e.Recorded(read_time(row.at), CODEC.decode(row)))
        except StoreDamaged as fault:
            unread.append(Damage(row.seq, row.seq, fault.wrong))
    return tuple(records), (*found.damage, *unread)


def _pieced(conduct: Conduct[Any], session: Any, records: Iterable[e.Recorded]) -> Any:
    """The session after what is left of its events; one that refers to a lost one changes nothing."""
    for record in records:
        with suppress(LookupError):
            session = conduct.evolve(session, record.event, record.at)
    return session


LAST = "last"
"""Names the session that began last."""


def named(journal: Journal, session: str) -> str:
    """The id of a session by its id, or by LAST. Raises NotThere."""
    known = journal.sessions()
    if session == LAST and not known:
        raise NotThere(worded("No session is kept here."), worded("Start one: handsfree guide."))
    if session == LAST:
        return known[-1]
    if session in known:
        return session
    raise NotThere(
        worded("There is no session {session}.", session=session),
        worded("List those that are there: handsfree sessions."),
    )


@dataclass(frozen=True, slots=True)
class Outline:
    """A session in one line. began: RFC 3339. ended: "by voice", "input ended" or "cut off"."""

    began: str
    checklist: str
    ended: str
    damage: tuple[Damage, ...]


def outline(journal: Journal, session: str) -> Outline:
    """What there is of a session, without the fold of its events. Raises NotThere, StoreFailed."""
    found = journal.salvage(session)
    first = found.rows[0] if found.rows and found.rows[0].type == "SessionStarted" else None
    ended = next((row for row in reversed(found.rows) if row.type in _COURSE), None)
    how = str(ended.body["how"]) if ended is not None and ended.type == "SessionEnded" else "cut off"
    checklist = str(first.body["checklist"]) if first else ""
    return Outline(first.at if first else "", checklist, how, found.damage)


_COURSE = ("SessionStarted", "SessionResumed", "SessionEnded")


def cut_off(journal: Journal) -> str:
    """Id of the last session that was cut off. Raises NotSo where the last one was ended by voice."""
    for session in reversed(journal.sessions()):
        found = journal.salvage(session)
        ended = any(row.type == "SessionEnded" and row.body.get("how") == BY_VOICE for row in found.rows)
        if found.last and not ended:
            return session
    raise NotSo(worded("No session was cut off."), worded("Start a new one: handsfree guide."))
