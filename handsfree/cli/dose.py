"""`handsfree dose`: doses of a drug in a fluid, from the keyboard."""

from __future__ import annotations

import click

from handsfree.care.infusion.amounts import dose_unit
from handsfree.care.infusion.answer import Answer, Terms
from handsfree.care.infusion.dose import (
    RUNNING,
    DoseQuestion,
    Mix,
    dose_of_rate,
    draw_up,
    rate_of_dose,
    strength,
)
from handsfree.care.infusion.flow import flow_of
from handsfree.care.infusion.refused import Refused
from handsfree.cli.command import Command
from handsfree.cli.quantities import drug_option, measure, quantity_option, show, terms_options
from handsfree.errors import NotSo, WrongUse
from handsfree.say.quantities import quantity
from handsfree.units import Kind, Written, read_written
from handsfree.words import worded

_EXAMPLE = 'handsfree dose --dose "5 mcg/kg/min" --weight "80 kg" --amount "800 mg" --in "500 mL"'


@click.command(cls=Command, epilog=_EXAMPLE)
@quantity_option("--dose", Kind.DOSE, worded("To a rate."))
@quantity_option("--rate", Kind.RATE, worded("Back to a dose."))
@quantity_option("--drop-rate", Kind.DROP_RATE, worded("Back to a dose."))
@quantity_option("--want", Kind.AMOUNT_WANTED, worded("To a volume to draw up."))
@quantity_option("--weight", Kind.WEIGHT, worded("Pounds are divided by 2.2."))
@quantity_option("--amount", Kind.AMOUNT, worded("Of the drug that is in --in."))
@quantity_option("--in", Kind.VOLUME, worded("Volume of the bag, or of what is at hand."))
@quantity_option("--drop-factor", Kind.DROP_FACTOR, worded("Read it from the pack."))
@click.option(
    "--dose-unit", "unit", default="", metavar="UNIT", help=worded('Of the answer, as in "mg/kg/h".')
)
@drug_option
@terms_options
def dose(
    terms: Terms,
    as_json: bool,
    unit: str,
    drug: str,
    **told: Written | None,
) -> None:
    """Turn a dose into a rate, a rate into a dose, or a wanted amount into the volume to draw up.

    It is arithmetic. Check every number independently; the order and local protocol decide.
    """
    amount, volume, weight = (told[name] for name in ("amount", "in", "weight"))
    if amount is None or volume is None:
        raise NotSo(
            worded("How strong is it?"),
            worded('Give the drug and what it is in: --amount "800 mg" --in "500 mL".'),
        )
    flow = {name: one for name in RUNNING if (one := told[name.replace(" ", "_")])}
    question = DoseQuestion(
        Mix(measure(amount), volume.value, drug),
        measure(weight) if weight else None,
        flow_of({name: one.value for name, one in flow.items()}),
        half_steps=flow_of({name: one.half_step for name, one in flow.items()}),
        terms=terms,
    )
    show(_answer(question, told["dose"], told["want"], _unit(unit)), as_json)


def _answer(
    question: DoseQuestion, dose: Written | None, want: Written | None, unit: str
) -> Answer | Refused:
    runs = question.flow.rate_ml_per_h is not None or question.flow.drop_rate_per_min is not None
    if (dose is not None) + (want is not None) + runs > 1:
        raise WrongUse(
            worded("That is more than one question."),
            worded("Give --dose, or --rate or --drop-rate, or --want."),
        )
    if unit and not runs:
        raise WrongUse(
            worded("--dose-unit is for the way back to a dose."),
            worded("Give --rate or --drop-rate with it."),
        )
    if dose:
        return rate_of_dose(question, measure(dose), quantity)
    if want:
        return draw_up(question, measure(want), quantity)
    return dose_of_rate(question, unit, quantity) if runs else strength(question, quantity)


def _unit(text: str) -> str:
    """The unit of a dose as the trade writes it; empty where none is asked for."""
    return dose_unit(read_written(f"1 {text}", Kind.DOSE).unit).text if text else ""
