"""Rules, faults and weights that do not fit are refused by file and line, in a checklist of one's own."""

from __future__ import annotations

import pytest

from handsfree.care.checklist_file import read_checklist
from handsfree.errors import ChecklistError
from tests.care.practice.rub_runs import hand_rub

BROKEN = [
    ('after = ["palmful"]', 'after = ["soap"]', "rule rub_first names soap among its steps"),
    ('after = ["palmful"]', "", "rule rub_first needs step and after, or begins, ends"),
    ("at_least_s = 20", "", "rule rub_long_enough needs step and after, or begins, ends"),
    ("at_least_s = 20", "at_least_s = -20", "at_least_s should not be less than 0"),
    ("at_least_s = 20", 'at_least_s = "20"', "at_least_s should be a whole number"),
    ("at_least_s = 20", "at_least_s = 20\nat_most_s = 10", "at most less than at least"),
    ("at_least_s = 20", 'never = ["soap"]', "rule rub_long_enough names soap among its steps"),
    ("weight = 3", "weight = -3", "weight should not be less than 0"),
    ('name = "rub_first"', 'name = "palms"', "the name 'palms' is used twice"),
    ('answer = ["again"]', 'answer = ["soap"]', "fault bed_rail names soap among its answers"),
    ('answer = ["again"]', "answer = []", "fault bed_rail needs an answer, and time for it"),
    ("within_s = 15", "within_s = 0", "fault bed_rail needs an answer, and time for it"),
    ('when = "tips"', 'when = "soap"', "fault bed_rail names soap among its answers"),
    ('say = "you touched the (bed | rail)"', "", "this fault has no say"),
    ("target_s = 60", "target = 60", "assessment should be a table with target_s"),
    ("target_s = 60", "prompted_percent = 400", "prompted_percent is a share, 100 at the most"),
    ('"thumbs", "tips", "dry"]', '"soap"]', "finding again names soap among its reopens"),
]


@pytest.mark.parametrize(("good", "broken", "complaint"), BROKEN, ids=[row[1] or row[0] for row in BROKEN])
def test_what_does_not_fit_is_refused(good: str, broken: str, complaint: str) -> None:
    """The example of docs/practice.md with one thing broken: one sentence with the line of its table."""
    text = hand_rub().text
    assert good in text
    with pytest.raises(ChecklistError) as refused:
        read_checklist(text.replace(good, broken, 1), "my.toml")

    assert complaint in str(refused.value)
    assert refused.value.file == "my.toml"
    assert text.splitlines()[(refused.value.line or 0) - 1].startswith(("[[", 'name = "hand_rub'))
