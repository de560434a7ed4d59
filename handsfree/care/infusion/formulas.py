"""Which formula gave a number, and who published it."""

from __future__ import annotations

from dataclasses import dataclass

from handsfree.care.infusion.flow import Flow

_ARMY = "Pharmacology Math for the Practical Nurse, MD0904, US Army Medical Department"


@dataclass(frozen=True, slots=True)
class Formula:
    """One way to a field of a Flow. needs: the fields that it takes."""

    gives: str
    needs: frozenset[str]
    text: str
    source: str


FORMULAS = (
    Formula(
        "rate_ml_per_h",
        frozenset({"volume_ml", "time_min"}),
        "mL/h = mL x 60 / min",
        "IV formula hand-out with worked answers",
    ),
    Formula(
        "rate_ml_per_h",
        frozenset({"drop_rate_per_min", "drop_factor_per_ml"}),
        "mL/h = gtt/min x 60 / (gtt/mL)",
        "Need-to-know math formulas",
    ),
    Formula(
        "drop_rate_per_min",
        frozenset({"volume_ml", "time_min", "drop_factor_per_ml"}),
        "gtt/min = mL x (gtt/mL) / min",
        f"{_ARMY}, page 123",
    ),
    Formula(
        "drop_rate_per_min",
        frozenset({"rate_ml_per_h", "drop_factor_per_ml"}),
        "gtt/min = mL/h x (gtt/mL) / 60",
        f"{_ARMY}, page 125",
    ),
    Formula(
        "time_min",
        frozenset({"volume_ml", "rate_ml_per_h"}),
        "h = mL / (mL/h)",
        "Nursing Skills, section 5.16, IV Completion Time, Open RN",
    ),
    Formula(
        "time_min",
        frozenset({"volume_ml", "drop_rate_per_min", "drop_factor_per_ml"}),
        "min = mL x (gtt/mL) / (gtt/min)",
        "Dosage calculation practice exam with answers",
    ),
    Formula(
        "volume_ml",
        frozenset({"rate_ml_per_h", "time_min"}),
        "mL = mL/h x h",
        "from the formula for mL/h in the IV formula hand-out with worked answers",
    ),
    Formula(
        "volume_ml",
        frozenset({"time_min", "drop_rate_per_min", "drop_factor_per_ml"}),
        "mL = gtt/min x min / (gtt/mL)",
        f"from the formula for drops in {_ARMY}, page 123",
    ),
    Formula(
        "drop_factor_per_ml",
        frozenset({"rate_ml_per_h", "drop_rate_per_min"}),
        "gtt/mL = gtt/min x 60 / (mL/h)",
        f"from the formula for drops in {_ARMY}, page 125",
    ),
    Formula(
        "drop_factor_per_ml",
        frozenset({"volume_ml", "time_min", "drop_rate_per_min"}),
        "gtt/mL = gtt/min x min / mL",
        f"from the formula for drops in {_ARMY}, page 123",
    ),
)

COUNTING = "gtt/min = drops x 60 / s (student cards: time tape, infusion time, drops in 15 s)"
BEAT = "s from drop to drop = 60 / (gtt/min)"


def method(given: Flow, found: Flow) -> tuple[str, ...]:
    """The formula, with its source, for each number that was found but not given, in order of the fields."""
    names = given.known().keys()
    missing = [name for name in found.known() if name not in names]
    return tuple(
        next(f"{way.text} ({way.source})" for way in FORMULAS if way.gives == name and way.needs <= names)
        for name in missing
    )
