"""What a flow tells besides what was asked: the beat, counts, the true range of its set, bags a day."""

from __future__ import annotations

from fractions import Fraction

from handsfree.care.infusion import formulas
from handsfree.care.infusion.patient import Patient
from handsfree.care.infusion.sheet import Sheet
from handsfree.words import worded

STANDARD_SETS = frozenset({Fraction(20), Fraction(60)})
"""Drops for a millilitre of the sets that ISO 8536-4:2020 clause 7.8 calibrates (as quoted second hand)."""

SMALL = (Patient.CHILD, Patient.INFANT)

BURETTE_CAUTION = worded("For a child confirm the weight, and ask for a burette or a pump.")
"""Common practice, no source."""


def tell_drops(sheet: Sheet) -> None:
    """Beat, counts, and what the tolerance of the set does to the rate, as far as they can be told."""
    if "drop rate" in sheet.known and sheet.terms.patient in SMALL:
        sheet.caution(BURETTE_CAUTION)
    sheet.add_if_told(formulas.BEAT, "s")
    for count in formulas.COUNTS:
        sheet.add_if_told(count, "gtt")
    sheet.add_if_told(formulas.ONE_DROP, "mL/h")
    factor = sheet.known.get("drop factor")
    if factor and factor.value in STANDARD_SETS:
        sheet.add_if_told(formulas.LOWEST, "mL/h")
        sheet.add_if_told(formulas.HIGHEST, "mL/h")


def tell_bags(sheet: Sheet) -> None:
    """How many bags of that volume a day takes."""
    if "volume" in sheet.known:
        sheet.add_if_told(formulas.BAGS, "bags/day")
