"""`handsfree replay`: the whole program on a simulated clock."""

from __future__ import annotations

from pathlib import Path

import pytest

from handsfree.webvtt import read_webvtt
from tests.cli.conftest import Command

SCRIPT = (
    ("00:00:20.000", "two identifiers"),
    ("00:00:40.000", "saline"),
    ("00:00:41.500", '{"cut": "power"}'),
    ("00:01:00.000", "saline"),
    ("00:01:10.000", "correct"),
    ("00:02:00.000", '{"clock": "jump", "s": -7200}'),
    ("00:03:00.000", '{"sleep": 3600}'),
    ("00:04:00.000", "nobody hears this"),
    ("01:10:00.000", "1000 mL"),
    ("01:10:00.500", '{"silence": true}'),
    ("01:10:20.000", '{"cut": "power"}'),
)


@pytest.fixture
def script(tmp_path: Path) -> Path:
    file = tmp_path / "shift.vtt"
    cues = (f"\n{start} --> 99:00:00.000\n{text}\n" for start, text in SCRIPT)
    file.write_text("WEBVTT\n" + "".join(cues))
    return file


def replayed(handsfree: Command, script: Path, folder: str, *others: str) -> str:
    """What was said, as it stands in the file."""
    out = script.with_name(f"{folder}.vtt")
    told = ("--start", "2031-05-04T08:00:00+02:00", "--out", out, "--until", "24:00:00", *others)
    ran = handsfree("replay", script, "--sessions", script.with_name(folder), *told)

    assert (ran.status, ran.out) == (0, "")
    return out.read_text("utf-8")


def test_a_day(handsfree: Command, script: Path) -> None:
    """Both sides are written, each sentence with its time; a cut breaks off what is being said, and what was
    not confirmed counts for nothing afterwards."""
    said = replayed(handsfree, script, "one", "--mode", "guide", "--checklist", "peripheral_iv")
    cues = {cue.start_ms: cue for cue in read_webvtt(said, "out.vtt")}

    assert said.startswith("WEBVTT\n\n00:00:00.000 --> ")
    assert "<v User>two identifiers\n" in said
    assert "nobody hears this" not in said
    read_back, resumed = cues[40_900], cues[41_500]
    assert (read_back.text, read_back.end_ms) == ("Sodium chloride zero point nine percent. Correct?", 41_500)
    assert resumed.text.startswith("Going on with Peripheral I V.")
    assert "Taken. What volume?" in said
    assert cues[4_220_000].text.startswith("Going on with Peripheral I V.")


def test_two_runs_give_the_same_bytes(handsfree: Command, script: Path) -> None:
    """Nothing but the script and the start decides."""
    assert replayed(handsfree, script, "one") == replayed(handsfree, script, "two")


def test_it_is_kept_like_any_session(handsfree: Command, script: Path) -> None:
    """The session can be gone on with; two simulations in one folder are two sessions."""
    replayed(handsfree, script, "one")
    replayed(handsfree, script, "one")
    from handsfree.wiring import open_journal

    journal = open_journal(script.with_name("one"), "")
    try:
        assert journal.sessions() == ("20310504T060000-peripheral_iv", "20310504T060000-peripheral_iv-2")
        assert journal.read("20310504T060000-peripheral_iv")[0].body["utc_offset_min"] == 120
    finally:
        journal.close()


@pytest.mark.parametrize(
    ("option", "value", "wrong"),
    [
        ("--start", "yesterday", "is not a time"),
        ("--start", "2031-05-04T08:00:00", "has no zone"),
        ("--start", "9999-12-31T23:59:00Z", "is not in the years"),
        ("--until", "an hour", "is not a span of time"),
        ("--checklist", "nothing", "There is no checklist nothing"),
        ("--mode", "sleepwalk", "sleepwalk"),
        ("--out", "nowhere/out.vtt", "There is no folder nowhere"),
    ],
)
def test_what_cannot_be_run_is_one_line(
    option: str, value: str, wrong: str, handsfree: Command, script: Path
) -> None:
    """A wrong option is named; nothing is written."""
    out = script.with_name("out.vtt")
    good = {"--start": "2031-05-04T08:00:00Z", "--until": "01:00:00", "--out": str(out)}
    options = [word for pair in (good | {option: value}).items() for word in pair]
    ran = handsfree("replay", script, "--sessions", script.with_name("one"), *options)

    assert (ran.status, ran.out, len(ran.complaints)) == (2, "", 1)
    assert wrong in ran.err
    assert not out.exists()


def test_a_script_that_cannot_be_read(handsfree: Command, tmp_path: Path) -> None:
    """It is named, with the next step."""
    options = ("--start", "2031-05-04T08:00:00Z", "--until", "01:00:00", "--out", tmp_path / "out.vtt")
    ran = handsfree("replay", tmp_path / "none.vtt", *options)

    assert (ran.status, ran.out) == (2, "")
    assert ran.err.startswith(f"The script {tmp_path / 'none.vtt'} cannot be read.")
