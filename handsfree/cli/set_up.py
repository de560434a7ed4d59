"""The first run: a few questions by the keyboard before the first session, and never again."""

from __future__ import annotations

import os
import sys
from itertools import chain
from typing import TYPE_CHECKING, Any

import click
from click.core import ParameterSource

from handsfree.errors import HandsfreeError
from handsfree.say import wording_trial as words
from handsfree.settings import Settings, settings_file, write_settings
from handsfree.words import worded

if TYPE_CHECKING:
    from handsfree.ports import Ear, Source
    from handsfree.trial import Trial

SENTENCE = worded("what can i say")
"""Said to try the microphone: it is heard at any time."""


def after_first_run(options: dict[str, Any]) -> dict[str, Any]:
    """The options of a session, with what a first run found in the place of those that were not given.

    Asks nothing where a first run was, where nobody sits at a terminal, or where there is no microphone to
    try: typed lines, a recording. Raises SoundError where there is none at all.
    """
    if not _is_first(options):
        return options
    from handsfree.hear.microphone import Microphone

    found = set_up(Microphone(), options["ear"])
    return options | {name: value for name, value in found.items() if not _given(name)}


def set_up(source: Source, ear: str | None) -> Settings:
    """Ask, try the microphone, and keep what was found.

    ear: by name, None for the best one here. Raises SoundError, ModelError.
    """
    from handsfree.wiring import best_ear, make_ear

    _tell(words.WELCOME)
    if ear is None and best_ear() == "sphinx":
        _offer_model()
    trial = _tried_until_good(source, make_ear(ear or best_ear()))
    headset = click.confirm(words.HEADSET, default=False, err=True)
    speech_level = None if trial.flaw else round(trial.speech_db)
    _keep(headset, speech_level)
    _tell(words.BEGINS)
    return {"headset": headset, "speech_level": speech_level}


def try_microphone(source: Source, ear: Ear) -> Trial:
    """Ask for one sentence and listen to it, with a level meter meanwhile. Raises SoundError."""
    from handsfree.cli.progress import level_meter
    from handsfree.hear.level import SILENT_DB
    from handsfree.hear.trying import try_sentence
    from handsfree.phrases.grammar import compile_grammar
    from handsfree.phrases.link import read_library
    from handsfree.wiring import read_shipped, sounds

    grammar = compile_grammar(read_library(["always"], read_shipped), knows=ear.knows, sounds=sounds())
    frames = source.frames()
    first = next(frames)  # nobody is asked to speak before the microphone is open
    _tell(words.SAY.format(sentence=SENTENCE))
    with level_meter(SILENT_DB) as seen:
        return try_sentence(chain([first], frames), ear, grammar, SENTENCE, seen)


def _is_first(options: dict[str, Any]) -> bool:
    by_microphone = options["ear"] != "typed" and options["recording"] is None
    somebody = sys.stdin.isatty() and sys.stderr.isatty() and "CI" not in os.environ
    return by_microphone and somebody and not settings_file().exists()


def _given(name: str) -> bool:
    source = click.get_current_context().get_parameter_source(name)
    return source is ParameterSource.COMMANDLINE


def _offer_model() -> None:
    from handsfree.cli.progress import progress_bar
    from handsfree.hear.fetch import get_model

    _tell(words.SMALL_EAR)
    if not click.confirm(words.FETCH_NOW, default=True, err=True):
        return
    try:
        with progress_bar(worded("Getting the speech model")) as progress:
            get_model(None, progress)
    except HandsfreeError as wrong:
        _tell(str(wrong))


def _tried_until_good(source: Source, ear: Ear) -> Trial:
    while True:
        trial = try_microphone(source, ear)
        _tell(words.tried(trial))
        if trial.flaw is None:
            return trial
        _tell(words.wrong(trial.flaw))
        if not click.confirm(words.TRY_AGAIN, default=True, err=True):
            return trial


def _keep(headset: bool, speech_level: int | None) -> None:
    try:
        file = write_settings(headset, speech_level)
    except OSError as wrong:
        _tell(words.NOT_KEPT.format(why=wrong))
    else:
        _tell(words.KEPT.format(file=file))


def _tell(text: str) -> None:
    click.echo(text, err=True)
