"""Writes a kept session as plain files, for people and programs that know nothing of the database."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import asdict
from datetime import timedelta
from pathlib import Path

from handsfree.care.belonging import Whose, whose
from handsfree.care.session import Session
from handsfree.debrief import runs_from
from handsfree.errors import StoreDamaged
from handsfree.export_sound import export_sound
from handsfree.keep.fields import written_time
from handsfree.ports import Damage, Journal, Salvaged
from handsfree.record import Kept, load
from handsfree.show.debrief.heard import captions
from handsfree.show.debrief.run import Run
from handsfree.show.record import Entry, entries
from handsfree.show.record_files import Head, record_csv, record_json, record_text, written_csv
from handsfree.webvtt import written_webvtt
from handsfree.whole_file import whole
from handsfree.words import worded

MARKS = ("at", "at_s", "kind", "step", "value", "note")


def export(journal: Journal, session: str, emergencies: str, folder: Path, out: Path) -> tuple[str, ...]:
    """Write the files of a session into a folder; returns what is lost of it, in a sentence each.

    folder: of the sessions, for their sound. Of a session whose beginning is lost there are its events alone.
    Raises NotThere, StoreFailed, StoreDamaged where no row is whole, OSError.
    """
    found = journal.salvage(session)
    if not found.rows:
        raise StoreDamaged(
            worded("Nothing of the record of {session} can be read.", session=session),
            worded("Restore the database from a copy."),
        )
    out.mkdir(parents=True, exist_ok=True)
    _write(out / "events.jsonl", event_lines(found))
    try:
        kept = load(journal, session, emergencies)
    except StoreDamaged as fault:
        return (*map(str, found.damage), str(Damage(0, 0, fault.wrong)))
    head, record = record_of(kept)
    runs = tuple(runs_from(kept))
    _write(out / "record.txt", (f"{line}\n" for line in record_text(head, record)))
    _write(out / "record.csv", [record_csv(record)])
    _write(out / "record.json", [record_json(head, record)])
    spoken = captions(kept.records, kept.session.started)
    _write(out / "captions.vtt", [written_webvtt(sorted(spoken, key=lambda cue: cue.start_ms))])
    _write(out / "marks.csv", [written_csv(MARKS, _marks(runs))])
    return (*map(str, kept.damage), *export_sound(kept.records, runs, folder, out))


def copy_sound(folder: Path, session: str, out: Path) -> None:
    """Copy the sound of a session from the sessions folder, at the same place. Raises OSError."""
    with suppress(FileNotFoundError):
        place = out / "sound" / session
        shutil.copytree(folder / "sound" / session, place, copy_function=_copy_whole, dirs_exist_ok=True)


def _copy_whole(file: str, place: str) -> None:
    with whole(Path(place)) as unfinished:
        shutil.copy2(file, unfinished)


def event_lines(found: Salvaged) -> Iterator[str]:
    """Each whole row as a line of JSON, with the fields of the table, so that the chain can be checked."""
    for row, chain in zip(found.rows, found.chain, strict=True):
        yield json.dumps({**asdict(row), "chain": chain}) + "\n"


def record_of(kept: Kept) -> tuple[Head, tuple[Entry, ...]]:
    """The record of a session as it stands."""
    runs = tuple(runs_from(kept))
    head = Head(kept.record.session, runs[0].title, kept.records[0].at, kept.started.utc_offset_min)
    return head, entries(_happened(kept), runs, kept.damage)


def _happened(kept: Kept) -> Iterable[Whose]:
    """Each event with whose it is; only a guided session has several lines and checklists."""
    if isinstance(kept.session, Session):
        return whose(kept.session, kept.records)
    return (Whose(record, "", kept.session.checklist) for record in kept.records)


def _marks(runs: Iterable[Run]) -> Iterator[tuple[object, ...]]:
    """The steps that were done and all marks, in order of time; a step's own mark stands for it."""
    for run in runs:
        marks = [(mark.at_s, mark.kind.value, mark.step, "", mark.text) for mark in run.marks]
        marked = {row[:3] for row in marks}
        steps = [
            (step.at_s, step.state.value, step.title, step.value, step.reason)
            for step in run.every_step
            if step.at_s is not None and (step.at_s, step.state.value, step.title) not in marked
        ]
        for at_s, *rest in sorted([*steps, *marks], key=lambda row: row[0]):
            yield (written_time(run.began + timedelta(seconds=at_s)), round(at_s, 3), *rest)


def _write(file: Path, parts: Iterable[str]) -> None:
    with whole(file) as unfinished, unfinished.open("w", encoding="utf-8", newline="") as stream:
        stream.writelines(parts)
