"""Behind or ahead of the order: what is left, in the time that is left."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from handsfree.care.infusion import formulas
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.rounding import POLICY
from handsfree.care.infusion.sheet import Sheet
from handsfree.words import worded

ASK_BEYOND = Fraction(1, 4)
"""Part of the ordered rate by which it is not changed without asking (from memory)."""


@dataclass(frozen=True, slots=True)
class Behind:
    """What is in already, and how long it took."""

    given_ml: Fraction
    gone_min: Fraction


def catch_up(sheet: Sheet, behind: Behind) -> None:
    """Volume and time left, and the rate that ends when it was ordered to; drops where the set is known.

    From then on, rate and drop rate of the sheet are those that catch up.
    """
    if not {"volume", "time", "rate"} <= sheet.known.keys():
        sheet.refuse(Refused(worded("To catch up, the volume and the time that were ordered must be known.")))
    sheet.known |= {
        "given": Measure(behind.given_ml, "mL"),
        "time gone": Measure(behind.gone_min, "min"),
    }
    sheet.work_out(formulas.VOLUME_LEFT, "mL")
    sheet.work_out(formulas.TIME_LEFT, "min")
    sheet.work_out(formulas.CATCH_UP, "mL/h")
    sheet.hold({"catch up rate": "rate"})
    if "drop factor" in sheet.known:
        sheet.work_out(formulas.CATCH_UP_DROPS, "gtt/min")
    if not sheet.refused:
        sheet.caution(change_caution(sheet.known["rate"].value, sheet.known["catch up rate"].value))
        now = {"rate": "catch up rate", "drop rate": "catch up drop rate"}
        sheet.known |= {name: sheet.known[other] for name, other in now.items() if other in sheet.known}


def change_caution(ordered_ml_per_h: Fraction, catch_up_ml_per_h: Fraction) -> str:
    """That the change needs an order, where it is more than about a quarter."""
    change = abs(catch_up_ml_per_h - ordered_ml_per_h) / ordered_ml_per_h
    if change <= ASK_BEYOND:
        return ""
    percent = POLICY.write(change * 100, "%")
    return worded(
        "Catching up changes the rate by {percent}: ask before more than about 25 % (from memory).",
        percent=percent,
    )
