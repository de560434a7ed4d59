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

from handsfree.errors import NotSo, WrongUse
from handsfree.words import worded

if TYPE_CHECKING:
    from pint import UnitRegistry

_AMOUNTS = ("mcg", "units", "mEq", "mmol")


class Kind(Enum):
    """What a quantity is: an example of how to write it, and the units to one of which it converts."""

    VOLUME = ("1000 mL", "mL")
    TIME = ("8 h", "min")
    RATE = ("125 mL/h", "mL/h")
    DROP_RATE = ("31 gtt/min", "gtt/min")
    DROP_FACTOR = ("15 gtt/mL", "gtt/mL")
    WEIGHT = ("70 kg", "kg")
    AMOUNT = ("800 mg", *_AMOUNTS)
    AMOUNT_WANTED = ("10 mg/kg", *_AMOUNTS, *(f"{amount}/kg" for amount in _AMOUNTS))
    DOSE = (
        "5 mcg/kg/min",
        *(f"{amount}/min" for amount in _AMOUNTS),
        *(f"{amount}/kg/min" for amount in _AMOUNTS),
    )
    VOLUME_PER_KG = ("10 mL/kg", "mL/kg", "mL")
    PERCENT = ("40 %", "percent")

    def __init__(self, example: str, *units: str) -> None:
        self.example = example
        self.units = units

    @property
    def words(self) -> str:
        """The kind as a user knows it, with its article."""
        words = self.name.lower().replace("_", " ")
        return f"{'an' if words[0] in 'aeiou' else 'a'} {words}"

    @property
    def stays_as_written(self) -> bool:
        """Whether the unit that was written matters to the answer: it is checked, and not converted."""
        return self in (Kind.WEIGHT, Kind.AMOUNT, Kind.AMOUNT_WANTED, Kind.DOSE)


@dataclass(frozen=True, slots=True)
class Written:
    """A quantity that was read. half_step: by how much it may be off as it was written. unit: its symbol."""

    value: Fraction
    half_step: Fraction
    unit: str


_SPELLINGS = {
    "mL": "ml mls cc ccs mil mils millilitre millilitres milliliter milliliters",
    "L": "l litre litres liter liters",
    "day": "day days",
    "h": "h hr hrs hour hours",
    "min": "min mins minute minutes",
    "s": "s sec secs second seconds",
    "gtt": "gtt gtts drop drops",
    "kg": "kg kgs kilo kilos kilogram kilograms",
    "lb": "lb lbs pound pounds",
    "g": "g gram grams",
    "mg": "mg milligram milligrams",
    "mcg": "mcg ug μg microgram micrograms",
    "ng": "ng nanogram nanograms",
    "units": "unit units",
    "milliunits": "milliunit milliunits",
    "mEq": "meq milliequivalent milliequivalents",
    "mmol": "mmol millimole millimoles",
    "percent": "% percent",
}
_NO_DOSE = frozenset(("s", "lb"))
"""Per second and per pound nothing is ordered: such a dose is somebody's slip, and not converted."""
_UNITS = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings.split()}

_WHOLE = r"[0-9]{1,9}|[1-9][0-9]{0,2}(?P<gap>[ ,])[0-9]{3}(?:(?P=gap)[0-9]{3})?"
_NUMBER = rf"(?P<whole>{_WHOLE})(?:\.(?P<decimals>[0-9]{{1,9}}))?"
_QUANTITY = re.compile(rf"{_NUMBER} ?(?P<unit>[a-zμ%][a-zμ/ ]*)")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}\.[0-9]{2}0 ?[a-z%]")
"""As some countries write them; a last zero behind the point is no way to write a quantity anyway."""
_UNITS_CUT = re.compile(r"\bi?u\b")
"""U and IU are taken for other things (this and the last zero: ISMP error-prone list, extracts)."""
_HOURS_AND_MINUTES = re.compile(r"(?P<hours>[0-9]{1,3} ?h[a-z]*) (?P<minutes>[0-5]?[0-9] ?m[a-z]*)")
_PER = re.compile(r" ?/ ?| per | an? ")
_KEEP_OPEN = re.compile(r"kvo|tko|tkvo|(to )?keep (the )?(vein )?open")

_LONGEST = 100
_SHOWN = 40


def read_written(text: str, kind: Kind) -> Written:
    """Read a number and its unit, as in "1,000 mL", "1 L", "6 h 40 min", "31 drops a minute".

    Raises WrongUse where it is anything else, or a quantity of another kind; NotSo for a bare "keep open".
    """
    tidy = " ".join(text.casefold().split()) if len(text) <= _LONGEST else ""
    if kind in (Kind.RATE, Kind.DROP_RATE) and _KEEP_OPEN.fullmatch(tidy):
        raise NotSo(
            worded("Keep open is not a rate."),
            worded('Ask for a number, as in "{example}".', example=kind.example),
        )
    if kind is Kind.PERCENT and tidy[-1:].isdigit():
        tidy += " %"
    both = _HOURS_AND_MINUTES.fullmatch(tidy)
    if both and kind is Kind.TIME:
        hours, minutes = (_read(both[part], text, kind) for part in ("hours", "minutes"))
        return Written(hours.value + minutes.value, minutes.half_step, "min")
    return _read(tidy, text, kind)


def _read(tidy: str, text: str, kind: Kind) -> Written:
    match = _QUANTITY.fullmatch(tidy)
    one = _one(_symbol(match["unit"]), kind) if match else None
    thousands = _THOUSANDS.match(tidy)
    if match is None or one is None or thousands:
        shown = text if len(text) <= _SHOWN else f"{text[:_SHOWN]}..."
        mended = worded("It could be thousands: leave out the last zero.") if thousands else ""
        mended = worded("Write units in full.") if _UNITS_CUT.search(tidy) else mended
        example = worded('Write it like "{example}".', example=kind.example)
        raise WrongUse(
            worded('"{shown}" can\'t be read as {words}.', shown=shown, words=kind.words),
            f"{mended} {example}".strip(),
        )
    size, unit = one
    decimals = match["decimals"] or ""
    number = Fraction(re.sub("[ ,]", "", match["whole"]) + "." + (decimals or "0"))
    return Written(number * size, _half_step(decimals, size, kind), unit)


def _half_step(decimals: str, one: Fraction, kind: Kind) -> Fraction:
    """Half of the last decimal; whole hours and litres are meant to the minute and the millilitre."""
    if kind is Kind.DROP_FACTOR:
        return Fraction(0)
    last = one * Fraction(1, 10 ** len(decimals))
    return (last if decimals else min(last, Fraction(1))) / 2


def _symbol(spelling: str) -> str:
    """The symbol of a unit, as in "mcg/kg/min", kilograms first; empty where the table lacks a part of it."""
    counted, *per = [_UNITS.get(part, "") for part in _PER.split(spelling)]
    return "/".join([counted, *sorted(per, key=lambda unit: unit != "kg")]) if counted and all(per) else ""


def _one(symbol: str, kind: Kind) -> tuple[Fraction, str] | None:
    """What one of a unit is, and in which unit of its kind; None where it is of another kind."""
    for unit in kind.units if symbol else ():
        size = _converted(symbol, unit)
        if size is None:
            continue
        if not kind.stays_as_written:
            return size, unit
        return None if _NO_DOSE.intersection(symbol.split("/")[1:]) else (Fraction(1), symbol)
    return None


@cache
def _converted(unit: str, into: str) -> Fraction | None:
    import pint

    try:
        return Fraction(registry().Quantity(Fraction(1), unit).to(into).magnitude)
    except pint.DimensionalityError:
        return None


@cache
def registry() -> UnitRegistry[Fraction]:
    """The units of the trade as pint knows them, and no others; exact."""
    from pint import UnitRegistry

    with as_file(files("handsfree") / "units.txt") as definitions:
        return UnitRegistry(definitions, non_int_type=Fraction)
