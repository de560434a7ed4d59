"""From the confirmed values of a session to the drip rate."""

from __future__ import annotations

from collections.abc import Mapping

from handsfree.care import events as e
from handsfree.care.infusion.flow import Flow, solve
from handsfree.care.infusion.limits import Beyond, above_free_flow, beyond
from handsfree.care.infusion.refused import Refused
from handsfree.care.session import Session
from handsfree.care.values import KINDS, as_flow


def known_flow(session: Session, proposed: Mapping[str, tuple[str, str]] | None = None) -> Flow:
    """What closed steps, and values proposed on top of them, say about the flow."""
    closed = {name: (mark.kind, mark.value) for name, mark in session.marks.items() if mark.kind}
    values = {**closed, **(proposed or {})}
    return as_flow({kind: value for kind, value in values.values() if KINDS[kind].field})


def objections(session: Session, proposed: Mapping[str, tuple[str, str]]) -> tuple[Beyond, ...]:
    """What is impossible about the flow with the proposed values, and what is unusual that was not before."""
    flow = _solved(known_flow(session, proposed))
    gauge = session.value(next((s.name for s in session.checklist.steps if "gauge" in s.value), ""))
    fast = above_free_flow(flow.rate_ml_per_h, int(gauge)) if flow.rate_ml_per_h and gauge else None
    old = {one.reason for one in unusual(session)}
    found = (*beyond(flow, session.patient, session.limits), *([fast] if fast else []))
    return tuple(one for one in found if one.hard or one.reason not in old)


def unusual(session: Session) -> tuple[Beyond, ...]:
    """What is beyond a limit in the plan as it was confirmed, now that so much is known of the patient."""
    return beyond(_solved(known_flow(session)), session.patient, session.limits)


def _solved(known: Flow) -> Flow:
    """All that follows, where anything does."""
    solved = solve(known)
    return solved if isinstance(solved, Flow) else known


def computed(session: Session) -> e.RateComputed | Refused | None:
    """The drip rate once volume, time or rate, and drop factor are confirmed; None where one is missing."""
    known = known_flow(session)
    if known.drop_factor_per_ml is None or known.volume_ml is None:
        return None
    flow = solve(known)
    if isinstance(flow, Refused):
        return flow if known.time_min and known.rate_ml_per_h else None
    if flow.time_min is None or flow.rate_ml_per_h is None or flow.drop_rate_per_min is None:
        return None
    return e.RateComputed(
        known.volume_ml, flow.time_min, flow.rate_ml_per_h, known.drop_factor_per_ml, flow.drop_rate_per_min
    )
