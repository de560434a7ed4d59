"""The ceilings of potassium by a peripheral line."""

from __future__ import annotations

from handsfree.care.infusion.drugs import kind_of
from handsfree.care.infusion.formula import Formula, Measure
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.sheet import Sheet
from handsfree.care.infusion.sources import ARITHMETIC

EQUIVALENTS = ("mEq", "mmol")
"""One mmol of potassium is one mEq."""

STRENGTH = Formula("potassium strength", "drug ÷ bag × 1000 mL/L", ARITHMETIC)
HOURLY = Formula("potassium rate", "rate × drug ÷ bag", ARITHMETIC)


def hold_potassium(sheet: Sheet, drug: str) -> None:
    """Hold strength and rate against their limits, where the drug was named and is told in mEq or mmol."""
    if sheet.refused or kind_of(drug) != "potassium":
        return
    if sheet.known["drug"].unit not in EQUIVALENTS:
        sheet.refuse(Refused("Potassium is told in mEq or mmol, so that its limits can be checked."))
        return
    for formula, unit in ((STRENGTH, "mEq/L"), (HOURLY, "mEq/h")):
        if formula.needs <= sheet.known.keys():
            sheet.known[formula.gives] = Measure(formula.work_out(sheet.known), unit)
    sheet.hold({"potassium strength": "potassium strength", "potassium rate": "potassium rate"})
