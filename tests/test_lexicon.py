"""The grammars of a session: what cannot be heard is found before anything is said."""

from __future__ import annotations

import pytest

from handsfree.care.checklist_file import read_checklist
from handsfree.errors import ChecklistError, UnknownWord
from handsfree.lexicon import Lexicon
from handsfree.wiring import read_shipped, sounds

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
        Lexicon(read_checklist(PHASES, "my.toml"), read_shipped, _knows, sounds())
    assert (refused.value.line, "zyxgrobble" in refused.value.wrong) == (16, True)


def test_a_call_word_that_the_ear_lacks() -> None:
    """It is refused in a sentence that begins with no place, for it stands in no file."""
    known = read_checklist(PHASES.replace("zyxgrobble", "it is"), "my.toml")
    with pytest.raises(UnknownWord) as refused:
        Lexicon(known, read_shipped, _knows, sounds(), call_word="zyxgrobble")
    assert str(refused.value).startswith("the recogniser does not know")
