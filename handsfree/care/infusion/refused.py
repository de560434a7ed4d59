"""The outcome of arithmetic that gives no answer: a value, not an error."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Refused:
    """No number follows from what is known. reason: one sentence for the user."""

    reason: str
