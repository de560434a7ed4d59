"""The one tree of errors: machine or programmer failures. What was misheard is a value, not an error.

    HandsfreeError            says what is wrong and what to do next, in one line
    ├── NotSo            (1)  the thing asked about is not so
    │   └── NotThere          no such session
    ├── WrongUse         (2)  the command line, or a file the user wrote
    │   ├── GrammarError      file, line, column
    │   ├── UnknownWord       a word that the ear does not know
    │   ├── ChecklistError    file, line
    │   └── PolicyError       file, line
    └── MissingPart      (3)  a part is missing or broken
        ├── SoundError        not a sound file, empty, cut short; no device
        ├── ModelError        speech model missing, broken or unverified
        ├── PlaybackFailed    the loudspeaker or the synthesiser
        ├── BoardFailed       the glance board cannot be served
        └── StoreFailed       sessions folder or database
            └── StoreDamaged  a row that is not what was written

The number is the exit status of the command.
"""

from __future__ import annotations


class HandsfreeError(Exception):
    """What is wrong, and the next step, as one line for the user."""

    exit_status = 3

    def __init__(self, wrong: str, next_step: str = "") -> None:
        self.wrong = wrong
        self.next_step = next_step
        super().__init__(f"{wrong} {next_step}".strip())


class NotSo(HandsfreeError):
    """The thing asked about is not so."""

    exit_status = 1


class NotThere(NotSo):
    """No session of that name is kept."""


class WrongUse(HandsfreeError):
    """The command line, or a file that the user wrote, cannot be taken."""

    exit_status = 2


class _At(WrongUse):
    """A fault at a place in a file. line and column count from 1; 0 where unknown."""

    def __init__(self, file: str, line: int, wrong: str, next_step: str = "", *, column: int = 0) -> None:
        self.file, self.line, self.column = file, line, column
        place = ":".join(str(part) for part in (file, line, column) if part)
        super().__init__(f"{place}: {wrong}" if place else wrong, next_step)


class GrammarError(_At):
    """A grammar file that is not JSGF, lacks a rule, or recurses other than to the right."""


class UnknownWord(_At):
    """A grammar word that the ear does not know and for which there is no sounds-like spelling."""


class ChecklistError(_At):
    """A checklist file that cannot be used."""


class PolicyError(_At):
    """A policy file that cannot be used."""


class MissingPart(HandsfreeError):
    """A part is missing or broken: microphone, model, file, store."""


class SoundError(MissingPart):
    """A recording or a sound device that cannot be used."""


class ModelError(MissingPart):
    """A speech model that is missing, broken or unverified."""


class PlaybackFailed(MissingPart):
    """The loudspeaker or the synthesiser failed."""


class BoardFailed(MissingPart):
    """The glance board cannot be served at that address."""


class StoreFailed(MissingPart):
    """The sessions folder or the database cannot be used. aloud: what is wrong, without paths, to be said."""

    def __init__(self, wrong: str, next_step: str = "", aloud: str = "") -> None:
        super().__init__(wrong, next_step)
        self.aloud = aloud


class StoreDamaged(StoreFailed):
    """A stored row is not what was written."""
