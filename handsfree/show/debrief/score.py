"""Times against their targets, and a score with the rules that it follows from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Limit(Enum):
    """On which side of its target a time is as it should be."""

    AT_MOST = "at most"
    AT_LEAST = "at least"


@dataclass(frozen=True, slots=True)
class Measure:
    """A time that was taken: of the whole run, a tie of the tourniquet, cleaning, drying.

    name: the same in every run. took_s: None where it was not ended. target_s: None where there is no target.
    at_s: when it began. source: where the target comes from.
    """

    name: str
    took_s: float | None
    target_s: float | None = None
    limit: Limit = Limit.AT_MOST
    at_s: float | None = None
    source: str = ""

    @property
    def met(self) -> bool | None:
        """Whether the target was kept; None where that can't be told."""
        if self.took_s is None or self.target_s is None:
            return None
        at_most = self.limit is Limit.AT_MOST
        return self.took_s <= self.target_s if at_most else self.took_s >= self.target_s


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the marking. got, of: points. because: why not all. at_s: the moment that shows it."""

    text: str
    got: float
    of: float
    because: str = ""
    at_s: float | None = None

    @property
    def kept(self) -> bool:
        """Whether all its points were given."""
        return self.got >= self.of


@dataclass(frozen=True, slots=True)
class Score:
    """The rules of the marking, each with its points. Critical errors are no part of it: they stand alone.

    remark: what is to be read beside it, for example what the weights are and where they stand.
    """

    rules: tuple[Rule, ...]
    remark: str = ""

    @property
    def got(self) -> float:
        """All points that were given."""
        return sum(rule.got for rule in self.rules)

    @property
    def of(self) -> float:
        """All points that could have been given."""
        return sum(rule.of for rule in self.rules)
