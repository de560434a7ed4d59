"""Runs through the skill that docs/practice.md builds from scratch, and the marks that each must get.

Written by hand from that document; the same on text and on recordings.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from handsfree.care.checklist import Checklist
from handsfree.care.checklist_file import read_checklist
from tests.care.practice.runs import CORRECTED, CRITICAL, Line, Run, line
from tests.house.documents import blocks


@cache
def hand_rub() -> Checklist:
    return read_checklist(blocks("docs/practice.md", "toml")[0], "hand_rub.toml")


SLEEVES = line("okay my sleeves are up", "bare")
RUB = line("now i take the rub", "palmful")
PALMS = line("palm to palm", "palms", 2)
BACKS = line("then palms over the backs and between the fingers", "backs between", 2)
THUMBS = line("and now both thumbs", "thumbs", 2)
TIPS = line("and now the finger tips", "tips", 2)
DRY = line("and now my hands are dry", "dry", 15)
AGAIN = line("so i start again")
BED = line("instructor you touched the bed")
TALK = line("the weather is nice today and the runners come in soon", after_s=2)
RUBBED = (PALMS, BACKS, THUMBS, TIPS)

RUNS: Mapping[str, Run] = MappingProxyType(
    {
        "perfect": Run((SLEEVES, RUB, *RUBBED, DRY)),
        "another order": Run((SLEEVES, RUB, THUMBS, TIPS, BACKS, PALMS, DRY)),
        "one step missed": Run((RUB, *RUBBED, DRY), {"missed": "bare"}),
        "a critical step missed": Run(
            (SLEEVES, RUB, *RUBBED, line("", after_s=9)), {"missed": "dry"}, {("missed", "dry"): CRITICAL}
        ),
        "out of order": Run(
            (SLEEVES, PALMS, RUB, BACKS, THUMBS, TIPS, DRY),
            {"out of order": "palms"},
            {("rub_first", "palms"): CRITICAL},
        ),
        "too short": Run(
            (SLEEVES, RUB, *RUBBED, line(DRY.words, "dry", 1)),
            failures={("rub_long_enough", "dry"): CRITICAL},
        ),
        "too early, then in order": Run(
            (SLEEVES, RUB, PALMS, BACKS, THUMBS, line(DRY.words, "", 3), TIPS, DRY),
            failures={("rub_long_enough", "dry"): CRITICAL, ("dry_order", "dry"): CORRECTED},
        ),
        "taken back": Run(
            (SLEEVES, RUB, PALMS, BACKS, THUMBS, line(DRY.words), line("scrub that"), TIPS, DRY)
        ),
        "a fault met": Run((SLEEVES, RUB, *RUBBED, BED, AGAIN, RUB, *RUBBED, DRY), met={"bed_rail": True}),
        "a fault not met": Run(
            (SLEEVES, RUB, *RUBBED, BED, DRY), failures={("bed_rail", ""): CRITICAL}, met={"bed_rail": False}
        ),
        "silence": Run((line("", after_s=60),), all_missed=True),
        "other talk": Run((SLEEVES, TALK, RUB, PALMS, TALK, BACKS, THUMBS, TALK, TIPS, DRY)),
    }
)
"""By name."""


def sentences() -> tuple[str, ...]:
    """Every sentence of the runs, once."""
    said: tuple[Line, ...] = tuple(one for run in RUNS.values() for one in run.lines)
    return tuple(dict.fromkeys(one.words for one in said if one.words))
