"""The patient's weight, in kilograms or from pounds."""

from __future__ import annotations

from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.formulas import WEIGHT
from handsfree.care.infusion.sheet import Sheet
from handsfree.words import worded

POUNDS_CAUTION = worded("Pounds were divided by 2.2, as is taught; exactly it is 2.2046 (from memory).")


def weigh(sheet: Sheet, weight: Measure) -> None:
    """Put the weight on the sheet, in kilograms; pounds with their working. weight: in kg or lb."""
    if weight.unit == "lb":
        sheet.known["pounds"] = weight
        sheet.work_out(WEIGHT, "kg")
        sheet.caution(POUNDS_CAUTION)
    else:
        sheet.known["weight"] = weight
    sheet.hold({"weight": "weight"})
