"""How often the opposite of a sentence is taken for it: python -m tests.bench.opposites

Statements ("the pump is locked", "the pump is unlocked") and negations of the garden's commands ("don't open
the main valve") in the tuning voices, made as they are needed, in quiet.
"""

from __future__ import annotations

from collections import Counter
from datetime import UTC, datetime
from itertools import product

from handsfree.clock import SoundClock
from handsfree.hear.sound_door import SoundDoor
from handsfree.phrases.grammar import Grammar, compile_grammar
from handsfree.phrases.judge import judge
from handsfree.phrases.link import read_grammar
from handsfree.ports import Ear
from handsfree.signals import Gate, Heard, Utterance
from handsfree.wiring import make_ear
from tests.bench import hearing_grammars as grammars
from tests.bench import hearing_voices as voices
from tests.bench.hearing_edges import trimmed
from tests.bench.hearing_noises import stream
from tests.voice.hearing import Samples

VOICES = ("flite_kal16", "flite_awb", "flite_rms", "espeak_us")

THINGS = ("line", "door", "box", "pump")

STATES = (
    *("muted", "clamped", "locked", "capped", "sealed", "plugged", "covered", "tied", "screwed", "loaded"),
    *("checked", "packed", "latched", "marked", "safe", "clean", "stable", "clear", "able", "changed"),
    "damaged",
)

STATEMENTS = f"""#JSGF V1.0;
grammar statements;
public <said> = [the] ({" | ".join(THINGS)}) is ({" | ".join(STATES)}) [now];
"""

NEGATED = (
    "do not open the main valve",
    "don't open the main valve",
    "never close the left valve",
    "do not water the big greenhouse",
    "don't water the east side",
    "soil is not dry",
    "soil isn't wet in bed two",
    "no frost warning on",
    "do not mix ten grams of feed with two liters",
    "leaves are not green",
    "leaves aren't yellow",
)


def heard(ear: Ear, grammar: Grammar, voice: str, text: str) -> tuple[str, ...]:
    """What was accepted of one spoken sentence."""
    ear.hear(None)
    sound = Samples(stream(trimmed(voices.said(voice, text))))
    door = SoundDoor(sound, ear, SoundClock(datetime(2031, 5, 4, tzinfo=UTC)))
    door.open(grammar, Gate.OPEN, "")
    accepted = []
    while isinstance(utterance := door.next(None), Utterance):
        outcome = judge(grammar, utterance)
        accepted += [outcome.text] if isinstance(outcome, Heard) else []
    return tuple(accepted)


def main() -> None:
    """Hear and print."""
    ear = make_ear("vosk")
    statements = compile_grammar(read_grammar(STATEMENTS, "statements"), knows=ear.knows)
    garden = grammars.compiled("garden", ear.knows)
    number: Counter[str] = Counter()
    for (place, state), (turn, voice) in product(enumerate(STATES), enumerate(VOICES)):
        is_ = f"the {THINGS[(place + turn) % len(THINGS)]} is "
        number["statements"] += 1
        number["heard"] += heard(ear, statements, voice, is_ + state) != ()
        number["opposites taken for them"] += heard(ear, statements, voice, f"{is_}un{state}") != ()
    for text, voice in product(NEGATED, VOICES):
        number["negated commands"] += 1
        number["taken for commands"] += heard(ear, garden, voice, text) != ()
    print(", ".join(f"{name} {count}" for name, count in number.items()))


if __name__ == "__main__":
    main()
