"""The model's place: found, told, or refused with the next step."""

from __future__ import annotations

from pathlib import Path

import pytest

from handsfree.errors import ModelError
from handsfree.hear.models import (
    KNOWN_DIGEST,
    MODEL_ID,
    MODEL_VARIABLE,
    find_model,
    model_digest,
    model_status,
    models_folder,
)
from tests.hear.model_files import lay_model


@pytest.fixture(autouse=True)
def _own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.delenv(MODEL_VARIABLE, raising=False)


def test_fetched_model_is_found() -> None:
    """The model is found where it was fetched to."""
    lay_model(models_folder() / MODEL_ID)

    assert find_model() == models_folder() / MODEL_ID


def test_missing_model_says_how_to_get_it() -> None:
    """Without a model the message names the command that fetches it."""
    with pytest.raises(ModelError, match="handsfree model get"):
        find_model()

    assert not model_status().there


def test_variable_comes_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder named by the environment is taken before the fetched one, and must be a model."""
    lay_model(models_folder() / MODEL_ID)
    monkeypatch.setenv(MODEL_VARIABLE, str(tmp_path / "own"))
    with pytest.raises(ModelError, match=MODEL_VARIABLE):
        find_model()

    lay_model(tmp_path / "own")

    assert find_model() == tmp_path / "own"


def test_digest_is_over_what_was_learnt(tmp_path: Path) -> None:
    """Name and content of every learnt file count; notes and settings do not."""
    model = lay_model(tmp_path / "model")
    digest = model_digest(model)

    (model / "README").write_text("other words")
    (model / "conf" / "model.conf").write_text("--beam=1")
    assert model_digest(model) == digest
    (model / "ivector" / "more").write_text("")
    assert model_digest(model) != digest
    (model / "ivector" / "more").unlink()
    (model / "am" / "final.mdl").write_text("one flipped bit")
    assert model_digest(model) != digest


@pytest.mark.vosk
def test_the_real_one_is_known(vosk_model: Path) -> None:
    """The English model is the one whose digest is written down."""
    assert model_digest(vosk_model) == KNOWN_DIGEST


@pytest.mark.vosk
def test_status_tells_a_verified_model(vosk_model: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is there is told apart from what is verified."""
    monkeypatch.setenv(MODEL_VARIABLE, str(vosk_model))

    assert model_status().there
    assert model_status().verified


def test_status_of_another_model() -> None:
    """A model that is not the known one is there, but not verified."""
    lay_model(models_folder() / MODEL_ID)

    assert model_status().there
    assert not model_status().verified
