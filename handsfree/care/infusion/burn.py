"""Fluid for the first 24 hours of a burn: the formula and the time of the burn are asked, never chosen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from handsfree.care.infusion import formulas
from handsfree.care.infusion.answer import Answer, Found, Say, Terms
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.patient import Patient
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.sheet import Sheet
from handsfree.care.infusion.weight import weigh
from handsfree.words import worded

FIRST_MIN = 8 * 60
DAY_MIN = 24 * 60


@dataclass(frozen=True, slots=True)
class Burn:
    """tbsa: per cent of the body surface. since_min: its age. given_ml: since then; None: not told."""

    weight: Measure
    tbsa: Fraction
    since_min: Fraction
    given_ml: Fraction | None = None


RULE_OF_TEN = "rule-of-ten"
ABA = "aba"
NAMES = (*formulas.BURN_VOLUMES, RULE_OF_TEN, ABA)
LEAST_KG, FULL_KG = 40, 80
"""The rule of ten is for adults from 40 kg on; from 80 kg on the weight adds to it."""

ABA_CHILD_BELOW_KG = 40
"""14 years or under, and under 40 kg: ABLS 2010 burn numbers (second hand)."""

NOT_TOLD = worded("Nothing was told to be given before: tell what was, and it is deducted.")
ADJUST = worded("It is only where to begin: urine output decides from then on.")
PARTIAL = worded("Partial and full thickness count, redness does not.")
CHILD_TOO = worded("A small child gets maintenance besides, by some formulas.")
TEN_STEPS = worded(
    "Adjusted by urine every one to two hours, in steps of not over 20 %; nothing was deducted."
)
NOT_CAUGHT_UP = worded("What the first half lacks is not caught up after hour 8.")
IN_ALREADY = worded("What is in is more than the first half: by the formula nothing more until hour 8. Ask.")


def burn_plan(burn: Burn, name: str, terms: Terms, say: Say) -> Answer | Refused:
    """The plan by a formula of `NAMES`: volume of 24 hours, rate until hour 8, rate of the 16 hours after.

    A late start shortens the first part, from hour 8 on there is none; what was given is deducted. Refused
    where nothing is left, or the rate is above the ceiling.
    """
    sheet = Sheet(terms, {"burn": Measure(burn.tbsa, "%")})
    weigh(sheet, burn.weight)
    sheet.hold({"burn": "burn"})
    chosen = by_patient(name, sheet.known.get("weight", burn.weight), terms.patient)
    if isinstance(chosen, Refused):
        return chosen
    if burn.tbsa <= 0:
        sheet.refuse(Refused(worded("A burn of no surface needs no plan.")))
    if burn.since_min >= DAY_MIN:
        sheet.refuse(Refused(worded("These formulas are for the first 24 hours after the burn.")))
    if chosen == RULE_OF_TEN:
        _rule_of_ten(sheet)
    else:
        sheet.work_out(formulas.BURN_VOLUMES[chosen], "mL")
        _split(sheet, burn)
    sheet.hold({"first 8 h rate": "burn rate", "next 16 h rate": "burn rate", "rate": "burn rate"})
    sheet.caution(ADJUST)
    sheet.caution(PARTIAL)
    if terms.patient in (Patient.CHILD, Patient.INFANT):
        sheet.caution(CHILD_TOO)
    return sheet.close(lambda found: _says(found, say, late=burn.since_min >= FIRST_MIN))


def by_patient(name: str, weight: Measure, patient: Patient | None) -> str | Refused:
    """The formula that a name stands for: plain ABA has one for adults and one for children, as they are."""
    heavy = weight.value >= ABA_CHILD_BELOW_KG
    if name == "aba-child" and (heavy or patient is Patient.ADULT):
        return Refused(
            worded(
                "The formula aba-child is for children under {weight_kg} kg.",
                weight_kg=ABA_CHILD_BELOW_KG,
            )
        )
    if name == "aba-adult" and not heavy and patient in (Patient.CHILD, Patient.INFANT):
        return Refused(
            worded(
                "Children under {weight_kg} kg have a formula of their own: aba-child.",
                weight_kg=ABA_CHILD_BELOW_KG,
            )
        )
    if name != ABA:
        return name
    if heavy or patient is Patient.ADULT:
        return "aba-adult"
    if patient:
        return "aba-child"
    return Refused(worded("ABA has one formula for adults and one for children: say aba-adult or aba-child."))


def _rule_of_ten(sheet: Sheet) -> None:
    if sheet.refused:
        return
    kg = sheet.known["weight"].value
    if kg < LEAST_KG:
        sheet.refuse(
            Refused(worded("The rule of ten is for adults from {weight_kg} kg on.", weight_kg=LEAST_KG))
        )
    sheet.known["kg above 80"] = Measure(max(kg - FULL_KG, Fraction(0)), "kg")
    sheet.work_out(formulas.RULE_OF_TEN, "mL/h")
    sheet.caution(TEN_STEPS)


def _split(sheet: Sheet, burn: Burn) -> None:
    """Half until hour 8, half in the 16 hours after it."""
    if sheet.refused:
        return
    given = Measure(burn.given_ml or Fraction(0), "mL")
    sheet.known |= {"given": given}
    if burn.given_ml is None and burn.since_min:
        sheet.caution(NOT_TOLD)
    half_ml = sheet.known["volume"].value / 2
    if given.value >= 2 * half_ml:
        sheet.refuse(Refused(worded("What was given is all that the formula has for 24 hours. Ask.")))
    if burn.since_min >= FIRST_MIN:
        _after_hour_8(sheet, burn)
    elif given.value < half_ml:
        sheet.known["time to hour 8"] = Measure(FIRST_MIN - burn.since_min, "min")
        sheet.work_out(formulas.FIRST_HALF_LEFT, "mL")
        sheet.work_out(formulas.FIRST_8_H, "mL/h")
        sheet.work_out(formulas.NEXT_16_H, "mL/h")
    else:
        sheet.work_out(formulas.BURN_VOLUME_LEFT, "mL")
        sheet.work_out(formulas.NEXT_16_H_OF_LESS, "mL/h")
        sheet.caution(IN_ALREADY)


def _after_hour_8(sheet: Sheet, burn: Burn) -> None:
    """What is left over the rest of the day, but not faster than the second half."""
    sheet.known["time to hour 24"] = Measure(DAY_MIN - burn.since_min, "min")
    sheet.work_out(formulas.BURN_VOLUME_LEFT, "mL")
    if sheet.refused:
        return
    if formulas.REST_OF_DAY.work_out(sheet.known) > formulas.NEXT_16_H.work_out(sheet.known):
        sheet.work_out(formulas.NEXT_16_H, "mL/h")
        sheet.caution(NOT_CAUGHT_UP)
    else:
        sheet.work_out(formulas.REST_OF_DAY, "mL/h")


def _says(found: Mapping[str, Found], say: Say, *, late: bool) -> str:
    told = {name: say(one.number.value, one.unit) for name, one in found.items()}
    day, first = say(Fraction(24), "h"), say(Fraction(8), "h")
    begins = worded("{time} after the burn", time=first)
    if "first 8 h rate" in told:
        begins = worded("then")
    if late:
        begins = worded("now")
    parts = (
        ("rate", worded("{amount} to begin with")),
        ("volume", worded("{amount} in {time}")),
        ("first 8 h rate", worded("{amount} until {first} after the burn")),
        ("next 16 h rate", worded("{amount} from {begins} on until {time}")),
    )
    told_of = {"time": day, "first": first, "begins": begins}
    said = (text.format(amount=told[name], **told_of) for name, text in parts if name in told)
    return f"{', '.join(said)}."
