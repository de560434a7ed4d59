"""`handsfree dose` from the keyboard."""

from __future__ import annotations

import json
import shlex

import pytest

from tests.cli.conftest import Command

DOPAMINE = "--amount '800 mg' --in '500 mL'"


def test_the_answer_is_one_object(handsfree: Command) -> None:
    """Rate, drops, strength and weight, with sentence, working, method and cautions."""
    ran = handsfree(
        *shlex.split(
            f"dose --dose '5 mcg/kg/min' --weight '176 lb' {DOPAMINE} --drop-factor '60 gtt/mL' --json"
        )
    )
    told = json.loads(ran.out)
    assert (ran.status, ran.err) == (0, "")
    assert told["weight"] == {"exact": "80", "rounded": "80", "unit": "kg"}
    assert told["rate"] == {"exact": "15", "rounded": "15", "unit": "mL/h"}
    assert told["drop_rate"] == {"exact": "15", "rounded": "15", "unit": "gtt/min"}
    assert told["concentration"] == {"exact": "8/5", "rounded": "1.6", "unit": "mg/mL"}
    assert told["seconds_per_drop"]["exact"] == "4"
    assert "rate: 5 mcg/kg/min × 80 kg × 60 min/h × 500 mL ÷ 800000 mcg = 15 mL/h" in told["working"]
    assert "Dosage Calculation in Critical Care Settings" in told["method"]
    assert any("divided by 2.2" in caution for caution in told["cautions"])


UNITS = (
    ("--rate '15 mL/h' --weight '80 kg' --amount '800 mg' --in '500 mL'", "mcg/kg/min", "5"),
    ("--rate '15 mL/h' --amount '800 mg' --in '500 mL'", "mcg/min", "400"),
    (
        "--rate '15 mL/h' --weight '80 kg' --amount '800 mg' --in '500 mL' --dose-unit mg/kg/h",
        "mg/kg/h",
        "0.3",
    ),
    ("--rate '15 mL/h' --amount '0.8 g' --in '0.5 L' --dose-unit mg/day", "mg/day", "576"),
    ("--rate '5 mL/h' --amount '25000 units' --in '250 mL'", "units/h", "500"),
    ("--rate '5 mL/h' --weight '50 kg' --amount '25000 units' --in '250 mL'", "units/h", "500"),
    ("--rate '10 mL/h' --amount '40 mmol' --in '1 L'", "mmol/h", "0.4"),
    ("--drop-rate '15 gtt/min' --drop-factor '60 gtt/mL' --amount '800 mg' --in '500 mL'", "mcg/min", "400"),
    (
        "--rate '125 mL/h' --drop-rate '31 gtt/min' --drop-factor '15 gtt/mL' --amount '6 mg' --in '1 L'",
        "mcg/min",
        "12.5",
    ),
)


@pytest.mark.parametrize(("asked", "unit", "rounded"), UNITS)
def test_a_rate_answers_in_the_usual_unit(handsfree: Command, asked: str, unit: str, rounded: str) -> None:
    """mcg/kg/min for a mass with weight, mcg/min without, an hour's worth of anything else, or as asked."""
    told = json.loads(handsfree(*shlex.split(f"dose {asked} --json")).out)
    assert (unit, rounded) == (told["dose"]["unit"], told["dose"]["rounded"])


def test_in_words(handsfree: Command) -> None:
    """What is drawn up: sentence, workings, source, cautions."""
    ran = handsfree(*shlex.split("dose --want '10 mg/kg' --weight '110 lb' --amount '125 mg' --in '5 mL'"))
    assert ran.lines[:5] == [
        "Five hundred milligrams, draw up twenty millilitres.",
        "  weight         110 lb ÷ 2.2 lb/kg = 50 kg",
        "  dose           10 mg/kg × 50 kg = 500 mg",
        "  volume         500 mg ÷ 125 mg × 5 mL = 20 mL",
        "  concentration  125 mg ÷ 5 mL = 25 mg/mL",
    ]


REFUSED = (
    ("", 1, "How strong is it?"),
    ("--dose '1000 U/h' --amount '25000 IU' --in '250 mL'", 2, "Write units in full."),
    ("--dose '5 mcg/min' --amount '800 mg'", 1, "How strong is it?"),
    (f"--dose '5 mcg/kg/min' {DOPAMINE}", 1, "needs the weight of the patient"),
    (f"--rate '5 mL/h' --dose-unit mcg/kg/min {DOPAMINE}", 1, "needs the weight of the patient"),
    (f"--dose '5 units/h' {DOPAMINE}", 1, "measure different things"),
    (f"--dose '5 mg/h' --rate '5 mL/h' {DOPAMINE}", 2, "more than one question"),
    (f"--dose '5 mL/h' {DOPAMINE}", 2, 'Write it like "5 mcg/kg/min".'),
    (f"--dose '5 mg' {DOPAMINE}", 2, 'Write it like "5 mcg/kg/min".'),
    (f"--dose 'nan mg/h' {DOPAMINE}", 2, "can't be read"),
    (f"--dose '5 mcg/lb/min' --weight '70 kg' {DOPAMINE}", 2, "can't be read as a dose"),
    (f"--dose '5 mcg/s' {DOPAMINE}", 2, "can't be read as a dose"),
    (f"--want '5 mg/lb' --weight '70 kg' {DOPAMINE}", 2, "can't be read as an amount wanted"),
    (f"--dose '5 mg/h' --dose-unit mg/h {DOPAMINE}", 2, "the way back"),
    (f"--rate '5 mL/h' --dose-unit mL/h {DOPAMINE}", 2, "can't be read as a dose"),
    (f"--dose '5 mg/h' --weight '70 mg' {DOPAMINE}", 2, 'Write it like "70 kg".'),
    ("--want '5 U' --amount '100 units' --in '1 mL'", 2, "can't be read"),
    ("--want '10 mEq' --amount '20 mEq' --in '10 mL' --drug potassium", 1, "never pushed"),
    (f"--drop-rate '10 gtt/min' {DOPAMINE}", 1, "Too little is known"),
    (f"--drop-rate '0 gtt/min' --drop-factor '60 gtt/mL' {DOPAMINE}", 1, "not more than zero"),
    (
        f"--rate '5 mL/h' --drop-rate '50 gtt/min' --drop-factor '60 gtt/mL' {DOPAMINE}",
        1,
        "do not fit together",
    ),
    (
        f"--dose '4 mcg/min' --drop-factor '60 gtt/mL' --drug Dopamine {DOPAMINE}",
        1,
        "never computed as a drip",
    ),
)


@pytest.mark.parametrize(("asked", "status", "complaint"), REFUSED)
def test_a_refusal_is_one_line(handsfree: Command, asked: str, status: int, complaint: str) -> None:
    """2 for what cannot be read, 1 for a question without an answer; nothing on standard output."""
    ran = handsfree("dose", *shlex.split(asked))
    assert (ran.status, ran.out, len(ran.complaints)) == (status, "", 1)
    assert complaint in ran.err
