"""What was not understood, or could be two things: asked again, with choices, then let be. Never for ever."""

from __future__ import annotations

from handsfree.care import events as e
from handsfree.care import refusals
from handsfree.care.choices import answers_of
from handsfree.care.closed import why_closed
from handsfree.care.commands import Mumble, Say
from handsfree.care.decision import Decision
from handsfree.care.proposals import drop
from handsfree.care.questions.doubt import in_doubt
from handsfree.care.questions.replies import drop_question
from handsfree.care.rules import OPEN, QUESTIONS, SURE, Mode
from handsfree.care.session import State

MISSES_BEFORE_CHOICES = 2
MISSES_BEFORE_LEFT_OPEN = 3

_LONG = (*QUESTIONS, "completion")

_ASKED_AGAIN = (Mode.WALKING, Mode.CONFIRMING, Mode.STOPPED)


def missed(decision: Decision, mumble: Mumble) -> None:
    """Speech that is no sentence now; a command that makes no sense now is refused in words."""
    session = decision.session
    # What confirms, said outside its window, others may have said: nothing is made of it.
    closed = [rule for rule in mumble.closed if rule not in SURE or session.mode not in OPEN[rule]]
    if closed and session.mode in _ASKED_AGAIN:
        # How sure was never weighed: the judge knew only what is open.
        decision.add(e.SpeechUnderstood(closed[0], mumble.text, confidence=0.0, changes=False))
        decision.add(e.CommandRefused(why_closed(session, *closed)))
        return
    decision.add(e.SpeechNotUnderstood(mumble.text, mumble.sound, mumble.drowned))
    misses = decision.session.misses
    if session.mode is Mode.CHOOSING and misses >= MISSES_BEFORE_LEFT_OPEN:
        drop_choice(decision, "misheard")
    elif session.mode is Mode.ASKING and misses >= MISSES_BEFORE_LEFT_OPEN:
        drop_question(decision, "misheard")
    elif session.mode not in (*_ASKED_AGAIN, Mode.CHOOSING, Mode.ASKING):
        return
    elif misses == MISSES_BEFORE_CHOICES and not session.sharp_open:
        decision.add(e.Told("choices"))
    elif misses == MISSES_BEFORE_LEFT_OPEN:
        _let_be(decision)


def wavered(decision: Decision, candidates: tuple[Say, ...]) -> None:
    """Speech that could be two sentences: ask which, where both may be named and none of them confirms; of a
    question, ask for the part in which they differ."""
    session = decision.session
    decision.add(e.SpeechWavered(tuple(said.text for said in candidates)))
    doubt = in_doubt(candidates) if session.mode in _ASKED_AGAIN else None
    if session.mode in (Mode.REASONING, Mode.ENDING):
        decision.again()
    elif doubt is not None:
        question, name = doubt
        decision.add(e.QuestionLacking(question.text, name))
    elif (
        session.mode in _ASKED_AGAIN
        and session.misses < MISSES_BEFORE_LEFT_OPEN
        and all(map(_may_be_named, candidates[:2]))
    ):
        decision.add(e.ChoiceAsked(candidates[:2]))
    elif session.misses < MISSES_BEFORE_CHOICES and all(said.rule in _LONG for said in candidates):
        decision.add(e.CommandRefused(refusals.SOUNDS_ALIKE))
    else:
        missed(decision, Mumble(candidates[0].text))


def drop_choice(decision: Decision, why: str) -> None:
    """Neither of the two counts; what was asked before is asked again."""
    decision.add(e.ChoiceDropped(why))
    decision.again()


def _let_be(decision: Decision) -> None:
    """Leave the step visibly open, or drop what was read back."""
    session = decision.session
    is_open = session.step and session.mark(session.step).state is State.OPEN
    if session.mode is Mode.CONFIRMING:
        drop(decision, "misheard")
    elif session.mode is Mode.WALKING and is_open and not session.sharp_open:
        decision.add(e.StepLeftOpen(session.step))
        decision.move_on()


def _may_be_named(said: Say) -> bool:
    """What lets a number act is never offered for choice, a tag is never said aloud, and of two questions it
    takes longer to tell which than to ask again."""
    return said.rule not in (*SURE, *_LONG) and all(answer.rule != "identity" for answer in answers_of(said))
