"""WCAG 2.2 A and AA as far as a program can check it: axe-core finds no violation."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handsfree.show.debrief.run import Run
from tests.browser import violations
from tests.show.debrief.conftest import Open
from tests.show.debrief.runs import DRILL, EARLIER

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 390])
@pytest.mark.parametrize(
    "runs",
    [(DRILL,), (EARLIER, DRILL), (replace(DRILL, sounds=(), score=None, notices=("Row 4 is lost.",)),)],
    ids=["one", "two", "silent"],
)
def test_axe_finds_nothing(show: Open, scheme: str, width: int, runs: tuple[Run, ...]) -> None:
    """With everything open that can be opened, and a caption being said."""
    opened = show(*runs, color_scheme=scheme, viewport={"width": width, "height": 844})
    opened.page.evaluate("document.querySelectorAll('details').forEach((each) => (each.open = true))")
    opened.page.locator(".captions button").first.click()

    assert [] == violations(opened.page)
