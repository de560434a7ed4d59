"""Doses of a drug in a fluid: to a rate, back from a rate, and the volume to draw up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from handsfree.care.infusion import formulas
from handsfree.care.infusion.amounts import dose_unit, in_unit, usual_dose_unit
from handsfree.care.infusion.answer import ANYBODY, Answer, Found, Say, Terms
from handsfree.care.infusion.besides import tell_drops
from handsfree.care.infusion.drugs import DRIP_CAUTION, MAY_BE_POTASSIUM, instead, no_drip, no_push
from handsfree.care.infusion.flow import NOTHING, UNITS, Flow, flow_of, solve, way_to
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.limits import beyond
from handsfree.care.infusion.potassium import hold_potassium
from handsfree.care.infusion.refused import Refused
from handsfree.care.infusion.sentences import say_found, to_count
from handsfree.care.infusion.sheet import Sheet
from handsfree.care.infusion.weight import weigh
from handsfree.words import worded

RUNNING = ("rate", "drop rate", "drop factor")
"""What of a flow a dose has to do with."""


@dataclass(frozen=True, slots=True)
class Mix:
    """So much of a drug in so much fluid. name: of the drug, where it was told."""

    drug: Measure
    volume_ml: Fraction
    name: str = ""


@dataclass(frozen=True, slots=True)
class DoseQuestion:
    """What is known beside the dose. weight: in kg or lb. flow: rate or drops, and the set where it drips.

    half_steps: by how much each of the flow may be off as it was written.
    """

    mix: Mix
    weight: Measure | None = None
    flow: Flow = NOTHING
    half_steps: Flow = NOTHING
    terms: Terms = ANYBODY


def rate_of_dose(question: DoseQuestion, dose: Measure, say: Say) -> Answer | Refused:
    """The rate that gives a dose, and its drops where it drips. dose: in the unit of a `DoseUnit`."""
    unit = dose_unit(dose.unit)
    sheet = _begun(question, unit.amount)
    sheet.known["dose"] = dose
    _match_weight(sheet, unit.text, needed=unit.per_kg)
    sheet.work_out(formulas.RATE_OF_DOSE[unit.per_kg, unit.per], "mL/h")
    if "drop factor" in sheet.known:
        sheet.work_out(formulas.DROPS_OF_RATE, "gtt/min")
    return _closed(sheet, question, say)


def dose_of_rate(question: DoseQuestion, unit: str, say: Say) -> Answer | Refused:
    """The dose that a rate, or drops, give. unit: of the dose; empty for the usual one."""
    told = question.weight is not None
    asked = dose_unit(unit) if unit else usual_dose_unit(question.mix.drug.unit, weight_known=told)
    sheet = _begun(question, asked.amount)
    _run(sheet, question)
    _match_weight(sheet, asked.text, needed=asked.per_kg)
    sheet.work_out(formulas.DOSE_OF_RATE[asked.per_kg, asked.per], asked.text)
    return _closed(sheet, question, say)


def draw_up(question: DoseQuestion, want: Measure, say: Say) -> Answer | Refused:
    """The volume that holds what is wanted. want: an amount, or an amount for each kilogram."""
    amount, _, per_kg = want.unit.partition("/")
    sheet = _begun(question, amount)
    sheet.refuse(no_push(question.mix.name))
    sheet.known["dose per kg" if per_kg else "dose"] = want
    _match_weight(sheet, want.unit, needed=bool(per_kg))
    if per_kg:
        sheet.work_out(formulas.WHOLE_DOSE, amount)
    sheet.work_out(formulas.DRAW_UP, "mL")
    _caution_draw_up(sheet, question)
    return _closed(sheet, question, say)


def strength(question: DoseQuestion, say: Say) -> Answer | Refused:
    """How much of the drug is in a millilitre."""
    return _closed(_begun(question, question.mix.drug.unit), question, say)


def _begun(question: DoseQuestion, amount: str) -> Sheet:
    """A sheet with weight, flow, bag and drug, this in the unit of the dose."""
    bag = Measure(question.mix.volume_ml, "mL")
    sheet = Sheet(question.terms, {**question.flow.measures(), "bag": bag, "quantity": bag})
    drug = question.mix.drug
    value = in_unit(drug.value, drug.unit, amount)
    if value is None:
        sheet.refuse(
            Refused(
                worded(
                    "{amount} and {unit} measure different things: give both in the same.",
                    amount=amount,
                    unit=drug.unit,
                )
            )
        )
    elif value <= 0 or question.mix.volume_ml <= 0:
        sheet.refuse(Refused(worded("A drug in a fluid needs an amount and a volume of more than zero.")))
    else:
        sheet.known["drug"] = sheet.known["on hand"] = Measure(value, amount)
    if question.weight:
        weigh(sheet, question.weight)
    if question.flow.drop_factor_per_ml is not None:
        sheet.refuse(no_drip(question.mix.name))
    for name, value in question.flow.known().items():
        if value <= 0:
            sheet.refuse(
                Refused(worded("{value} {unit} is not more than zero.", value=value, unit=UNITS[name]))
            )
    return sheet


def _match_weight(sheet: Sheet, unit: str, *, needed: bool) -> None:
    """Refuse a dose that needs a weight and has none; tell where one was not used."""
    told = "weight" in sheet.known
    if needed and not told:
        sheet.refuse(Refused(worded("A dose in {unit} needs the weight of the patient.", unit=unit)))
    if told and not needed:
        sheet.caution(worded("The weight was not used: the dose is in {unit}.", unit=unit))


def _run(sheet: Sheet, question: DoseQuestion) -> None:
    """Rate and drops, whichever was not told."""
    told = question.flow.known()
    solved = question.flow if told.keys() == {"rate"} else solve(question.flow, question.half_steps)
    if isinstance(solved, Refused):
        sheet.refuse(solved)
    for name in ("rate", "drop rate"):
        if name not in told and (way := way_to(name, told)):
            sheet.work_out(way, UNITS[name])


def _caution_draw_up(sheet: Sheet, question: DoseQuestion) -> None:
    volume = sheet.found.get("volume")
    if volume and volume.number.exact > question.mix.volume_ml:
        sheet.caution(worded("That is more than the one at hand holds."))
    if question.mix.drug.unit in ("mEq", "mmol"):
        sheet.caution(MAY_BE_POTASSIUM)


def _closed(sheet: Sheet, question: DoseQuestion, say: Say) -> Answer | Refused:
    asked = tuple(name for name in sheet.found if name != "weight")
    sheet.known |= {"drug": question.mix.drug}
    sheet.work_out(formulas.CONCENTRATION, f"{question.mix.drug.unit}/mL")
    running = {name: sheet.known[name].value for name in RUNNING if name in sheet.known}
    sheet.judge(beyond(flow_of(running), question.terms.patient, question.terms.local))
    hold_potassium(sheet, question.mix.name)
    sheet.caution(instead(question.mix.name))
    if "drop rate" in sheet.known:
        sheet.caution(DRIP_CAUTION)
        tell_drops(sheet)
    return sheet.close(lambda found: _says(found, asked or ("concentration",), say))


def _says(found: Mapping[str, Found], asked: tuple[str, ...], say: Say) -> str:
    numbers = [say_found([found[name]], say) for name in asked]
    if asked[-1] == "volume":
        numbers[-1] = worded("draw up {number}", number=numbers[-1])
    drops = found.get("drop rate")
    counting = f"; {to_count(drops.number.exact, say)}" if drops else ""
    return f"{', '.join(numbers)}{counting}."
