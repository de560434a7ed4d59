"""The sheet on which an answer is worked out, line by line, as one would on paper."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from handsfree.care.infusion.answer import Answer, Found, Terms
from handsfree.care.infusion.formula import Formula, Measure, plain
from handsfree.care.infusion.limits import Beyond, outside
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.rounding import POLICY, Rounded, RoundsToZero
from handsfree.words import worded

STANDING_CAUTION = worded("Check every number independently; the order and local protocol decide.")

LARGEST = 10**9
"""Numbers from here on are not said, and no infusion has them."""


class Sheet:
    """Quantities that are known, those that were worked out, and cautions; or the first refusal.

    From a refusal on, nothing is added.
    """

    def __init__(self, terms: Terms, known: Mapping[str, Measure]) -> None:
        self.terms = terms
        self.known = dict(known)
        self.found: dict[str, Found] = {}
        self.refused: Refused | None = None
        self._cautions: list[str] = []
        self._unusual: list[str] = []

    def refuse(self, refused: Refused | None) -> None:
        """Close the sheet, unless there is no refusal, or was one before."""
        self.refused = self.refused or refused

    def caution(self, text: str) -> None:
        """Something to be kept in mind; nothing where it is empty."""
        if text and text not in self._cautions:
            self._cautions.append(text)

    def judge(self, faults: Iterable[Beyond]) -> None:
        """Refuse what is beyond a hard limit; caution about what is only unusual."""
        for fault in faults:
            if fault.hard:
                self.refuse(Refused(fault.reason))
            self.caution(fault.reason)
            self._unusual.append(fault.reason)

    def hold(self, limits: Mapping[str, str]) -> None:
        """Judge quantities, by their names here, against limits, by the names in `LIMITS`."""
        for name, limit in limits.items():
            if name in self.known:
                self.judge(outside({limit: self.known[name]}, self.terms.patient, self.terms.local))

    def work_out(self, formula: Formula, unit: str) -> None:
        """A line that the answer needs; refused where the number is not above zero, or rounds to zero."""
        if self.refused:
            return
        line = self._line(formula, unit)
        if isinstance(line, Refused):
            self.refuse(line)
        else:
            self._add(line)

    def add_if_told(self, formula: Formula, unit: str) -> None:
        """A line that is left out where a quantity is missing, or nothing is left of the number."""
        if self.refused or not formula.needs <= self.known.keys():
            return
        line = self._line(formula, unit)
        if isinstance(line, Found):
            self._add(line)

    def close(
        self, says: Callable[[Mapping[str, Found]], str], times: Mapping[str, str | int] | None = None
    ) -> Answer | Refused:
        """The answer: its sentence is made from what was found, by name."""
        if self.refused:
            return self.refused
        shifts = [one.caution for one in self.found.values() if one.caution]
        cautions = (STANDING_CAUTION, *self._cautions, *shifts)
        found = tuple(self.found.values())
        return Answer(found, says(self.found), cautions, times or {}, tuple(dict.fromkeys(self._unusual)))

    def _line(self, formula: Formula, unit: str) -> Found | Refused:
        exact = formula.work_out(self.known)
        if not 0 < exact < LARGEST:
            it = {"quantity": worded(formula.gives), "amount": f"{plain(exact)} {unit}"}
            if exact <= 0:
                return Refused(worded("The {quantity} would be {amount}, not more than zero.", **it))
            return Refused(worded("The {quantity} would be {amount}, more than any infusion has.", **it))
        match self.terms.rounding.round(exact, unit):
            case Rounded() as number:
                return Found(formula.gives, number, unit, formula, formula.working(self.known))
            case RoundsToZero():
                amount = POLICY.write(exact, unit)
                return Refused(worded("{amount} would be rounded to zero: too little to set.", amount=amount))

    def _add(self, line: Found) -> None:
        self.found[line.name] = line
        self.known[line.name] = line.measure
