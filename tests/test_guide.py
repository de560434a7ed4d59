"""Sessions from the command line, as processes: to the end, with a user's own file, and killed."""

from __future__ import annotations

import random
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import pytest

from handsfree.care import events as e
from handsfree.keep.journal import SqlJournal
from handsfree.record import CODEC, cut_off, load
from handsfree.shelf import emergencies
from tests.dialogues import EQUIPMENT, FLUID, ORDER, PRIME, shipped
from tests.guide_process import killed, walked

KILLS = 50
LATEST = 20
"""Sentences after which the latest kill comes."""

UNTIMED = tuple(line for part in (ORDER, EQUIPMENT, FLUID, PRIME) for line in part)
"""Lines that wait for no clock."""

OWN = """\
name = "flush_lock"
title = "Flush a lock"
cautions = ["Local protocol comes first."]

[[phase]]
name = "flush"
title = "Flush"

[[phase.step]]
name = "hands"
do = "Clean your hands."
say = "hands [are] clean"

[[phase.step]]
name = "flush_date"
do = "Read the date of the flush."
value = "expiry"
in_date = true
critical = true

[[phase.step]]
name = "flushed"
do = "Flush."
say = "flushed"
after = ["flush_date"]
"""


def test_a_file_of_the_users_own(tmp_path: Path) -> None:
    """It walks from the first step to the last, in the user's words."""
    file = tmp_path / "mine.toml"
    file.write_text(OWN)
    lines = ("hands are clean", "flushed", "expires march 2090", "flushed", "end session", "yes end it")
    ran = walked(tmp_path / "kept", "guide", file, lines=lines)
    assert ran.stdout.splitlines() == [
        "Flush a lock. Local protocol comes first. Clean your hands.",
        "Hands are clean. Read the date of the flush.",
        "Not yet. First: Read the date of the flush.",
        "March twenty ninety. Flush.",
        "Flushed. Every step is done. Say end session to finish.",
        "End the session? Say yes end it, or wrong.",
        "Session ended. Every step is done.",
    ]
    assert ran.returncode == 0
    assert len(ran.stderr.splitlines()) == 1


def test_a_broken_file(tmp_path: Path) -> None:
    """One line on standard error names the file, the line and what is wrong; nothing is kept."""
    file = tmp_path / "mine.toml"
    file.write_text(OWN.replace('"flushed"\nafter', '"flushed ("\nafter'))
    ran = walked(tmp_path / "kept", "guide", file, lines=())
    assert (ran.returncode, ran.stdout) == (2, "")
    (complaint,) = ran.stderr.splitlines()
    assert f"{file}:21: the words of step flushed" in complaint
    assert not (tmp_path / "kept").exists()


def test_no_such_checklist(tmp_path: Path) -> None:
    """A name that is neither built in nor a file is refused with what there is."""
    ran = walked(tmp_path / "kept", "guide", "nothing", lines=())
    assert (ran.returncode, ran.stdout) == (2, "")
    assert ran.stderr.splitlines() == [
        "There is no checklist nothing. Name a TOML file in UTF-8, or a built-in one: "
        "bag_change, flush_lock, handover, peripheral_iv, remove_line, site_check."
    ]


def test_a_broken_policy(tmp_path: Path) -> None:
    """A policy is refused by file and line before the session begins; nothing is kept."""
    file = tmp_path / "ward.toml"
    file.write_text(
        'title = "Ward"\n\n[[interval]]\nkind = "sight"\nafter = "1 h"\nsource = "s"\nedition = "1"\n'
    )
    ran = walked(tmp_path / "kept", "guide", "--profile", file, lines=())
    assert (ran.returncode, ran.stdout) == (2, "")
    (complaint,) = ran.stderr.splitlines()
    assert complaint.startswith(f"{file}:4: no reminder is called sight.")
    assert not (tmp_path / "kept").exists()


def test_nothing_to_resume(tmp_path: Path) -> None:
    """Where no session was cut off, resume says so."""
    ran = walked(tmp_path / "kept", "resume", lines=())
    assert (ran.returncode, ran.stdout) == (1, "")
    assert len(ran.stderr.splitlines()) == 1


@pytest.mark.parametrize("name", ["none", "../elsewhere"])
def test_a_session_that_is_not_there_is_not_resumed(tmp_path: Path, name: str) -> None:
    """Said so, and no lock is left of it, inside the folder or out of it."""
    ran = walked(tmp_path / "kept", "resume", name, lines=())
    assert (ran.returncode, ran.stdout) == (1, "")
    assert "There is no session" in ran.stderr
    assert list(tmp_path.rglob("*.lock")) == []


def resumed_at(folder: Path) -> tuple[str, str]:
    """The step at hand by the fold of what was kept, and what `resume` says about it first."""
    with closing(SqlJournal(folder)) as journal:
        session = load(journal, cut_off(journal), emergencies()).session
    ran = walked(folder, "resume", lines=())
    assert ran.returncode == 0, ran.stderr
    return session.step, ran.stdout.splitlines()[0]


def check_kill(folder: Path, lines: tuple[str, ...], after: int) -> None:
    """Kill one session; every printed sentence is kept, and they are those of the same dialogue unkilled."""
    printed = killed(folder, lines, after)
    assert len(printed) >= after
    with closing(SqlJournal(folder)) as journal:
        rows = journal.read(cut_off(journal))
    events = [CODEC.decode(row) for row in rows]
    announced = [event.text for event in events if isinstance(event, e.Announced)]
    assert printed == announced[: len(printed)]
    assert len(announced) - len(printed) <= 1


def test_killed_at_fifty_moments(tmp_path: Path) -> None:
    """After kill -9 at each of fifty random moments, all that was printed is in the journal."""
    moments = random.Random(20310504)
    kills = [(tmp_path / str(n), UNTIMED, moments.randint(1, LATEST)) for n in range(KILLS)]
    with ThreadPoolExecutor(2) as pool:
        list(pool.map(lambda kill: check_kill(*kill), kills))


@pytest.mark.parametrize("after", [1, 4, 12, 25])
def test_resumed_where_it_was_killed(tmp_path: Path, after: int) -> None:
    """`resume` says that it goes on, and asks the step that the fold of the journal names."""
    check_kill(tmp_path, UNTIMED, after)
    step, said = resumed_at(tmp_path)
    assert said.startswith("Going on with Peripheral I V.")
    assert shipped().step(step).do in said


def test_cut_off_by_the_end_of_input(tmp_path: Path) -> None:
    """A session cut off by the end of its input goes on in the next process, with all its answers."""
    first = walked(tmp_path, "guide", lines=UNTIMED)
    assert first.returncode == 0
    second = walked(tmp_path, "resume", lines=("left forearm", "what's left", "end session", "yes end it"))
    assert second.stdout.splitlines()[:2] == [
        "Going on with Peripheral I V. Choose the site. Say side and place.",
        "Left forearm. Tourniquet on.",
    ]
    assert walked(tmp_path, "resume", lines=()).returncode == 1
