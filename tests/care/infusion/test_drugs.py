"""What is never computed as a drip, or never pushed."""

from __future__ import annotations

import pytest

from handsfree.care.infusion.drugs import NO_DRIP, instead, kind_of, no_drip, no_push
from handsfree.care.infusion.refused import Refused
from handsfree.care.values import KINDS

NAMES = (
    ("Potassium chloride", "potassium"),
    ("KCl 20 mEq", "potassium"),
    ("glucose 5 % with potassium", "potassium"),
    ("Insulin (regular)", "insulin"),
    ("heparin 25,000 units", "heparin"),
    ("NORADRENALINE", "vasopressor"),
    ("dopamine", "vasopressor"),
    ("packed red cells", "blood"),
    ("whole blood", "blood"),
    ("fresh frozen plasma", "blood"),
    ("saline", ""),
    ("sodium chloride 0.9 %", ""),
    ("", ""),
)


@pytest.mark.parametrize(("name", "kind"), NAMES)
def test_a_name_has_its_kind(name: str, kind: str) -> None:
    """However it is written: its kind, the refusal of its drops, what is done instead; or none of them."""
    assert kind == kind_of(name)
    assert (Refused(NO_DRIP[kind]) if kind else None) == no_drip(name)
    assert NO_DRIP[kind].endswith(instead(name)) if kind else instead(name) == ""


def test_only_potassium_is_never_pushed() -> None:
    """Never push or bolus (Pharmacology for Nurses, chapter on fluids and electrolytes, OpenStax)."""
    assert ["potassium"] == [kind for kind in NO_DRIP if no_push(kind)]


@pytest.mark.parametrize("kind", NO_DRIP)
def test_a_session_refuses_the_same(kind: str) -> None:
    """The order of a session and the keyboard have one table."""
    assert NO_DRIP[kind] == KINDS["fluid"].complaint(kind)
