"""Words for people stand where they can be found: one place for what is said, a known one for all others."""

from __future__ import annotations

from fnmatch import fnmatch

import pytest

from tests.house.words import catalogue, sentences

LOOSE = {
    "care/infusion/*": "the arithmetic's own words stand beside the formula, limit or unit that they are of",
    "care/*_file.py": "told to whoever writes a checklist or a policy, with its line",
    "care/*_check.py": "the same",
    "care/remarks.py": "told to whoever writes a checklist, by review",
    "review.py": "the same",
    "units.py": "told to whoever writes a quantity, with how to write it",
    "phrases/*": "told to whoever writes a grammar, with its line and column",
    "care/*/vocabulary.py": "words that are listened to, not said",
    "care/chart.py": "labels of the chart in DEVELOPERS.md",
    "care/checklist_lines.py": "told to whoever writes a checklist, with its line",
    "say/calendar.py": "the names of the months",
    "settings.py": "the settings file, with its comments",
    "cli/*": "told on the terminal by the one command that can",
    "__main__.py": "the same, where nothing else can be loaded",
    "hear/*": "part of an error, and why the sound has ended",
    "keep/*": "part of an error, and SQL",
    "say/voices/*": "part of an error",
    "show/board/*": "answers of the board's server, for whoever is turned away",
}
"""Where sentences may stand in the midst of code, and why they are not in the wording."""


def test_what_a_session_says_stands_in_the_wording() -> None:
    """Nothing else that is a sentence stands in the midst of code, unless its kind has a reason."""
    loose = [one for one in catalogue() if one.kind == "loose"]
    assert [] == [one for one in loose if not any(fnmatch(one.file, room) for room in LOOSE)]


def test_every_reason_is_needed() -> None:
    """No room is excused in which there is nothing to excuse."""
    files = {one.file for one in catalogue() if one.kind == "loose"}
    assert [] == [room for room in LOOSE if not any(fnmatch(file, room) for file in files)]


@pytest.mark.parametrize(
    ("source", "kinds"),
    [
        ('def f():\n    return "Put the tray down now."', ["loose"]),
        ('def f(n):\n    return f"Put the {n} down right now."', ["loose"]),
        ('def f():\n    """Put the tray down now."""', []),
        ('def f():\n    return "put it down"', []),
        ('TRAY = "Put the tray down now."', ["loose"]),
        ('TRAY = "tray_to_put_down"', []),
        ('def f():\n    raise NotSo("Put the tray down now.")', ["told"]),
        ('def f():\n    return Refused("Put the tray down now.")', ["told"]),
        ('def f():\n    return e.CommandRefused("Put the tray down now.")', ["loose"]),
    ],
)
def test_a_sentence_is_found(source: str, kinds: list[str]) -> None:
    """Wherever it stands; up to three words are a name or a label."""
    assert kinds == [one.kind for one in sentences(source, "loop.py")]
