"""Replay equals live: a session is the fold over its kept events."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from handsfree.care import events as e
from handsfree.care.decide import resume
from handsfree.care.evolution import fold
from handsfree.care.rules import Mode
from handsfree.care.session import Session
from handsfree.clock import utc_offset_min
from handsfree.errors import NotSo, NotThere, StoreDamaged
from handsfree.keep.fields import read_time
from handsfree.ports import Damage, Row, Salvaged
from handsfree.record import CODEC, cut_off, load, new_id
from handsfree.say.wording import sentence
from handsfree.shelf import emergencies
from handsfree.testing.dialogue import SESSION, START
from handsfree.testing.journal import MemoryJournal
from tests.dialogues import ORDER, TO_EQUIPMENT, TO_NEEDLE, TO_RUN, WHOLE, shipped, told

ANYTHING = (
    *sorted(set(WHOLE)),
    *("next", "back", "undo", "skip", "skip because no time", "the cat ate it", "stop", "carry on"),
    *("stop listening", "listen again", "end session", "no", "wrong", "new order", "lock only"),
    *("pink", "lactated ringer's", "expires april 2031", "go on anyway", "avoid the left", "needle stick"),
    *("touched it", "no flash", "it's swelling", "bubbles", "wrong bag", "critical steps only", "mumble"),
    *("+5", "+31", "+60", "+125", "green twenty", "fifteen set", "over six hours", "correct", "correct"),
)
STARTS = ((), ORDER[:3], TO_EQUIPMENT, TO_NEEDLE, TO_RUN)

lines = st.tuples(st.sampled_from(STARTS), st.lists(st.sampled_from(ANYTHING), max_size=25)).map(
    lambda parts: (*parts[0], *parts[1])
)


def records(journal: MemoryJournal) -> list[e.Recorded]:
    return [e.Recorded(read_time(row.at), CODEC.decode(row)) for row in journal.read(SESSION)]


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(lines)
def test_replay_equals_live(script: tuple[str, ...]) -> None:
    """Whatever was said, the session that comes back from the journal is the one that was."""
    talk = told(*script)
    assert load(talk.journal, SESSION, emergencies()).session == talk.session


@settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck))
@given(lines, st.integers(0, 300))
def test_cut_anywhere_and_folded_on(script: tuple[str, ...], cut: int) -> None:
    """In how many pieces the events are folded does not matter."""
    talk = told(*script)
    kept = records(talk.journal)
    new = Session(shipped(), START)
    assert fold(fold(new, kept[:cut]), kept[cut:]) == fold(new, kept) == talk.session


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(lines)
def test_what_holds_whatever_is_said(script: tuple[str, ...]) -> None:
    """The step at hand is open or asked again; a read-back waits only while confirming; a stop has a ground;
    the rate is there only from confirmed values; and the session can be resumed."""
    session = told(*script).session
    assert (session.proposal is not None) or session.mode is not Mode.CONFIRMING
    assert (session.stop is not None) or session.mode is not Mode.STOPPED
    assert session.rate is None or session.value("order_volume")
    assert session.mode is not Mode.OVER
    assert resume(session, e.SessionResumed("typed", False), START)


def test_a_loaded_session_goes_on_in_its_numbers() -> None:
    """The next event follows the last one kept."""
    talk = told(*ORDER)
    record = load(talk.journal, SESSION, emergencies()).record
    before = record.seq
    record.keep([e.Recorded(START, e.SessionResumed("typed", False))])
    assert talk.journal.read(SESSION)[-1].seq == before + 1


def test_nobody_kept_that_session() -> None:
    """An unknown id is not there."""
    with pytest.raises(NotThere):
        load(MemoryJournal(), "none", emergencies())


def test_a_session_without_a_beginning() -> None:
    """A journal that lost its first event is damaged, and says so."""
    journal = MemoryJournal()
    journal.append([Row("one", 1, "2031-05-04T08:00:00.000000Z", *CODEC.encode(e.Held()))])
    with pytest.raises(StoreDamaged):
        load(journal, "one", emergencies())


def test_the_session_to_resume() -> None:
    """The last one that nobody ended by voice; none where all were."""
    with pytest.raises(NotSo):
        cut_off(MemoryJournal())
    assert cut_off(told(*ORDER).journal) == SESSION
    with pytest.raises(NotSo):
        cut_off(told(*ORDER, "end session", "yes end it").journal)


def test_ids_are_new() -> None:
    """An id says when and what; a second one at the same second is numbered."""
    first = new_id(START, "peripheral_iv", ())
    assert first == "20310504T080000-peripheral_iv"
    assert new_id(START, "peripheral_iv", [first]) == f"{first}-2"
    assert new_id(START, "peripheral_iv", [first, f"{first}-2"]) == f"{first}-3"


def test_the_wall_clock_is_minutes_from_utc() -> None:
    """No place on earth is a day away from UTC."""
    assert abs(utc_offset_min()) < 24 * 60


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(lines, st.sets(st.integers(2, 200)))
def test_what_is_left_of_a_session(script: tuple[str, ...], lost: set[int]) -> None:
    """Whichever rows are lost, but for the first, the session comes back from the rest and can be resumed."""
    talk = told(*script)
    whole = talk.journal.salvage(SESSION)
    rows = tuple(row for row in whole.rows if row.seq not in lost)
    damage = tuple(Damage(seq, seq, "lost") for seq in sorted(lost))

    class Damaged(MemoryJournal):
        def salvage(self, session: str) -> Salvaged:
            return Salvaged(rows, (), damage, whole.last)

    kept = load(Damaged(), SESSION, emergencies())
    assert (kept.lost, kept.record.seq) == (len(lost), whole.last)
    assert kept.conduct.resume(kept.session, e.SessionResumed("typed", False, lost=kept.lost), START)


def test_a_resumed_session_says_what_it_lost() -> None:
    """Who goes on with a damaged record hears it at once."""
    session = told(*ORDER).session
    assert sentence(e.SessionResumed("typed", False, lost=3), session, {}) == (
        "Going on with Peripheral I V. Parts of the record are lost: check what was done, and every number."
    )
