"""`handsfree model`: what is there, and a source that is no model."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Command


@pytest.mark.usefixtures("no_model")
def test_no_model_is_told_with_the_next_step(handsfree: Command) -> None:
    """Id, folder and how to get it; that is an answer and no failure."""
    ran = handsfree("model")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith("vosk-en-us-small: not on this machine")
    assert "no cache" in ran.out
    assert ran.out.endswith("handsfree model get\n")


@pytest.mark.vosk
def test_the_known_model_is_verified(handsfree: Command, vosk_model: Path) -> None:
    """Its digest is compared with the one that is known."""
    assert handsfree("model").out == f"vosk-en-us-small: verified, in {vosk_model}.\n"


@pytest.mark.vosk
def test_a_folder_becomes_the_model(
    handsfree: Command, vosk_model: Path, tmp_path: Path, no_model: None
) -> None:
    """From a folder, without a network; afterwards it is there."""
    got = handsfree("model", "get", vosk_model)
    assert (got.status, got.err) == (0, "")
    assert got.out.startswith(f"The speech model is in {tmp_path}")
    assert "verified, in" in handsfree("model").out


@pytest.mark.usefixtures("no_model")
@pytest.mark.parametrize(
    ("name", "complaint"),
    [("missing.zip", "There is no file"), ("text.zip", "is not a whole zip"), ("", "There is no Vosk model")],
)
def test_what_is_no_model_is_refused(handsfree: Command, tmp_path: Path, name: str, complaint: str) -> None:
    """One line, exit status 3."""
    source = tmp_path / "given"
    source.mkdir()
    (source / "text.zip").write_text("no zip")
    ran = handsfree("model", "get", source / name)
    assert (ran.status, ran.out, len(ran.complaints)) == (3, "", 1)
    assert complaint in ran.err
