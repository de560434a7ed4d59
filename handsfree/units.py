"""Quantities as the trade writes them, read by a closed table; pint converts and checks the dimension.

pint does not read what users type: it would take "10 000 mL" for no millilitres at all.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from importlib.resources import as_file, files
from typing import TYPE_CHECKING

from handsfree.errors import WrongUse

if TYPE_CHECKING:
    from pint import UnitRegistry


class Kind(Enum):
    """What a quantity is, with the unit that it is converted to and an example of how to write it."""

    VOLUME = ("millilitre", "1000 mL")
    TIME = ("minute", "8 h")
    RATE = ("millilitre / hour", "125 mL/h")
    DROP_RATE = ("drop / minute", "31 gtt/min")
    DROP_FACTOR = ("drop / millilitre", "15 gtt/mL")

    def __init__(self, unit: str, example: str) -> None:
        self.unit = unit
        self.example = example

    @property
    def words(self) -> str:
        """The kind as a user knows it."""
        return self.name.lower().replace("_", " ")


@dataclass(frozen=True, slots=True)
class Written:
    """A quantity in the unit of its kind. half_step: by how much it may be off as it was written."""

    value: Fraction
    half_step: Fraction


_SPELLINGS = {
    "millilitre": "ml cc mil mils millilitre millilitres milliliter milliliters",
    "litre": "l litre litres liter liters",
    "hour": "h hr hrs hour hours",
    "minute": "min mins minute minutes",
    "second": "s sec secs second seconds",
    "drop": "gtt gtts drop drops",
}
_UNITS = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings.split()}

_WHOLE = r"[0-9]{1,9}|[1-9][0-9]{0,2}(?P<gap>[ ,])[0-9]{3}(?:(?P=gap)[0-9]{3})?"
_QUANTITY = re.compile(rf"(?P<whole>{_WHOLE})(?:\.(?P<decimals>[0-9]{{1,9}}))? ?(?P<unit>[a-z][a-z/ ]*)")
_HOURS_AND_MINUTES = re.compile(r"(?P<hours>[0-9]{1,3} ?h[a-z]*) (?P<minutes>[0-5]?[0-9] ?m[a-z]*)")
_PER = re.compile(r" ?/ ?| per | an? ")


def read_quantity(text: str, kind: Kind) -> Fraction:
    """The value of what is written, exactly, in the unit of its kind; raises WrongUse as `read_written`."""
    return read_written(text, kind).value


def read_written(text: str, kind: Kind) -> Written:
    """Read a number and its unit, as in "1,000 mL", "1 L", "6 h 40 min", "31 drops a minute".

    Raises WrongUse where it is anything else, or a quantity of another kind.
    """
    tidy = " ".join(text.casefold().split())
    both = _HOURS_AND_MINUTES.fullmatch(tidy)
    if both and kind is Kind.TIME:
        hours, minutes = (_read(both[part], text, kind) for part in ("hours", "minutes"))
        return Written(hours.value + minutes.value, minutes.half_step)
    return _read(tidy, text, kind)


def _read(tidy: str, text: str, kind: Kind) -> Written:
    match = _QUANTITY.fullmatch(tidy)
    one = _one(match["unit"], kind) if match else None
    if match is None or one is None:
        raise WrongUse(f'"{text}" can\'t be read as a {kind.words}.', f'Write it like "{kind.example}".')
    decimals = match["decimals"] or ""
    number = Fraction(re.sub("[ ,]", "", match["whole"]) + "." + (decimals or "0"))
    return Written(number * one, _half_step(decimals, one, kind))


def _half_step(decimals: str, one: Fraction, kind: Kind) -> Fraction:
    """Half of the last decimal; whole hours and litres are meant to the minute and the millilitre."""
    if kind is Kind.DROP_FACTOR:
        return Fraction(0)
    last = one * Fraction(1, 10 ** len(decimals))
    return (last if decimals else min(last, Fraction(1))) / 2


def _one(spelling: str, kind: Kind) -> Fraction | None:
    """What one of a unit is in the unit of `kind`; None where the table lacks it or it is of another."""
    units = [_UNITS.get(part, "") for part in _PER.split(spelling)]
    return _converted(" / ".join(units), kind.unit) if all(units) else None


@cache
def _converted(unit: str, into: str) -> Fraction | None:
    import pint

    try:
        return Fraction(_registry().Quantity(Fraction(1), unit).to(into).magnitude)
    except pint.DimensionalityError:
        return None


@cache
def _registry() -> UnitRegistry[Fraction]:
    from pint import UnitRegistry

    with as_file(files("handsfree") / "units.txt") as definitions:
        return UnitRegistry(definitions, non_int_type=Fraction)
