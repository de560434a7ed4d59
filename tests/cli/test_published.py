"""Published worked examples, asked from the keyboard: each gives the printed answer, or the exact one."""

from __future__ import annotations

import json
import shlex
from fractions import Fraction

import pytest

from tests.cli.conftest import Command

ARMY = "Pharmacology Math for the Practical Nurse, MD0904 ed. 100 (US Army Medical Department)"
BOOK = 'Pharmacology for Nurses, ch. 2 "Dosage Calculations" (OpenStax)'
SOUTHERN = "Dosage Calculation in Critical Care Settings (Southern Adventist University)"
COURSE = "Critical Care Calculations (nursing dosage course page)"
UK = "IV fluid prescribing, quick reference (open paediatric education site, UK)"

PUBLISHED = (
    (
        f"{ARMY}, p. 123",
        "rate --volume '1000 mL' --time '8 h' --drop-factor '20 gtt/mL'",
        "drop_rate 125/3 42",
    ),
    (f"{ARMY}, p. 123", "rate --volume '1000 mL' --time '10 h' --drop-factor '15 gtt/mL'", "drop_rate 25 25"),
    (
        f"{ARMY}, p. 125, printed with the unit gtts/ml, a misprint",
        "rate --volume '2000 mL' --time '720 min' --drop-factor '15 gtt/mL'",
        "drop_rate 125/3 42",
    ),
    (f"{ARMY}, p. 125", "rate --rate '125 mL/h' --drop-factor '20 gtt/mL'", "drop_rate 125/3 42"),
    (
        f"{ARMY}, p. 125",
        "rate --volume '1500 mL' --time '24 h' --drop-factor '20 gtt/mL'",
        "drop_rate 125/6 21",
    ),
    (
        f"{ARMY}, p. 125",
        "rate --volume '500 mL' --time '4 h' --drop-factor '10 gtt/mL'",
        "drop_rate 125/6 21",
    ),
    (
        "Math for Nursing, flow-rate help sheet (2000)",
        "rate --volume '1 L' --time '9 h' --drop-factor '15 gtt/mL'",
        "drop_rate 250/9 28",
    ),
    (
        'Nursing Skills, section 5.16 "IV Completion Time" (Open RN): 6 h 40 min',
        "rate --volume '500 mL' --rate '75 mL/h'",
        "time 400 400",
    ),
    (
        BOOK,
        "dose --dose '5 mcg/kg/min' --weight '176 lb' --amount '800 mg' --in '500 mL'",
        "rate 15 15",
    ),
    (
        f"{BOOK}, the printed template: 7.97 to the hundredth",
        "dose --dose '2.5 mcg/kg/min' --weight '85 kg' --amount '800 mg' --in '500 mL'",
        "rate 255/32 8",
    ),
    (
        f"{SOUTHERN}: 36 mL/h, whole",
        "dose --dose '5 mcg/kg/min' --weight '95 kg' --amount '200 mg' --in '250 mL' --whole",
        "rate 285/8 36",
    ),
    (SOUTHERN, "dose --dose '10 mcg/min' --amount '50 mg' --in '250 mL'", "rate 3 3"),
    (
        SOUTHERN,
        "dose --dose '0.05 mg/kg/h' --weight '40 kg' --amount '100 mg' --in '100 mL'",
        "rate 2 2",
    ),
    (
        "Drug calculation series, mcg/kg/min (nursing publisher blog, Nov 2021): 16 mL/h, whole",
        "dose --dose '10 mcg/kg/min' --weight '85 kg' --amount '800 mg' --in '250 mL' --whole",
        "rate 255/16 16",
    ),
    (
        "Nursing math, paediatric IV flow rate (San Antonio College): under 1 mL/h is valid",
        "dose --dose '0.15 mcg/h' --amount '25 mcg' --in '50 mL'",
        "rate 3/10 0.3",
    ),
    (COURSE, "dose --dose '500 units/h' --amount '25,000 units' --in '250 mL'", "rate 5 5"),
    (COURSE, "dose --rate '30 mL/h' --amount '2 mg' --in '250 mL'", "dose 4 4"),
    (
        COURSE,
        "dose --drop-rate '10 gtt/min' --drop-factor '60 gtt/mL' --amount '100 mg' --in '250 mL'",
        "dose 200/3 66.67",
    ),
    (COURSE, "dose --amount '50,000 units' --in '600 mL'", "concentration 250/3 83.3"),
    (
        COURSE,
        "dose --dose '70 units/kg/h' --weight '269 lb' --amount '50,000 units' --in '600 mL'",
        "rate 5649/55 102.7",
    ),
    (
        "Core paediatrics, Fluids & Electrolytes p. 4 (University of Texas Medical Branch)",
        "fluids maintenance --weight '30 kg' --method hourly",
        "rate 70 70",
    ),
    (UK, "fluids maintenance --weight '22 kg' --method hourly", "rate 62 62"),
    (UK, "fluids maintenance --weight '22 kg' --method daily", "volume 1540 1540"),
    (f"{UK}: 64 mL/h", "fluids maintenance --weight '22 kg' --method daily", "rate 385/6 64.2"),
    (UK, "fluids deficit --weight '22 kg' --percent '5 %' --over '48 h'", "volume 1100 1100"),
    (UK, "fluids deficit --weight '22 kg' --percent '5 %' --over '48 h'", "rate 275/12 22.9"),
    (
        'PJ Medical Operations Handbook, 8th ed., p. 33 (burn "rule of ten")',
        "fluids burn --weight '90 kg' --tbsa '50 %' --formula rule-of-ten --since '0 h'",
        "rate 600 600",
    ),
    (
        "Journal of Special Operations Medicine, Winter 2025, p. 68 (burn case)",
        "fluids burn --weight '90 kg' --tbsa '32 %' --formula rule-of-ten --since '0 h'",
        "rate 420 420",
    ),
    (BOOK, "dose --want '10 mg/kg' --weight '110 lb' --amount '125 mg' --in '5 mL'", "weight 50 50"),
    (BOOK, "dose --want '10 mg/kg' --weight '110 lb' --amount '125 mg' --in '5 mL'", "dose 500 500"),
    (BOOK, "dose --want '10 mg/kg' --weight '110 lb' --amount '125 mg' --in '5 mL'", "volume 20 20"),
    (BOOK, "dose --want '60 mg' --amount '20 mg' --in '2 mL'", "volume 6 6"),
    (BOOK, "dose --want '0.5 mg' --amount '0.25 mg' --in '1 mL'", "volume 2 2"),
    (BOOK, "dose --want '1 mg/kg' --weight '143 lb' --amount '1 mg' --in '1 mL'", "weight 65 65"),
    (BOOK, "dose --want '1 mg/kg' --weight '2.2 lb' --amount '1 mg' --in '1 mL'", "weight 1 1"),
)
"""Source, question, and one number of the answer: its name, exact, rounded."""

NOT_AS_PRINTED = (
    (
        "Student cards: 4 h 24 min was printed, 4.444 h was cut to 4.4 first",
        "rate --volume '1000 mL' --rate '225 mL/h' --start 10:00",
        "time 800/3 267",
    ),
    (
        "Need-to-know math formulas: 13 h 18 min was printed, rounded before taking minutes",
        "rate --volume '1000 mL' --rate '75 mL/h'",
        "time 800 800",
    ),
    (
        "NCLEX tip page, hours to infuse: 597 min was printed, 0.667 was rounded first",
        "rate --volume '400 mL' --drop-rate '40 gtt/min' --drop-factor '60 gtt/mL'",
        "time 600 600",
    ),
    (
        f"{BOOK}: 7.97 was printed for the numbers of another exercise",
        "dose --dose '3 mcg/kg/min' --weight '86 kg' --amount '800 mg' --in '500 mL'",
        "rate 387/40 9.7",
    ),
    (
        "Nurses' forum thread on rounding rules: 35.3 was the key, 34.9 to 35 what readers got",
        "dose --dose '5 mcg/kg/min' --weight '205 lb' --amount '200 mg' --in '250 mL'",
        "rate 3075/88 34.9",
    ),
    (
        "short published question: 31.2 was printed, by way of 2.08 mL/min",
        "rate --volume '1500 mL' --time '12 h' --drop-factor '15 gtt/mL'",
        "drop_rate 125/4 31",
    ),
    (
        "Need-to-know math formulas: 12.6 was printed, the bag ten times as strong as meant",
        "dose --dose '1260 units/h' --amount '250,000 units' --in '250 mL'",
        "rate 63/50 1.3",
    ),
)
"""Printed answers that do not follow from their inputs: the exact one is given."""


@pytest.mark.parametrize(("source", "question", "number"), PUBLISHED + NOT_AS_PRINTED)
def test_the_answer_is_the_published_one(handsfree: Command, source: str, question: str, number: str) -> None:
    """Exact and rounded number of every published example; mistakes of print are not repeated."""
    ran = handsfree(*shlex.split(question), "--json")
    told = json.loads(ran.out)
    name, exact, rounded = number.split()

    assert (exact, rounded) == (told[name]["exact"], told[name]["rounded"]), source


def test_maintenance_and_deficit_together(handsfree: Command) -> None:
    """22 kg, 5 % over 48 h: 84.9 mL/h in all (IV fluid prescribing, quick reference, UK)."""
    questions = (
        "fluids maintenance --weight '22 kg' --method hourly --json",
        "fluids deficit --weight '22 kg' --percent '5 %' --over '48 h' --json",
    )
    rates = [json.loads(handsfree(*shlex.split(one)).out)["rate"]["exact"] for one in questions]

    assert Fraction(1019, 12) == sum(map(Fraction, rates))


def test_an_end_is_not_cut(handsfree: Command) -> None:
    """1000 mL at 225 mL/h from 10:00 end at 14:27; 14:24 was printed (student cards)."""
    ran = handsfree("rate", "--volume", "1000 mL", "--rate", "225 mL/h", "--start", "10:00", "--json")

    assert "14:27" == json.loads(ran.out)["ends_at"]
