"""`handsfree drill`, and a drill on a simulated clock."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import Command

SCRIPT = """WEBVTT

00:00:10.000 --> 00:00:11.000
trainee alfa bravo

00:00:20.000 --> 00:00:21.000
go

00:00:50.000 --> 00:00:51.000
gauge done

00:01:10.000 --> 00:01:11.000
{"cut": "power"}

00:02:20.000 --> 00:02:21.000
time check
"""


def test_a_drill_is_replayed(handsfree: Command, tmp_path: Path) -> None:
    """Marks are confirmed in brackets; it goes on after the power was cut; two runs give the same bytes."""
    script = tmp_path / "drill.vtt"
    script.write_text(SCRIPT)
    said = []
    for name in ("one", "two"):
        out = tmp_path / f"{name}.vtt"
        told = ("--mode", "drill", "--start", "2031-05-04T08:00:00Z", "--out", out, "--until", "00:03:00")
        assert handsfree("replay", script, "--sessions", tmp_path / name, *told).status == 0
        said.append(out.read_text("utf-8"))

    assert said[0] == said[1]
    assert "<v Handsfree>Trainee A B. Say go." in said[0]
    assert said[0].count("<v Handsfree>[taken]") == 2
    assert "<v Handsfree>Going on with the drill. The run goes on." in said[0]
    assert "<v Handsfree>Two minutes." in said[0]


def test_names_are_letters(handsfree: Command, tmp_path: Path) -> None:
    """What nobody can say is refused in one line, before anything begins."""
    ran = handsfree("drill", "--ear", "typed", "--trainees", "Anna,R2", "--sessions", tmp_path / "none")

    assert (ran.status, ran.out, len(ran.err.splitlines())) == (2, "", 1)
    assert "R2 is no name of letters alone." in ran.err
    assert not (tmp_path / "none").exists()
