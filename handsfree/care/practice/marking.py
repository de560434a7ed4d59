"""Marking: from the events of a run to its marks. Pure, so that any replay gives the same."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from handsfree.care import events as e
from handsfree.care.checklist import Checklist
from handsfree.care.practice import stretches
from handsfree.care.practice.marks import Failure, FaultMark, Marking, StepMark, Stretch, Verdict
from handsfree.care.practice.plain import reason
from handsfree.care.practice.sheet import Sheet
from handsfree.care.practice.standards import standards

MISSED = "missed"
"""Rule of a critical step that was never said, or that an instructor saw was not done."""


def mark(
    checklist: Checklist, records: Iterable[e.Recorded], at: datetime, utc_offset_min: int = 0, *, ended: bool
) -> Marking:
    """Mark a run as it stands at a time. ended: nothing more comes: what was not said was missed."""
    sheet = written(checklist, records, utc_offset_min)
    found = _stretches(sheet)
    failures = [*sheet.failures, *_in_time(sheet, found, at), *_unmet(sheet, at, ended)]
    if ended:
        failures += [*_wrong_values(sheet), *_missed(sheet, at)]
    failures.sort(key=lambda one: one.at)
    return Marking(
        tuple(_step_marks(sheet)),
        tuple(_judged(one, sheet) for one in failures),
        found,
        tuple(sheet.faults.values()),
        tuple(sheet.cues),
        sum(checklist.step(one.step).attempt for one in sheet.sayings),
    )


def written(checklist: Checklist, records: Iterable[e.Recorded], utc_offset_min: int = 0) -> Sheet:
    """The sheet of a run: all events but those that were taken back."""
    order = [rule for rule in standards(checklist) if rule.step]
    sheet = Sheet(checklist, order, utc_offset_min)
    for one in standing(records):
        sheet.take(one.event, one.at)
    return sheet


def standing(records: Iterable[e.Recorded]) -> tuple[e.Recorded, ...]:
    """Records without what was taken back: with each `Undone` goes what followed from the last sentence."""
    kept: list[e.Recorded] = []
    began: list[int] = []
    for one in records:
        match one.event:
            case e.SpeechUnderstood(changes=True):
                began.append(len(kept))
            case e.Undone():
                place = began.pop() if began else len(kept)
                kept[place:] = [other for other in kept[place:] if not isinstance(other.event, _TAKEN_BACK)]
            case _:
                kept.append(one)
    return tuple(kept)


_TAKEN_BACK = (e.StepSaid, e.FindingReported, e.FaultSet, e.Overruled)


def _stretches(sheet: Sheet) -> tuple[Stretch, ...]:
    values = {name: said.value for name, said in sheet.done.items()}
    rules = [rule for rule in standards(sheet.checklist) if rule.begins]
    return tuple(one for rule in rules for one in stretches.stretches(rule, sheet.sayings, values))


def _in_time(sheet: Sheet, found: Sequence[Stretch], at: datetime) -> Iterator[Failure]:
    for rule in standards(sheet.checklist):
        own = [one for one in found if one.rule == rule]
        yield from stretches.failures(rule, own, sheet.sayings, at)


def _unmet(sheet: Sheet, at: datetime, ended: bool) -> Iterator[Failure]:
    for one in sheet.faults.values():
        fault = sheet.checklist.fault_to_meet(one.fault)
        if fault is not None and (late := _late(one, fault.within_s, at, ended)):
            yield Failure(fault.name, late, fault.right, "", fault.tell, fault.critical)


def _late(one: FaultMark, within_s: int, at: datetime, ended: bool) -> datetime | None:
    """When a fault should have been met, where it was not by then."""
    due = one.at + timedelta(seconds=within_s)
    if one.met is not None:
        return due if one.met > due else None
    return min(due, at) if ended or at > due else None


def _wrong_values(sheet: Sheet) -> Iterator[Failure]:
    for step in sheet.checklist.steps:
        saying = sheet.done.get(step.name)
        wrong = sheet.wrong(saying) if saying is not None and sheet.applies(step) else ""
        if saying is not None and wrong:
            yield Failure(f"{step.name}_value", saying.at, reason(step.why), step.name, wrong, step.critical)


def _missed(sheet: Sheet, at: datetime) -> Iterator[Failure]:
    for one in _step_marks(sheet):
        step = sheet.checklist.step(one.step)
        if one.verdict in (Verdict.MISSED, Verdict.NOT_SEEN) and step.critical:
            yield Failure(MISSED, at, reason(step.why), step.name, "", critical=True)


def _judged(failure: Failure, sheet: Sheet) -> Failure:
    """What was set right by saying it again, in order, does not count, unless it was critical; nor does what
    an instructor accepts."""
    saying = sheet.done.get(failure.step)
    again = saying is not None and saying.at > failure.at and not sheet.failed_at(saying)
    names = {failure.rule, failure.step if failure.rule == MISSED else ""}
    return replace(failure, corrected=again and not failure.critical, overruled=bool(names & sheet.accepted))


def _step_marks(sheet: Sheet) -> Iterator[StepMark]:
    for step in sheet.checklist.steps:
        if sheet.applies(step):
            seen = sheet.seen.get(step.name)
            yield StepMark(step.name, _verdict(sheet, step.name, seen), sheet.done.get(step.name), seen)


def _verdict(sheet: Sheet, step: str, seen: bool | None) -> Verdict:
    saying = sheet.done.get(step)
    if seen is False:
        return Verdict.NOT_SEEN
    if saying is None:
        return Verdict.DONE if seen else Verdict.MISSED
    if sheet.failed_at(saying):
        return Verdict.OUT_OF_ORDER
    return Verdict.PROMPTED if saying.prompted else Verdict.DONE
