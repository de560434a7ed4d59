"""Quantities as people write them."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handsfree.errors import WrongUse
from handsfree.units import Kind, Written, read_quantity, read_written

READ = (
    ("1000 mL", Kind.VOLUME, "1000"),
    ("1000ml", Kind.VOLUME, "1000"),
    ("10 000 mL", Kind.VOLUME, "10000"),
    ("10\u202f000 mL", Kind.VOLUME, "10000"),
    ("1,000 mL", Kind.VOLUME, "1000"),
    ("1,000,000 mL", Kind.VOLUME, "1000000"),
    ("1 L", Kind.VOLUME, "1000"),
    ("0.5 litres", Kind.VOLUME, "500"),
    ("250 cc", Kind.VOLUME, "250"),
    ("250 mils", Kind.VOLUME, "250"),
    ("2.5 milliliters", Kind.VOLUME, "5/2"),
    ("8 h", Kind.TIME, "480"),
    ("1 hour", Kind.TIME, "60"),
    ("90 min", Kind.TIME, "90"),
    ("15 s", Kind.TIME, "1/4"),
    ("6 h 40 min", Kind.TIME, "400"),
    ("125 mL/h", Kind.RATE, "125"),
    ("125 mL per hour", Kind.RATE, "125"),
    ("125 millilitres an hour", Kind.RATE, "125"),
    ("2 mL/min", Kind.RATE, "120"),
    ("0.1 L / h", Kind.RATE, "100"),
    ("31 gtt/min", Kind.DROP_RATE, "31"),
    ("31 drops a minute", Kind.DROP_RATE, "31"),
    ("15 gtt/mL", Kind.DROP_FACTOR, "15"),
    ("15 drops/ml", Kind.DROP_FACTOR, "15"),
)


@pytest.mark.parametrize(("text", "kind", "value"), READ)
def test_what_the_trade_writes_is_read(text: str, kind: Kind, value: str) -> None:
    """Each spelling of the table is read exactly, in the unit of its kind."""
    assert Fraction(value) == read_quantity(text, kind)


REFUSED = (
    ("", Kind.VOLUME),
    ("1000", Kind.VOLUME),
    ("mL", Kind.VOLUME),
    ("-5 mL", Kind.VOLUME),
    ("1e3 mL", Kind.VOLUME),
    ("1/2 L", Kind.VOLUME),
    ("inf mL", Kind.VOLUME),
    (".5 mL", Kind.VOLUME),
    ("5. mL", Kind.VOLUME),
    ("0,500 L", Kind.VOLUME),
    ("1,5 L", Kind.VOLUME),
    ("10,00 mL", Kind.VOLUME),
    ("1,000 000 mL", Kind.VOLUME),
    ("1 000 00 mL", Kind.VOLUME),
    ("٥ mL", Kind.VOLUME),
    ("9" * 5000 + " mL", Kind.VOLUME),
    ("1000 mg", Kind.VOLUME),
    ("25000 units", Kind.VOLUME),
    ("8 h", Kind.VOLUME),
    ("8 h 75 min", Kind.TIME),
    ("40 min 6 h", Kind.TIME),
    ("6 h 40 min", Kind.VOLUME),
    ("15 mL", Kind.DROP_FACTOR),
    ("15", Kind.DROP_FACTOR),
    ("15 gtt/mL", Kind.DROP_RATE),
    ("15 gtt/min", Kind.DROP_FACTOR),
    ("15 mL/gtt", Kind.DROP_FACTOR),
    ("125 mL", Kind.RATE),
    ("125 mL/", Kind.RATE),
    ("125 mL//h", Kind.RATE),
    ("125 mL/h/h", Kind.RATE),
    ("5 mL/mL", Kind.RATE),
)


@pytest.mark.parametrize(("text", "kind"), REFUSED)
def test_anything_else_is_refused(text: str, kind: Kind) -> None:
    """What the table lacks, and a quantity of another kind, is wrong use; an example tells the right one."""
    with pytest.raises(WrongUse, match=f'Write it like "{kind.example}"'):
        read_quantity(text, kind)


PRECISION = (
    ("42 gtt/min", Kind.DROP_RATE, "1/2"),
    ("41.7 gtt/min", Kind.DROP_RATE, "1/20"),
    ("4.4 h", Kind.TIME, "3"),
    ("8 h", Kind.TIME, "1/2"),
    ("6 h 40 min", Kind.TIME, "1/2"),
    ("15 s", Kind.TIME, "1/120"),
    ("1 L", Kind.VOLUME, "1/2"),
    ("1.5 L", Kind.VOLUME, "50"),
    ("15 gtt/mL", Kind.DROP_FACTOR, "0"),
)


@pytest.mark.parametrize(("text", "kind", "half_step"), PRECISION)
def test_the_precision_is_what_was_written(text: str, kind: Kind, half_step: str) -> None:
    """Half of the last decimal; whole hours and litres to the minute and mL; drop factors as printed."""
    assert Fraction(half_step) == read_written(text, kind).half_step


@given(number=st.integers(0, 999_999_999), decimals=st.integers(0, 999), gap=st.sampled_from(["", ",", " "]))
def test_numbers_come_back_whatever_parts_their_thousands(number: int, decimals: int, gap: str) -> None:
    """A number written with commas, spaces or neither is that number."""
    written = f"{number:,}".replace(",", gap)

    assert Written(number + Fraction(decimals, 1000), Fraction(1, 2000), "mL") == read_written(
        f"{written}.{decimals:03} mL", Kind.VOLUME
    )


def test_pint_is_loaded_only_to_convert() -> None:
    """Importing the module leaves pint alone: it takes 0.3 s."""
    code = "import sys, handsfree.units; sys.exit('pint' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
