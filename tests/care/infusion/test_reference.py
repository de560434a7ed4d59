"""docs/numbers.md: its tables are the program's own, and what it says of the tests is so."""

from __future__ import annotations

import re

from handsfree.care.infusion import formulas
from handsfree.care.infusion.formula import Formula
from handsfree.care.infusion.reference import reference
from tests.cli.test_published import NOT_AS_PRINTED, PUBLISHED
from tests.house.documents import ROOT

TEXT = (ROOT / "docs" / "numbers.md").read_text("utf-8")


def test_the_tables_are_current() -> None:
    """Formulas, rounding, limits and refusals stand there as the program has them.

    After a change: python -c "from handsfree.care.infusion.reference import reference; print(reference())"
    """
    drawn = re.search(r"<!-- numbers -->\n(.*?)\n?<!-- /numbers -->", TEXT, re.DOTALL)

    assert drawn is not None
    assert reference().strip() == drawn[1].strip()


def test_every_formula_is_in_the_tables() -> None:
    """No formula is used that the page does not show."""
    shown = {one for subject in formulas.SUBJECTS.values() for one in subject}
    alone = {one for one in vars(formulas).values() if isinstance(one, Formula)}
    in_tables = (formulas.RATE_OF_DOSE, formulas.DOSE_OF_RATE, formulas.BURN_VOLUMES)

    assert shown >= alone | {one for table in in_tables for one in table.values()} | {*formulas.FLOW}


def test_what_is_counted_is_right() -> None:
    """The page says how many published numbers are checked, and names tests that are there."""
    assert f"{len(PUBLISHED)} printed answers" in TEXT
    assert f"{len(NOT_AS_PRINTED)} printed mistakes" in TEXT
    assert [] == [path for path in re.findall(r"`(tests/[\w/]+\.py)`", TEXT) if not (ROOT / path).exists()]
