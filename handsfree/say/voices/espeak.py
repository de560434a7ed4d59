"""The synthesiser: espeak-ng as espeakng-loader brings it, driven by pyttsx3; no system package."""

from __future__ import annotations

import atexit
import ctypes
import os
import tempfile
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from handsfree.errors import PlaybackFailed
from handsfree.words import worded

_LONGEST_DATA_PATH = 120
"""Characters; espeak exits the process when its data path is longer than about 160 (measured)."""

NEXT_STEP = worded("Reinstall espeakng-loader and pyttsx3, or run with `--voice printed`.")


@dataclass(frozen=True, slots=True)
class Espeak:
    """The synthesiser's two handles. library: espeak-ng itself. engine: pyttsx3's, driving it."""

    library: ctypes.CDLL
    engine: Any


@cache
def espeak() -> Espeak:
    """Load library and engine: once, as espeak starts only once in a process. Raises PlaybackFailed."""
    try:
        import espeakng_loader

        library = ctypes.CDLL(espeakng_loader.get_library_path(), mode=ctypes.RTLD_GLOBAL)
        os.environ["ESPEAK_DATA_PATH"] = str(_data_path(Path(espeakng_loader.get_data_path())))
        import pyttsx3
        from pyttsx3.drivers import espeak as driver

        # The driver reports each file that it saves on standard output, from a thread of its own.
        driver.print = _print_nothing
        # pyttsx3 complains on standard error where its engine outlives its modules.
        atexit.register(espeak.cache_clear)
        return Espeak(library, pyttsx3.init("espeak"))
    except (ImportError, OSError, RuntimeError) as wrong:
        raise PlaybackFailed(
            worded("The speech synthesiser cannot be loaded ({wrong}).", wrong=wrong), NEXT_STEP
        ) from wrong


def _data_path(data: Path) -> Path:
    """Where espeak finds its data: linked from a short path where its own is too long."""
    # espeak exits the process where it does not find its data.
    if not (data / "phontab").is_file():
        raise PlaybackFailed(worded("The synthesiser's data is not in {folder}.", folder=data), NEXT_STEP)
    if len(os.fsencode(data)) <= _LONGEST_DATA_PATH:
        return data
    folder = tempfile.TemporaryDirectory(prefix="handsfree-")
    atexit.register(folder.cleanup)
    link = Path(folder.name) / data.name
    if len(os.fsencode(link)) > _LONGEST_DATA_PATH:
        raise PlaybackFailed(
            worded("The path {path} is too long for the synthesiser.", path=link),
            worded("Set TMPDIR to a short one."),
        )
    link.symlink_to(data, target_is_directory=True)
    return link


def _print_nothing(*_said: object) -> None:
    pass
