"""`handsfree fluids` from the keyboard."""

from __future__ import annotations

import json
import shlex

import pytest

from tests.cli.conftest import Command

ANSWERED = (
    ("maintenance --weight '22 kg' --method hourly", {"rate": "62"}),
    ("maintenance --weight '22 kg' --method daily", {"volume": "1540", "rate": "385/6"}),
    ("deficit --weight '22 kg' --percent 5 --over '48 h'", {"volume": "1100", "rate": "275/12"}),
    ("bolus --weight '18 kg' --per-kg '10 mL/kg'", {"volume": "180"}),
    ("bolus --weight '18 kg' --per-kg '10 mL' --over '10 min'", {"volume": "180", "rate": "1080"}),
    ("bolus --weight '39.6 lb' --per-kg '0.01 L/kg'", {"weight": "18", "volume": "180"}),
    (
        "burn --weight '80 kg' --tbsa '40 %' --formula Parkland --since '2 h' --given '500 mL'",
        {
            "volume": "12800",
            "first_half_left": "5900",
            "first_8_h_rate": "2950/3",
            "next_16_h_rate": "400",
        },
    ),
    ("burn --weight '90 kg' --tbsa 50 --formula 'rule of ten' --since '0 h'", {"rate": "600"}),
)


@pytest.mark.parametrize(("asked", "found"), ANSWERED)
def test_the_answer_is_one_object(handsfree: Command, asked: str, found: dict[str, str]) -> None:
    """Each number under its name, and nothing beside but sentence, working, method and cautions."""
    ran = handsfree("fluids", *shlex.split(asked), "--json")
    told = json.loads(ran.out)
    assert (ran.status, ran.err) == (0, "")
    assert {*found, "says", "working", "method", "cautions"} == told.keys()
    assert found == {name: told[name]["exact"] for name in found}


def test_help_lists_the_formulas(handsfree: Command) -> None:
    """By the trade's names."""
    told = " ".join(handsfree("fluids", "burn", "--help").out.split())
    names = ("parkland", "us-army", "aba-adult", "aba-child", "aba-electrical", "rcem-3", "rule-of-ten")
    assert [] == [name for name in names if name not in told]


@pytest.mark.parametrize("name", ["maintenance", "deficit", "burn", "bolus"])
def test_every_question_helps_with_an_example(handsfree: Command, name: str) -> None:
    """`--help` ends with an example, which can be typed."""
    ran = handsfree("fluids", name, "--help")
    example = " ".join(ran.out.split("Example: handsfree ")[1].split())
    assert handsfree(*shlex.split(example)).status == 0


REFUSED = (
    ("", 2, "Missing command."),
    ("feast", 2, "No such command"),
    ("maintenance --weight '22 kg'", 1, "Name one: --method hourly, or daily."),
    ("maintenance --method hourly", 1, 'Give --weight, as in --weight "70 kg".'),
    ("maintenance --method weekly --weight '22 kg'", 2, "--method"),
    ("maintenance --method hourly --weight 22", 2, 'Write it like "70 kg".'),
    ("maintenance --method hourly --weight '0 kg'", 1, "below the limit"),
    ("deficit --weight '22 kg' --percent '5 %'", 1, "Give --over"),
    ("deficit --weight '22 kg' --over '48 h'", 1, "Give --percent"),
    ("deficit --weight '22 kg' --percent '5 kg' --over '48 h'", 2, 'Write it like "40 %".'),
    ("deficit --weight '22 kg' --percent '90 %' --over '48 h'", 1, "above the limit of 20 %"),
    ("bolus --weight '22 kg'", 1, "Give --per-kg"),
    ("burn --weight '80 kg' --tbsa '40 %' --since '2 h'", 1, "Formulas for burns do not give the same."),
    ("burn --weight '80 kg' --tbsa '40 %' --formula parkland", 1, "Give --since"),
    (
        "burn --weight '90 kg' --tbsa '20 %' --formula aba-child --since '1 h'",
        1,
        "for children under 40 kg",
    ),
    (
        "burn --weight '12 kg' --tbsa '20 %' --formula aba-adult --since '1 h' --patient child",
        1,
        "Children under 40 kg have a formula of their own: aba-child.",
    ),
    ("burn --weight '80 kg' --tbsa '40 %' --formula kitchen --since '2 h'", 2, "Name one of parkland"),
    (
        "burn --weight '80 kg' --tbsa '40 %' --formula parkland --since '7 h'",
        1,
        "above the limit of 2000 mL/h",
    ),
    ("burn --weight '80 kg' --tbsa '40 %' --formula parkland --since '25 h'", 1, "the first 24 hours"),
)


@pytest.mark.parametrize(("asked", "status", "complaint"), REFUSED)
def test_a_refusal_is_one_line(handsfree: Command, asked: str, status: int, complaint: str) -> None:
    """2 for what cannot be read, 1 for a question without an answer; nothing on standard output."""
    ran = handsfree("fluids", *shlex.split(asked))
    assert (ran.status, ran.out, len(ran.complaints)) == (status, "", 1)
    assert complaint in ran.err
