"""Every formula of this room, with who published it. docs/numbers.md shows this table."""

from __future__ import annotations

from types import MappingProxyType

from handsfree.care.infusion import sources as by
from handsfree.care.infusion.formula import Formula

RATE_OF_VOLUME = Formula("rate", "volume ÷ time × 60 min/h", by.HAND_OUT)
DROPS_OF_RATE = Formula("drop rate", "rate × drop factor ÷ 60 min/h", by.ARMY_RATE)

FLOW = (
    RATE_OF_VOLUME,
    Formula("rate", "drop rate × 60 min/h ÷ drop factor", by.FORMULA_LIST),
    Formula("drop rate", "volume × drop factor ÷ time", by.ARMY_DROPS),
    DROPS_OF_RATE,
    Formula("time", "volume ÷ rate × 60 min/h", by.OPEN_RN),
    Formula("time", "volume × drop factor ÷ drop rate", by.PRACTICE_EXAM),
    Formula("volume", "rate × time ÷ 60 min/h", f"turned round from {by.HAND_OUT}"),
    Formula("volume", "drop rate × time ÷ drop factor", f"turned round from {by.ARMY_DROPS}"),
    Formula("drop factor", "drop rate × 60 min/h ÷ rate", f"turned round from {by.ARMY_RATE}"),
    Formula("drop factor", "drop rate × time ÷ volume", f"turned round from {by.ARMY_DROPS}"),
)
"""Any field of a Flow from the others; the first that can be used is used."""

SPAN = Formula("time", "time from start to end", by.ARITHMETIC)
BAGS = Formula("bags per day", "24 h/day × 60 min/h ÷ time", by.ARITHMETIC)
LOWEST = Formula("lowest rate", "rate × 0.9", by.DROP_SET)
HIGHEST = Formula("highest rate", "rate × 1.1", by.DROP_SET)
"""20 or 60 drops of such a set give 1 mL, give or take 0.1 mL."""

COUNTED = Formula("drop rate", "drops ÷ counting time × 60 s/min", by.CARDS)
ONE_DROP = Formula("one drop error", "1 gtt ÷ counting time × 3600 s/h ÷ drop factor", by.ARITHMETIC)
BEAT = Formula("seconds per drop", "1 gtt × 60 s/min ÷ drop rate", by.ARITHMETIC)
COUNTS = tuple(
    Formula(f"count {seconds} s", f"drop rate × {seconds} s ÷ 60 s/min", by.CARDS) for seconds in (15, 30, 60)
)

VOLUME_LEFT = Formula("volume left", "volume − given", by.REVIEW)
TIME_LEFT = Formula("time left", "time − time gone", by.REVIEW)
CATCH_UP = Formula("catch up rate", "volume left ÷ time left × 60 min/h", by.REVIEW)
CATCH_UP_DROPS = Formula("catch up drop rate", "volume left × drop factor ÷ time left", by.REVIEW)

WEIGHT = Formula("weight", "pounds ÷ 2.2 lb/kg", by.DOSAGE_BOOK)
CONCENTRATION = Formula("concentration", "drug ÷ bag", by.CRITICAL_CARE)
DRAW_UP = Formula("volume", "dose ÷ on hand × quantity", by.DOSAGE_BOOK)
WHOLE_DOSE = Formula("dose", "dose per kg × weight", by.DOSAGE_BOOK)

RATE_OF_DOSE = MappingProxyType(
    {
        (True, "min"): Formula("rate", "dose × weight × 60 min/h × bag ÷ drug", by.CRITICAL_DOSAGE),
        (False, "min"): Formula("rate", "dose × 60 min/h × bag ÷ drug", by.CRITICAL_DOSAGE),
        (True, "h"): Formula("rate", "dose × weight × bag ÷ drug", by.CRITICAL_DOSAGE),
        (False, "h"): Formula("rate", "dose × bag ÷ drug", by.CRITICAL_CARE),
        (True, "day"): Formula("rate", "dose × weight ÷ 24 h/day × bag ÷ drug", by.ARITHMETIC),
        (False, "day"): Formula("rate", "dose ÷ 24 h/day × bag ÷ drug", by.ARITHMETIC),
    }
)
"""By whether the dose is for each kilogram, and what time it is for; drug in the same unit as the dose."""

DOSE_OF_RATE = MappingProxyType(
    {
        (True, "min"): Formula("dose", "rate × drug ÷ bag ÷ 60 min/h ÷ weight", by.WORKED_EXAM),
        (False, "min"): Formula("dose", "rate × drug ÷ bag ÷ 60 min/h", by.CRITICAL_CARE),
        (True, "h"): Formula("dose", "rate × drug ÷ bag ÷ weight", by.ARITHMETIC),
        (False, "h"): Formula("dose", "rate × drug ÷ bag", by.ARITHMETIC),
        (True, "day"): Formula("dose", "rate × drug ÷ bag × 24 h/day ÷ weight", by.ARITHMETIC),
        (False, "day"): Formula("dose", "rate × drug ÷ bag × 24 h/day", by.ARITHMETIC),
    }
)

POTASSIUM_STRENGTH = Formula("potassium strength", "drug ÷ bag × 1000 mL/L", by.ARITHMETIC)
POTASSIUM_RATE = Formula("potassium rate", "rate × drug ÷ bag", by.ARITHMETIC)

HOURLY = Formula(
    "rate", "4 mL/kg/h × first 10 kg + 2 mL/kg/h × next 10 kg + 1 mL/kg/h × kg above 20", by.PAEDIATRICS
)
DAILY = Formula(
    "volume",
    "100 mL/kg × first 10 kg + 50 mL/kg × next 10 kg + 20 mL/kg × kg above 20",
    by.PAEDIATRICS,
)
DAY_AS_RATE = Formula("rate", "volume ÷ 24 h", by.PRESCRIBING)
DEFICIT = Formula("volume", "weight × dehydration × 10 mL/kg/%", by.PRESCRIBING)
BOLUS = Formula("volume", "volume per kg × weight", by.ARITHMETIC)

FIRST_HALF_LEFT = Formula("first half left", "volume ÷ 2 − given", by.BURN_PODCAST)
BURN_VOLUME_LEFT = Formula("volume left", "volume − given", by.BURN_PODCAST)
FIRST_8_H = Formula("first 8 h rate", "first half left ÷ time to hour 8 × 60 min/h", by.BURN_PODCAST)
NEXT_16_H = Formula("next 16 h rate", "volume ÷ 2 ÷ 16 h", by.BURN_PODCAST)
NEXT_16_H_OF_LESS = Formula("next 16 h rate", "volume left ÷ 16 h", by.PRACTICE)
REST_OF_DAY = Formula("next 16 h rate", "volume left ÷ time to hour 24 × 60 min/h", by.PRACTICE)

RULE_OF_TEN = Formula("rate", "10 mL/h/% × burn + 10 mL/h/kg × kg above 80", by.RULE_OF_TEN)

BURN_VOLUMES = MappingProxyType(
    {
        name: Formula("volume", f"{ml} mL/kg/% × weight × burn", source)
        for name, ml, source in (
            ("parkland", 4, by.BURN_PODCAST),
            ("us-army", 4, by.ARMY_BURN),
            ("aba-adult", 2, by.BURN_SUMMARY),
            ("aba-child", 3, by.BURN_SUMMARY),
            ("aba-electrical", 4, by.BURN_SUMMARY),
            ("rcem-2", 2, f"{by.BURN_UK}: where overload threatens"),
            ("rcem-3", 3, f"{by.BURN_UK}: as usual"),
            ("rcem-4", 4, f"{by.BURN_UK}: after inhalation"),
        )
    }
)
"""Of the first 24 hours, by the trade's name."""

SUBJECTS = MappingProxyType(
    {
        "Flow": (*FLOW, SPAN, BAGS, VOLUME_LEFT, TIME_LEFT, CATCH_UP, CATCH_UP_DROPS),
        "Drops": (COUNTED, ONE_DROP, BEAT, *COUNTS, LOWEST, HIGHEST),
        "Drugs": (WEIGHT, CONCENTRATION, WHOLE_DOSE, DRAW_UP, *RATE_OF_DOSE.values(), *DOSE_OF_RATE.values()),
        "Potassium": (POTASSIUM_STRENGTH, POTASSIUM_RATE),
        "Fluids": (HOURLY, DAILY, DAY_AS_RATE, DEFICIT, BOLUS),
        "Burns": (
            *dict.fromkeys(BURN_VOLUMES.values()),
            *(FIRST_HALF_LEFT, FIRST_8_H, NEXT_16_H, BURN_VOLUME_LEFT, NEXT_16_H_OF_LESS, REST_OF_DAY),
            RULE_OF_TEN,
        ),
    }
)
"""Every formula, by what it is about."""
