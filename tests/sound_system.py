"""A sound system without a sound card: what the user says into one sink is what the microphone hears."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

DAEMON = ("pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--log-target=null")
MODULES = (
    "module-null-sink sink_name=user",
    "module-null-sink sink_name=speaker",
    "module-native-protocol-unix",
)


@contextmanager
def sound_system(home: Path) -> Iterator[Mapping[str, str]]:
    """Run PulseAudio for whoever lives in `home`; gives the variables by which programs find it."""
    runtime = home / "run"
    runtime.mkdir(mode=0o700)
    (home / ".asoundrc").write_text("pcm.!default { type pulse }\nctl.!default { type pulse }\n")
    ours = {"HOME": str(home), "XDG_RUNTIME_DIR": str(runtime), "PATH": os.environ["PATH"]}
    loads = [word for module in MODULES for word in ("-L", module)]
    with subprocess.Popen([*DAEMON, *loads], env=ours, stderr=subprocess.DEVNULL) as daemon:
        try:
            _control(ours, "set-default-source", "user.monitor")
            _control(ours, "set-default-sink", "speaker")
            yield ours
        finally:
            daemon.terminate()


def say(file: Path, environment: Mapping[str, str]) -> None:
    """Play a recording as the user; returns when it has been said."""
    command = ["paplay", "--device=user", str(file)]
    subprocess.run(command, env=environment, check=True, capture_output=True, timeout=60)


def _control(environment: Mapping[str, str], *words: str) -> None:
    """Wait until the daemon answers, then ask."""
    for _ in range(200):
        if (
            subprocess.run(["pactl", *words], env=environment, capture_output=True, check=False).returncode
            == 0
        ):
            return
    raise RuntimeError(f"PulseAudio does not answer: pactl {' '.join(words)}")
