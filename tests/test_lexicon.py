"""The grammars of a session: what cannot be heard is found before anything is said, and the next is ready."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from handsfree.care.ahead import ahead
from handsfree.care.checklist_file import read_checklist
from handsfree.care.listening import listen
from handsfree.care.session import Session
from handsfree.care.vocabulary import SHIPPED, vocabulary
from handsfree.errors import ChecklistError, UnknownWord
from handsfree.lexicon import Lexicon
from handsfree.loop import Corridor
from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.link import read_library
from handsfree.phrases.moment import moment
from handsfree.phrases.spelling import knows_all
from handsfree.ports import Door, Sentences
from handsfree.signals import Closed, Gate, Lapsed, Listen, Noticed, Utterance
from handsfree.testing.dialogue import START, talk
from handsfree.wiring import read_shipped, sounds
from tests.dialogues import WHOLE, lexicon, shipped

PHASES = """\
name = "three_phases"

[[phase]]
name = "first"
title = "First"

[[phase.step]]
name = "begun"
do = "Begin."
say = "begun"

[[phase]]
name = "second"
title = "Second"

[[phase.step]]
name = "middle"
do = "Go on."
say = "zyxgrobble ready"

[[phase]]
name = "third"
title = "Third"

[[phase.step]]
name = "last"
do = "End."
say = "all closed"
"""


def _knows(word: str) -> bool:
    return word != "zyxgrobble"


def test_a_word_that_the_ear_lacks_is_found_before_the_session_begins() -> None:
    """In whatever phase it stands: refused at its step, when the grammars are made."""
    with pytest.raises(ChecklistError) as refused:
        Lexicon(vocabulary(read_checklist(PHASES, "my.toml")), read_shipped, _knows, sounds())
    assert (refused.value.line, "zyxgrobble" in refused.value.wrong) == (16, True)


def test_a_call_word_that_the_ear_lacks() -> None:
    """It is refused in a sentence that begins with no place, for it stands in no file."""
    known = read_checklist(PHASES.replace("zyxgrobble", "it is"), "my.toml")
    with pytest.raises(UnknownWord) as refused:
        Lexicon(vocabulary(known), read_shipped, _knows, sounds(), call_word="zyxgrobble")
    assert str(refused.value).startswith("the recogniser does not know")


def test_a_session_finds_its_grammars_ready() -> None:
    """A whole session that looks ahead while it waits knows each moment before it comes, but the first."""
    made: set[Listen] = set()
    late: list[Listen] = []

    def watch(corridor: Corridor) -> None:
        corridor.door = Foresight(corridor.door, corridor, made, late)

    talk(WHOLE, shipped(), lexicon(), change=watch)
    assert 1 == len(late)
    assert len(made) > 15


class Foresight:
    """A door that notes which moments come and could not be known ahead."""

    def __init__(self, door: Door, corridor: Corridor, made: set[Listen], late: list[Listen]) -> None:
        self._door, self._corridor, self._made, self._late = door, corridor, made, late

    def open(self, sentences: Sentences, gate: Gate, asks: str) -> None:
        session = self._corridor.session
        now = _heard(listen(session))
        if now not in self._made:
            self._late.append(now)
        self._made |= {now, *map(_heard, ahead(session))}
        self._door.open(sentences, gate, asks)

    def next(self, until: datetime | None) -> Utterance | Noticed | Lapsed | Closed:
        return self._door.next(until)


def _heard(moment: Listen) -> Listen:
    return replace(moment, asks="", uncalled=())


def test_what_is_prepared_is_there() -> None:
    """A moment that was prepared is not compiled again."""
    made = Lexicon(vocabulary(shipped()), read_shipped, knows_all, sounds())
    made.prepare([Listen(("next", "stop"))])
    grammar = made.grammar(Listen(("next", "stop")))
    assert grammar is made.grammar(Listen(("next", "stop"), asks="hands"))
    assert "stop" in grammar.phrases()


@pytest.mark.parametrize("call_word", ["", "medic"])
@pytest.mark.parametrize("step", ["order_volume", "needle"])
def test_compiled_over_all_is_compiled_alone(step: str, call_word: str) -> None:
    """What moments share is laid once, and each means what it would mean by itself."""
    single = replace(shipped(), others=())
    texts = {single.name: vocabulary(single).text}
    library = read_library([single.name, *SHIPPED], lambda name: texts.get(name) or read_shipped(name))
    now = listen(Session(single, START, step=step), called=True)
    alone = compile_grammar(moment(library, now, call_word), sounds=sounds())
    over = Lexicon(vocabulary(single), read_shipped, knows_all, sounds(), call_word).grammar(now)
    assert (alone.public, alone.words, alone.rules) == (over.public, over.words, over.rules)
