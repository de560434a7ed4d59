"""How likely a thing is by what speaks for it and against it: a logistic sum, fitted to recordings."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

E = TypeVar("E", bound="DataclassInstance")


@dataclass(frozen=True, slots=True)
class Scale(Generic[E]):
    """What evidence counts for: log odds are base + the sum of each piece times its weight.

    weights: each in the field of the piece that it is for.
    """

    base: float
    weights: E

    def likely(self, evidence: E) -> float:
        """How likely it is, 0 to 1."""
        pieces = (field.name for field in fields(evidence))
        odds = sum((getattr(self.weights, one) * getattr(evidence, one) for one in pieces), self.base)
        return 1 / (1 + math.exp(-odds))
