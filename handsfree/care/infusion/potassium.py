"""The ceilings of potassium by a peripheral line."""

from __future__ import annotations

from handsfree.care.infusion.drugs import kind_of
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.formulas import POTASSIUM_RATE, POTASSIUM_STRENGTH
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.sheet import Sheet
from handsfree.words import worded

EQUIVALENTS = ("mEq", "mmol")
"""One mmol of potassium is one mEq."""


def hold_potassium(sheet: Sheet, drug: str) -> None:
    """Hold strength and rate against their limits, where the drug was named and is told in mEq or mmol."""
    if sheet.refused or kind_of(drug) != "potassium":
        return
    if sheet.known["drug"].unit not in EQUIVALENTS:
        sheet.refuse(Refused(worded("Potassium is told in mEq or mmol, so that its limits can be checked.")))
        return
    for formula, unit in ((POTASSIUM_STRENGTH, "mEq/L"), (POTASSIUM_RATE, "mEq/h")):
        if formula.needs <= sheet.known.keys():
            sheet.known[formula.gives] = Measure(formula.work_out(sheet.known), unit)
    sheet.hold({"potassium strength": "potassium strength", "potassium rate": "potassium rate"})
