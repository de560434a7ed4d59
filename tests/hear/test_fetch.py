"""Fetching: what is whole and known replaces what was there, anything else leaves it untouched."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from zipfile import ZipFile

import pytest

from handsfree.errors import ModelError
from handsfree.hear import fetch
from handsfree.hear.fetch import get_model
from handsfree.hear.models import (
    MODEL_ID,
    MODEL_VARIABLE,
    file_sha256,
    find_model,
    model_digest,
    models_folder,
)
from tests.hear.model_files import lay_model, pack


@pytest.fixture(autouse=True)
def model(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small model that counts as the known one; the cache is a folder of this test."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.delenv(MODEL_VARIABLE, raising=False)
    known = lay_model(tmp_path / "known")
    monkeypatch.setattr(fetch, "KNOWN_DIGEST", model_digest(known))
    return known


def silent(_done: int, _total: int) -> None:
    """Progress that nobody watches."""


def test_from_an_archive_of_any_shape(tmp_path: Path, model: Path) -> None:
    """The model is found in the archive, however deep, and progress ends at its size."""
    seen: list[tuple[int, int]] = []
    for prefix in ("assets/model-en-us", "vosk-model-small-en-us-0.15"):
        archive = pack(model, tmp_path / "model.zip", prefix)

        assert get_model(str(archive), lambda done, total: seen.append((done, total))) == find_model()
        assert model_digest(find_model()) == model_digest(model)

    size = sum(file.stat().st_size for file in model.rglob("*") if file.is_file())
    assert seen[-1] == (size, size)


def test_from_a_folder(tmp_path: Path, model: Path) -> None:
    """A folder, or one that holds it, is copied; it stays where it was."""
    for source in (model, tmp_path):
        get_model(str(source), silent)

        assert model_digest(find_model()) == model_digest(model)
    assert model.is_dir()


def test_another_model_needs_its_sha256(tmp_path: Path) -> None:
    """A model that is not known is taken only if the user names its archive's checksum."""
    archive = pack(lay_model(tmp_path / "other", "other"), tmp_path / "other.zip")
    with pytest.raises(ModelError, match="--sha256"):
        get_model(str(archive), silent)
    with pytest.raises(ModelError, match="SHA-256"):
        get_model(str(archive), silent, sha256="00" * 32)

    get_model(str(archive), silent, sha256=file_sha256(archive).upper())

    assert model_digest(find_model()) == model_digest(tmp_path / "other")


def half(archive: Path) -> Path:
    archive.write_bytes(archive.read_bytes()[: archive.stat().st_size // 2])
    return archive


def flipped(archive: Path) -> Path:
    whole = bytearray(archive.read_bytes())
    whole[60] ^= 0xFF
    archive.write_bytes(whole)
    return archive


def not_a_model(archive: Path) -> Path:
    with ZipFile(archive, "w") as packed:
        packed.writestr("a/b", "c")
    return archive


def text(archive: Path) -> Path:
    archive.write_text("<html>not found</html>")
    return archive


def missing(archive: Path) -> Path:
    archive.unlink()
    return archive


def empty_folder(archive: Path) -> Path:
    archive.unlink()
    archive.mkdir()
    return archive


def slipped(name: str) -> Callable[[Path], Path]:
    def add(archive: Path) -> Path:
        with ZipFile(archive, "a") as packed:
            packed.writestr(name, "out")
        return archive

    return add


BROKEN = [
    half,
    flipped,
    not_a_model,
    text,
    missing,
    empty_folder,
    slipped("../../../out.txt"),
    slipped("/tmp/out-of-the-folder.txt"),
    slipped("a/../../../../out.txt"),
    slipped("..\\..\\..\\out.txt"),
    slipped("C:/out.txt"),
]


@pytest.mark.parametrize("spoil", BROKEN)
def test_what_is_broken_changes_nothing(tmp_path: Path, model: Path, spoil: Callable[[Path], Path]) -> None:
    """Refused in one line with the next step; the old model stays, and nothing is left lying about."""
    get_model(str(model), silent)
    archive = spoil(pack(model, tmp_path / "new.zip"))
    before = {path for path in tmp_path.rglob("*") if path.is_file()}

    with pytest.raises(ModelError) as refused:
        get_model(str(archive), silent)

    assert refused.value.next_step
    assert "\n" not in str(refused.value)
    assert model_digest(find_model()) == model_digest(model)
    assert {path for path in tmp_path.rglob("*") if path.is_file()} == before
    assert not Path("/tmp/out-of-the-folder.txt").exists()


def client(folder: Path, script: str) -> None:
    """Put a Maven client of our own on the path."""
    folder.mkdir()
    (folder / "mvn").write_text(f"#!{sys.executable}\n{script}")
    (folder / "mvn").chmod(0o755)


def test_by_maven(tmp_path: Path, model: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Maven's client is asked for the artifact by its coordinates; what it leaves is verified too."""
    archive = pack(model, tmp_path / "vosk-model-en-0.3.45.aar")
    copy = (
        "import pathlib, shutil, sys\n"
        "assert '-Dartifact=com.alphacephei:vosk-model-en:0.3.45:aar' in sys.argv\n"
        "into = pathlib.Path(sys.argv[-1].split('=', 1)[1])\n"
        f"into.mkdir(parents=True); shutil.copy({str(archive)!r}, into)\n"
    )
    client(tmp_path / "bin", copy)
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))

    get_model(None, silent)

    assert model_digest(find_model()) == model_digest(model)


def test_no_way_to_download(tmp_path: Path, model: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where Maven fails and Vosk's downloader exits the process, ours goes on and says what to do."""
    get_model(str(model), silent)
    client(tmp_path / "bin", "raise SystemExit(1)")
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    monkeypatch.setattr(fetch, "_VOSK_DOWNLOAD", "raise SystemExit(1)")

    with pytest.raises(ModelError, match="network"):
        get_model(None, silent)

    assert find_model() == models_folder() / MODEL_ID
