"""What an instructor says, and what stands in the run afterwards."""

from __future__ import annotations

import pytest

from handsfree.care import events as e
from handsfree.care.drill.marks import CODES, VERDICTS, Kind
from handsfree.care.drill.rules import Mode
from handsfree.testing.dialogue import CLIP
from tests.care.drill.drills import drilled, events, marks

MARKS = [
    ("a verdict alone", ("+5", "missed"), ["5 missed"]),
    ("a code says the same", ("+5", "harvest"), ["5 missed"]),
    ("step, then verdict", ("+5", "gloves are on done"), ["5 hands done"]),
    ("verdict, then step", ("+5", "missed the hand hygiene"), ["5 hands missed"]),
    ("a step by its short name", ("drying time prompted",), ["0 dry prompted"]),
    ("a step with a value", ("unsafe bag label",), ["0 bag_fluid unsafe"]),
    ("two words for a verdict", ("out of order the spike",), ["0 spiked out of order"]),
    ("several in one breath", ("gauge done spare missed",), ["0 gauge done", "0 spare missed"]),
    ("several the other way", ("done gauge missed spare",), ["0 gauge done", "0 spare missed"]),
    ("several verdicts alone", ("done done unsafe",), ["0 done", "0 done", "0 unsafe"]),
    ("of both forms, with and", ("missed the gauge and unsafe",), ["0 gauge missed", "0 unsafe"]),
    ("of both forms without it could be two things", ("missed gauge unsafe",), []),
    ("a step alone is the trainee's own talk", ("tourniquet on",), []),
    ("so is what closes a step with done in it", ("scrub done", "scrubbing done"), []),
    ("the same words twice: the next step of that name", ("tourniquet on done", "tourniquet on missed"),
     ["0 tie done", "0 tie_again missed"]),
    ("words of two steps: the first without a mark", ("no air done", "no air unsafe"),
     ["0 no_air done", "0 air_again unsafe"]),
    ("two ways to name one step", ("spike contaminated | spiked contaminated",), ["0 spiked contaminated"]),
    ("a name of its own", ("second tourniquet done",), ["0 tie_again done"]),
    ("back ten", ("+60", "missed", "back ten"), ["50 missed"]),
    ("back again and again", ("+60", "missed", "back ten", "back five seconds"), ["45 missed"]),
    ("not before the go", ("+4", "missed", "back ten"), ["0 missed"]),
    ("back moves one", ("+60", "kit done and unsafe", "back thirty"), ["60 kit done", "30 unsafe"]),
    ("scratch that", ("missed", "+3", "unsafe", "scratch that"), ["0 missed"]),
    ("scratch all", ("missed", "scratch that", "scratch that"), []),
    ("of a breath, the last", ("gauge done spare done", "scratch the last mark"), ["0 gauge done"]),
    ("a free mark and its words", ("+7", "mark this", "+2", "the cap fell"), ["7 mark the cap fell"]),
    ("a mark without words", ("mark", "+20", "missed"), ["0 mark", "20 missed"]),
    ("words are words, whatever they are", ("note", "missed"), ["0 note missed"]),
    ("a note taken back at once", ("note", "scratch that", "missed"), ["0 missed"]),
    ("laps and a clock", ("+3", "lap", "+4", "start the clock", "+5", "stop the clock", "+1", "lap time"),
     ["3 lap", "7 clock started", "12 clock stopped", "13 lap"]),
    ("of two starts one", ("start the clock", "start the clock", "stop the clock", "stop the clock"),
     ["0 clock started", "0 clock stopped"]),
    ("own words that could be a mark are none", ("sharps open | done sharps open",), []),
    ("an emergency is marked", ("+9", "needle stick"), ["9 emergency"]),
    ("talk is nobody's business", ("how are you feeling today", "sharp scratch now", "gloves on"), []),
]  # fmt: skip


@pytest.mark.parametrize(("name", "said", "stands"), MARKS, ids=[row[0] for row in MARKS])
def test_dialogue(name: str, said: tuple[str, ...], stands: list[str]) -> None:
    """After a go, what was said leaves these marks."""
    run = drilled("go", *said).session.run
    assert stands == marks(run)


@pytest.mark.parametrize("kind", VERDICTS, ids=lambda kind: kind.value)
def test_every_verdict_has_its_words_and_its_code(kind: Kind) -> None:
    """Alone and on a step; the code is the last of its words in the grammar."""
    run = drilled("go", kind.value, f"gauge {CODES[kind]}").session.run
    assert [(kind, ""), (kind, "gauge")] == [(mark.kind, mark.step) for mark in run.marks]


CHIMES = [
    ("a mark", ("missed",), ["[taken]"]),
    ("two marks, two knocks", ("gauge done spare missed",), ["[taken]", "[taken]"]),
    ("a note: the next words are waited for", ("note", "he is slow"), ["[listening]", "[taken]"]),
    ("no words came", ("note", "+15"), ["[listening]", "[refused]"]),
    ("nothing to take back", ("scratch that",), ["[refused]"]),
    ("nothing to move", ("back ten",), ["[refused]"]),
    ("the clock does not run", ("stop the clock",), ["[refused]"]),
    ("one of two, and neither", ("missed | unsafe",), ["[refused]"]),
    ("talk has no answer, nor a third try", ("hello there", "oh dear", "well well"), []),
    ("an emergency is not answered aloud: it may be part of the drill", ("needle stick",), ["[due]"]),
    ("words are not open to a trainee", ("say that again", "help me", "repeat", "how", "next"), []),
]


@pytest.mark.parametrize(("name", "said", "heard"), CHIMES, ids=[row[0] for row in CHIMES])
def test_a_run_is_confirmed_by_sounds(name: str, said: tuple[str, ...], heard: list[str]) -> None:
    """Not one word is spoken while a trainee works, unless it is asked for."""
    talk = drilled("go", *said)
    answers = talk.lines[talk.lines.index("> go") + 2 :]
    assert heard == [line for line in answers if not line.startswith((">", "+"))]


def test_words_when_they_are_asked_for() -> None:
    """With a headset a mark is said, by its code; so is the last one, and the time."""
    talk = drilled(
        "go", "+70", "marks aloud", "missed the gauge", "sounds only", "gauge done", "last mark", "time check"
    )
    said = [line for line in talk.said if not line.startswith("[")]
    assert said[1:] == [
        "Marks in words. Wear a headset: the trainee should not hear me.",
        "Gauge, harvest.",
        "Gauge, octopus, at seventy seconds.",
        "Seventy seconds.",
    ]  # fmt: skip


def test_no_verdict_is_ever_spoken() -> None:
    """Whatever is asked for, a trainee who overhears it learns the code alone."""
    asked = [line for kind in VERDICTS for line in (f"gauge {kind.value}", "last mark")]
    talk = drilled("go", "marks aloud", *asked)
    verdicts = {kind.value for kind in VERDICTS}
    assert [line for line in talk.said[2:] if any(verdict in line for verdict in verdicts)] == []


NAMES = [
    ("a name of the list", ("trainee is anna", "go"), ["Anna"]),
    ("a name that is a letter too", ("trainee mike", "go"), ["Mike"]),
    ("spelled", ("trainee alfa bravo two", "go"), ["AB2"]),
    ("a number", ("trainee number one four", "go"), ["14"]),
    ("no name", ("go",), [""]),
    ("free words are no name", ("trainee xerxes", "go"), [""]),
    ("said again, the last one counts", ("trainee anna", "trainee ben", "go"), ["Ben"]),
    ("one after the other", ("trainee anna", "go", "next trainee ben", "go"), ["Anna", "Ben"]),
    ("a second try of the same", ("trainee anna", "go", "finish the run", "go"), ["Anna", "Anna"]),
    ("next without a name", ("trainee anna", "go", "end the run", "next trainee", "go"), ["Anna", ""]),
    ("a go in a run is none", ("go", "go"), [""]),
]  # fmt: skip


@pytest.mark.parametrize(("name", "said", "trainees"), NAMES, ids=[row[0] for row in NAMES])
def test_who_is_watched(name: str, said: tuple[str, ...], trainees: list[str]) -> None:
    """Each run has its trainee, by a name that the grammar holds."""
    assert trainees == [run.trainee for run in drilled(*said).session.runs]


def test_a_run_ends_and_its_forgotten_marks_follow() -> None:
    """After the end marks can still be set and taken away; the time of the run is what it was."""
    talk = drilled(
        "go", "+100", "gauge done", "time is up", "+30", "missed the written label", "time check", "lap"
    )
    (run,) = talk.session.runs
    assert (run.ended - run.began).total_seconds() == 100
    assert marks(run) == ["100 gauge done", "130 labelled missed"]
    assert talk.last == "One hundred seconds."


def test_the_drill_has_a_name() -> None:
    """By letters and figures, said back."""
    talk = drilled("drill alfa one")
    assert (talk.session.drill, talk.last) == ("A1", "Drill A 1.")


def test_what_is_kept_and_how_it_is_erased_is_said_first() -> None:
    """And that nothing is kept, where it was so chosen; then a note has no clip either."""
    assert "erased with its session: handsfree sessions, erase." in drilled().said[0]
    quiet = drilled("go", "note", "he is slow", sound=False)
    assert "No sound is kept." in quiet.said[0]
    assert "recorded" not in quiet.said[0]


def test_words_are_kept_as_sound() -> None:
    """The clip stands beside what the ear made of them."""
    kept = [one.event for one in events(drilled("go", "note", "he is slow"))]
    assert e.WordsKept(1, "he is slow", CLIP) in kept


def test_the_end_wants_a_confirmation() -> None:
    """A misheard end is harmless: the run goes on; a confirmed one ends the run as well."""
    talk = drilled("go", "+5", "end session", "wrong", "missed")
    assert marks(talk.session.run) == ["5 missed"]
    ended = drilled("go", "+5", "end session", "+1", "yes end it").session
    assert (ended.mode, (ended.run.ended - ended.run.began).total_seconds()) == (Mode.OVER, 6)


def test_in_earnest() -> None:
    """The first steps are said in a run when they are asked for, by the emergency that was named."""
    assert drilled("go", "needle stick", "this is real").last.startswith("Needle stick. Make the sharp safe.")
    assert drilled("go", "this is no drill").last.startswith("Stop the drill. Make it safe")
    assert drilled("needle stick").last.startswith("Needle stick. Make the sharp safe.")
