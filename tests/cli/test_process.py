"""What the system does to a command: it closes its streams, asks it to end, hands it odd names."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from handsfree.keep.journal import SqlJournal
from handsfree.record import cut_off
from tests.cli.conftest import clip, speech

HANDSFREE = (sys.executable, "-m", "handsfree")
RATE = (*HANDSFREE, "rate", "--rate", "125 mL/h", "--drop-factor", "15 gtt/mL")

posix = pytest.mark.skipif(os.name != "posix", reason="streams and signals as POSIX has them")


@posix
@pytest.mark.parametrize("closed", ["0", "1", "2"])
def test_a_closed_stream_leads_nowhere(closed: str) -> None:
    """The command does what it does, and the other streams have what they always have."""
    ran = subprocess.run(
        ["sh", "-c", f'exec "$@" {closed}>&-', "sh", *RATE], capture_output=True, text=True, check=False
    )

    assert (ran.returncode, ran.stderr) == (0, "")
    assert ("one drops a minute" in ran.stdout) == (closed != "1")


@posix
@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_a_signal_ends_a_session_that_can_be_gone_on_with(tmp_path: Path, name: str) -> None:
    """One line, the status that a shell reports of the signal, and nothing lost."""
    guide = (*HANDSFREE, "guide", "--ear", "typed", "--sessions", tmp_path)
    number = signal.Signals[name]
    with subprocess.Popen(
        guide, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as going:
        assert going.stdout is not None
        going.stdout.readline()
        going.send_signal(number)
        going.wait(timeout=60)  # while nobody closed the input
        _, told = going.communicate()

    assert going.returncode == 128 + number
    assert told.count("\n") == 1
    assert "handsfree resume" in told
    journal = SqlJournal(tmp_path)
    assert cut_off(journal)
    journal.close()


@posix
def test_who_is_impatient_sees_no_traceback() -> None:
    """Another signal, while the command that was stopped waits for its last thread."""
    ends = "import os, signal; from handsfree.cli.process import end_in_order, end_undisturbed; "
    asked = "os.kill(os.getpid(), signal.SIGINT); "
    twice = f"{ends} end_in_order(); end_undisturbed(); {asked} print('ended')"
    ran = subprocess.run([sys.executable, "-c", twice], capture_output=True, text=True, check=False)

    assert (ran.returncode, ran.stdout, ran.stderr) == (0, "ended\n", "")


def test_a_session_ends_by_voice_while_the_input_is_open(tmp_path: Path) -> None:
    """As at a keyboard: another line could come, and Python once aborted for it."""
    guide = (*HANDSFREE, "guide", "--ear", "typed", "--sessions", tmp_path)
    with subprocess.Popen(
        guide, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as going:
        assert going.stdin is not None
        going.stdin.write("end session\nyes end it\n")
        going.stdin.flush()
        going.wait(timeout=60)
        said, told = going.communicate()

    assert (going.returncode, told.count("\n")) == (0, 1)
    assert "Session ended." in said


@posix
def test_a_name_that_is_not_utf8_is_heard_and_told(tmp_path: Path, grammar: Path) -> None:
    """In a UTF-8 locale: what stands for the odd byte is spelled out, and nothing breaks."""
    named = clip(tmp_path / "plain.wav", speech("where am i")).rename(
        os.fsdecode(bytes(tmp_path) + b"/\xe9.wav")
    )
    ran = subprocess.run(
        [*HANDSFREE, "hear", "--ear", "sphinx", "--grammar", grammar, named],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONUTF8": "1"},
    )

    assert (ran.returncode, ran.stderr) == (0, "")
    assert "\\udce9.wav" in ran.stdout
