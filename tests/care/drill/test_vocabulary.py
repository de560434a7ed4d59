"""The words of a drill: one meaning for each sentence, none for what a trainee says at work."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handsfree.care.checklist import Checklist
from handsfree.care.checklist_file import read_checklist
from handsfree.care.drill.listening import listen
from handsfree.care.drill.marks import CODES, VERDICTS, Kind
from handsfree.care.drill.rules import OPEN, Mode
from handsfree.care.drill.session import Session
from handsfree.care.drill.vocabulary import vocabulary
from handsfree.care.values import KINDS
from handsfree.care.vocabulary import SHIPPED
from handsfree.care.vocabulary import vocabulary as guide_vocabulary
from handsfree.lexicon import Lexicon
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.link import read_library
from handsfree.phrases.moment import moment
from handsfree.phrases.spelling import knows_all
from handsfree.phrases.tree import Rules
from handsfree.shelf import checklist_from
from handsfree.signals import REPORT, Listen
from handsfree.testing.dialogue import START
from handsfree.testing.disjoint import overlap, shared
from handsfree.wiring import make_ear, read_shipped, sounds
from tests.care.drill.drills import TRAINEES, lexicon

CHECKLISTS = ("peripheral_iv", "bag_change", "flush_lock", "remove_line", "site_check")
MODES = [mode for mode in Mode if mode is not Mode.OVER]


def session(checklist: str, mode: Mode = Mode.READY) -> Session:
    return replace(Session(checklist_from(checklist), START, trainees=TRAINEES), mode=mode)


@pytest.mark.parametrize("checklist", CHECKLISTS)
@pytest.mark.parametrize("mode", MODES)
def test_no_sentence_is_two_commands(checklist: str, mode: Mode) -> None:
    """In each mode the rules that can be said are disjoint."""
    assert overlap(lexicon(checklist).grammar(listen(session(checklist, mode)))) is None


@pytest.mark.parametrize("checklist", CHECKLISTS)
@pytest.mark.parametrize("mode", MODES)
def test_the_table_says_what_is_heard(checklist: str, mode: Mode) -> None:
    """Every rule of the table is there, and heard in its modes and no other."""
    grammar = lexicon(checklist).grammar(listen(session(checklist, mode)))
    rules = {rule for rule, modes in OPEN.items() if mode in modes and rule != "emergencies"}
    emergencies = {one.name for one in checklist_from(checklist).emergencies}

    assert rules | emergencies == set(grammar.public)


VERDICTS_TOO = ("failed", "touched")
"""Findings of which one word is a verdict too: "missed", of a vein; "contaminated", of a site."""


COUNTED = "attempts"
"""A value that nobody says in one breath with the spare cannula: "spare, one attempt"."""


def _talk_and_marks(checklist: str) -> Grammar:
    """A public rule with all that answers in the guide, in reports too, and one with the marks of a drill."""
    chosen = checklist_from(checklist)
    guide = guide_vocabulary(chosen)
    talk = read_library(
        [chosen.name, *SHIPPED], lambda name: guide.text if name == chosen.name else read_shipped(name)
    )
    drill = vocabulary(session(checklist)).text
    marks = read_library([chosen.name], lambda name: drill if name == chosen.name else read_shipped(name))
    marks_rule = replace(marks.by_name[f"{chosen.name}.{REPORT}"], name="drill.marks")
    said = [one.name for one in (*chosen.steps, *chosen.findings) if one.say and one.name not in VERDICTS_TOO]
    values = [kind for step in chosen.steps for kind in step.value if kind != COUNTED]
    bare = [KINDS[kind].bare for kind in values if KINDS[kind].bare]
    answers = tuple(dict.fromkeys((*said, *values, *bare)))
    both = Rules({**talk.by_name, **marks.by_name, "drill.marks": marks_rule}, ("drill.marks",))
    whole = moment(both, Listen(("marks",), answers))
    return compile_grammar(whole)


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_what_a_trainee_says_at_work_is_no_mark(checklist: str) -> None:
    """No sentence in which a trainee tells what was done or read, of one answer or several, is a mark."""
    assert shared(_talk_and_marks(checklist), "marks", REPORT) is None


@pytest.mark.parametrize("checklist", CHECKLISTS)
@pytest.mark.parametrize("ear", ["sphinx", pytest.param("vosk", marks=pytest.mark.vosk)])
def test_every_word_can_be_heard(ear: str, checklist: str, request: pytest.FixtureRequest) -> None:
    """Both ears know the words of every shipped checklist, by name and by code."""
    if ear == "vosk":
        request.getfixturevalue("vosk_model")
    Lexicon(vocabulary(session(checklist)), read_shipped, make_ear(ear).knows, sounds())


def test_steps_with_the_same_words_have_names_of_their_own() -> None:
    """And so has every value: nobody can name it by the words that close it."""
    steps = checklist_from("peripheral_iv").steps
    assert [step.name for step in steps if not step.say and not step.called] == []


def test_codes_are_words_of_their_own() -> None:
    """One for each verdict, none in any other sentence of the drill or of a trainee."""
    assert set(CODES) == set(VERDICTS) == set(Kind) - {
        Kind.FREE, Kind.NOTE, Kind.LAP, Kind.CLOCK_STARTED, Kind.CLOCK_STOPPED, Kind.EMERGENCY
    }  # fmt: skip
    texts = [guide_vocabulary(checklist_from(one)).text for one in CHECKLISTS]
    texts += [read_shipped(name) for name in SHIPPED]
    assert [code for code in CODES.values() if any(code in text for text in texts)] == []
    assert len(set(CODES.values())) == len(CODES)


def owned(step: str) -> Checklist:
    """A checklist of the user's own with one step."""
    head = 'name = "own"\n[[phase]]\nname = "one"\ntitle = "One"\n[[phase.step]]\n'
    return read_checklist(f"{head}{step}\n", "own.toml")


def running(own: Session) -> Grammar:
    """What can be said in a run of it."""
    lexicon = Lexicon(vocabulary(own), read_shipped, knows_all, sounds())
    return lexicon.grammar(listen(replace(own, mode=Mode.RUNNING)))


def test_a_step_may_be_called_as_a_command_of_the_drill() -> None:
    """Names of steps are no words: a checklist of the user's own with a step "lap" or "go" can be drilled."""
    own = Session(owned('name = "lap"\ndo = "Lap."\nsay = "lapped"'), START)
    assert [node.rule for node in running(own).match(("lapped", "done"))] == [REPORT]


def test_a_value_without_a_name_is_called_by_its_key() -> None:
    """As in a checklist of the user's own that was not written for drills."""
    own = Session(owned('name = "bag_label"\ndo = "Read it."\nvalue = "fluid"'), START)
    assert running(own).match(("missed", "the", "bag", "label")) != ()
