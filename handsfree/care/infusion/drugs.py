"""What is never computed as a drip, or never pushed, and why."""

from __future__ import annotations

import re
from types import MappingProxyType

from handsfree.care.infusion.refused import Refused
from handsfree.words import worded

PUMP = worded("Use a pump and a second checker.")

_NO_DRIP = {
    "blood": (
        worded("Blood is never computed as a drip here."),
        worded("Follow the local transfusion procedure."),
    ),
    "potassium": (worded("Potassium is no drip here, and never pushed."), PUMP),
    "insulin": (worded("Insulin is never computed as a drip here."), PUMP),
    "heparin": (worded("Heparin is never computed as a drip here."), PUMP),
    "vasopressor": (worded("Vasopressors are never computed as a drip here."), PUMP),
}
"""Fluids and drugs whose drip rate is refused, and what is done instead (common practice, no source)."""

NO_DRIP = MappingProxyType({kind: f"{no} {instead}" for kind, (no, instead) in _NO_DRIP.items()})
"""Why there is no drip rate, by kind."""

_NAMES = MappingProxyType(
    {
        **{kind: kind for kind in _NO_DRIP},
        **dict.fromkeys(("noradrenaline", "norepinephrine", "adrenaline", "epinephrine"), "vasopressor"),
        **dict.fromkeys(("dopamine", "vasopressin", "phenylephrine", "vasopressors"), "vasopressor"),
        **dict.fromkeys(("metaraminol", "ephedrine"), "vasopressor"),
        **dict.fromkeys(("cells", "erythrocytes", "platelets", "plasma"), "blood"),
        "kcl": "potassium",
    }
)
"""Words of a name, and the kind that they stand for."""

NEVER_PUSHED = worded("Potassium is never pushed: it is diluted, and runs by a pump with a second checker.")
"""Never push or bolus: Pharmacology for Nurses, chapter on fluids and electrolytes (OpenStax)."""

DRIP_CAUTION = worded(
    "Potassium, vasopressors, insulin and heparin are not given by drops: pump and second checker."
)

MAY_BE_POTASSIUM = worded("If this is potassium, never push it.")


def kind_of(drug: str) -> str:
    """The row of `NO_DRIP` that a drug's name belongs to; empty where there is none."""
    words = re.findall("[a-z]+", drug.casefold())
    return next((_NAMES[word] for word in words if word in _NAMES), "")


def no_drip(drug: str) -> Refused | None:
    """Why a drug has no drip rate; None where it may have one."""
    return Refused(NO_DRIP[kind]) if (kind := kind_of(drug)) else None


def no_push(drug: str) -> Refused | None:
    """Why a drug is never drawn up to be pushed; None where it may be."""
    return Refused(NEVER_PUSHED) if kind_of(drug) == "potassium" else None


def instead(drug: str) -> str:
    """What is done with a drug that has no drip rate; empty where it may have one."""
    return _NO_DRIP[kind][1] if (kind := kind_of(drug)) else ""
