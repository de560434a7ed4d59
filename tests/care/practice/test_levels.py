"""How much a trainee is told: on each level, when a critical error is told, and by the ladder of cues."""

from __future__ import annotations

import pytest

from handsfree.care import events as e
from handsfree.care.practice.marks import Verdict
from handsfree.care.practice.terms import Level, Telling
from handsfree.conducts.practice import PRACTICE
from handsfree.signals import Keeps
from handsfree.testing.dialogue import START, Talk
from tests.care.practice.practised import rubbed
from tests.care.practice.rub_runs import hand_rub

BEARING = "A help for learning. Local protocol decides."
NUDGE = "Look at: Before. Something is open there."
BARE, PALMFUL = "Sleeves up, rings and watch off.", "A palm full of rub."
DRIES = "Too little dries before it has worked."
TOO_SHORT = "Critical. Rub long enough: too short. It works only as long as it is wet."

LEVELS = [
    (
        "guided: each step is said, the next one after it, and nothing at the end",
        Level.GUIDED,
        ("my sleeves are up", "now i take the rub"),
        (f"I say each step. {BARE}", PALMFUL, "Palm on palm."),
    ),
    (
        "guided: said out of turn, the first that is open is said",
        Level.GUIDED,
        ("now i take the rub",),
        (f"I say each step. {BARE}", BARE),
    ),
    ("guided: waiting brings nothing", Level.GUIDED, ("+600",), (f"I say each step. {BARE}",)),
    (
        "prompted: a cue after each silence, each plainer",
        Level.PROMPTED,
        ("+29", "+1", "+30", "+30", "+30"),
        ("I give a cue where you wait.", NUDGE, BARE, BARE, BARE),
    ),
    (
        "prompted: the third names the reason too",
        Level.PROMPTED,
        ("my sleeves are up", "+30", "+30", "+30"),
        ("I give a cue where you wait.", NUDGE, PALMFUL, f"{PALMFUL} {DRIES}"),
    ),
    (
        "prompted: a step that is said begins the silence anew",
        Level.PROMPTED,
        ("+20", "my sleeves are up", "+29"),
        ("I give a cue where you wait.",),
    ),
    ("silent: nothing", Level.SILENT, ("+600",), ("I am silent. Say cue for help.",)),
    (
        "silent: asked for, the ladder",
        Level.SILENT,
        ("cue", "cue", "give me a hint"),
        ("I am silent. Say cue for help.", NUDGE, BARE, BARE),
    ),
]


def told(talk: Talk) -> tuple[str, ...]:
    """What was said, the first sentence without what every run begins with."""
    first, *more = talk.said
    return first.removeprefix(f"Practice: Hand rub. {BEARING} "), *more


@pytest.mark.parametrize(("name", "level", "script", "said"), LEVELS, ids=[row[0] for row in LEVELS])
def test_what_is_told(name: str, level: Level, script: tuple[str, ...], said: tuple[str, ...]) -> None:
    """Nothing but what the level says."""
    assert said == told(rubbed(*script, level=level))


VERDICTS = [
    ("a nudge names no step: done", Level.SILENT, ("cue", "my sleeves are up"), Verdict.DONE),
    ("told: prompted", Level.SILENT, ("cue", "cue", "my sleeves are up"), Verdict.PROMPTED),
    ("asked what was missed: prompted", Level.SILENT,
     ("now i take the rub", "what did i miss", "my sleeves are up"), Verdict.PROMPTED),
    ("told without being asked: prompted", Level.PROMPTED, ("+30", "+30", "my sleeves are up"),
     Verdict.PROMPTED),
    ("guided: everything is told, nothing counts as a cue", Level.GUIDED, ("my sleeves are up",),
     Verdict.DONE),
]  # fmt: skip


@pytest.mark.parametrize(("name", "level", "script", "verdict"), VERDICTS, ids=[row[0] for row in VERDICTS])
def test_what_help_does_to_a_mark(name: str, level: Level, script: tuple[str, ...], verdict: Verdict) -> None:
    """From the second rung on a cue makes a step prompted."""
    session = rubbed(*script, level=level).session
    marks = {one.step: one.verdict for one in session.marking(session.started).steps}
    assert marks["bare"] is verdict


def test_a_critical_error_at_once_or_at_the_end() -> None:
    """Told the moment it happens, or in the result alone; it is marked the same."""
    script = ("now i take the rub", "+5", "my hands are dry", "+1", "end session", "yes end it")
    at_once, at_the_end = (rubbed(*script, telling=telling) for telling in Telling)

    assert TOO_SHORT in at_once.said
    assert TOO_SHORT not in at_the_end.said
    assert at_once.last == at_the_end.last
    assert "rub long enough: too short" in at_the_end.last


@pytest.mark.parametrize(("sound", "keeps"), [(True, Keeps.ALL), (False, Keeps.NOTHING)])
def test_sound_is_kept_if_so_chosen(sound: bool, keeps: Keeps) -> None:
    """All of it, so that the page can play the moment at which a rule failed; or none."""
    checklist = hand_rub()
    started = e.SessionStarted(checklist.name, "", "", "vosk", False, 0, kind="practice", sound=sound)
    assert PRACTICE.new(checklist, started, START).keeps is keeps


@pytest.mark.parametrize("level", Level)
def test_cues_are_kept(level: Level) -> None:
    """Each cue stands in the record, and whether it was asked for."""
    talk = rubbed("cue", "+30", level=level)
    cues = [one.event for one in talk.session.records if isinstance(one.event, e.CueGiven)]
    assert [one.asked for one in cues] == ([True, False] if level is Level.PROMPTED else [True])
