"""The record: what of a session stands in it, and that text, table and data say the same."""

from __future__ import annotations

import csv
import io
import json
from datetime import timedelta
from typing import Any

import pytest

from handsfree.export import record_of
from handsfree.ports import Damage
from handsfree.record import load
from handsfree.shelf import emergencies, policy_from
from handsfree.show.record import Entry, entries
from handsfree.show.record_files import Head, record_csv, record_json, record_text
from handsfree.testing.dialogue import CLIP, SESSION, START
from tests.dialogues import EQUIPMENT, ORDER, TO_FLUID, TO_NEEDLE, TO_RUN, WHOLE, told
from tests.golden.read import golden


def record(*script: str, **begun: Any) -> tuple[Head, tuple[Entry, ...]]:
    return record_of(load(told(*script, **begun).journal, SESSION, emergencies()))


SAID = (
    (ORDER[:1], ("user", "check", "patient", "two identifiers", "")),
    (ORDER[:3], ("user", "check", "order fluid", "sodium chloride 0.9 %", "read back, confirmed")),
    (ORDER[:5], ("user", "check", "order volume", "1000 millilitres", "read back, confirmed")),
    ((*ORDER, *EQUIPMENT), ("user", "check", "antiseptic", "chlorhexidine", "")),
    ((*ORDER, *EQUIPMENT), ("user", "check", "flush expiry", "2034-03", "")),
    (
        (*ORDER, *EQUIPMENT),
        ("program", "rate", "computed", "42 gtt/min, 125 mL/h", "1000 mL over 480 min, 20 gtt/mL"),
    ),
    ((*TO_NEEDLE, "sharp scratch"), ("user", "attempt", "needle", "sharp scratch", "")),
    ((*TO_NEEDLE, "no flash"), ("user", "finding", "failed", "no flash", "")),
    (WHOLE, ("user", "count", "counted", "42 drops in sixty seconds", "")),
    (
        (*TO_RUN, "no air", "clamp open", "9 in fifteen"),
        ("user", "count", "off the order", "9 drops in 15 s", "wanted 42 gtt/min"),
    ),
    (("skip because no time",), ("user", "left out", "patient", "no time", "")),
    (
        ("skip", "the strap is torn"),
        ("user", "left out", "patient", "the strap is torn", f"unverified words, sound in {CLIP}"),
    ),
    (
        (*TO_FLUID, "lactated ringer's"),
        (
            *("program", "stop", "bag fluid", "compound sodium lactate"),
            "differs; other: sodium chloride 0.9 %",
        ),
    ),
    (("needle stick",), ("user", "emergency", "needle stick", "needle stick", "")),
    (("normal saline", "+31"), ("user", "read-back", "not confirmed", "", "lapsed")),
    (("two identifiers", "undo that"), ("user", "taken back", "the last change", "", "")),
    (("remind me in ten minutes to turn him",), ("user", "reminder", "turn the patient", "set", "in 600 s")),
    (
        ("remind me in ten minutes to look for his boots",),
        ("user", "reminder", "timer", "set", f"in 600 s; unverified words, sound in {CLIP}"),
    ),
    (
        ("remind me in ten minutes to turn him", "+600"),
        ("program", "reminder", "turn the patient", "due", ""),
    ),
    (
        ("remind me in ten minutes to turn him", "+600", "reminder done"),
        ("user", "reminder", "turn the patient", "done", ""),
    ),
    (("end session", "yes end it"), ("user", "session", "ended", "by voice", "")),
)


@pytest.mark.parametrize(("script", "line"), SAID)
def test_what_stands_in_it(script: tuple[str, ...], line: tuple[str, ...]) -> None:
    """Who did what, with its value and how it came about."""
    _, found = record(*script)
    assert line in [(one.who, one.kind, one.what, one.value, one.note) for one in found]


def test_a_whole_session_leaves_nothing_open() -> None:
    """Each step of the branch is closed in it once, in the order in which it was said."""
    _, found = record(*WHOLE)
    closed = [one for one in found if one.kind in ("check", "attempt", "count")]
    session = told(*WHOLE).session

    assert [one for one in found if one.kind == "left open"] == []
    assert len(closed) == len([step for step in session.checklist.steps if session.applies(step)])
    assert [one.at for one in closed] == sorted(one.at for one in closed if one.at)


def test_what_was_left_open_and_what_is_lost() -> None:
    """Both stand at the end, without a time, by name."""
    _, found = record("critical steps only", *ORDER[:3])
    assert "order volume" in [one.what for one in found if one.kind == "left open" and one.at is None]

    damage = (Damage(4, 5, "Rows 4 to 5 of session one are missing."),)
    (lost,) = entries([], [], damage)
    assert lost == Entry(None, "program", "lost", "Rows 4 to 5 of session one are missing.")


def test_three_ways_to_write_it_say_the_same() -> None:
    """Each entry is one row of the table, one object of the data and one line of the text."""
    head, found = record(*ORDER, "skip because no time", "needle stick")
    rows = list(csv.DictReader(io.StringIO(record_csv(found))))
    data = json.loads(record_json(head, found))
    lines = [line for line in record_text(head, found) if line.startswith((" ", "0"))]

    assert rows == data["entries"]
    assert len(rows) == len(found) == len(lines)
    for row, line in zip(rows, lines, strict=True):
        assert [row[name] in line for name in ("who", "kind", "what", "value", "note")] == [True] * 5
    assert (data["session"], data["checklist"]) == (SESSION, "Peripheral I V")


TWO_LINES = (
    *(*WHOLE, "this is bed one", "site check", "no swelling", "no leak", "next patient bed two"),
    *("two identifiers", "lock only", "correct", "+3600", "bed one", "not cold", "cancel the check", "+600"),
)
"""A look at the first line is put aside for a second patient, gone on with, and given up."""


def test_several_lines_and_checklists_are_told_apart() -> None:
    """Each row has the name of its line, also of what came before it had one, and the checklist at hand."""
    head, found = record(*TWO_LINES, intervals=policy_from("common").intervals)
    text = "\n".join(record_text(head, found)) + "\n"

    assert golden("two_lines.txt", text) == text
    assert golden("two_lines.csv", record_csv(found)) == record_csv(found)
    assert {"bed one", "bed two"} == {one.line for one in found}
    assert {"Peripheral I V", "Site check"} == {one.checklist for one in found}
    assert [(one.line, one.kind, one.value) for one in found if one.what == "site check"] == [
        ("bed one", "checklist", "begun"),
        ("bed one", "checklist", "left"),
    ]


def test_text_is_in_local_time_by_days() -> None:
    """Two hours east of Greenwich at ten in the evening it is tomorrow."""
    late = START.replace(hour=23)
    found = (
        Entry(late - timedelta(hours=2), "user", "check", "a"),
        Entry(late, "user", "check", "b"),
        Entry(None, "program", "left open", "c"),
    )
    text = list(record_text(Head("one", "T", late, 120), found))[2:]
    assert text == [
        "\n2031-05-04, local time (UTC +02:00)",
        "23:00:00  user     check           a",
        "\n2031-05-05, local time (UTC +02:00)",
        "01:00:00  user     check           b",
        "\nOf the whole session",
        "          program  left open       c",
    ]


@pytest.mark.parametrize("value", ["=1+1", "+1", "-1", "@x"])
def test_a_table_holds_no_formula(value: str) -> None:
    """What somebody said is never run by a spreadsheet (OWASP, CSV injection; from memory)."""
    (row,) = csv.DictReader(io.StringIO(record_csv([Entry(None, "user", "check", "a", value)])))
    assert row["value"] == f"'{value}"
