"""Values on their way from the read-back to the record, and what follows from them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class ValueProposed:
    """A value that counts once it is read back and confirmed."""

    step: str
    kind: str
    value: str


@dataclass(frozen=True, slots=True)
class ReadBack:
    """All proposed values were read back. unusual: what makes a second confirmation necessary."""

    unusual: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ConfirmedOnce:
    """Confirmed, but unusual: asked once more."""


@dataclass(frozen=True, slots=True)
class ProposalConfirmed:
    """The values read back are taken; a StepClosed follows for each."""


@dataclass(frozen=True, slots=True)
class ProposalDropped:
    """why: "wrong", "lapsed", "misheard" or a reason for which the values are impossible."""

    why: str


@dataclass(frozen=True, slots=True)
class RateComputed:
    """The drip rate, exact, from confirmed values only."""

    volume_ml: Fraction
    time_min: Fraction
    rate_ml_per_h: Fraction
    drop_factor_per_ml: Fraction
    drop_rate_per_min: Fraction


@dataclass(frozen=True, slots=True)
class FlowCounted:
    """Drops were counted, and the flow is not what was ordered."""

    drops: Fraction
    over_s: Fraction
    wanted_per_min: Fraction
