"""The first hour on a fresh machine: the wheel in an environment of its own, and a user who has nothing.

Each story ends in a session, or in one clear sentence. Wheel and sdist are built as for others; what the
program stands on comes from where these tests run, so that no network is needed.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import sysconfig
import tarfile
import venv
import zipfile
from dataclasses import dataclass
from pathlib import Path

import pytest

from handsfree.cli.set_up import SENTENCE
from handsfree.hear.models import MODEL_VARIABLE
from tests.cli.conftest import spoken
from tests.house.documents import ROOT
from tests.sound_system import say, sound_system
from tests.terminal import Terminal, in_terminal

pytestmark = pytest.mark.timeout(300)

BUILD = [sys.executable, "-m", "build", "--no-isolation"]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The sdist, and the wheel that is made of it."""
    folder = tmp_path_factory.mktemp("dist")
    subprocess.run([*BUILD, "--outdir", folder, ROOT], check=True, capture_output=True)
    return next(folder.glob("*.tar.gz")), next(folder.glob("*.whl"))


@dataclass(frozen=True)
class Machine:
    """The program is in its environment, and home is empty."""

    scripts: Path
    home: Path

    @property
    def environment(self) -> dict[str, str]:
        path = os.pathsep.join([str(self.scripts), os.environ["PATH"]])
        keeps = ("LANG", "LC_ALL", "TMPDIR")
        return {"HOME": str(self.home), "PATH": path} | {k: os.environ[k] for k in keeps if k in os.environ}

    def run(self, *words: str, typed: str = "") -> subprocess.CompletedProcess[str]:
        """A command of the shell, to its end."""
        return subprocess.run(
            words,
            input=typed,
            text=True,
            capture_output=True,
            cwd=self.home,
            env=self.environment,
            check=False,
            timeout=200,
        )


@pytest.fixture(scope="module")
def scripts(built: tuple[Path, Path], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of commands of a clean environment in which nothing of ours is but the wheel."""
    folder = tmp_path_factory.mktemp("venv")
    venv.create(folder)
    python = folder / "bin" / "python"
    site = next(folder.glob("lib/python*/site-packages"))
    (site / "others.pth").write_text(sysconfig.get_path("purelib"))
    pip = [sys.executable, "-m", "pip", "--python", str(python), "install", "-q", "--no-deps", "--no-index"]
    subprocess.run([*pip, "--ignore-installed", str(built[1])], check=True, capture_output=True)
    return folder / "bin"


@pytest.fixture
def machine(scripts: Path, tmp_path: Path) -> Machine:
    (tmp_path / "home").mkdir()
    return Machine(scripts, tmp_path / "home")


def test_wheel_and_sdist_carry_what_is_read(built: tuple[Path, Path]) -> None:
    """Grammars, checklists, policies, templates, the page of the board, clips of the demo; licence, pages."""
    with tarfile.open(built[0]) as sdist, zipfile.ZipFile(built[1]) as wheel:
        sources = {name.partition("/")[2] for name in sdist.getnames()}
        packed = set(wheel.namelist())
    kept = [file for file in (ROOT / "handsfree").rglob("*.*") if "__pycache__" not in file.parts]
    read = {file.relative_to(ROOT).as_posix() for file in kept if file.is_file()}
    grammars = {f"grammars/{file.name}" for file in (ROOT / "grammars").glob("*.jsgf")}

    assert set() == {*read, *(f"handsfree/{name}" for name in grammars)} - packed
    assert set() == {*read, *grammars, "LICENSE", "docs/first-session.md", "Containerfile"} - sources
    assert any(name.startswith("handsfree/clips/aid_station/") for name in packed)


def test_the_program_is_the_installed_one(machine: Machine) -> None:
    """Lest a story is told of the checkout."""
    where = machine.run("python", "-c", "import handsfree; print(handsfree.__file__)").stdout
    assert str(machine.scripts.parent) in where


def test_arithmetic_and_a_checklist_to_start_from(machine: Machine) -> None:
    """125 mL/h by 15 gtt/mL: 31.25 gtt/min (Clinical Procedures for Safer Patient Care, 8.6). No set-up."""
    rate = machine.run("handsfree", "rate", "--rate", "125 mL/h", "--drop-factor", "15 gtt/mL", "--json")
    written = machine.run("handsfree", "new-checklist", "mine.toml")
    reviewed = machine.run("handsfree", "review", "mine.toml", "--ear", "sphinx", "--rehearse", typed="")

    assert '"exact": "125/4"' in rate.stdout
    assert (0, 0) == (written.returncode, reviewed.returncode), reviewed.stderr


def test_no_model(machine: Machine) -> None:
    """The other ear listens, says that it hears less well, and how the better one is got."""
    spoken(machine.home / "said.wav", "where am i")
    guide = machine.run("handsfree", "guide", "--from", "said.wav", "--voice", "printed")

    assert (0, []) == (guide.returncode, guide.stderr.splitlines()[:-1])
    assert "This ear hears less well: every value is read back." in guide.stdout
    assert "Phase one of nine" in guide.stdout
    assert machine.run("handsfree", "model").stdout.endswith("Fetch it with: handsfree model get\n")


def test_no_microphone(machine: Machine) -> None:
    """At a terminal, before anything is asked: one sentence. The keyboard that it names begins a session."""
    status, seen = in_terminal("handsfree", "guide", environment=machine.environment)
    typed = machine.run("handsfree", "guide", "--ear", "typed", typed="where am i\n")

    assert (3, 1) == (status, len(seen.splitlines()))
    assert seen.startswith("There is no microphone.")
    assert (0, True) == (typed.returncode, "Phase one of nine" in typed.stdout)


def test_no_loudspeaker(machine: Machine) -> None:
    """What would be said stands on the terminal, and the session goes on."""
    spoken(machine.home / "said.wav", "where am i")
    guide = machine.run("handsfree", "guide", "--from", "said.wav")

    assert (0, "") == (guide.returncode, guide.stdout)
    assert "The loudspeaker does not work" in guide.stderr
    assert "Phase one of nine" in guide.stderr


def test_no_write_access(machine: Machine, tmp_path: Path) -> None:
    """Home is no folder: one sentence that names it, before a session begins."""
    (tmp_path / "file").write_text("in the way")
    nowhere = Machine(machine.scripts, tmp_path / "file" / "home")
    guide = subprocess.run(
        ["handsfree", "guide", "--ear", "typed"],
        input="where am i\n",
        text=True,
        capture_output=True,
        env=nowhere.environment,
        check=False,
        cwd=tmp_path,
    )

    assert (3, "", 1) == (guide.returncode, guide.stdout, len(guide.stderr.splitlines()))
    assert str(nowhere.home) in guide.stderr


def _old_python() -> str | None:
    """A Python before 3.11 on this machine that runs."""
    named = [shutil.which(f"python3.{minor}") for minor in (10, 9, 8)]
    kept = sorted(Path.home().glob(".pyenv/versions/3.10.*/bin/python"))
    for one in filter(None, [*named, *map(str, kept)]):
        if subprocess.run([one, "-c", ""], capture_output=True, check=False).returncode == 0:
            return one
    return None


def test_wrong_python(built: tuple[Path, Path]) -> None:
    """pip refuses by the wheel's own word; a clone that is run all the same says one sentence."""
    with zipfile.ZipFile(built[1]) as wheel:
        name = next(one for one in wheel.namelist() if one.endswith("METADATA"))
        assert "Requires-Python: >=3.11\n" in wheel.read(name).decode()
    old = _old_python()
    if old is None:
        pytest.skip("There is no older Python on this machine.")
    ran = subprocess.run([old, "-m", "handsfree"], cwd=ROOT, text=True, capture_output=True, check=False)

    assert (3, "", 1) == (ran.returncode, ran.stdout, len(ran.stderr.splitlines()))
    assert ran.stderr.startswith("handsfree needs Python 3.11 or later; this is 3.")


@pytest.mark.vosk
@pytest.mark.skipif(
    shutil.which("paplay") is None, reason="PulseAudio is not installed: apt install pulseaudio"
)
def test_full_set_up(machine: Machine, vosk_model: Path) -> None:
    """Microphone, loudspeaker and model: a few questions, one spoken sentence, a session ended by voice."""
    said = {
        words: spoken(machine.home / f"{words}.wav", words)
        for words in (SENTENCE, "end session", "yes end it")
    }
    with sound_system(machine.home) as sound:
        here = (
            machine.environment
            | sound
            | {"PATH": machine.environment["PATH"], MODEL_VARIABLE: str(vosk_model)}
        )
        with Terminal("handsfree", "guide", environment=here) as guide:
            assert guide.until(f"at work: “{SENTENCE}”"), guide.seen
            say(said[SENTENCE], sound)
            assert guide.until("]:"), guide.seen
            assert "Do you wear a headset" in guide.seen
            guide.type("y")
            assert guide.until("resume goes on.\n"), guide.seen
            for words in ("end session", "yes end it") * 20:
                if not guide.is_over:
                    say(said[words], sound)
            assert guide.is_over, guide.seen
            assert 0 == guide.end(), guide.seen
    record = machine.run("handsfree", "export", "last", "--out", "exported")
    events = (machine.home / "exported" / "events.jsonl").read_text("utf-8")

    assert "understood “what can i say”" in guide.seen
    assert (0, True, True) == (record.returncode, "Announced" in events, "by voice" in events)
    assert "PlayingFailed" not in events
