"""Limits of local policy hold for the arithmetic from the keyboard too."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from tests.cli.conftest import Command

WARD = """
[[limit]]
quantity = "rate"
unit = "mL/h"
high = 100
hard = true
source = "Ward 4"

[[limit]]
quantity = "maintenance rate"
unit = "mL/h"
high = 50
source = "Ward 4"
"""
"""Of our own scenario, nobody's policy."""

BEYOND = (
    "rate --volume '1 L' --time '8 h'",
    "dose --dose '5 mcg/kg/min' --weight '80 kg' --amount '8 mg' --in '500 mL'",
    "fluids bolus --weight '18 kg' --per-kg '10 mL/kg' --over '10 min'",
)


@pytest.mark.parametrize("asked", BEYOND)
def test_beyond_a_hard_limit_of_the_ward(handsfree: Command, tmp_path: Path, asked: str) -> None:
    """Refused with that limit and its source; without the policy it is answered."""
    file = tmp_path / "ward.toml"
    file.write_text(WARD, "utf-8")
    ran = handsfree(*shlex.split(asked), "--profile", file)
    assert (ran.status, ran.out) == (1, "")
    assert "above the limit of 100 mL/h (Ward 4)" in ran.err
    assert handsfree(*shlex.split(asked)).status == 0


def test_beyond_what_the_ward_calls_usual(handsfree: Command, tmp_path: Path) -> None:
    """Answered, with a caution."""
    file = tmp_path / "ward.toml"
    file.write_text(WARD, "utf-8")
    asked = ("fluids", "maintenance", "--weight", "22 kg", "--method", "hourly")
    assert "50 mL/h (Ward 4)" in handsfree(*asked, "--profile", file).out
    assert "Ward 4" not in handsfree(*asked).out


def test_a_policy_that_cannot_be_used(handsfree: Command, tmp_path: Path) -> None:
    """Refused by file and line, before anything is worked out."""
    file = tmp_path / "ward.toml"
    file.write_text(WARD.replace("mL/h", "gallons"), "utf-8")
    ran = handsfree("rate", "--volume", "1 L", "--time", "8 h", "--profile", file)
    assert (ran.status, ran.out, len(ran.complaints)) == (2, "", 1)
    assert f"{file}:4" in ran.err
