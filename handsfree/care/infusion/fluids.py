"""Fluid by weight: maintenance by the hour or the day, a deficit, a bolus."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from handsfree.care.infusion import formulas
from handsfree.care.infusion.answer import Answer, Found, Say, Terms
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.sentences import say_found
from handsfree.care.infusion.sheet import Sheet
from handsfree.care.infusion.weight import weigh
from handsfree.words import worded

REASSESS = worded("A bolus is given by an explicit order only; look again between portions.")
ISOTONIC = worded("In children isotonic crystalloid (NICE NG29, from a summary).")
METHODS_DIFFER = worded("4-2-1 by the hour and 100-50-20 by the day do not give the same.")

BAND_KG = Fraction(10)


def hourly_maintenance(weight: Measure, terms: Terms, say: Say) -> Answer | Refused:
    """4-2-1: mL/h for each kilogram of the first ten, the next ten, and the rest. weight: in kg or lb."""
    sheet = _weighed(weight, terms)
    _split_weight(sheet)
    sheet.work_out(formulas.HOURLY, "mL/h")
    return _maintenance(sheet, say)


def daily_maintenance(weight: Measure, terms: Terms, say: Say) -> Answer | Refused:
    """100-50-20: mL in a day for each kilogram of the same bands, and the rate over 24 hours."""
    sheet = _weighed(weight, terms)
    _split_weight(sheet)
    sheet.work_out(formulas.DAILY, "mL")
    sheet.work_out(formulas.DAY_AS_RATE, "mL/h")
    return _maintenance(sheet, say)


def deficit(
    weight: Measure, percent: Fraction, over_min: Fraction, terms: Terms, say: Say
) -> Answer | Refused:
    """What dehydration of so many per cent of the weight has lost, and the rate that gives it back."""
    sheet = _weighed(weight, terms)
    sheet.known["dehydration"] = Measure(percent, "%")
    sheet.hold({"dehydration": "dehydration"})
    sheet.work_out(formulas.DEFICIT, "mL")
    _run_over(sheet, over_min)
    return sheet.close(lambda found: _says(found, say, worded("beside maintenance")))


def bolus(
    weight: Measure, per_kg_ml: Fraction, over_min: Fraction | None, terms: Terms, say: Say
) -> Answer | Refused:
    """So many millilitres for each kilogram, as ordered; the rate where a time is ordered too."""
    sheet = _weighed(weight, terms)
    sheet.known["volume per kg"] = Measure(per_kg_ml, "mL/kg")
    sheet.hold({"volume per kg": "volume per kg"})
    sheet.work_out(formulas.BOLUS, "mL")
    sheet.caution(REASSESS)
    if over_min is not None:
        _run_over(sheet, over_min)
    return sheet.close(lambda found: _says(found, say))


def _weighed(weight: Measure, terms: Terms) -> Sheet:
    sheet = Sheet(terms, {})
    weigh(sheet, weight)
    return sheet


def _split_weight(sheet: Sheet) -> None:
    """The weight in the bands of Holliday and Segar."""
    if sheet.refused:
        return
    kg = sheet.known["weight"].value
    sheet.known |= {
        "first 10 kg": Measure(min(kg, BAND_KG), "kg"),
        "next 10 kg": Measure(min(max(kg - BAND_KG, Fraction(0)), BAND_KG), "kg"),
        "kg above 20": Measure(max(kg - 2 * BAND_KG, Fraction(0)), "kg"),
    }


def _maintenance(sheet: Sheet, say: Say) -> Answer | Refused:
    sheet.hold({"weight": "maintenance weight", "rate": "maintenance rate", "volume": "maintenance volume"})
    sheet.caution(METHODS_DIFFER)
    sheet.caution(ISOTONIC)
    return sheet.close(lambda found: _says(found, say))


def _run_over(sheet: Sheet, over_min: Fraction) -> None:
    """The rate that gives the volume in a time."""
    if over_min <= 0:
        sheet.refuse(Refused(worded("A time of no minutes gives no rate.")))
        return
    sheet.known["time"] = Measure(over_min, "min")
    sheet.work_out(formulas.RATE_OF_VOLUME, "mL/h")
    sheet.hold({"time": "replacement time", "rate": "rate"})


def _says(found: Mapping[str, Found], say: Say, besides: str = "") -> str:
    numbers = say_found([one for name, one in found.items() if name != "weight"], say)
    return f"{', '.join(filter(None, [numbers, besides]))}."
