"""What all tests share."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from handsfree.errors import ModelError


@pytest.fixture(scope="session")
def vosk_model() -> Path:
    """Folder of the English Vosk model; skips where it was not fetched, fails on CI."""
    from handsfree.hear.models import find_model

    try:
        return find_model()
    except ModelError as missing:
        if os.environ.get("CI"):
            pytest.fail(f"on CI the Vosk model must be there: {missing}")
        pytest.skip(str(missing))
