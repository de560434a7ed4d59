"""The record as text, as a spreadsheet and as data: three ways to write the same entries."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass, fields
from datetime import datetime, timedelta
from typing import Any

from handsfree.say.wording_keys import as_read, called
from handsfree.say.wording_written import RECORD_CAUTION, WHOLE_SESSION
from handsfree.show.record import Entry
from handsfree.show.record_drill import MARK
from handsfree.words import worded


@dataclass(frozen=True, slots=True)
class Head:
    """Whose record it is. session: its id. local_min: minutes that local time is ahead of UTC."""

    session: str
    title: str
    began: datetime | None
    local_min: int = 0


def record_text(head: Head, entries: Iterable[Entry]) -> Iterator[str]:
    """Lines to be read, in local time; each day begins with its date, each line with the name of its line
    where there are several, and what was done in another checklist stands under its title."""
    entries = tuple(entries)
    width = max((len(entry.line) for entry in entries), default=0)
    yield worded("Record of {title}, session {session}", title=head.title, session=head.session)
    yield RECORD_CAUTION
    day, checklist = "", head.title
    for entry in entries:
        at = entry.at + timedelta(minutes=head.local_min) if entry.at else None
        if at and f"{at:%Y-%m-%d}" != day:
            day = f"{at:%Y-%m-%d}"
            yield "\n" + worded("{day}, local time (UTC {offset})", day=day, offset=_offset(head.local_min))
        if at is None and day:
            day = ""
            yield f"\n{WHOLE_SESSION}"
        if entry.checklist not in ("", checklist):
            checklist = entry.checklist
            yield f"[{checklist}]"
        line = f"  {entry.line:<{width}}" if width else ""
        yield _line(f"{at:%H:%M:%S}{line}" if at else f"{'':8}{line}", entry)


def record_csv(entries: Iterable[Entry]) -> str:
    """A table with a head; times as RFC 3339, UTC (RFC 4180)."""
    return written_csv([field.name for field in fields(Entry)], (_plain(entry).values() for entry in entries))


def record_json(head: Head, entries: Iterable[Entry]) -> str:
    """One object: the session, and its entries in order; times as RFC 3339, UTC."""
    whole = {
        "session": head.session,
        "checklist": head.title,
        "began": _time(head.began),
        "local_min": head.local_min,
        "caution": RECORD_CAUTION,
        "entries": [_plain(entry) for entry in entries],
    }
    return json.dumps(whole, indent=1, ensure_ascii=False) + "\n"


def written_csv(head: Iterable[str], rows: Iterable[Iterable[object]]) -> str:
    """A table as RFC 4180 has it; what a spreadsheet would take for a formula begins with an apostrophe."""
    text = io.StringIO()
    table = csv.writer(text)
    table.writerow(head)
    table.writerows([_cell(value) for value in row] for row in rows)
    return text.getvalue()


def _cell(value: object) -> object:
    return f"'{value}" if isinstance(value, str) and value.startswith(("=", "+", "-", "@")) else value


def _plain(entry: Entry) -> dict[str, Any]:
    return {**asdict(entry), "at": _time(entry.at)}


def _time(at: datetime | None) -> str:
    return f"{at:%Y-%m-%dT%H:%M:%S.%f}Z" if at else ""


def _offset(minutes: int) -> str:
    sign, (hours, rest) = "-" if minutes < 0 else "+", divmod(abs(minutes), 60)
    return f"{sign}{hours:02}:{rest:02}"


def _line(at: str, entry: Entry) -> str:
    who, kind, what, value = called(entry.who), _kind(entry), as_read(entry.what), as_read(entry.value)
    note = f"  ({entry.note})" if entry.note else ""
    return f"{at}  {who:<7}  {kind:<14}  {what:<18}  {value}{note}".rstrip()


def _kind(entry: Entry) -> str:
    number = entry.kind.removeprefix(MARK)
    return called(entry.kind) if number == entry.kind else worded("mark {number}", number=number)
