"""`handsfree fluids`: maintenance, deficit, burns and bolus by weight, from the keyboard."""

from __future__ import annotations

import click

from handsfree.care.infusion.answer import Terms
from handsfree.care.infusion.burn import ABA, NAMES, RULE_OF_TEN, Burn, burn_plan
from handsfree.care.infusion.fluids import bolus as bolus_answer
from handsfree.care.infusion.fluids import daily_maintenance, hourly_maintenance
from handsfree.care.infusion.fluids import deficit as deficit_answer
from handsfree.care.infusion.formulas import BURN_VOLUMES
from handsfree.cli.command import Group
from handsfree.cli.quantities import given, measure, quantity_option, show, terms_options
from handsfree.errors import NotSo, WrongUse
from handsfree.say.quantities import quantity
from handsfree.units import Kind, Written
from handsfree.words import worded

_METHODS = {"hourly": hourly_maintenance, "daily": daily_maintenance}
_BURN_HELP = "\n".join(
    [
        worded(
            "Fluid of the first 24 hours of a burn: formula and time of the burn are asked, never chosen."
        ),
        "\n\b",
        *(f"  {name:<15} {formula.text}" for name, formula in BURN_VOLUMES.items()),
        f"  {RULE_OF_TEN:<15} {worded('the rate to begin with, in adults')}",
        f"  {ABA:<15} {worded('aba-adult or aba-child, by weight and --patient')}",
    ]
)
_weight = quantity_option("--weight", Kind.WEIGHT, worded("Pounds are divided by 2.2."))


@click.group(cls=Group, no_args_is_help=False, epilog="handsfree fluids maintenance --help")
def fluids() -> None:
    """Work out fluid by weight. The order decides: no formula, portion or time is assumed."""


@fluids.command(epilog='handsfree fluids maintenance --weight "22 kg" --method hourly')
@_weight
@click.option(
    "--method", type=click.Choice(list(_METHODS)), help=worded("4-2-1 by the hour, 100-50-20 by the day.")
)
@terms_options
def maintenance(weight: Written | None, method: str | None, terms: Terms, as_json: bool) -> None:
    """Maintenance by weight: the two methods do not give the same, so one is named."""
    if method is None:
        raise NotSo(
            worded("The two methods do not give the same."), worded("Name one: --method hourly, or daily.")
        )
    kg = measure(given(weight, "--weight", Kind.WEIGHT))
    show(_METHODS[method](kg, terms, quantity), as_json)


@fluids.command(epilog='handsfree fluids deficit --weight "22 kg" --percent "5 %" --over "48 h"')
@_weight
@quantity_option("--percent", Kind.PERCENT, worded("Dehydration."), "5 %")
@quantity_option("--over", Kind.TIME, worded("In what time it is given back."), "48 h")
@terms_options
def deficit(terms: Terms, as_json: bool, **told: Written | None) -> None:
    """What dehydration has lost, and the rate that gives it back."""
    weight = measure(given(told["weight"], "--weight", Kind.WEIGHT))
    percent = given(told["percent"], "--percent", Kind.PERCENT)
    over = given(told["over"], "--over", Kind.TIME)
    show(deficit_answer(weight, percent.value, over.value, terms, quantity), as_json)


@fluids.command(
    help=_BURN_HELP,
    epilog='handsfree fluids burn --weight "80 kg" --tbsa "40 %" --formula parkland --since "2 h"',
)
@_weight
@quantity_option("--tbsa", Kind.PERCENT, worded("Burnt part of the body surface."))
@click.option("--formula", metavar="NAME", help=worded("One of those above."))
@quantity_option("--since", Kind.TIME, worded("Time since the burn, not since arrival."), "2 h")
@quantity_option("--given", Kind.VOLUME, worded("What was given since then."), "500 mL")
@terms_options
def burn(formula: str | None, terms: Terms, as_json: bool, **told: Written | None) -> None:
    """Work out the plan of a burn; the help above is made from the formulas."""
    if formula is None:
        raise NotSo(
            worded("Formulas for burns do not give the same."),
            worded("Name one: --formula {names}.", names=", ".join(NAMES)),
        )
    before = told["given"]
    answer = burn_plan(
        Burn(
            measure(given(told["weight"], "--weight", Kind.WEIGHT)),
            given(told["tbsa"], "--tbsa", Kind.PERCENT).value,
            given(told["since"], "--since", Kind.TIME).value,
            None if before is None else before.value,
        ),
        _name(formula),
        terms,
        quantity,
    )
    show(answer, as_json)


@fluids.command(epilog='handsfree fluids bolus --weight "18 kg" --per-kg "10 mL/kg" --over "10 min"')
@_weight
@quantity_option("--per-kg", Kind.VOLUME_PER_KG, worded("As ordered."))
@quantity_option("--over", Kind.TIME, worded("In what time, where that is ordered."), "10 min")
@terms_options
def bolus(terms: Terms, as_json: bool, **told: Written | None) -> None:
    """A bolus by weight, as ordered: none is suggested."""
    weight = measure(given(told["weight"], "--weight", Kind.WEIGHT))
    per_kg = given(told["per_kg"], "--per-kg", Kind.VOLUME_PER_KG)
    over = told["over"]
    over_min = None if over is None else over.value
    show(bolus_answer(weight, per_kg.value, over_min, terms, quantity), as_json)


def _name(formula: str) -> str:
    name = "-".join(formula.casefold().replace("_", " ").replace("-", " ").split())
    if name not in NAMES:
        raise WrongUse(
            worded("That formula for burns is not known here."),
            worded("Name one of {names}.", names=", ".join(NAMES)),
        )
    return name
