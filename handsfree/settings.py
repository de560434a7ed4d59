"""The user's settings: options of a session that hold without being given, in one TOML file with comments."""

from __future__ import annotations

import tomllib
from pathlib import Path

import platformdirs

from handsfree.errors import WrongUse
from handsfree.words import worded

Settings = dict[str, object]
"""By the name of an option, with _ in the place of -: what it is where it was not given."""

_WRITTEN = worded("""\
# Settings of handsfree for this user, written by the first run. Without this file, it asks again.
# Each option of "handsfree guide --help" can stand here, with _ in the place of -, for example:
# profile = "cdc_2011"
# An option that is given on the command line goes before what stands here.

# Whether the microphone does not hear the loudspeaker: then "stop" interrupts.
headset = {headset}

# How loud your speech comes, in dB of full scale; the first word is turned up by it as all others are.
{mark}speech_level = {speech_level}
""")


def settings_file() -> Path:
    """Where the settings stand; it need not exist."""
    return platformdirs.user_config_path("handsfree") / "settings.toml"


def read_settings() -> Settings:
    """What stands in the file; nothing where there is none. Raises WrongUse where it cannot be read."""
    file = settings_file()
    try:
        return tomllib.loads(file.read_text("utf-8"))
    except (FileNotFoundError, NotADirectoryError):
        return {}
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as wrong:
        raise WrongUse(
            worded("The settings in {file} cannot be read: {wrong}.", file=file, wrong=wrong),
            worded("Mend or delete the file."),
        ) from None


def write_settings(headset: bool, speech_level: int | None) -> Path:
    """Write the file anew and return it. speech_level: dB; None where it is not known. Raises OSError."""
    file = settings_file()
    known = speech_level is not None
    text = _WRITTEN.format(
        headset=str(headset).lower(), mark="" if known else "# ", speech_level=speech_level if known else -30
    )
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")
    return file
