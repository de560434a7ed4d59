"""Quantities as people write them."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from handsfree.errors import NotSo, WrongUse
from handsfree.units import Kind, Written, read_written

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
    ("250 mLs", Kind.VOLUME, "250"),
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
    ("1 day", Kind.TIME, "1440"),
    ("40 %", Kind.PERCENT, "40"),
    ("40%", Kind.PERCENT, "40"),
    ("40", Kind.PERCENT, "40"),
    ("10 mL/kg", Kind.VOLUME_PER_KG, "10"),
    ("0.01 L/kg", Kind.VOLUME_PER_KG, "10"),
    ("10 mL", Kind.VOLUME_PER_KG, "10"),
)


@pytest.mark.parametrize(("text", "kind", "value"), READ)
def test_what_the_trade_writes_is_read(text: str, kind: Kind, value: str) -> None:
    """Each spelling of the table is read exactly, in the unit of its kind."""
    assert Fraction(value) == read_written(text, kind).value


AS_WRITTEN = (
    ("70 kg", Kind.WEIGHT, "70", "kg"),
    ("176 lb", Kind.WEIGHT, "176", "lb"),
    ("176 lbs", Kind.WEIGHT, "176", "lb"),
    ("25,000 units", Kind.AMOUNT, "25000", "units"),
    ("0.8 g", Kind.AMOUNT, "4/5", "g"),
    ("40 mEq", Kind.AMOUNT, "40", "mEq"),
    ("10 mg/kg", Kind.AMOUNT_WANTED, "10", "mg/kg"),
    ("10 mg", Kind.AMOUNT_WANTED, "10", "mg"),
    ("5 mcg/kg/min", Kind.DOSE, "5", "mcg/kg/min"),
    ("5 µg/kg/min", Kind.DOSE, "5", "mcg/kg/min"),
    ("5 micrograms per kg per minute", Kind.DOSE, "5", "mcg/kg/min"),
    ("5 mcg/min/kg", Kind.DOSE, "5", "mcg/kg/min"),
    ("0.05 mg/kg/h", Kind.DOSE, "1/20", "mg/kg/h"),
    ("500 units an hour", Kind.DOSE, "500", "units/h"),
    ("2 milliunits/min", Kind.DOSE, "2", "milliunits/min"),
    ("100 mg/kg/day", Kind.DOSE, "100", "mg/kg/day"),
)


@pytest.mark.parametrize(("text", "kind", "value", "unit"), AS_WRITTEN)
def test_weights_and_drugs_stay_as_written(text: str, kind: Kind, value: str, unit: str) -> None:
    """Their unit matters to the answer: it is checked, and told in the spelling of the trade."""
    written = read_written(text, kind)

    assert (Fraction(value), unit) == (written.value, written.unit)


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
    ("1.000 mL", Kind.VOLUME),
    ("1.250 mL", Kind.VOLUME),
    ("25.000 units", Kind.AMOUNT),
    ("1000 U/h", Kind.DOSE),
    ("25000 IU", Kind.AMOUNT),
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
    ("NaN mL", Kind.VOLUME),
    ("Infinity mL", Kind.VOLUME),
    ("0x10 mL", Kind.VOLUME),
    ("5 mL extra", Kind.VOLUME),
    ("5 mL; 6 mL", Kind.VOLUME),
    ("1,000,00 mL", Kind.VOLUME),
    ("70", Kind.WEIGHT),
    ("70 g", Kind.WEIGHT),
    ("70 stone", Kind.WEIGHT),
    ("5 kg", Kind.AMOUNT),
    ("5 U", Kind.AMOUNT),
    ("5 IU", Kind.AMOUNT),
    ("5 mL", Kind.AMOUNT),
    ("10 mg/kg", Kind.AMOUNT),
    ("10 mg/kg/h", Kind.AMOUNT_WANTED),
    ("5 mcg", Kind.DOSE),
    ("5 mcg/kg", Kind.DOSE),
    ("5 mL/kg/min", Kind.DOSE),
    ("5 mcg/lb", Kind.DOSE),
    ("5 mcg/kg/kg/min", Kind.DOSE),
    ("5 mcg mL/mL/min", Kind.DOSE),
    ("5 kg/min", Kind.DOSE),
    ("10 mg/kg", Kind.VOLUME_PER_KG),
    ("40 kg", Kind.PERCENT),
    ("forty", Kind.PERCENT),
)


@pytest.mark.parametrize(("text", "kind"), REFUSED)
def test_anything_else_is_refused(text: str, kind: Kind) -> None:
    """What the table lacks, and a quantity of another kind, is wrong use; an example tells the right one."""
    with pytest.raises(WrongUse, match=f'Write it like "{kind.example}"'):
        read_written(text, kind)


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


@settings(deadline=None)
@given(number=st.integers(0, 999_999_999), decimals=st.integers(0, 999), gap=st.sampled_from(["", ",", " "]))
def test_numbers_come_back_whatever_parts_their_thousands(number: int, decimals: int, gap: str) -> None:
    """A number written with commas, spaces or neither is that number."""
    written = f"{number:,}".replace(",", gap)

    assert Written(number + Fraction(decimals, 1000), Fraction(1, 20000), "mL") == read_written(
        f"{written}.{decimals:03}0 mL", Kind.VOLUME
    )


KEEP_OPEN = ("KVO", "TKO", "tkvo", "keep open", "Keep vein open", "to keep the vein open")


@pytest.mark.parametrize("text", KEEP_OPEN)
@pytest.mark.parametrize("kind", [Kind.RATE, Kind.DROP_RATE])
def test_a_bare_keep_open_is_no_rate(text: str, kind: Kind) -> None:
    """No one rate keeps a vein open (an infusion-nursing expert on INS): a number is asked for."""
    with pytest.raises(NotSo, match="Ask for a number"):
        read_written(text, kind)


ALPHABET = "0123456789.,/ %µμmlLghkgcdropsunitEq-+eE\n\u00a0x"


@settings(max_examples=500, deadline=None)
@given(
    text=st.text() | st.text(ALPHABET) | st.from_regex(r"[0-9 ,.]{1,9} ?[a-z/ ]{1,12}", fullmatch=True),
    kind=st.sampled_from(Kind),
)
def test_any_text_is_read_or_refused(text: str, kind: Kind) -> None:
    """Nothing breaks the reader: a text is a quantity above or at zero, or it is refused in a sentence."""
    try:
        written = read_written(text, kind)
    except (WrongUse, NotSo) as refused:
        assert len(str(refused)) < 200
    else:
        assert written.value >= 0 <= written.half_step
        digits = "".join(character for character in text if character.isdigit())
        assert digits and digits.isascii()


STRAY = st.sampled_from("abcdefghijklmnopqrstuvwxyz0123456789.,-+/ ")


@settings(deadline=None)
@given(row=st.sampled_from(READ), at=st.integers(0, 20), stray=STRAY)
def test_a_stray_character_never_changes_a_value_in_silence(
    row: tuple[str, Kind, str], at: int, stray: str
) -> None:
    """Put anywhere, it is refused, or it is a digit or point that anyone would read so, or another unit."""
    text, kind, value = row
    at = min(at, len(text))
    try:
        read = read_written(text[:at] + stray + text[at:], kind).value
    except (WrongUse, NotSo):
        return
    assert read == Fraction(value) or stray in "0123456789." or stray.isalpha()


@pytest.mark.parametrize("text", ["1" * 10_000_000, "mL" * 5_000_000, " " * 10_000_000, "1 mL\n" * 2_000_000])
def test_ten_megabytes_are_refused_at_once(text: str) -> None:
    """In one short sentence, without reading it all."""
    with pytest.raises(WrongUse) as refused:
        read_written(text, Kind.VOLUME)

    assert len(str(refused.value)) < 200


def test_pint_is_loaded_only_to_convert() -> None:
    """Importing the module leaves pint alone: it takes 0.3 s."""
    code = "import sys, handsfree.units; sys.exit('pint' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
