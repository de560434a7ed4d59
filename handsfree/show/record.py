"""The record in plain lines, for a person to read."""

from __future__ import annotations

from collections.abc import Iterator

from handsfree.care.infusion.counting import seconds_per_drop
from handsfree.care.infusion.rounding import POLICY
from handsfree.care.session import Session, State


def record_lines(session: Session) -> Iterator[str]:
    """Every step that applies: when it was done, its value or reason; then the rate. Times are local."""
    for step in session.checklist.steps:
        if not session.applies(step):
            continue
        mark = session.mark(step.name)
        at = f"{session.local(mark.at):%H:%M:%S}" if mark.at else " " * 8
        detail = (
            mark.value if mark.state is State.CLOSED else f"{mark.state.value} {mark.reason}".strip().upper()
        )
        yield f"{at}  {step.name:<14} {detail}".rstrip()
    if session.rate is not None:
        rate = session.rate
        yield (
            f"{POLICY.write(rate.volume_ml, 'mL')} over {POLICY.write(rate.time_min, 'min')}, "
            f"{POLICY.write(rate.drop_factor_per_ml, 'gtt/mL')}: "
            f"{POLICY.write(rate.drop_rate_per_min, 'gtt/min')}, "
            f"one drop every {POLICY.write(seconds_per_drop(rate.drop_rate_per_min), 's')}"
        )
