"""The one table of back-ends, and where what is shipped with the program is found."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from handsfree.errors import ModelError
from handsfree.phrases.spelling import SoundsLike, read_sounds
from handsfree.ports import Ear

_PACKAGE = Path(__file__).parent
_CHECKOUT = _PACKAGE.parent


def _vosk() -> Ear:
    from handsfree.hear.models import find_model

    model = find_model()
    from handsfree.hear.vosk_ear import VoskEar

    return VoskEar(model)


def _sphinx() -> Ear:
    from handsfree.hear.sphinx_ear import SphinxEar

    return SphinxEar()


EARS: Mapping[str, Callable[[], Ear]] = MappingProxyType({"vosk": _vosk, "sphinx": _sphinx})
"""Recognisers by name, the better one first; calling one loads it. Raises ModelError."""


def make_ear(name: str) -> Ear:
    """Load the ear of this name. Raises KeyError for another name, ModelError where its model is missing."""
    return EARS[name]()


def best_ear() -> str:
    """Name of the ear to take where none was asked for: Vosk where its model is there."""
    from handsfree.hear.models import find_model

    try:
        find_model()
    except ModelError:
        return "sphinx"
    return "vosk"


@dataclass(frozen=True, slots=True)
class Resources:
    """Folders of what is shipped: grammars (*.jsgf), checklists (*.toml), a folder of clips for each demo."""

    grammars: Path
    checklists: Path
    clips: Path


def resources() -> Resources:
    """Where the shipped files are: in the installed package, else in the checkout around it."""
    return Resources(
        grammars=_shipped("grammars", "grammars"),
        checklists=_PACKAGE / "checklists",
        clips=_shipped("clips", "audio_fixtures/sessions"),
    )


def read_shipped(name: str) -> str:
    """Text of the shipped grammar of this full name. Raises OSError where there is none."""
    return (resources().grammars / f"{name}.jsgf").read_text("utf-8")


def sounds() -> SoundsLike:
    """The table of sounds-like spellings, for words that a recogniser lacks."""
    file = _PACKAGE / "phrases" / "sounds_like.toml"
    return read_sounds(file.read_text("utf-8"), file.name)


def sessions_folder() -> Path:
    """Where sessions are kept unless the user says otherwise; it need not exist."""
    import platformdirs

    return platformdirs.user_data_path("handsfree") / "sessions"


def _shipped(installed: str, checkout: str) -> Path:
    folder = _PACKAGE / installed
    return folder if folder.is_dir() else _CHECKOUT / checkout
