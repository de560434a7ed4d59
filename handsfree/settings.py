"""The user's settings: options of a session that hold without being given, in one TOML file with comments."""

from __future__ import annotations

import tomllib
from pathlib import Path

import platformdirs

from handsfree.errors import WrongUse
from handsfree.words import worded

Settings = dict[str, object]
"""By the name of an option, with _ in the place of -: what it is where it was not given."""

_ABOUT = worded("""\
Settings of handsfree for this user, written by the first run. Without this file, it asks again.
Each option of "handsfree guide --help" can stand here, with _ in the place of -, for example:
profile = "cdc_2011"
An option that is given on the command line goes before what stands here.""")

_HEADSET = worded('Whether the microphone does not hear the loudspeaker: then "stop" interrupts.')

_SPEECH_LEVEL = worded(
    "How loud your speech comes, in dB of full scale; the first word is turned up by it as all others are."
)


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
    level = "# speech_level = -30" if speech_level is None else f"speech_level = {speech_level}"
    parts = (
        _comment(_ABOUT),
        f"{_comment(_HEADSET)}\nheadset = {str(headset).lower()}",
        f"{_comment(_SPEECH_LEVEL)}\n{level}\n",
    )
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text("\n\n".join(parts), "utf-8")
    return file


def _comment(text: str) -> str:
    return "\n".join(f"# {line}" for line in text.splitlines())
