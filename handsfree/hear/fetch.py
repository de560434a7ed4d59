"""Fetches the Vosk model: from a file or folder, with Maven's client, or with Vosk's own downloader.

Whatever it comes from, it is unpacked beside its place, verified there, and only then moved in: a broken or
half download leaves untouched what was there. A model passes when its archive has a known SHA-256 (Maven's,
or one that the user gives), or when what was learnt has the known digest: Vosk's own zip is another file than
Maven's archive, but should hold the same model.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import zlib
from collections.abc import Callable
from pathlib import Path, PurePosixPath
from zipfile import BadZipFile, ZipFile, ZipInfo

from handsfree.errors import ModelError
from handsfree.hear.models import KNOWN_DIGEST, MODEL_ID, file_sha256, is_model, model_digest, models_folder
from handsfree.words import worded

Progress = Callable[[int, int], None]
"""Told of bytes unpacked and bytes in all."""

ARTIFACT = "com.alphacephei:vosk-model-en:0.3.45:aar"
ARTIFACT_SHA256 = "8a5792fccaf873b4745dbd1b3fe19d8a77a15898e806674020eea820424771cd"
VOSK_NAME = "vosk-model-small-en-us-0.15"

_FROM_FILE = worded("Give a file: handsfree model get FILE (zip, aar or folder).")
_LARGEST_BYTES = 8 << 30
_CHUNK_BYTES = 1 << 20
_PATIENCE_S = 1800

_VOSK_DOWNLOAD = """
import pathlib, sys, vosk
vosk.MODEL_DIRS[:] = [pathlib.Path(sys.argv[1])]
vosk.Model(model_name=sys.argv[2])
"""


def get_model(source: str | None, progress: Progress, sha256: str = "") -> Path:
    """Put the model in its place and return its folder.

    source: a zip, aar or folder; None to download. sha256: of the archive, for one that is not known.
    Raises ModelError, having changed nothing.
    """
    try:
        models_folder().mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".getting-", dir=models_folder()) as beside:
            found = Path(source) if source else _download(Path(beside))
            return _put(_unpacked(found, Path(beside) / "unpacked", progress, sha256))
    except OSError as wrong:
        room = worded("Check the room on the disk and who may write there.")
        raise ModelError(
            worded(
                "The model cannot be put into {folder}: {why}.", folder=models_folder(), why=wrong.strerror
            ),
            room,
        ) from wrong


def _download(into: Path) -> Path:
    return _by_maven(into / "maven") or _by_vosk(into / "vosk")


def _by_maven(into: Path) -> Path | None:
    client = shutil.which("mvn")
    if client is None:
        return None
    goal = ["dependency:copy", f"-Dartifact={ARTIFACT}", f"-DoutputDirectory={into}"]
    return next(into.glob("*.aar"), None) if _ran([client, "-q", "-B", *goal]) else None


def _by_vosk(into: Path) -> Path:
    # Vosk's downloader prints and exits the process where it fails: it gets a process of its own.
    into.mkdir()
    if not _ran([sys.executable, "-c", _VOSK_DOWNLOAD, str(into), VOSK_NAME]):
        raise ModelError(
            worded("The model could not be downloaded."),
            f"{worded('Check the network.')} {_FROM_FILE}",
        )
    return into / VOSK_NAME


def _ran(command: list[str]) -> bool:
    try:
        return subprocess.run(command, capture_output=True, timeout=_PATIENCE_S, check=False).returncode == 0
    except subprocess.TimeoutExpired:
        return False


def _unpacked(found: Path, into: Path, progress: Progress, sha256: str) -> Path:
    if found.is_dir():
        shutil.copytree(_root(found), into)
        trusted = False
    else:
        trusted = _archive_trusted(found, sha256)
        _unzip(found, into, progress)
        into = _root(into)
    if not trusted and model_digest(into) != KNOWN_DIGEST:
        raise ModelError(
            worded("{found} is not the known model.", found=found),
            worded("If you trust it, give its archive's --sha256."),
        )
    return into


def _archive_trusted(archive: Path, sha256: str) -> bool:
    if not archive.is_file():
        raise ModelError(worded("There is no file {archive}.", archive=archive), _FROM_FILE)
    found = file_sha256(archive)
    if sha256 and found != sha256.lower():
        raise ModelError(
            worded("{archive} has SHA-256 {found}, not the one given.", archive=archive, found=found),
            worded("Download it again."),
        )
    return bool(sha256) or found == ARTIFACT_SHA256


def _root(folder: Path) -> Path:
    candidates = (folder, *sorted(file.parent.parent for file in folder.glob("**/am/final.mdl")))
    root = next((candidate for candidate in candidates if is_model(candidate)), None)
    if root is None:
        raise ModelError(worded("There is no Vosk model in {folder}.", folder=folder), _FROM_FILE)
    return root


def _unzip(archive: Path, into: Path, progress: Progress) -> None:
    try:
        with ZipFile(archive) as packed:
            _extract(packed, into, progress)
    except (BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError) as wrong:
        raise ModelError(
            worded("{archive} is not a whole zip or aar: {wrong}.", archive=archive, wrong=wrong),
            worded("Download it again."),
        ) from wrong


def _extract(packed: ZipFile, into: Path, progress: Progress) -> None:
    members = [member for member in packed.infolist() if not member.is_dir()]
    total = sum(member.file_size for member in members)
    if total > _LARGEST_BYTES:
        raise ValueError(f"it would unpack to {total} bytes")
    done = 0
    for member in members:
        place = into / _inside(member)
        place.parent.mkdir(parents=True, exist_ok=True)
        with packed.open(member) as packed_file, place.open("wb") as file:
            while piece := packed_file.read(_CHUNK_BYTES):
                file.write(piece)
                done += len(piece)
                progress(done, total)


def _inside(member: ZipInfo) -> PurePosixPath:
    """Path of a member, refused where it would leave the folder. Links come out as plain files."""
    path = PurePosixPath(member.filename.replace("\\", "/"))
    if path.is_absolute() or ".." in path.parts or ":" in path.parts[0]:
        raise ValueError(f"it holds the path {member.filename}")
    return path


def _put(unpacked: Path) -> Path:
    place = models_folder() / MODEL_ID
    aside = unpacked.parent / f"{MODEL_ID}.before"
    if place.exists():
        place.rename(aside)
    try:
        unpacked.rename(place)
    except OSError:
        if aside.exists():
            aside.rename(place)
        raise
    return place
