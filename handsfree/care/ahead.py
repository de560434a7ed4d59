"""What may be said soon: after the likeliest next commands, so that an ear's grammars can be made before."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from handsfree.care.listening import listen
from handsfree.care.nesting import back
from handsfree.care.path import next_step
from handsfree.care.reminders.memory import closed
from handsfree.care.rules import Mode
from handsfree.care.session import Mark, Proposal, Session, State
from handsfree.signals import Listen


def ahead(session: Session, called: bool = False) -> Iterator[Listen]:
    """What may be said while the values of the step at hand are read back, and when it is done.

    called: as `listen` has it. Other commands lead elsewhere; what they open is made when it is needed.
    """
    proposal = session.proposal
    if proposal is None and session.step and session.checklist.step(session.step).value:
        proposal = Proposal({session.step: ("", "")}, due=session.started)
    if proposal is not None:
        for asked in (False, True):
            read_back = replace(session, mode=Mode.CONFIRMING, proposal=replace(proposal, asked=asked))
            yield listen(read_back, called)
    yield listen(_done(session, proposal), called)
    if session.reminders and not session.latched() and proposal is None:
        yield listen(_reminded(session), called)


def _reminded(session: Session) -> Session:
    """The session when its next reminder was said: who answers it, or another one, must not wait."""
    first, *rest = sorted(session.reminders, key=lambda one: one.next)
    return replace(session, mode=Mode.WALKING, reminders=(replace(first, said=1, answered=False), *rest))


def _done(session: Session, proposal: Proposal | None) -> Session:
    """The session when the step at hand and what is proposed are done."""
    names = tuple(filter(None, (session.step, *(proposal.values if proposal else ()))))
    marks = {**session.marks, **{name: Mark(State.CLOSED) for name in names}}
    after = replace(session, mode=Mode.WALKING, proposal=None, marks=marks)
    for name in names:
        done = session.checklist.step(name)
        sharp_open = done.sharp_after(after.sharp_open)
        after = replace(closed(after, done.clocks, session.started), sharp_open=sharp_open)
    step = next_step(after)
    if step is None and after.under is not None:
        return back(after)
    return replace(after, step=step.name if step else "")
