"""A real session, cut and flipped anywhere: each row is what was written, or it is named.

The log at all its boundaries, and 2,000 random places of each sort: `python -m tests.bench.damage`.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from tests.keep.damage import Image, Readings, readings, recorded

PLACES = 60


@pytest.fixture(scope="module")
def images(tmp_path_factory: pytest.TempPathFactory) -> tuple[Image, Image]:
    return recorded(tmp_path_factory.mktemp("session") / "kept")


def damaged(live: Image, closed: Image, kind: str) -> Iterator[Image]:
    chance = random.Random(kind)
    for _ in range(PLACES):
        match kind:
            case "at a frame":
                yield live.cut(chance.choice(list(live.cuts())))
            case "anywhere":
                yield live.cut(chance.randrange(len(live.log)))
            case "a byte of the log":
                yield live.flipped("log", chance)
            case _:
                yield closed.flipped("database", chance)


@pytest.mark.parametrize("kind", ["at a frame", "anywhere", "a byte of the log", "a byte of the database"])
def test_whole_or_named(kind: str, images: tuple[Image, Image], tmp_path: Path) -> None:
    """Nothing is wrong, nothing is silent; and what was done did hurt."""
    found = readings(damaged(*images, kind), tmp_path / "sessions")
    assert found.wrong == ()
    assert found.hurt > PLACES / 2


def test_what_is_not_damaged_is_whole(images: tuple[Image, Image], tmp_path: Path) -> None:
    """With all of its log, and closed without one, the session is whole; nothing is called damaged."""
    assert readings(images, tmp_path / "sessions") == Readings(2, 0, ())


def test_the_check_can_fail(images: tuple[Image, Image], tmp_path: Path) -> None:
    """Against other rows than those that were written it finds each of them."""
    live, _ = images
    other = replace(live, rows=tuple(replace(row, at="2031-05-04T08:00:00.000001Z") for row in live.rows))
    found = readings([other], tmp_path / "sessions")
    assert (len(found.wrong), found.hurt) == (len(live.rows), 0)
