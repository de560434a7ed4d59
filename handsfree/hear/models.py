"""The Vosk model: where it is, and whether it is the one that is known.

A model is a folder with `am/`, `conf/`, `graph/` and `ivector/`. It is known by one digest over what was
learnt (`am/`, `graph/`, `ivector/`), whichever archive it came in; the few lines in `conf/` are plain text,
and our own are laid over them when it is loaded (`overlay.py`).
"""

from __future__ import annotations

import hashlib
import os
from dataclasses import dataclass
from pathlib import Path

import platformdirs

from handsfree.errors import ModelError
from handsfree.words import worded

MODEL_ID = "vosk-en-us-small"

MODEL_VARIABLE = "HANDSFREE_MODEL"
"""Environment variable that names a model folder in place of the fetched one."""

KNOWN_DIGEST = "5e7a38c6bf8a325fefd1e91d18091ab096c5e7b349d4eed71f683fd56876cf9a"
"""`model_digest` of the folder `assets/model-en-us` in Maven's com.alphacephei:vosk-model-en:0.3.45."""

GET_IT = worded("Fetch it with: handsfree model get")

_LEARNT = ("am", "graph", "ivector")
_NEEDED = ("am/final.mdl", "conf/mfcc.conf", "conf/model.conf", "graph/HCLr.fst", "graph/Gr.fst")
_NEEDED_WHOLE = ("am/final.mdl", "conf/mfcc.conf", "conf/model.conf", "graph/HCLG.fst")


@dataclass(frozen=True, slots=True)
class ModelStatus:
    """What there is of the model.

    folder: where it is or would be. there: it can be loaded. digest: of what is there, else empty.
    """

    folder: Path
    there: bool
    digest: str = ""

    @property
    def verified(self) -> bool:
        """Whether it is the known model, byte for byte."""
        return self.digest == KNOWN_DIGEST


def models_folder() -> Path:
    """Folder that holds fetched models; it need not exist."""
    return platformdirs.user_cache_path("handsfree") / "models"


def find_model() -> Path:
    """Folder of the model in use. Raises ModelError where there is none."""
    named = os.environ.get(MODEL_VARIABLE)
    if named and not is_model(Path(named)):
        raise ModelError(
            worded(
                "{variable} names {folder}, which is not a Vosk model folder.",
                variable=MODEL_VARIABLE,
                folder=named,
            ),
            worded("Correct or unset it."),
        )
    folder = _folder_in_use()
    if not is_model(folder):
        raise ModelError(worded("The Vosk speech model is not on this machine."), GET_IT)
    return folder


def model_status() -> ModelStatus:
    """Look at the model in use and read it through once. Raises ModelError where it cannot be read."""
    folder = _folder_in_use()
    if not is_model(folder):
        return ModelStatus(folder, there=False)
    return ModelStatus(folder, there=True, digest=model_digest(folder))


def is_model(folder: Path) -> bool:
    """Tell whether the files are there without which Vosk cannot load."""
    return any(all((folder / name).is_file() for name in files) for files in (_NEEDED, _NEEDED_WHOLE))


def model_digest(folder: Path) -> str:
    """SHA-256 (hex) over names and contents of what was learnt. Raises ModelError where it cannot be read."""
    whole = hashlib.sha256()
    files = sorted(
        file.relative_to(folder).as_posix()
        for part in _LEARNT
        for file in (folder / part).rglob("*")
        if file.is_file()
    )
    for name in files:
        whole.update(f"{name}\0{file_sha256(folder / name)}\n".encode())
    return whole.hexdigest()


def file_sha256(path: Path) -> str:
    """SHA-256 (hex) of one file. Raises ModelError where it cannot be read."""
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError as wrong:
        raise ModelError(
            worded("{path} cannot be read: {why}.", path=path, why=wrong.strerror), GET_IT
        ) from wrong


def _folder_in_use() -> Path:
    named = os.environ.get(MODEL_VARIABLE)
    return Path(named) if named else models_folder() / MODEL_ID
