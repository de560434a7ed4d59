"""The answer to one question: what was worked out, how, and what is to be kept in mind."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from handsfree.care.infusion.formula import Formula, Measure, plain
from handsfree.care.infusion.limits import Limit
from handsfree.care.infusion.patient import Patient
from handsfree.care.infusion.rounding import POLICY, Rounded, Rounding, duration_text, whole_rates
from handsfree.words import worded

MENTIONED_SHIFT = Fraction(3, 100)
"""A rounding that changes what flows by more is told: a few per cent, local policy."""

Say = Callable[[Fraction, str], str]
"""Says a number with its unit: 31 and `gtt/min` give "thirty one drops a minute"."""


@dataclass(frozen=True, slots=True)
class Terms:
    """For whom it is worked out, and for what pump. whole: it takes no tenths of mL/h. local: limits of local
    policy.
    """

    patient: Patient | None = None
    whole: bool = False
    local: tuple[Limit, ...] = ()

    @property
    def rounding(self) -> Rounding:
        """Half up; down for an infant: Pharmacology for Nurses, ch. 2 "Dosage Calculations" (OpenStax)."""
        policy = Rounding(POLICY.precisions, down=self.patient is Patient.INFANT)
        return whole_rates(policy) if self.whole else policy


ANYBODY = Terms()


@dataclass(frozen=True, slots=True)
class Found:
    """One quantity that was worked out. working: the formula with its numbers in place."""

    name: str
    number: Rounded
    unit: str
    formula: Formula
    working: str

    @property
    def measure(self) -> Measure:
        """What later formulas take: exact."""
        return Measure(self.number.exact, self.unit)

    @property
    def text(self) -> str:
        """For a time its hours and minutes, for anything else number and unit."""
        return duration_text(self.number.exact) if self.unit == "min" else f"{self.number.text} {self.unit}"

    @property
    def line(self) -> str:
        """The working, as in `1000 mL × 15 gtt/mL ÷ 480 min = 31.25, say 31 gtt/min`."""
        exact, said = plain(self.number.exact), self.number.text
        rounding = f"{exact} {self.unit}"
        if exact != said:
            rounding = worded("{exact}, say {rounded}", exact=exact, rounded=f"{said} {self.unit}")
        return rounding if self.working == rounding else f"{self.working} = {rounding}"

    def as_json(self) -> dict[str, str]:
        """As `docs/numbers.md` shows it."""
        known = {"exact": str(self.number.exact), "rounded": self.number.text, "unit": self.unit}
        return {**known, "text": self.text} if self.unit == "min" else known

    @property
    def caution(self) -> str:
        """That rounding changed it by more than a few per cent; empty where it did not."""
        if self.number.shift <= MENTIONED_SHIFT or self.unit in ("min", "s", "gtt"):
            return ""
        percent = POLICY.write(self.number.shift * 100, "%")
        rounded = f"{self.number.text} {self.unit}"
        return worded("Rounding to {rounded} changes it by {percent}.", rounded=rounded, percent=percent)


@dataclass(frozen=True, slots=True)
class Answer:
    """All that follows from a question. says: the sentence to be spoken; what is behind a semicolon can be
    left out. times: of day, and their days. unusual: cautions for which what is to act is confirmed twice.
    """

    found: tuple[Found, ...]
    says: str
    cautions: tuple[str, ...]
    times: Mapping[str, str | int]
    unusual: tuple[str, ...] = ()

    @property
    def method(self) -> str:
        """Each formula that was used, with its source."""
        return "; ".join(dict.fromkeys(one.formula.method for one in self.found))

    def as_json(self) -> dict[str, object]:
        """One object of JSON values."""
        return {
            **{one.name.replace(" ", "_"): one.as_json() for one in self.found},
            **self.times,
            "says": self.says,
            "working": [f"{worded(one.name)}: {one.line}" for one in self.found],
            "method": self.method,
            "cautions": list(self.cautions),
        }
