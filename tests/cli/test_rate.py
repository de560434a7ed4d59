"""`handsfree rate` from the keyboard: one JSON object, or the sentence with its figures."""

from __future__ import annotations

import json

import pytest

from tests.cli.conftest import Command


def test_the_answer_is_one_object(handsfree: Command) -> None:
    """1000 mL over 8 h at 15 gtt/mL run at 31 gtt/min (Pharmacology Math for the Practical Nurse, MD0904)."""
    ran = handsfree("rate", "--volume", "1000 mL", "--time", "8 h", "--drop-factor", "15 gtt/mL", "--json")
    told = json.loads(ran.out)
    assert (ran.status, ran.err) == (0, "")
    assert told["rate"] == {"exact": "125", "rounded": "125", "unit": "mL/h"}
    assert told["drop_rate"] == {"exact": "125/4", "rounded": "31", "unit": "gtt/min"}
    assert {"says", "method", "cautions", "seconds_per_drop"} < set(told)


def test_the_end_is_told_with_its_day(handsfree: Command) -> None:
    """An infusion may end on the next day."""
    ran = handsfree("rate", "--volume", "1 L", "--rate", "125 mL/h", "--start", "22:10", "--json")
    told = json.loads(ran.out)
    assert (told["ends_at"], told["ends_day"]) == ("06:10", 1)


def test_a_count_is_a_drop_rate(handsfree: Command) -> None:
    """8 drops in 15 s are 32 a minute."""
    ran = handsfree("rate", "--count", 8, "--over", "15 s", "--json")
    assert json.loads(ran.out)["drop_rate"]["exact"] == "32"


def test_in_words(handsfree: Command) -> None:
    """Sentence, workings, end, sources and cautions, a line each."""
    known = ("--volume", "1000 mL", "--time", "8 h", "--drop-factor", "15 gtt/mL", "--start", "22:10")
    ran = handsfree("rate", *known)
    assert ran.lines[0].startswith("One hundred twenty five millilitres an hour, thirty one drops a minute")
    assert ran.lines[1:4] == [
        "  rate              1000 mL ÷ 480 min × 60 min/h = 125 mL/h",
        "  drop rate         1000 mL × 15 gtt/mL ÷ 480 min = 31.25, say 31 gtt/min",
        "  seconds per drop  1 gtt × 60 s/min ÷ 31.25 gtt/min = 1.92, say 1.9 s",
    ]
    assert "Ends at 06:10 on the next day." in ran.lines
    assert "Rate: IV formula hand-out with worked answers, author unknown." in ran.lines
    assert ran.lines[-1].startswith("Check every number independently")


def test_across_a_change_of_the_clock(handsfree: Command) -> None:
    """In the night of the change back, eight hours from 22:00 end at 05:00 by the clock."""
    known = ("--time", "8 h", "--volume", "1 L", "--start", "22:00")
    ran = handsfree("rate", *known, "--on", "2026-10-24", "--zone", "Europe/Berlin", "--json")
    told = json.loads(ran.out)
    assert (told["ends_at"], told["ends_day"]) == ("05:00", 1)


REFUSED = [
    (("--volume", "5"), 2, 'Write it like "1000 mL".'),
    (("--volume", "10 parsecs"), 2, 'Write it like "1000 mL".'),
    (("--start", "99:00"), 2, 'Write hours and minutes, as in "07:30".'),
    (("--start", "noon"), 2, 'Write hours and minutes, as in "07:30".'),
    (
        ("--rate", "80 mL/h", "--drop-factor", "20 gtt/mL", "--drug", "Blood"),
        1,
        "local transfusion procedure",
    ),
    (("--count", "8", "--over", "15 s", "--drug", "KCl potassium"), 1, "Potassium is no drip here"),
    (("--zone", "Europe/Berlin"), 2, "Give --on with --zone."),
    (("--on", "tomorrow"), 2, "Write year, month and day"),
    (("--on", "2026-10-25", "--zone", "Mars/Olympus"), 2, 'Write it like "Europe/Berlin".'),
    (("--given", "300 mL"), 2, "Give --given"),
    (("--rate", "KVO"), 1, 'Ask for a number, as in "125 mL/h".'),
    (("--drop-rate", "keep open"), 1, 'Ask for a number, as in "31 gtt/min".'),
    (("--volume", "nan mL"), 2, 'Write it like "1000 mL".'),
    (("--volume", "1 mL" * 10_000), 2, 'Write it like "1000 mL".'),
    (("--rate", "100 mL/h", "--time", "90 gtt/mL"), 2, 'Write it like "8 h".'),
    (("--volume", "999999999 mL", "--time", "8 h"), 1, "above the limit of 20000 mL"),
    (("--volume", "1.000 mL", "--time", "8 h"), 2, "It could be thousands: leave out the last zero."),
    (("--count", "8", "--over", "0 s"), 1, "both more than zero"),
    (("--count", "8"), 2, "Give both"),
    (("--over", "15 s"), 2, "Give both"),
    ((), 1, "Too little is known"),
    (("--volume", "1 L", "--volume", "500 mL", "--time", "8 h"), 2, "--volume is given more than once."),
    (("--volume", "50 mL", "--time", "24 h", "--drop-factor", "10 gtt/mL"), 1, "0.347 gtt/min would be"),
    (("--volume", "5 mL"), 1, "Too little is known"),
    (("--volume", "0 mL", "--time", "8 h"), 1, "is not more than zero"),
    (("--volume", "1 L", "--time", "8 h", "--rate", "200 mL/h"), 1, "do not fit together"),
]


@pytest.mark.parametrize(("arguments", "status", "complaint"), REFUSED)
def test_a_refusal_is_one_line(
    handsfree: Command, arguments: tuple[str, ...], status: int, complaint: str
) -> None:
    """2 for what cannot be read, 1 for a question without an answer; nothing on standard output."""
    ran = handsfree("rate", *arguments)
    assert (ran.status, ran.out, len(ran.complaints)) == (status, "", 1)
    assert complaint in ran.err
