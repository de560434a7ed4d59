"""How long the arithmetic takes. Run: python -m pytest tests/bench/bench_numbers.py -s

A single answer is measured alone; a whole run of `handsfree rate` beside `python -c "import pint"`, in turns,
by the best of each, and in time of the processor: a ratio means the same on every machine, busy or not.
"""

from __future__ import annotations

import resource
import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction
from time import perf_counter

from handsfree.care.infusion.answer import ANYBODY, Answer
from handsfree.care.infusion.burn import Burn, burn_plan
from handsfree.care.infusion.dose import DoseQuestion, Mix, rate_of_dose
from handsfree.care.infusion.flow import Flow
from handsfree.care.infusion.formula import Measure
from handsfree.care.infusion.rate import RateQuestion, rate_answer
from handsfree.say.quantities import quantity

ANSWERS, TURNS = 200, 7
WEIGHT = Measure(Fraction(80), "kg")
FLOW = RateQuestion(Flow(Fraction(1000), Fraction(480), drop_factor_per_ml=Fraction(15)))
DOPAMINE = DoseQuestion(Mix(Measure(Fraction(800), "mg"), Fraction(500)), WEIGHT)
BURN = Burn(WEIGHT, Fraction(40), Fraction(60))

QUESTIONS: dict[str, Callable[[], object]] = {
    "rate": lambda: rate_answer(FLOW, quantity),
    "dose": lambda: rate_of_dose(DOPAMINE, Measure(Fraction(5), "mcg/kg/min"), quantity),
    "burn": lambda: burn_plan(BURN, "parkland", ANYBODY, quantity),
}
RATE = ["rate", "--volume", "1000 mL", "--time", "8 h", "--drop-factor", "15 gtt/mL"]


def test_a_single_answer_takes_less_than_a_millisecond() -> None:
    """The best of many, JSON included, for each kind of question."""
    for name, ask in QUESTIONS.items():
        best_s = float("inf")
        for _ in range(ANSWERS):
            began = perf_counter()
            found = ask()
            assert isinstance(found, Answer) and found.as_json()
            best_s = min(best_s, perf_counter() - began)
        print(f"{name}: {best_s * 1000:.2f} ms")
        assert best_s < 0.001


def _spent_s() -> float:
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    return spent.ru_utime + spent.ru_stime


def _seconds(*arguments: str) -> float:
    before_s = _spent_s()
    subprocess.run([sys.executable, *arguments], check=True, capture_output=True)
    return _spent_s() - before_s


def test_a_whole_run_beside_the_import_of_pint() -> None:
    """At most one and a half times as long."""
    turns = [(_seconds("-m", "handsfree", *RATE), _seconds("-c", "import pint")) for _ in range(TURNS)]
    run_s, pint_s = (min(times) for times in zip(*turns, strict=True))
    print(f"handsfree rate over import pint: {run_s / pint_s:.2f} ({run_s:.2f} s)")
    assert run_s < 1.5 * pint_s
