"""`handsfree practice`: options, what is refused, a script, and a run that was killed and gone on with."""

from __future__ import annotations

import subprocess
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from handsfree.care.practice.marks import Verdict
from handsfree.care.practice.terms import Level, Telling, Terms, drawn
from handsfree.keep.journal import SqlJournal
from handsfree.record import load
from handsfree.shelf import emergencies
from tests.care.practice.runs import END, PERFECT
from tests.cli.conftest import Command
from tests.dialogues import shipped
from tests.guide_process import killed, walked
from tests.house.documents import blocks

SKILL = blocks("docs/practice.md", "toml")[0]
FAILING = ("now i take the rub", "my hands are dry", *END)


def kept(folder: Path) -> Any:
    """The only session of a folder, as it stands."""
    with closing(SqlJournal(folder)) as journal:
        (name,) = journal.sessions()
        return load(journal, name, emergencies()).session


@pytest.fixture
def skill(tmp_path: Path) -> Path:
    file = tmp_path / "hand_rub.toml"
    file.write_text(SKILL)
    return file


def practised(skill: Path, *options: str, lines: tuple[str, ...]) -> subprocess.CompletedProcess[str]:
    ran = walked(skill.parent / "kept", "practice", skill, *options, lines=lines)
    assert ran.returncode == 0, ran.stderr
    return ran


OPTIONS: tuple[tuple[tuple[str, ...], Terms], ...] = (
    ((), Terms("", Level.SILENT, Telling.AT_ONCE)),
    (("--level", "guided"), Terms(level=Level.GUIDED)),
    (("--level", "prompted", "--trainee", "robin"), Terms("robin", Level.PROMPTED)),
    (("--tell", "at-the-end"), Terms(telling=Telling.AT_THE_END)),
    (("--seed", "7"), Terms(faults=("bed_rail",))),
)


@pytest.mark.parametrize(("options", "terms"), OPTIONS, ids=[" ".join(row[0]) or "none" for row in OPTIONS])
def test_terms(options: tuple[str, ...], terms: Terms, skill: Path) -> None:
    """Each option holds for the run, and is kept with it; the result is told in three sentences."""
    ran = practised(skill, *options, lines=FAILING)

    assert kept(skill.parent / "kept").terms == terms
    assert ("Critical." in ran.stdout) == (terms.telling is Telling.AT_ONCE)
    assert "of eight steps were done" in ran.stdout.splitlines()[-1]
    assert ran.stderr.startswith("Kept as ")


def test_the_same_seed_draws_the_same(handsfree: Command, tmp_path: Path) -> None:
    """By the shipped checklist's own number of faults, in every run."""
    for folder in (tmp_path / "one", tmp_path / "two"):
        assert walked(folder, "practice", "--seed", "11", lines=END).returncode == 0
        assert kept(folder).terms.faults == drawn(shipped().faults, shipped().assessment.faults, 11)


REFUSED = [
    (("--level", "loud"), "--level"),
    (("--tell", "never"), "--tell"),
    (("--seed", "many"), "--seed"),
    (("--ear", "glass"), "--ear"),
    (("no_such_list",), "There is no checklist no_such_list"),
    (("--from", "no_such_file.wav"), "no_such_file.wav"),
    (("--from", "run.wav", "--ear", "typed"), "Leave out --from"),
]


@pytest.mark.parametrize(("words", "named"), REFUSED, ids=[row[1] for row in REFUSED])
def test_what_is_refused(words: tuple[str, ...], named: str, handsfree: Command, tmp_path: Path) -> None:
    """One line that names what is wrong; nothing is kept."""
    ran = handsfree("practice", *words, "--sessions", tmp_path / "none")

    assert (ran.out, len(ran.complaints)) == ("", 1)
    assert ran.status in (2, 3)
    assert named in ran.err
    assert not (tmp_path / "none").exists()


def test_a_rule_of_the_checklist_that_names_nothing(handsfree: Command, skill: Path) -> None:
    """A file of one's own is refused by file and line."""
    skill.write_text(SKILL.replace('step = "palms"', 'step = "soles"'))
    ran = handsfree("practice", skill, "--ear", "typed", "--sessions", skill.parent / "none")

    assert (ran.status, ran.out, len(ran.complaints)) == (2, "", 1)
    assert "hand_rub.toml" in ran.err
    assert "soles" in ran.err


SCRIPT = """WEBVTT

00:00:10.000 --> 00:00:12.000
okay my sleeves are up and i take some rub

00:00:15.000 --> 00:00:16.000
{"cut": "power"}

00:00:20.000 --> 00:00:21.000
cue

00:00:30.000 --> 00:00:31.000
my hands are dry

00:00:50.000 --> 00:00:51.000
end session

00:00:55.000 --> 00:00:56.000
yes end it
"""


def test_a_script_is_replayed(handsfree: Command, skill: Path) -> None:
    """On a simulated clock, through a power cut; the terms hold, and two runs give the same bytes."""
    script = skill.with_name("run.vtt")
    script.write_text(SCRIPT)
    told = ("--mode", "practice", "--checklist", skill, "--trainee", "robin", "--tell", "at-the-end")
    span = ("--start", "2031-05-04T08:00:00Z", "--until", "00:02:00")
    said = []
    for name in ("one", "two"):
        out = skill.with_name(f"{name}.vtt")
        ran = handsfree(
            "replay", script, *told, *span, "--out", out, "--sessions", skill.with_name(f"kept {name}")
        )
        assert (ran.status, ran.out) == (0, "")
        said.append(out.read_text("utf-8"))

    assert said[0] == said[1]
    assert "Going on with practice: Hand rub." in said[0]
    assert "Critical. " not in said[0]
    assert "with one cue." in said[0]
    assert kept(skill.with_name("kept one")).terms == Terms("robin", telling=Telling.AT_THE_END)


@pytest.mark.parametrize("after", [1, 4, 9, 20])
def test_gone_on_with_after_it_was_killed(after: int, tmp_path: Path) -> None:
    """Said before or after `resume`, a step is done; level and trainee are those of before."""
    lines = tuple(one.words for one in PERFECT)
    told = ("practice", "--level", "guided", "--trainee", "robin")
    printed = killed(tmp_path, (*lines, *END), after, command=told)
    before = kept(tmp_path)
    done = set(before.sheet().done)
    rest = tuple(one.words for one in PERFECT if not set(one.steps) <= done)
    ran = walked(tmp_path, "resume", lines=(*rest, *END))
    session = kept(tmp_path)

    assert len(printed) >= after
    assert ran.stdout.startswith("Going on with practice: Peripheral I V.")
    assert session.terms == Terms("robin", Level.GUIDED)
    assert {one.verdict for one in session.marking(session.started).steps} == {Verdict.DONE}
