"""Faults to be met: drawn from a seed or set by an instructor, and what a right answer is."""

from __future__ import annotations

import pytest

from handsfree.care import events as e
from handsfree.care.practice.terms import drawn
from handsfree.testing.dialogue import Talk
from tests.care.practice.practised import cannulated, rubbed
from tests.care.practice.runs import upto
from tests.dialogues import shipped

FAULTS = {
    "bag_out_of_date": ("instructor the bag is out of date", "so i take another bag", "it is dry outside"),
    "no_flash": ("instructor there is no flash", "oh i missed the vein", "i press above the tip"),
    "swelling_at_the_flush": ("instructor it swells", "i stop the flush", "there is no resistance"),
    "no_flow": ("instructor nothing drips", "i check for kinks", "i write the label"),
    "it_burns": ("instructor the patient says it burns", "taking the cannula out", "the dressing is on"),
}
"""By fault: an instructor's words, a right answer by its `right`, and one that is none."""


def met(talk: Talk, fault: str) -> bool | None:
    """Whether a fault was met in time; None where it was never set."""
    marking = talk.session.marking(talk.session.started)
    mark = next((one for one in marking.faults if one.fault == fault), None)
    return mark and mark.met is not None and not any(one.rule == fault for one in marking.failures)


def test_every_fault_of_the_checklist_is_here() -> None:
    """Each has its words, an answer and a wrong one."""
    assert set(FAULTS) == {one.name for one in shipped().faults}


@pytest.mark.parametrize("name", FAULTS)
def test_set_by_an_instructor(name: str) -> None:
    """In silence; met by a right answer in time, not by a late one, nor by anything else."""
    fault, (words, right, other) = shipped().fault_to_meet(name), FAULTS[name]
    assert fault is not None
    late, end = f"+{fault.within_s + 1}", ("end session", "yes end it")

    assert met(cannulated(words, "+5", right, *end), name) is True
    assert met(cannulated(words, late, right, *end), name) is False
    assert met(cannulated(words, "+5", other, *end), name) is False
    assert cannulated(words).said == cannulated().said


@pytest.mark.parametrize("name", FAULTS)
def test_drawn(name: str) -> None:
    """It is said right after its step, once, and marked as if an instructor had set it."""
    fault = shipped().fault_to_meet(name)
    assert fault is not None
    before = [one.words for one in upto(fault.when)]
    answer = FAULTS[name][1]
    talk = cannulated(*before, before[-1], "+5", answer, "end session", "yes end it", faults=(name,))

    assert talk.said.count(fault.tell) == 1
    assert talk.lines[talk.lines.index(fault.tell) - 1] == f"> {before[-1]}"
    assert met(talk, name) is True
    assert [one.event for one in talk.session.records if isinstance(one.event, e.FaultSet)] == [
        e.FaultSet(name, drawn=True)
    ]


def test_what_is_not_met_is_told_with_the_critical_errors() -> None:
    """A critical fault that was not met stands alone in the result."""
    talk = rubbed("finger tips", "+20", "end session", "yes end it", faults=("bed_rail",))

    assert "You touched the bed." in talk.said
    assert "not met: you touched the bed" in talk.last


def test_a_fault_that_is_taken_back_was_never_set() -> None:
    """An instructor's slip of the tongue costs nothing."""
    assert met(rubbed("instructor you touched the bed", "scrub that", "+60"), "bed_rail") is None


@pytest.mark.parametrize("seed", range(20))
def test_a_seed_draws_the_same_each_time(seed: int) -> None:
    """As many as are asked for, no one twice, all of the checklist; the same for the same number."""
    faults = shipped().faults
    names = drawn(faults, 2, seed)

    assert drawn(faults, 2, seed) == names
    assert len(set(names)) == 2
    assert set(names) <= {one.name for one in faults if one.when}


def test_seeds_draw_each_fault() -> None:
    """No fault is out of reach, and more than there are cannot be drawn."""
    faults = shipped().faults
    assert {name for seed in range(20) for name in drawn(faults, 2, seed)} == set(FAULTS)
    assert set(drawn(faults, 99, 1)) == set(FAULTS)
