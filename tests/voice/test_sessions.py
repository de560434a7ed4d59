"""Whole sessions on real sound, from the recording to the record, on both ears."""

from __future__ import annotations

import io
import re
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

import pytest

from handsfree.care import events as e
from handsfree.care.session import Session
from handsfree.clock import SoundClock
from handsfree.hear.recording import Recording
from handsfree.hear.sound_door import SoundDoor
from handsfree.keep.journal import SqlJournal
from handsfree.phrases.grammar import compile_grammar
from handsfree.phrases.link import read_grammar
from handsfree.record import CODEC
from handsfree.rooms import Choices, rooms_for
from handsfree.sessions import run_demo, run_new
from handsfree.shelf import checklist_from
from handsfree.signals import Gate, Utterance
from handsfree.wiring import make_ear
from tests.voice.manifest import FIXTURES

SESSIONS = FIXTURES / "sessions"
LONG = SESSIONS / "aid_station_long.ogg"

RATE_PER_MIN = 42
"""1000 mL over 8 h with 20 gtt/mL: "41.67, then 42 gtt/min", Pharmacology Math for the Practical Nurse,
subcourse MD0904 ed. 100 (US Army Medical Department), page 123."""

ANY_NUMBERS = """#JSGF V1.0;
grammar reply;
<unit> = one | two | three | four | five | six | seven | eight | nine | ten | eleven;
<ty> = twenty | thirty | forty | fifty | sixty | seventy | eighty | ninety;
public <told> = (<unit> | <ty> | drops a minute | one drop every | point | seconds
    | open the clamp slowly and set)+;
"""
"""Any numbers in any order, so that the rate in the reply is found and not assumed."""

RATE = re.compile(r"((?:twen|thir|for|fif|six|seven|eigh|nine)ty \w+) \w+ \w+ drops a minute")

NOT_MEANT = (
    e.StepsReopened, e.StopRaised, e.StopOverridden, e.StepSkipped, e.StepLeftOpen, e.Undone, e.Held,
    e.ListeningPaused, e.EmergencyRaised, e.ProposalDropped, e.CommandRefused, e.PathShortened,
    e.FlowCounted, e.ReasonAsked,
)  # fmt: skip
"""What only a command that was not said could cause."""

VALUES = {
    "aid_station": {
        "order_fluid": "sodium chloride 0.9 %",
        "order_volume": "1000",
        "order_speed": "480",
        "drop_factor": "20",
        "bag_fluid": "sodium chloride 0.9 %",
        "allergies": "none",
        "limb_to_avoid": "right",
        "gauge": "18",
        "antiseptic": "chlorhexidine",
        "flush_expiry": "2034-03",
        "bag_expiry": "2034-06",
        "site": "left forearm",
        "attempts": "1",
        "counted": "42/60",
    },
    "lock_only": {"limb_to_avoid": "left", "gauge": "20", "attempts": "1"},
}
"""What the recorded people say, as the record must keep it."""


def _events(folder: Path, session: str) -> list[e.Event]:
    return [CODEC.decode(row) for row in SqlJournal(folder).read(session)]


def _wrong(events: list[e.Event]) -> list[e.Event]:
    """What happened and nobody said."""
    return [event for event in events if isinstance(event, NOT_MEANT)]


def _values(session: Session, scene: str) -> dict[str, str]:
    return {step: session.value(step) for step in VALUES[scene]}


@pytest.mark.parametrize("scene", ["aid_station", "lock_only"])
@pytest.mark.parametrize("ear", ["sphinx", pytest.param("vosk", marks=pytest.mark.vosk)])
@pytest.mark.timeout(400)
def test_a_recorded_person_is_walked_to_the_end(
    ear: str, scene: str, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    """Every step is closed, by nothing but what the person said; the rate is the published one."""
    if ear == "vosk":
        request.getfixturevalue("vosk_model")
    session, record = run_demo(scene, Choices(tmp_path, ear), io.StringIO())
    events = _events(tmp_path, record.session)
    assert session.left_open() == ()
    assert _wrong(events) == []
    assert _values(session, scene) == VALUES[scene]
    rates = [round(event.drop_rate_per_min) for event in events if isinstance(event, e.RateComputed)]
    assert rates == ([RATE_PER_MIN] if scene == "aid_station" else [])


@pytest.mark.vosk
@pytest.mark.timeout(300)
def test_one_long_recording_in_place_of_the_microphone(vosk_model: Path, tmp_path: Path) -> None:
    """No wrong command in it, every step closed, and the reply heard again tells the drip rate."""
    reply = tmp_path / "reply.wav"
    choices = Choices(tmp_path, "vosk", recording=LONG, speak_to=reply)
    with rooms_for(choices) as rooms:
        session, record = run_new(checklist_from("peripheral_iv"), choices, rooms)
    assert session.left_open() == ()
    assert _wrong(_events(tmp_path, record.session)) == []
    assert _values(session, "aid_station") == VALUES["aid_station"]
    assert session.rate is not None
    assert session.rate.drop_rate_per_min == Fraction(125, 3)
    assert _told_rates(reply) == {"forty two"}


def _told_rates(reply: Path) -> set[str]:
    """Every rate that Vosk hears in the reply."""
    ear = make_ear("vosk")
    grammar = compile_grammar(read_grammar(ANY_NUMBERS, "reply.jsgf"), knows=ear.knows)
    door = SoundDoor(Recording(reply), ear, SoundClock(datetime(2031, 5, 4, tzinfo=UTC)))
    door.open(grammar, Gate.OPEN, "")
    found: set[str] = set()
    while isinstance(utterance := door.next(None), Utterance):
        found |= set(RATE.findall(" ".join(utterance.alternatives[0].words)))
    return found
