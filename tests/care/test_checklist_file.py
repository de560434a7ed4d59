"""Checklists from TOML: what a file may hold, and how a broken one is refused."""

from __future__ import annotations

import pytest

from handsfree.care.checklist import Cue, Phase, Wait
from handsfree.care.checklist_file import read_checklist
from handsfree.care.vocabulary import vocabulary
from handsfree.errors import ChecklistError
from handsfree.lexicon import Lexicon
from handsfree.phrases.spelling import knows_all
from handsfree.shelf import checklist_from
from handsfree.wiring import read_shipped, sounds

GOOD = """\
name = "flush"
title = "Flush"
branches = ["short", "long"]

[[phase]]
name = "only"
title = "Only"

[[phase.step]]
name = "hands"
do = "Clean your hands."
say = "hands [are] clean"

[[phase.step]]
name = "scrubbed"
do = "Scrub the hub."
say = "scrubbed"
after = ["hands"]
wait = { since = "hands", s = 15, say = "Fifteen seconds." }
cues = [{ after_s = 60, say = "A minute." }]

[[phase.step]]
name = "date"
do = "Read the date."
value = "expiry"
in_date = true

[[phase.finding]]
name = "blocked"
say = "[it is] blocked"
tell = "Do not push."
reopens = ["scrubbed"]

[[emergency]]
name = "pain"
say = "[much] pain"
tell = "Stop."
"""


def refused(text: str) -> ChecklistError:
    """The complaint about a file, when it is read or when its words are."""
    with pytest.raises(ChecklistError) as complaint:
        Lexicon(vocabulary(read_checklist(text, "my.toml")), read_shipped, knows_all, sounds())
    return complaint.value


def test_a_good_file() -> None:
    """Phases, steps, findings and emergencies come in order, with what they were given."""
    read = read_checklist(GOOD, "my.toml", '[[emergency]]\nname = "fire"\nsay = "fire"\ntell = "Out."\n')
    assert read.phases == (Phase("only", "Only"),)
    assert [step.name for step in read.steps] == ["hands", "scrubbed", "date"]
    assert read.step("scrubbed").wait == Wait("hands", 15, "Fifteen seconds.")
    assert read.step("scrubbed").cues == (Cue(60, "A minute."),)
    assert read.step("date").rules == ("expiry",)
    assert [one.name for one in read.emergencies] == ["fire", "pain"]
    assert read.finding("blocked") is not None
    assert read.finding("hands") is read.emergency("hands") is None
    with pytest.raises(KeyError):
        read.step("blocked")


@pytest.mark.parametrize(
    ("good", "broken", "line", "complaint"),
    [
        ('name = "flush"', 'name = "flush', 1, "not TOML"),
        ('title = "Only"', "title = Only", 7, "not TOML"),
        ('title = "Flush"', 'titel = "Flush"', 1, "the key titel is not known"),
        ('name = "flush"\n', "", 1, "the file has no name"),
        ('name = "flush"', 'name = "My list"', 1, "the file has no name made of small letters"),
        ('do = "Scrub the hub."', 'doo = "Scrub the hub."', 14, "the key doo is not known in a step"),
        ('do = "Scrub the hub."', "do = 5", 14, "do should be a text in quotes, not 5"),
        ('do = "Scrub the hub."\n', "", 14, "this step has no do"),
        ("in_date = true", 'in_date = "yes"', 22, "in_date should be true or false"),
        ("s = 15", 's = "15"', 14, "s should be a whole number"),
        ("s = 15", "sec = 15", 14, "wait should be a table with since, s, say"),
        ("s = 15, ", "", 14, "wait lacks one of"),
        (
            'wait = { since = "hands", s = 15, say = "Fifteen seconds." }',
            "wait = 15",
            14,
            "wait should be a table",
        ),
        ('since = "hands"', 'since = "gloves"', 14, "step scrubbed names gloves among its steps"),
        ('after = ["hands"]', 'after = ["gloves"]', 14, "step scrubbed names gloves among its steps"),
        ('reopens = ["scrubbed"]', 'reopens = ["gloves"]', 28, "finding blocked names gloves"),
        ('name = "scrubbed"', 'name = "hands"', 14, "the name 'hands' is used twice"),
        ('name = "blocked"', 'name = "hands"', 28, "the name 'hands' is used twice"),
        ('name = "scrubbed"', 'name = "Scrubbed"', 14, "is not made of small letters"),
        ('say = "scrubbed"\n', "", 14, "step scrubbed needs one of say, value and same_words_as"),
        ('value = "expiry"', 'value = "expiry"\nsay = "date"', 22, "needs one of say, value"),
        ('value = "expiry"', 'value = "weather"', 22, "the value weather is not known"),
        ('value = "expiry"', 'value = "expiry"\nbranch = "wide"', 22, "wide is not among the branches"),
        ('tell = "Do not push."', 'tell = "No."\nbranch = "wide"', 28, "wide is not among the branches"),
        ("in_date = true", 'sharp = "blunt"', 22, "sharp is open or closed"),
        ('say = "scrubbed"', 'say = "scrubbed ("', 14, "the words of step scrubbed"),
        ('say = "scrubbed"', 'say = "scrubbed <depth>"', 14, "the words of step scrubbed"),
        ('say = "[it is] blocked"', 'say = "[it is blocked"', 28, "the words of finding blocked"),
        ('say = "[much] pain"', 'say = "much | | pain"', 34, "the words of emergency pain"),
        ('tell = "Stop."', "", 34, "this emergency has no tell"),
        (
            'branches = ["short", "long"]',
            "branches = [1, 2]",
            1,
            "branches should be a text in quotes, not 1",
        ),
        (
            'say = "Fifteen seconds." }',
            'say = "Now.", by = "date", values = 3 }',
            14,
            "values should be a table",
        ),
        ('title = "Flush"', "title = 3", 1, "title should be a text in quotes"),
        ('title = "Only"', 'name2 = "Only"', 5, "the key name2 is not known in a phase"),
        ('name = "only"\n', "", 5, "this phase has no name"),
    ],
)
def test_a_broken_file_is_refused_at_its_line(good: str, broken: str, line: int, complaint: str) -> None:
    """One clear sentence with the file, the line and what is wrong there."""
    assert good in GOOD
    fault = refused(GOOD.replace(good, broken, 1))
    assert ("my.toml", line) == (fault.file, fault.line)
    assert complaint in str(fault)
    assert "\n" not in str(fault)


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("", "the file has no name"),
        ('name = "empty"\n', "the checklist has no step"),
        ('name = "empty"\nphase = 3\n', "phase"),
        ('name = "empty"\nphase = ["a"]\n', "phase is not a table"),
        ('name = "empty"\n[[phase]]\nname = "a"\ntitle = "A"\nstep = 3\n', "step"),
        ('name = "empty"\n[[phase]]\nname = "a"\ntitle = "A"\nstep = ["a"]\n', "step is not a table"),
        ('name = "empty"\nemergency = "a"\n', "emergency"),
    ],
)
def test_a_file_of_another_shape(text: str, complaint: str) -> None:
    """Values where tables should stand are refused too, never by a traceback."""
    assert complaint in str(refused(text))


def test_the_shipped_checklist() -> None:
    """It has the nine phases of the job, and every number in a wait or cue has its source."""
    read = checklist_from("peripheral_iv")
    assert len(read.phases) == 9
    assert [step.name for step in read.steps if (step.wait or step.cues) and not step.source] == ["tie_again"]
