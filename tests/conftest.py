"""What all tests share."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from handsfree.cli.process import collect_seldom
from handsfree.errors import ModelError
from tests.browser import CHROMIUM, chromium


def pytest_configure() -> None:
    """As in a session: what tests share lives long, and is not looked through again and again."""
    collect_seldom()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tests that may take long come first: no worker is left with one while the other has nothing to do."""
    items.sort(key=lambda item: item.get_closest_marker("timeout") is None)


@pytest.fixture(autouse=True)
def _no_settings(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The settings of whoever runs the tests have no say in them."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "no_settings"))


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


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Debian's chromium, for one module: playwright keeps an event loop meanwhile. Fails on CI without it."""
    if not CHROMIUM.exists():
        if os.environ.get("CI"):
            pytest.fail("on CI chromium must be there: apt install chromium")
        pytest.skip("Debian's chromium is not installed: apt install chromium.")
    with chromium() as one:
        yield one
