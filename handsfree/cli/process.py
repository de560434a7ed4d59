"""The process that a command runs in: its standard streams, signals that end it in order, its garbage."""

from __future__ import annotations

import gc
import os
import signal
import sys
from collections.abc import Callable
from io import TextIOWrapper
from types import FrameType
from typing import NoReturn

_ASKING = ("SIGINT", "SIGTERM", "SIGHUP")
"""Signals that ask for an end: a key, the system that shuts down, a terminal that is closed."""

_OBJECTS = 200_000
"""So many new objects are let be before any is looked at: rubbish in circles is rare here."""


class Stopped(KeyboardInterrupt):
    """A signal asked for the end. number: the signal's."""

    def __init__(self, number: int) -> None:
        super().__init__(number)
        self.number = number


def end_in_order() -> None:
    """From now on raise Stopped for signals that ask for the end, but for those that are ignored here."""
    _answer(_stop)


def end_undisturbed() -> None:
    """From now on let signals that ask for the end be: it has come, and a thread may still be waited for."""
    _answer(signal.SIG_IGN)


def collect_seldom() -> None:
    """From now on look for garbage seldom: what a session begins with lives as long as it does, and to look
    through it again and again took a tenth of the time until it listened."""
    gc.set_threshold(_OBJECTS)


def mend_streams() -> None:
    """A closed stream leads nowhere: else the next file that is opened would take its place.

    What an encoding lacks is spelled out, in file names too.
    """
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, os.fdopen(os.open(os.devnull, os.O_RDWR), mode, encoding="utf-8"))
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _answer(handler: Callable[[int, FrameType | None], NoReturn] | signal.Handlers) -> None:
    for name in _ASKING:
        number = getattr(signal, name, None)  # Windows has no SIGHUP
        if number is not None and signal.getsignal(number) is not signal.SIG_IGN:
            signal.signal(number, handler)


def _stop(number: int, _frame: FrameType | None) -> NoReturn:
    raise Stopped(number)
